package book_test

import (
	"strings"
	"testing"

	"rodwork/internal/book"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Every set-up is a row of the table and a step of its own number, with all its
// parts; every test piece and every screw is told.
func TestSetUpsAreTold(t *testing.T) {
	for name, p := range plans(t) {
		t.Run(name, func(t *testing.T) { setUpsAreTold(t, p) })
	}
}

func setUpsAreTold(t *testing.T, p *plan.Plan) {
	b := book.Make(p, book.Options{})
	rows, steps, cautioned := map[string]int{}, map[int]string{}, map[string]bool{}
	for _, bl := range chapterNamed(t, b, "cut").Blocks {
		switch bl := bl.(type) {
		case book.Caution:
			cautioned[bl.BlockID()] = true
		case book.Table:
			for _, r := range bl.Table.Rows {
				rows[r.ID]++
			}
		case book.Steps:
			for _, s := range bl.Steps {
				text := b.Plain(s.Text)
				for _, n := range s.Notes {
					text += "\n" + b.Plain(n)
				}
				steps[s.Number] = text
			}
			if strings.HasPrefix(bl.Title, "Router") && !cautioned["cut/caution router"] || strings.HasPrefix(bl.Title, "Drill") && !cautioned["cut/caution drill"] {
				t.Errorf("%q comes before its caution", bl.Title)
			}
		}
	}
	if len(p.SetUps) == 0 || len(steps) != len(p.SetUps) {
		t.Errorf("%d steps for %d set-ups", len(steps), len(p.SetUps))
	}
	for _, u := range p.SetUps {
		text := steps[u.Number]
		for _, c := range u.Cuts {
			if q := p.Piece.Part(c.Part); !strings.Contains(text, q.Name) {
				t.Errorf("set-up %d does not name %q: %q", u.Number, q.Name, text)
			}
		}
	}
	tests, screws := 0, 0
	for _, bl := range chapterNamed(t, b, "test").Blocks {
		// The strip that tells the hinge belongs to the test of its bend.
		if _, ok := bl.(book.Steps); ok && !strings.HasPrefix(bl.BlockID(), "test/hinge ") {
			tests++
		}
	}
	for _, bl := range chapterNamed(t, b, "hang").Blocks {
		if s, ok := bl.(book.Steps); ok && s.Title == "Screwed on" {
			screws = len(s.Steps)
		}
	}
	if tests != len(p.Tests) || screws != len(p.Screws) {
		t.Errorf("%d test pieces of %d, %d screw lines of %d", tests, len(p.Tests), screws, len(p.Screws))
	}
}

func chapterNamed(t *testing.T, b *book.Book, key string) book.Chapter {
	t.Helper()
	for _, c := range b.Chapters {
		if c.Key == key {
			return c
		}
	}
	t.Fatalf("no chapter %q", key)
	return book.Chapter{}
}

// A slot that no bit of the shop makes is said to be so where it would be cut.
func TestMissingBitIsTold(t *testing.T) {
	p := demo(t)
	p.SetUps[1].Missing, p.SetUps[1].With, p.SetUps[1].Cutter = true, "", trace.Num{}
	text := chapterTexts(book.Make(p, book.Options{}))["Cut"]
	for _, want := range []string{"none in the shop", "No cutter of the shop makes it."} {
		if !strings.Contains(text, want) {
			t.Errorf("the chapter does not say %q", want)
		}
	}
}

// The load label shows what each surface was computed with.
func TestLoadLabel(t *testing.T) {
	p := demo(t)
	p.Carries = []work.Carried{{Part: "shelf in scores", Contents: trace.Const(12.34), PerMetre: trace.Const(50)}}
	q := p.Piece.Part("shelf in scores")
	q.Length = trace.Const(480)
	if text := chapterTexts(book.Make(p, book.Options{}))["Living with it"]; !strings.Contains(text, "shelf in scores | 12.3 | 24 | 50.0") {
		t.Error(text)
	}
}
