package examples_test

import (
	"context"
	"io/fs"
	"path"
	"testing"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Every example is sound: its file is read without a remark, and no finding
// says stop, so that it goes together, lies on its sheets and stands.
func TestExamplesAreSound(t *testing.T) {
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	shop, err := fs.ReadFile(examples.Files, "main/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		t.Run(path.Dir(name), func(t *testing.T) {
			piece, err := fs.ReadFile(examples.Files, name)
			if err != nil {
				t.Fatal(err)
			}
			mine := shop // but for a piece with a shop of its own
			if own, err := fs.ReadFile(examples.Files, path.Dir(name)+"/shop.yaml"); err == nil {
				mine = own
			}
			p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: name, Piece: piece, ShopFile: "shop.yaml", Shop: mine}, plan.Options{})
			for _, r := range remarks {
				t.Errorf("%s: %s. %s", r.At, r.Summary, r.Detail)
			}
			if p == nil {
				return
			}
			for _, f := range p.Findings {
				if f.Verdict == work.Stop || f.Verdict == work.NotCovered {
					t.Errorf("%s says %s: %v", f.Title, f.Verdict, f.Text)
				}
			}
		})
	}
}
