package book_test

import (
	"testing"

	"rodwork/internal/book"
)

// Each finding of each example leads to a rule that stands, with its sources, in
// the chapter of where the numbers come from.
func TestFindingsLeadToTheirRules(t *testing.T) {
	for name, p := range plans(t) {
		b := book.Make(p, book.Options{})
		shown := map[string]bool{}
		for _, bl := range chapterNamed(t, b, "sources").Blocks {
			if n, ok := bl.(book.RuleNote); ok {
				shown[n.Rule.ID] = len(n.Rule.Sources) > 0 && n.BlockID() == "sources/rule "+n.Rule.ID
			}
		}
		for _, c := range b.Chapters {
			for _, bl := range c.Blocks {
				f, ok := bl.(book.Finding)
				if ok && (f.Rule == nil || f.Rule.ID != f.Finding.Rule || !shown[f.Rule.ID]) {
					t.Errorf("%s: %s rests on %q, which the chapter of sources does not show", name, f.Finding.ID, f.Finding.Rule)
				}
			}
		}
	}
}
