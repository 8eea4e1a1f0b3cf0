package replay_test

import (
	"context"
	"io/fs"
	"path"
	"testing"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/replay"
)

// planned is an example's plan, with its own shop or the demo's.
func planned(t *testing.T, name string) *plan.Plan {
	t.Helper()
	text, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	shop, err := fs.ReadFile(examples.Files, path.Dir(name)+"/shop.yaml")
	if err != nil {
		if shop, err = fs.ReadFile(examples.Files, "main/shop.yaml"); err != nil {
			t.Fatal(err)
		}
	}
	p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: name, Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if p == nil {
		t.Fatal(remarks)
	}
	return p
}

// Every example's order runs through, on the books and on the wood.
func TestExamplesReplay(t *testing.T) {
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	for _, name := range files {
		t.Run(path.Dir(name), func(t *testing.T) {
			t.Parallel()
			p := planned(t, name)
			for _, f := range replay.Joints(p.Piece, p.Order) {
				t.Errorf("step %d: %s", f.Step, f.Text)
			}
			faults, stats := replay.Solids(p.Piece, p.Order)
			for _, f := range faults {
				t.Errorf("step %d: %s", f.Step, f.Text)
			}
			t.Logf("%+v", stats)
		})
	}
}
