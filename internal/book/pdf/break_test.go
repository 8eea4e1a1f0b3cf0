package pdf

import (
	"fmt"
	"testing"

	"rodwork/internal/book"
	"rodwork/internal/leaf"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// lines are paragraphs of one line each.
func lines(key string, n int) []book.Block {
	var out []book.Block
	for i := range n {
		out = append(out, book.Paragraph{ID: book.ID(fmt.Sprint("x/", key, i)), Text: say.F("One line.")})
	}
	return out
}

func drawn(id string, n int, high float64) book.Figure {
	return book.Figure{ID: book.ID(id), Number: n, Leaf: leaf.Leaf{Key: id, Title: id, W: 150, H: high}}
}

func rowsOf(id string, n int) book.Table {
	t := table.Table{Key: id, Caption: id, Columns: []table.Column{table.Numbers("no.", units.Count), table.Words("name")}}
	for i := range n {
		t.Add(table.Count(i), table.T("a name"))
	}
	return book.Table{ID: book.ID(id), Table: t}
}

func setOf(blocks []book.Block) *setter {
	b := &book.Book{Title: "T", System: units.MM, Chapters: []book.Chapter{{Key: "x", Number: 1, Title: "X", Blocks: blocks}}}
	s := newSetter(b, sizeOf(Options{}, b), nil, 0)
	s.dry = true
	return s
}

// What asks for room gets it, even where figures that waited fill the new page.
func TestRoomIsFoundBelowFiguresThatWaited(t *testing.T) {
	for high := 40.0; high < 240; high += 9 {
		for need := 10.0; need < 200; need += 13 {
			s := setOf(nil)
			s.blank()
			s.y, s.opened = s.bottom()-5, false
			s.waits = []book.Figure{drawn("x/a", 1, high), drawn("x/b", 2, high/2)}
			s.need(need)
			if s.left() < need {
				t.Fatalf("figures of %g: %g is left, %g was asked for", high, s.left(), need)
			}
		}
	}
}

// A table's rows follow each other, and its figure comes before the text of
// what follows; no figure is lost.
func TestFiguresStayOutOfTables(t *testing.T) {
	for n := range 50 {
		blocks := append(lines("p", n), drawn("x/fig", 1, 120), rowsOf("x/table", 12), book.Paragraph{ID: "x/next", Text: say.F("Next.")})
		s := setOf(blocks)
		s.book()
		fig, tab, next := s.seen["x/fig"], s.seen["x/table"], s.seen["x/next"]
		if fig == 0 || fig > next || tab > next {
			t.Errorf("%d lines before: figure on page %d, table on %d, the next matter on %d", n, fig, tab, next)
		}
	}
	s := setOf(nil)
	s.blank()
	s.waits, s.inTable = []book.Figure{drawn("x/a", 1, 80)}, true
	if s.turn(); len(s.waits) != 1 || !s.opened {
		t.Error("a figure came between the rows of a table")
	}
}

// A table that would leave a few rows over is set closer, one that would leave
// many is not, and neither is one that fits.
func TestFewRowsAreNotLeftOver(t *testing.T) {
	s := setOf(nil)
	s.blank()
	for n, want := range map[int]bool{10: false, 20: false, 24: true, 40: false} {
		g := s.grid(rowsOf("x", n).Table)
		g.folds = 1
		s.squeeze(&g, s.headHeight(g)+1+20*g.single())
		if got := g.pad == 0; got != want {
			t.Errorf("%d rows where 20 fit: closer is %v", n, got)
		}
	}
}

// Findings that no margin has room for begin on the page of their sentence.
func TestFindingsStayWithTheirSentence(t *testing.T) {
	var found []book.Finding
	for i := range 4 {
		found = append(found, book.Finding{ID: book.ID(fmt.Sprint("x/f", i)),
			Finding: work.Finding{Verdict: work.Fine, Title: "A thing", Text: say.F("It holds, with a few words more on why it does so.")}})
	}
	for at := topMargin + 5.0; at < sizeOf(Options{}, &book.Book{System: units.MM}).H-footMargin; at += 2 {
		s := setOf(nil)
		s.blank()
		s.y, s.my, s.opened = at, at, false
		p := book.Paragraph{ID: "x/p", Text: say.F("One line.")}
		if s.paragraph(p, found, nil); s.seen["x/p"] != s.doc.Pages() {
			t.Errorf("from %g down: the sentence is on page %d, its findings end on %d", at, s.seen["x/p"], s.doc.Pages())
		}
		s = setOf(nil)
		s.blank()
		s.y, s.my, s.opened = at, at, false
		s.heading(book.Heading{ID: "x/h", Text: "A heading"}, p)
		if s.paragraph(p, found, nil); s.seen["x/p"] != s.seen["x/h"] {
			t.Errorf("from %g down: the heading is on page %d, its sentence on %d", at, s.seen["x/h"], s.seen["x/p"])
		}
	}
}
