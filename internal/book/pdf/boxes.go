package pdf

import (
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

// Measures of a caution's frame, mm.
const (
	barWidth = 1.6
	boxPadX  = 5.0
	boxPadY  = 3.0
)

var cautionStyle = paper.Style{Face: paper.TextBold, Size: paper.MM(10.5), Colour: paper.Ink}

// cautionParts are its texts, the head first.
func (s *setter) cautionParts(c book.Caution) []part {
	head := &text{}
	head.sign("caution", 4.4, cautionStyle)
	head.add(cautionStyle, "Caution: "+c.Title)
	out := []part{{t: head, l: look{plain: cautionStyle, step: 5.6}}}
	for _, p := range c.Text {
		out = append(out, part{t: s.said(lesser, p), l: lesser})
	}
	if len(c.Sources) > 0 {
		from := &text{}
		for i, src := range c.Sources {
			if i > 0 {
				from.add(small.plain, "; ")
			}
			from.add(small.plain, book.SourceText(src))
		}
		out = append(out, part{t: from, l: small})
	}
	return out
}

const boxGap = 1.2 // between the paragraphs in a box

func (s *setter) boxWidth() float64 { return s.wide() - barWidth - 2*boxPadX }

func (s *setter) cautionHeight(c book.Caution) float64 {
	h := 2 * boxPadY
	for i, p := range s.cautionParts(c) {
		if i > 0 {
			h += boxGap
		}
		h += float64(len(broken(p.t.words, s.boxWidth()))) * p.l.step
	}
	return h
}

// caution sets a caution in a frame with a thick left side, whole on one page
// where a page can hold it.
func (s *setter) caution(c book.Caution) {
	h := s.cautionHeight(c)
	s.begin(5, h)
	s.mark(c.BlockID())
	e := s.el(paper.P)
	framed := h <= s.left()
	if framed {
		s.page.In(nil)
		s.page.Frame(leftMargin, s.y, s.wide(), h, 0.25, paper.Ink)
		s.page.Fill(leftMargin, s.y, barWidth, h, paper.Ink)
	}
	s.y += boxPadY
	for i, p := range s.cautionParts(c) {
		if i > 0 {
			s.y += boxGap
		}
		if framed {
			s.y = s.stack(e, leftMargin+barWidth+boxPadX, s.y, broken(p.t.words, s.boxWidth()), p.l)
		} else {
			s.flow(e, leftMargin+barWidth+boxPadX, s.boxWidth(), p.t, p.l)
		}
	}
	s.y += boxPadY + 2
	s.my, s.opened = s.y, false
}

// steps sets acts in their order, each with its number and a box to tick.
func (s *setter) steps(b book.Steps) {
	if b.Title == "" {
		s.skip(5)
	} else {
		first := 3 * body.step
		if len(b.Steps) > 0 {
			first = s.stepHeight(s.stepParts(b.Steps[0]))
		}
		s.begin(5, 7+min(first, s.room()/2))
		s.mark(b.BlockID())
		s.page.Bookmark(1, b.Title, max(0, s.y-3))
		s.page.In(s.el(paper.H2))
		s.draw(leftMargin, s.y+4, line{words: plain(headingStyle, fit(headingStyle, b.Title, s.wide())).words})
		s.y += 6.6
		s.opened = false
	}
	list := s.el(paper.List)
	for _, st := range b.Steps {
		s.step(list, st)
	}
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+s.wide(), s.y, 0.13, paper.Hair)
	s.y += 2
	s.my = s.y
}

const stepIndent = 10.0

func (s *setter) stepWidth() float64 { return s.wide() - stepIndent - 12 }

func (s *setter) stepParts(st book.Step) []part {
	parts := []part{{t: s.said(body, st.Text), l: body}}
	for _, n := range st.Notes {
		parts = append(parts, part{t: s.said(small, n), l: small})
	}
	return parts
}

func (s *setter) stepHeight(parts []part) float64 {
	h := 2.8
	for _, p := range parts {
		h += float64(len(broken(p.t.words, s.stepWidth()))) * p.l.step
	}
	return h
}

// step sets one act, whole on one page where a page can hold it.
func (s *setter) step(list *paper.Element, st book.Step) {
	parts, width := s.stepParts(st), s.stepWidth()
	h := s.stepHeight(parts)
	s.need(h)
	s.mark(st.ID)
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+s.wide(), s.y, 0.13, paper.Hair)
	s.y += 1.4
	e := s.doc.Element(list, paper.Item, "")
	n := strconv.Itoa(st.Number)
	num := paper.Style{Face: paper.Text, Size: body.plain.Size, Colour: paper.Accent}
	s.page.In(e)
	s.page.Words(leftMargin+stepIndent-3-paper.Width(num.Face, num.Size, n), s.y+ascent(body), num, n+" ")
	s.page.In(nil)
	s.sign("box", leftMargin+s.wide()-5, s.y+ascent(body)+0.4, 3.6)
	for _, p := range parts {
		if h > s.room() {
			s.flow(e, leftMargin+stepIndent, width, p.t, p.l)
		} else {
			s.y = s.stack(e, leftMargin+stepIndent, s.y, broken(p.t.words, width), p.l)
		}
	}
	s.y += 1.4
	s.opened = false
}

// notYet lists what is not computed.
func (s *setter) notYet(n book.NotYet) {
	first := 0
	if len(n.Items) > 0 {
		first = len(broken(plain(softer.plain, n.Items[0]).words, s.column()-5))
	}
	s.begin(5, 2+softer.step*float64(1+min(first, 10)))
	s.mark(n.BlockID())
	s.page.In(nil)
	s.page.Dashed(leftMargin, s.y, leftMargin+s.column(), s.y, 0.18, paper.Soft, 1, 1)
	s.y += 1.6
	italic := paper.Style{Face: paper.TextItalic, Size: softer.plain.Size, Colour: paper.Ink}
	s.opened = false
	s.flow(s.el(paper.P), leftMargin, s.column(), plain(italic, "Not computed yet, and yours to think of"), softer)
	list := s.el(paper.List)
	for _, it := range n.Items {
		lines := broken(plain(softer.plain, it).words, s.column()-5)
		s.need(min(float64(len(lines))*softer.step, s.room()))
		s.page.In(nil)
		s.page.Frame(leftMargin+0.2, s.y+1.4, 1.9, 1.9, 0.18, paper.Soft)
		s.flow(s.doc.Element(list, paper.Item, ""), leftMargin+5, s.column()-5, plain(softer.plain, it), softer)
	}
	s.y += 2
	s.my = s.y
}
