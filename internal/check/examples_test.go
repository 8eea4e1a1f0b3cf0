package check_test

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"rodwork/internal/check"
	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// shopLine is where a piece file names its shop.
var shopLine = regexp.MustCompile(`(?m)^shop: *(\S+)`)

// examples are made once: their plans are only read.
func examples(t testing.TB) map[string]*plan.Plan {
	t.Helper()
	files, err := filepath.Glob("../../examples/*/piece.yaml")
	if err != nil || len(files) < 9 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	out := map[string]*plan.Plan{}
	for _, f := range files {
		piece, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		name := "../main/shop.yaml"
		if m := shopLine.FindSubmatch(piece); m != nil {
			name = string(m[1])
		}
		shop, err := os.ReadFile(filepath.Join(filepath.Dir(f), name))
		if err != nil {
			t.Fatal(err)
		}
		p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if p == nil || ds.HasErrors() {
			t.Fatalf("%s: %v", f, ds)
		}
		out[filepath.Base(filepath.Dir(f))] = p
	}
	return out
}

// Every finding of every example has a rule that the plan knows, words, and a
// place in its chapter; what is not fine says what would mend it. With -v they
// are all printed. No example says stop.
func TestFindingsOfTheExamples(t *testing.T) {
	for name, p := range examples(t) {
		t.Run(name, func(t *testing.T) {
			known, seen, ours := map[string]bool{}, map[string]bool{}, map[string]bool{}
			for _, r := range check.Rules() {
				ours[r.ID] = true
			}
			for _, r := range p.Rules {
				known[r.ID] = true
			}
			for _, f := range p.Findings {
				t.Logf("[%s] %s %s: %s", f.Verdict, f.Rule, f.ID, export.Text(f.Text, units.MM))
				for _, m := range f.Mends {
					t.Logf("      mend: %s (%s: %s)", export.Text(m.Text, units.MM), m.Path, m.New)
				}
				if !known[f.Rule] || len(f.Text) == 0 || f.Title == "" || f.Chapter == "" || seen[f.ID] {
					t.Errorf("%s (%s) is not a whole finding, or is there twice", f.ID, f.Rule)
				}
				seen[f.ID] = true
				if f.Verdict == work.Stop && ours[f.Rule] {
					t.Errorf("%s says stop", f.ID)
				}
			}
		})
	}
}
