package drawing

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"rodwork/internal/leaf"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// planOf makes the plan of one of the project's examples.
func planOf(t testing.TB, name string) *plan.Plan {
	t.Helper()
	dir := filepath.Join("..", "..", "examples")
	text, err := os.ReadFile(filepath.Join(dir, name, "piece.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	shop, err := os.ReadFile(filepath.Join(dir, "main", "shop.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if own, err := os.ReadFile(filepath.Join(dir, name, "shop.yaml")); err == nil {
		shop = own
	}
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: name + "/piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if p == nil || p.Piece == nil || ds.HasErrors() {
		t.Fatalf("example %s: %v", name, ds)
	}
	return p
}

var examples = []string{"main", "wall-shelf", "plain-box", "bookcase", "chest", "half-round-table", "low-cabinet", "nursery-bench", "splayed-table", "wall-cabinet"}

// eachLeaf runs the check on every figure of every example and of the plan
// made by hand, in both systems of units.
func eachLeaf(t *testing.T, check func(t *testing.T, l leaf.Leaf)) {
	plans := map[string]*plan.Plan{"by hand": sideboard()}
	for _, name := range examples {
		plans[name] = planOf(t, name)
	}
	for _, name := range append([]string{"by hand"}, examples...) {
		for _, sys := range []units.System{units.MM, units.Inch} {
			for _, l := range All(plans[name], Options{System: sys}) {
				t.Run(name+"/"+string(sys)+"/"+l.Key, func(t *testing.T) { check(t, l) })
			}
		}
	}
}

func TestWordsStandClear(t *testing.T) {
	eachLeaf(t, func(t *testing.T, l leaf.Leaf) {
		var texts []leaf.Text
		for _, it := range l.Items {
			if q, ok := it.(leaf.Text); ok && q.S != "" {
				texts = append(texts, q)
			}
		}
		for i, a := range texts {
			for _, b := range texts[:i] {
				if inset(a.Box(), 0.15).Overlaps(inset(b.Box(), 0.15)) {
					t.Errorf("%q at %.1f and %q at %.1f overlap", a.S, a.At, b.S, b.At)
				}
			}
		}
	})
}

func TestAllOnPaper(t *testing.T) {
	eachLeaf(t, func(t *testing.T, l leaf.Leaf) {
		if l.W != 210 || !(l.H > 5 && l.H < 285) {
			t.Errorf("%.1f × %.1f is no figure of a page", l.W, l.H)
		}
		for _, it := range l.Items {
			var what string
			b := l.Box()
			switch it := it.(type) {
			case leaf.Text:
				what, b = it.S, it.Box()
			case leaf.Path:
				what, b = string(it.Line), it.Box()
			}
			if b.Min.X < 2 || b.Min.Y < 0 || b.Max.X > 208 || b.Max.Y > l.H {
				t.Errorf("%q runs off the paper of %.0f × %.0f: %.1f", what, l.W, l.H, b)
			}
		}
	})
}

func TestCaptionsFit(t *testing.T) {
	keys := map[string]bool{}
	eachLeaf(t, func(t *testing.T, l leaf.Leaf) {
		if l.Title == "" || l.Caption == "" || l.Alt == "" || l.Key == "" {
			t.Errorf("a figure lacks title, caption, words or key: %q %q %q %q", l.Key, l.Title, l.Caption, l.Alt)
		}
		if keys[t.Name()] {
			t.Errorf("key twice")
		}
		keys[t.Name()] = true
		for _, line := range leaf.CaptionLines(l.Caption) {
			if n := len([]rune(line)); n > leaf.MaxCaptionLine {
				t.Errorf("a caption line of %d: %q", n, line)
			}
		}
		right := leaf.Width(l.Right, leaf.Note, false, false)
		if title := leaf.Width(l.Title, leaf.Head, false, true); title+right+4 > 186 {
			t.Errorf("title and right are too long together: %.0f and %.0f", title, right)
		}
	})
}

func TestLook(t *testing.T) {
	if *figures == "" {
		look(t, All(sideboard(), Options{}))
		return
	}
	for _, name := range examples {
		for _, sys := range []units.System{units.MM, units.Inch} {
			leaves := All(planOf(t, name), Options{System: sys})
			for i := range leaves {
				leaves[i].Key = name + "-" + string(sys) + "-" + leaves[i].Key
			}
			look(t, leaves)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	p := planOf(b, "main")
	b.ReportAllocs()
	for b.Loop() {
		All(p, Options{})
	}
}
