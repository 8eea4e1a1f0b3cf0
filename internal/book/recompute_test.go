package book_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"runtime/debug"
	"slices"
	"testing"
	"time"

	"rodwork/internal/book"
	"rodwork/internal/drawing"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// BenchmarkRecompute is what the page must do while a number is dragged: it
// starts from the bytes of both files, with one size 0.1 mm further each time,
// keeps nothing from the time before, and ends with the first layout, the order,
// and the figures that tell the piece: its views, sections and picture, each
// strip with its kerfs and bends, each layout. p95-ms is to stay under 50 on one
// core: run it with -cpu 1 on a machine that does nothing else.
func BenchmarkRecompute(b *testing.B) {
	recompute(b, func(p *plan.Plan) {
		opt := drawing.Options{System: units.MM}
		drawing.Views(p, opt)
		for _, q := range p.Piece.Parts {
			if len(q.Bends) > 0 {
				drawing.Part(p, q, opt)
			}
		}
		drawing.Sheets(p, opt)
	})
}

// BenchmarkBook is the same with the whole book: every sentence, table and
// figure, those of each part, of the joints and of the piece taken apart too.
func BenchmarkBook(b *testing.B) {
	recompute(b, func(p *plan.Plan) { book.Make(p, book.Options{System: units.MM}) })
}

// recompute runs from bytes to what then makes of the plan. Garbage is collected
// as the program collects it (cli.Garbage).
func recompute(b *testing.B, then func(*plan.Plan)) {
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	piece, err := os.ReadFile("../../examples/main/piece.yaml")
	if err != nil {
		b.Fatal(err)
	}
	shop, err := os.ReadFile("../../examples/main/shop.yaml")
	if err != nil {
		b.Fatal(err)
	}
	const was = "width: 1460 "
	if !bytes.Contains(piece, []byte(was)) {
		b.Fatalf("the demo has no %q", was)
	}
	var took []time.Duration
	i := 0
	for b.Loop() {
		i++
		text := bytes.Replace(piece, []byte(was), fmt.Appendf(nil, "width: %.1f ", 1460+float64(i%200)/10), 1)
		start := time.Now()
		p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if p == nil {
			b.Fatal(ds)
		}
		then(p)
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "p95-ms")
}
