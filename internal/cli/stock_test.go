package cli

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rodwork/internal/book/pdf"
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// everyFile makes all the files of a source's book folder, by name.
func everyFile(t *testing.T, src plan.Source) (*plan.Plan, map[string][]byte) {
	t.Helper()
	p, remarks := plan.Make(t.Context(), src, plan.Options{})
	if p == nil || remarks.HasErrors() {
		t.Fatalf("no plan: %v", remarks)
	}
	var d desk
	s := &session{world: world{out: &d.out, err: &d.err}, ctx: t.Context()}
	files, err := bookFiles(made{Plan: p}, units.MM, pdf.A4)
	if err != nil {
		t.Fatal(err)
	}
	others, err := s.exportFiles(made{Plan: p}, units.MM, bookKinds)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range append(files, others...) {
		out[f.Name] = f.Data
	}
	return p, out
}

// Another sheet for the shell: every file that shows a size of a part which the
// stock changed is another file. What stays the same is few, and written down
// for a person to judge, with the parts that have not changed at all.
func TestAnotherShellStockReachesEveryFile(t *testing.T) {
	dir := filepath.Dir(demoPiece)
	read := func(name string) []byte {
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	src := plan.Source{PieceFile: "piece.yaml", Piece: read("piece.yaml"), ShopFile: "shop.yaml", Shop: read("shop.yaml")}
	before, old := everyFile(t, src)
	thin := src
	var err error
	if thin.Piece, err = design.Splice(src.PieceFile, src.Piece, "stock.shell", "birch ply 12"); err != nil {
		t.Fatal(err)
	}
	after, now := everyFile(t, thin)

	stays := map[string]bool{} // the names of what must not change, by number
	for _, q := range before.Piece.Parts {
		r := after.Piece.Part(q.ID)
		if r == nil {
			t.Errorf("%s is gone", q.Name)
			continue
		}
		what := differs(q, r)
		if what == "" {
			stays[fmt.Sprintf("%02d", q.Number)] = true
			continue
		}
		for name, data := range old {
			if strings.HasPrefix(filepath.Base(name), fmt.Sprintf("%02d-", q.Number)) && bytes.Equal(data, now[name]) {
				t.Errorf("%s of %s changed, and %s stayed", what, q.Name, name)
			}
		}
	}
	var same []string
	for name, data := range old {
		if bytes.Equal(data, now[name]) && !(strings.Contains(name, "/") && stays[filepath.Base(name)[:2]]) {
			same = append(same, name)
		}
	}
	slices.Sort(same)
	golden := filepath.Join("testdata", "another-shell-stock.txt")
	if *update {
		if err := os.WriteFile(golden, []byte(strings.Join(same, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Fields(string(want)), same); d != "" {
		t.Errorf("other files stay the same than %s says (- there, + here):\n%s", golden, d)
	}
}

// differs names what of a part is another: a size, its stock, or a cut's place,
// width or depth, each in the part's own frame; "" if nothing is.
func differs(a, b *piece.Part) string {
	moved := func(x, y float64) bool { return math.Abs(x-y) > 1e-6 }
	switch {
	case a.Stock.Name != b.Stock.Name:
		return "the stock"
	case moved(a.Length.V, b.Length.V), moved(a.Width.V, b.Width.V):
		return "the size"
	case moved(a.Thick.V, b.Thick.V):
		return "the thickness"
	case len(a.Cuts) != len(b.Cuts), len(a.Bends) != len(b.Bends):
		return "the number of cuts"
	}
	for i := range a.Cuts {
		if c, d := cutPlace(a.Cuts[i]), cutPlace(b.Cuts[i]); c != d {
			return "the cut " + c
		}
	}
	return ""
}

// cutPlace writes a cut as its kind, face and measures.
func cutPlace(c piece.Cut) string {
	return fmt.Sprintf("%s on %s at %.4f %.4f to %.4f %.4f, %.4f deep", c.Kind, c.Face, c.X0.V, c.Y0.V, c.X1.V, c.Y1.V, c.Depth.V)
}
