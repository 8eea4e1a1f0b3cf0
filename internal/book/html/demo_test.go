package html

import (
	"bytes"
	"context"
	"runtime"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

func demo(t testing.TB) *plan.Plan {
	t.Helper()
	piece, shop := examples.Main()
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if p == nil {
		t.Fatalf("the demo makes no plan: %+v", ds)
	}
	return p
}

// mostBytes bounds the page of the demo, so that it can be sent by mail.
const mostBytes = 1_500_000

func TestDemoPage(t *testing.T) {
	p := demo(t)
	for _, s := range []units.System{units.MM, units.Inch} {
		page := Render(book.Make(p, book.Options{System: s}))
		if len(page) > mostBytes {
			t.Errorf("the page in %s takes %d bytes", s, len(page))
		}
		es := parse(t, page)
		ids, rows := map[string]int{}, map[string]int{}
		for _, e := range es {
			if id := e.attrs["id"]; id != "" {
				ids[id]++
			}
			rows[e.attrs["data-row"]]++
		}
		for id, n := range ids {
			if n > 1 {
				t.Errorf("id %q stands %d times", id, n)
			}
		}
		for _, e := range es {
			if h := e.attrs["href"]; strings.HasPrefix(h, "#") && !strings.HasPrefix(h, "#mk-") && ids[h[1:]] == 0 {
				t.Errorf("link to %q leads nowhere", h)
			}
		}
		for _, f := range p.Findings {
			if ids[anchor("finding/"+f.ID)] != 1 {
				t.Errorf("finding %q is not on the page", f.ID)
			}
		}
		for _, q := range p.Piece.Parts {
			if rows[q.ID] == 0 {
				t.Errorf("part %q is not on the page", q.ID)
			}
		}
		drawn := find(es, func(e element) bool { return e.name == "svg" && e.attrs["role"] == "img" })
		figures := find(es, func(e element) bool { return e.name == "figure" })
		if len(drawn) == 0 || len(drawn) != len(figures) {
			t.Errorf("%d pictures in %d figures", len(drawn), len(figures))
		}
	}
}

func TestDemoSameBytesOnAnyMachine(t *testing.T) {
	page := func(procs int) []byte {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		return Render(book.Make(demo(t), book.Options{}))
	}
	if !bytes.Equal(page(1), page(8)) {
		t.Error("the page depends on the number of processors")
	}
}

func BenchmarkDemo(b *testing.B) {
	p := demo(b)
	for b.Loop() {
		Render(book.Make(p, book.Options{}))
	}
}
