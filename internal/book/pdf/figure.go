package pdf

import (
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

// figure places a figure, or keeps it for the top of the next page.
func (s *setter) figure(f book.Figure) {
	s.clear()
	if len(s.waits) == 0 && s.figureHeight(f) <= s.left() || s.opened {
		s.placeFigure(f)
		return
	}
	s.waits = append(s.waits, f)
}

// figureLooks are the caption's: number and title, what stands at its right,
// and the caption proper.
func (s *setter) caption(f book.Figure, k float64) (title, below *text) {
	title = &text{}
	title.add(sans.bold, "Fig. "+strconv.Itoa(f.Number)+". ")
	title.add(sans.bold, f.Leaf.Title)
	if f.Leaf.Right != "" {
		title.add(sans.italic, "  "+f.Leaf.Right)
	}
	below = &text{}
	if f.Leaf.Caption != "" {
		below.add(small.plain, f.Leaf.Caption)
	}
	if k < 1 {
		below.add(small.plain, " Printed here at "+strconv.Itoa(int(100*k))+
			" % of the size it was drawn for: the scale bar is right, a ratio that is named is not.")
	}
	return title, below
}

// scale is how much of its size a figure is printed in: all, unless the page
// is too small.
func (s *setter) scale(f book.Figure) float64 {
	k := 1.0
	if f.Leaf.W > s.size.W {
		k = s.size.W / f.Leaf.W
	}
	if most := s.room() - 20; f.Leaf.H*k > most {
		k = most / f.Leaf.H
	}
	return k
}

// captionWidth is a little less than the page's, for it is small.
func (s *setter) captionWidth() float64 { return s.wide() - 20 }

func (s *setter) figureHeight(f book.Figure) float64 {
	k := s.scale(f)
	title, below := s.caption(f, k)
	n := len(broken(title.words, s.captionWidth()))
	m := len(broken(below.words, s.captionWidth()))
	return 4 + k*f.Leaf.H + 2 + float64(n)*sans.step + float64(m)*small.step + 2
}

// placeFigure sets a figure here, with its caption below.
func (s *setter) placeFigure(f book.Figure) {
	k := s.scale(f)
	s.skip(3)
	s.mark(f.BlockID())
	alt := f.Leaf.Alt
	if alt == "" {
		alt = f.Leaf.Title
	}
	s.page.In(s.doc.Element(s.sect, paper.Figure, alt))
	if !s.dry {
		s.page.Leaf(f.Leaf, (s.size.W-k*f.Leaf.W)/2, s.y, k)
	}
	s.y += k*f.Leaf.H + 2
	e := s.el(paper.Caption)
	title, below := s.caption(f, k)
	s.y = s.stack(e, leftMargin, s.y, broken(title.words, s.captionWidth()), sans)
	s.y = s.stack(e, leftMargin, s.y, broken(below.words, s.captionWidth()), small)
	s.y += 2
	s.my, s.opened = s.y, false
}
