package plan

import (
	"context"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/trace"
)

func demo(t testing.TB) Source {
	t.Helper()
	read := func(name string) []byte {
		b, err := os.ReadFile("../../examples/main/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	return Source{PieceFile: "piece.yaml", Piece: read("piece.yaml"), ShopFile: "shop.yaml", Shop: read("shop.yaml")}
}

func made(t testing.TB, src Source) *Plan {
	t.Helper()
	p, ds := Make(context.Background(), src, Options{})
	if ds.HasErrors() || p == nil {
		for _, d := range ds {
			t.Error(d.At, d.Summary, d.Detail)
		}
		t.Fatal("no plan")
	}
	return p
}

// moved returns the demo with one size a hair larger, as a maker would type it.
func moved(t *testing.T, src Source, s design.Size, by float64) Source {
	t.Helper()
	text := fmt.Sprintf("(%s) + %g mm", s.Text, by)
	if v, err := strconv.ParseFloat(s.Text, 64); err == nil {
		text = strconv.FormatFloat(v+by, 'g', -1, 64)
	}
	out, err := design.Splice(src.PieceFile, src.Piece, s.Path, text)
	if err != nil {
		t.Fatalf("%s: %v", s.Path, err)
	}
	src.Piece = out
	return src
}

// For each size of the demo: a small change of it changes exactly the values
// that name it as a source. Values that name it among their steps may stay.
func TestExactlyWhatNamesASizeChangesWithIt(t *testing.T) {
	src := demo(t)
	base := made(t, src)
	const by = 0.01
	named, checked := 0, 0
	for _, s := range base.Design.Sizes {
		after := made(t, moved(t, src, s, by))
		for _, v := range base.Ledger.Values() {
			w, ok := after.Ledger.Find(v.ID)
			if !ok {
				t.Errorf("%s: the value %q is gone", s.Name, v.ID)
				continue
			}
			checked++
			d := v.Num.D(s.Input)
			change := w.Num.V - v.Num.V
			still := math.Abs(change) <= 1e-9*(1+math.Abs(v.Num.V))
			switch {
			case d != 0 && still && math.Abs(d*by) > 1e-8*(1+math.Abs(v.Num.V)):
				t.Errorf("%s: %q names it (%.3g per mm) and does not change", s.Name, v.ID, d)
			case d == 0 && !still && !steps(v.Num, s.Input):
				t.Errorf("%s: %q changes by %.3g and does not name it", s.Name, v.ID, change)
			case d != 0 && math.Abs(change-d*by) > 0.05*math.Abs(d*by)+1e-7*(1+math.Abs(v.Num.V)):
				t.Errorf("%s: %q changes by %.6g, its partial says %.6g", s.Name, v.ID, change, d*by)
			}
			if d != 0 {
				named++
			}
		}
	}
	t.Logf("%d sizes, %d comparisons, %d of them named", len(base.Design.Sizes), checked, named)
	if named == 0 {
		t.Error("no value names any size")
	}
}

func steps(n trace.Num, id trace.InputID) bool {
	for _, s := range n.Steps() {
		if s == id {
			return true
		}
	}
	return false
}
