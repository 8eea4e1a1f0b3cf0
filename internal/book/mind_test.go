package book_test

import (
	"strings"
	"testing"

	"rodwork/internal/book"
	"rodwork/internal/work"
)

// Each set-up and each step of a glue-up says what to mind, and what it names
// has its caution, with a source, before it in the chapter.
func TestEachStepSaysWhatToMind(t *testing.T) {
	titles := map[work.Mind]string{work.Kickback: "When it kicks back", work.Climb: "At the router", work.Catching: "At the drill", work.EdgeTools: "Jigsaw and chisel",
		work.SmallPart: "Small parts", work.Dust: "Dust", work.Vapour: "Glue and solvents", work.TwoPeople: "Lifting", work.Lifting: "Lifting", work.Hidden: "Kerfs don’t go through"}
	p := demo(t)
	b := book.Make(p, book.Options{})
	wants := map[string]map[int][]work.Mind{"cut": {}, "assemble": {}}
	for _, u := range p.SetUps {
		if len(u.Mind) == 0 && u.Tool != work.Hand {
			t.Errorf("set-up %d (%s, %s) minds nothing", u.Number, u.Tool, u.Kind)
		}
		if u.Kind != "kerfs" {
			wants["cut"][u.Number] = u.Mind
		}
	}
	glued := 0
	for _, s := range p.Order {
		wants["assemble"][s.Number] = s.Mind
		if len(s.Mind) > 0 && s.Mind[0] == work.Vapour {
			glued++
		}
	}
	if glued == 0 {
		t.Error("no step minds its glue")
	}
	for key, want := range wants {
		told := map[string]bool{}
		for _, bl := range chapterNamed(t, b, key).Blocks {
			if c, ok := bl.(book.Caution); ok {
				told[c.Title] = len(c.Sources) > 0
			}
			steps, ok := bl.(book.Steps)
			if !ok || strings.Contains(steps.BlockID(), "ready") {
				continue
			}
			for _, s := range steps.Steps {
				var notes []string
				for _, n := range s.Notes {
					notes = append(notes, b.Plain(n))
				}
				for _, m := range want[s.Number] {
					if !strings.Contains(strings.Join(notes, "\n"), string(m)) {
						t.Errorf("%s: step %d does not say %q", key, s.Number, m)
					}
					if !told[titles[m]] {
						t.Errorf("%s: step %d speaks of %q before its caution", key, s.Number, m)
					}
				}
			}
		}
	}
}
