package pdf

import (
	"math"
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

// front sets the first page: title, what the checks say, the piece's picture
// and the contents.
func (s *setter) front() {
	s.page = s.doc.AddPage(s.size.W, s.size.H)
	s.y, s.my, s.opened, s.head = 30, 30, true, "Contents"
	big := paper.Style{Face: paper.Title, Size: paper.MM(34), Colour: paper.Ink}
	lines := broken(plain(big, s.b.Title).words, s.wide())
	lines = lines[:min(len(lines), 6)] // a name, not a chapter
	s.y = s.stack(s.doc.Element(nil, paper.H1, ""), leftMargin, s.y, lines, look{plain: big, step: 14}) + 1
	s.opened = false
	if len(s.b.Lead) > 0 {
		s.flow(s.doc.Element(nil, paper.P, ""), leftMargin, s.wide(), s.said(lead, s.b.Lead), lead)
	}
	s.tally()
	s.contents(s.picture())
}

// tally counts the findings of the whole book by verdict.
func (s *setter) tally() {
	sum := map[string]int{}
	for _, c := range s.b.Chapters {
		for v, n := range c.Counts() { // a sum: no order shows
			sum[v] += n
		}
	}
	t := &text{}
	for _, v := range verdicts {
		if sum[v] > 0 {
			t.add(cells.plain, " \u00a0 ")
			t.sign(v, 2.9, cells.plain)
			t.add(cells.plain, strconv.Itoa(sum[v])+"\u00a0"+v)
		}
	}
	if len(t.words) > 0 {
		t.words = t.words[1:] // the space before the first
		s.y += 1
		s.flow(s.doc.Element(nil, paper.P, ""), leftMargin, s.wide(), t, cells)
	}
}

var verdicts = []string{"stop", "look", "not covered", "fine"}

// picture sets the figure of the whole piece, as large as leaves room for the
// contents, and returns where it ends.
func (s *setter) picture() float64 {
	f, ok := s.whole()
	if !ok {
		return s.y + 12
	}
	room := s.bottom() - s.y - 16 - contentsStep*float64(len(s.b.Chapters)+1) - 8
	k := math.Min(1, math.Min((s.size.W-20)/f.Leaf.W, room/f.Leaf.H))
	if k < 0.25 {
		return s.y + 12
	}
	s.page.In(s.doc.Element(nil, paper.Figure, f.Leaf.Alt))
	s.page.Leaf(f.Leaf, (s.size.W-k*f.Leaf.W)/2, s.y+8, k)
	s.page.In(nil)
	return s.y + 8 + k*f.Leaf.H + 8
}

// whole finds the figure of the whole piece: the one with that key, else the
// first.
func (s *setter) whole() (book.Figure, bool) {
	var first book.Figure
	found := false
	for _, c := range s.b.Chapters {
		for _, b := range c.Blocks {
			f, ok := b.(book.Figure)
			if !ok || f.Leaf.W <= 0 || f.Leaf.H <= 0 {
				continue
			}
			if f.Leaf.Key == "picture" {
				return f, true
			}
			if !found {
				first, found = f, true
			}
		}
	}
	return first, found
}

const contentsStep = 5.8

// contents lists the chapters with their pages, and what waits in each.
func (s *setter) contents(y float64) {
	s.y = y
	s.need(contentsStep * float64(min(len(s.b.Chapters), 20)+1))
	st := paper.Style{Face: paper.TextItalic, Size: paper.MM(10), Colour: paper.Soft}
	s.page.In(s.doc.Element(nil, paper.H2, ""))
	s.page.Words(leftMargin, s.y+4, st, "Contents")
	s.y += contentsStep
	toc := s.doc.Element(nil, paper.TOC, "")
	for _, c := range s.b.Chapters {
		if s.left() < contentsStep {
			s.turn()
		}
		s.entry(s.doc.Element(toc, paper.TOCI, ""), c)
		s.y += contentsStep
	}
}

func (s *setter) entry(e *paper.Element, c book.Chapter) {
	right := leftMargin + s.wide()
	y := s.y + 4
	s.page.In(e)
	s.page.Words(leftMargin, y, paper.Style{Face: paper.Text, Size: body.plain.Size, Colour: paper.Accent}, strconv.Itoa(c.Number)+" ")
	end := leftMargin + 8 + s.page.Words(leftMargin+8, y, body.plain, fit(body.plain, c.Title, s.wide()-60)+" ")
	page := ""
	if n := s.pages[c.Key]; n > 0 {
		page = strconv.Itoa(n)
	}
	w := paper.Width(cells.plain.Face, cells.plain.Size, page)
	at := right - 30
	counts := c.Counts()
	for _, v := range []string{"stop", "look", "not covered"} {
		if counts[v] > 0 {
			s.sign(v, at, y, 2.5)
			at += 3.3
			at += s.page.Words(at, y, cells.plain, strconv.Itoa(counts[v])+" ") + 1.6
		}
	}
	s.page.Words(right-w, y, cells.plain, page)
	s.page.In(nil)
	stop := right - w - 2
	if at > right-30 { // signs stand between the dots and the number
		s.page.Dashed(at+0.6, y-0.4, stop, y-0.4, 0.18, paper.Hair, 0.3, 1.2)
		stop = right - 32
	}
	s.page.Dashed(end+2, y-0.4, stop, y-0.4, 0.18, paper.Hair, 0.3, 1.2)
	s.page.Link(leftMargin, s.y, s.wide(), contentsStep, c.Key)
}
