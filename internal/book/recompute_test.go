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
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// BenchmarkRecompute is what the page will do while a number is dragged: it
// starts from the bytes of both files, with one size 0.1 mm further each time,
// keeps nothing from the time before, and ends with the book and all its
// figures. p95-ms is to stay under 50 on one core: run it with -cpu 1. Garbage is
// collected as the program collects it (cli.Garbage).
func BenchmarkRecompute(b *testing.B) {
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
		book.Make(p, book.Options{System: units.MM})
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "p95-ms")
}
