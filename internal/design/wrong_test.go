package design_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"rodwork/internal/design"
)

// Each file of testdata/wrong has some keys of a piece file or a shop file, put
// in place of those of the sideboard, and all that is said of them.
func TestWrongFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "wrong", "*.txtar"))
	if err != nil || len(files) < 10 {
		t.Fatal(len(files), err)
	}
	for _, path := range files {
		a, err := txtar.ParseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		piece, shop := load(t, "main")
		want, at := "", -1
		for i, f := range a.Files {
			switch f.Name {
			case "piece.yaml":
				piece = replaceKeys(piece, string(f.Data))
			case "shop.yaml":
				shop = replaceKeys(shop, string(f.Data))
			case "whole piece.yaml":
				piece = f.Data
			case "said":
				want, at = string(f.Data), i
			default:
				t.Errorf("%s: what is %s?", path, f.Name)
			}
		}
		_, remarks := design.Resolve("piece.yaml", piece, "shop.yaml", shop)
		var b strings.Builder
		if err := remarks.Write(&b, func(f string) []byte {
			return map[string][]byte{"piece.yaml": piece, "shop.yaml": shop}[f]
		}); err != nil {
			t.Fatal(err)
		}
		if *update {
			if at < 0 {
				a.Files, at = append(a.Files, txtar.File{Name: "said"}), len(a.Files)
			}
			a.Files[at].Data = []byte(b.String())
			if err := os.WriteFile(path, txtar.Format(a), 0o644); err != nil {
				t.Fatal(err)
			}
		} else if b.String() != want {
			t.Errorf("%s: said is\n%s", path, b.String())
		}
	}
}
