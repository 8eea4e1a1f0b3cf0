package label

import (
	"fmt"
	"strconv"

	"rodwork/internal/format/qr"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// Measures of a label, mm.
const (
	leastW, leastH = 62.0, 30.0
	pad            = 3.0
	foot           = 3.4 // of the words below the code
	numberWide     = 13.0
	step           = 4.6
	// slack is kept for a wider face than the planned one, where that is missing.
	slack = 0.82
)

// Make returns the labels of all parts, and of what bends are made on, a leaf for each page.
func Make(p *plan.Plan, opt Options) ([]leaf.Leaf, error) {
	s := opt.Sheet
	if s == (Sheet{}) {
		s = A4
	}
	if err := s.check(); err != nil {
		return nil, err
	}
	var pages []leaf.Leaf
	for i, l := range append(Labels(p, opt.System), Aids(p, opt.System)...) {
		if i%(s.Columns*s.Rows) == 0 {
			n := len(pages) + 1
			pages = append(pages, leaf.Leaf{
				Key: "labels-" + strconv.Itoa(n), Title: fmt.Sprintf("Labels, page %d", n), W: s.W, H: s.H,
				Caption: "The code on a label names its part, “rodwork:ID/part/4”: the line of part 4 in the lists of the book, at #part-4 of book.html.",
				Alt:     "Labels of the parts, each with number, name, finished size, stock, show face, grain and a code of its place in the book.",
			})
		}
		page := &pages[len(pages)-1]
		items, err := s.draw(l, s.place(i))
		if err != nil {
			return nil, err
		}
		page.Items = append(page.Items, items...)
	}
	return pages, nil
}

// draw sets one label with its upper left corner at o.
func (s Sheet) draw(l Label, o r2.Vec) ([]leaf.Item, error) {
	side := min(s.LabelH-2*pad-foot, s.LabelW*0.3)
	at := func(x, y float64) r2.Vec { return r2.Vec{X: o.X + x, Y: o.Y + y} }
	items, mark := s.crosses(o), l.Mark
	if mark == "" {
		mark = strconv.Itoa(l.Number)
	}
	if l.Place != "" {
		code, err := qr.Path(l.Place, at(s.LabelW-pad-side, pad-1), side)
		if err != nil {
			return nil, fmt.Errorf("part %d: %w", l.Number, err)
		}
		items = append(items, code, leaf.Text{At: at(s.LabelW-pad, s.LabelH-pad), Anchor: leaf.End,
			S: leaf.Shorten(l.Place, leaf.Note, false, false, s.LabelW/2)})
	}
	x, right := pad, s.LabelW-pad-side-2
	items = append(items, leaf.Text{At: at(x, pad+4.4), S: mark, Size: leaf.Head, Strong: true})
	y := pad + 4.4
	for _, line := range twoLines(l.Name, slack*(right-x-numberWide)) {
		items = append(items, leaf.Text{At: at(x+numberWide, y), S: line, Size: leaf.Name, Strong: true})
		y += step
	}
	y = max(y, pad+4.4+step) + 1
	items = append(items, leaf.Text{At: at(x, y), S: leaf.Shorten(l.Size, leaf.Name, false, false, right-x), Size: leaf.Name})
	for _, words := range []string{l.Stock, l.Note} {
		if words != "" {
			y += step * 0.85
			items = append(items, leaf.Text{At: at(x, y), S: leaf.Shorten(words, leaf.Note, false, false, right-x)})
		}
	}
	y = s.LabelH - pad
	return append(items, marks(l, at(x, y), s.LabelW/2-pad)...), nil
}

// marks draws the joiner's loop with the face, and the stroke of the grain, on
// one line that starts at c.
func marks(l Label, c r2.Vec, room float64) []leaf.Item {
	var items []leaf.Item
	grain := map[piece.Grain]string{piece.AlongLength: "grain along the length", piece.AlongWidth: "grain along the width"}[l.Grain]
	if grain != "" {
		items = append(items, stroke(r2.Vec{X: c.X, Y: c.Y - 0.9}, 8), leaf.Text{At: r2.Vec{X: c.X + 10, Y: c.Y}, S: leaf.Shorten(grain, leaf.Note, false, false, room-10)})
		c.Y -= step
	}
	x := c.X
	if l.Marked {
		items = append(items, loop(r2.Vec{X: c.X + 0.5, Y: c.Y - 0.9}))
		x += 10
	}
	return append(items, leaf.Text{At: r2.Vec{X: x, Y: c.Y}, S: leaf.Shorten(l.Face, leaf.Note, false, false, room-(x-c.X))})
}

// stroke is the mark of the grain: a long stroke with a half-barb at each end.
func stroke(c r2.Vec, long float64) leaf.Path {
	at := func(x, y float64) r2.Vec { return r2.Vec{X: c.X + x, Y: c.Y + y} }
	return leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{
		{Op: leaf.Move, P: at(1.6, 0.7)}, {Op: leaf.To, P: at(0, 0)}, {Op: leaf.To, P: at(long, 0)}, {Op: leaf.To, P: at(long-1.6, -0.7)}}}
}

// loop is the joiner's mark of the show face, lying on its side: three arcs
// that run into each other, out, once round, off.
func loop(c r2.Vec) leaf.Path {
	at := func(along, aside float64) r2.Vec { return r2.Vec{X: c.X + along, Y: c.Y + aside} }
	return leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{
		{Op: leaf.Move, P: at(0, 0)},
		{Op: leaf.Arc, P: at(4.40, 1.09), R: 9.4, Left: true},
		{Op: leaf.Arc, P: at(2.94, 1.83), R: 1.0, Left: false, Large: true},
		{Op: leaf.Arc, P: at(5.86, -1.78), R: 4.5, Left: true},
	}}
}

// crosses marks the corners of a label, for plain paper that is cut.
func (s Sheet) crosses(o r2.Vec) []leaf.Item {
	const arm = 1.2
	p := leaf.Path{Line: leaf.Hatch}
	for _, d := range []r2.Vec{{}, {X: s.LabelW}, {Y: s.LabelH}, {X: s.LabelW, Y: s.LabelH}} {
		c := o.Add(d)
		for _, a := range []r2.Vec{{X: arm}, {Y: arm}} {
			p.Segs = append(p.Segs, leaf.Seg{Op: leaf.Move, P: c.Sub(a)}, leaf.Seg{Op: leaf.To, P: c.Add(a)})
		}
	}
	return []leaf.Item{p}
}

// twoLines breaks a name into at most two lines; what is left is cut.
func twoLines(s string, room float64) []string {
	fits := func(s string) bool { return leaf.Width(s, leaf.Name, false, true) <= room }
	if fits(s) {
		return []string{s}
	}
	cut := 0
	for i, r := range s {
		if r == ' ' && fits(s[:i]) {
			cut = i
		}
	}
	if cut == 0 {
		return []string{leaf.Shorten(s, leaf.Name, false, true, room)}
	}
	return []string{s[:cut], leaf.Shorten(s[cut+1:], leaf.Name, false, true, room)}
}
