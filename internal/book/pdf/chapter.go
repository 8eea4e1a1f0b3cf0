package pdf

import (
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

// chapter sets a chapter. It begins a page where less than a third of one is left
// below its title, or too little for what follows that.
func (s *setter) chapter(c book.Chapter) {
	s.settle()
	s.clear()
	s.tabled = false
	if s.head = c.Title; s.left() < s.chapterLeast(c) {
		s.turn()
	} else if !s.opened {
		s.y += 12
		s.page.Line(leftMargin, s.y, leftMargin+s.wide(), s.y, 0.25, paper.Ink)
		s.y += 4
	}
	s.sect = s.doc.Element(nil, paper.Section, "")
	s.mark(c.Key)
	s.page.Bookmark(0, strconv.Itoa(c.Number)+"  "+c.Title, max(0, s.y-4))
	s.title(c)
	for i := 0; i < len(c.Blocks); {
		if f, ok := c.Blocks[i].(book.Finding); ok { // of a chapter without any other block
			s.band([]book.Finding{f})
			i++
			continue
		}
		j := i + 1
		var found []book.Finding
		for ; j < len(c.Blocks); j++ {
			f, ok := c.Blocks[j].(book.Finding)
			if !ok {
				break
			}
			found = append(found, f)
		}
		var next book.Block
		if j < len(c.Blocks) {
			next = c.Blocks[j]
		}
		s.block(c.Blocks[i], found, next)
		i = j
	}
	s.settle()
}

// chapterLeast is what a chapter must find room for to begin on a page.
func (s *setter) chapterLeast(c book.Chapter) float64 {
	const title = 16 + 13
	most := title + s.room()/3
	for _, b := range c.Blocks[:min(2, len(c.Blocks))] { // a title, a line and a figure
		most = max(most, title+3*body.step+s.least(b))
	}
	return most
}

var (
	titleStyle  = paper.Style{Face: paper.Title, Size: paper.MM(23), Colour: paper.Ink}
	numberStyle = paper.Style{Face: paper.Title, Size: paper.MM(23), Colour: paper.Accent}
)

func (s *setter) title(c book.Chapter) {
	n := strconv.Itoa(c.Number)
	indent := paper.Width(paper.Title, numberStyle.Size, n) + 4
	lines := broken(plain(titleStyle, c.Title).words, s.wide()-indent)
	e := s.el(paper.H1)
	s.page.In(e)
	s.page.Words(leftMargin, s.y+8, numberStyle, n+" ")
	for i, ln := range lines {
		s.draw(leftMargin+indent, s.y+8+10*float64(i), ln)
	}
	s.page.In(nil)
	s.y += 10*float64(max(1, len(lines))) + 3
	s.my, s.opened, s.under = s.y, false, true
}

// settle places the figures that still wait.
func (s *setter) settle() {
	for len(s.waits) > 0 {
		s.clear()
		f := s.waits[0]
		if s.figureHeight(f) <= s.left() {
			s.waits = s.waits[1:]
			s.placeFigure(f)
			continue
		}
		s.turn()
	}
}

// block sets one block with the findings that it causes; next is what comes
// after it.
func (s *setter) block(b book.Block, found []book.Finding, next book.Block) {
	_, table := b.(book.Table)
	if _, words := b.(book.Paragraph); words && s.tabled {
		s.settle() // what is told after a table is another matter: its figures come first
	}
	s.tabled = table
	if _, words := b.(book.Paragraph); !words {
		s.under = false
	}
	switch b := b.(type) {
	case book.Heading:
		s.heading(b, next)
	case book.Paragraph:
		s.paragraph(b, found, next)
		return
	case book.Steps:
		s.clear()
		s.steps(b)
	case book.Table:
		s.clear()
		s.table(b)
	case book.Figure:
		s.figure(b)
	case book.Caution:
		s.clear()
		s.caution(b)
	case book.RuleNote:
		s.clear()
		s.rule(b)
	case book.NotYet:
		s.clear()
		s.notYet(b)
	}
	s.band(found)
}

var headingStyle = paper.Style{Face: paper.TextBold, Size: paper.MM(11.5), Colour: paper.Ink}

// heading opens a section; it stays with what follows.
func (s *setter) heading(h book.Heading, next book.Block) {
	s.settle()
	s.clear()
	lines := broken(plain(headingStyle, h.Text).words, s.wide())
	const step = 5.6
	s.begin(6, step*float64(len(lines))+2+s.least(next))
	s.mark(h.BlockID())
	s.page.Bookmark(1, h.Text, max(0, s.y-3))
	s.page.In(s.el(paper.H2))
	for _, ln := range lines {
		s.draw(leftMargin, s.y+4, ln)
		s.y += step
	}
	s.page.In(nil)
	s.y += 1
	s.my, s.opened, s.under = s.y, false, true
}

// least is what a heading must find room for below it.
func (s *setter) least(next book.Block) float64 {
	switch b := next.(type) {
	case book.Figure:
		return s.figureHeight(b)
	case book.Table:
		return 4 + captionStep + s.together(s.grid(b.Table))
	case book.Steps:
		return 40
	case book.Caution:
		return min(s.cautionHeight(b), s.room()/2)
	case nil:
		return 0
	}
	return 3 * body.step
}

// paragraph sets sentences, with what they cause in the margin.
func (s *setter) paragraph(b book.Paragraph, found []book.Finding, next book.Block) {
	t := s.said(body, b.Text)
	lines := broken(t.words, s.column())
	h := float64(len(lines)) * body.step
	first := min(h, 2*body.step)
	if len(found) > 0 && !s.under {
		beside := s.findingHeight(found[0], side)
		first = max(first, beside, s.withBand(max(h, beside+2.6), found[1:]))
	}
	s.begin(2.6, first)
	s.under = false
	s.mark(b.BlockID())
	e := s.el(paper.P) // read before what stands beside it
	rest := s.beside(found, h, next)
	s.flow(e, leftMargin, s.column(), t, body)
	s.band(rest)
}

// withBand is the height of a paragraph, or of what stands beside it, with the
// first row of findings below it, so that none begins a page away from its
// text; 0 where that is much.
func (s *setter) withBand(h float64, found []book.Finding) float64 {
	row := 0.0
	for _, f := range found[:min(len(found), bandColumns)] {
		row = max(row, s.findingHeight(f, s.bandWidth()))
	}
	if h += 3 + row; row == 0 || h > s.room()/3 {
		return 0
	}
	return h
}

// beside sets findings in the margin from here down, as many as the paragraph
// and narrow blocks after it have room for, and returns the others.
func (s *setter) beside(found []book.Finding, h float64, next book.Block) []book.Finding {
	const over = 22.0
	end := s.y + h + 3
	if p, ok := next.(book.Paragraph); ok {
		more := float64(len(broken(s.said(body, p.Text).words, s.column())))*body.step + 2.6
		end += max(over, more)
	}
	s.my = max(s.my, s.y)
	for i, f := range found {
		fh := s.findingHeight(f, side)
		first := i == 0 && s.my-s.y < 10
		if s.my+fh > s.bottom() || s.my+fh > end && !first {
			return found[i:]
		}
		s.page.In(nil)
		s.page.Line(leftMargin+s.column()+1.5, s.my+2.1, leftMargin+s.column()+gutter-1.5, s.my+2.1, 0.13, paper.Soft)
		s.my = s.placeFinding(f, leftMargin+s.column()+gutter, s.my, side) + 2.6
	}
	return nil
}
