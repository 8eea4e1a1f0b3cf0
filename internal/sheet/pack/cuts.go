package pack

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// sawyer turns one sheet's strips into placements, cuts and offcuts in real
// lengths.
type sawyer struct {
	j    *job
	s    sheet.Stock
	out  sheet.Layout
	kerf int64
}

// hand is a piece in hand during sawing: where it starts, and where the wood
// really ends, which on the far sides of the sheet is beyond what may be used.
type hand struct{ x, y, endX, endY int64 }

// saw reads one sheet of the stock.
func (j *job) saw(stock int32, root *strip) sheet.Layout {
	w := &sawyer{j: j, s: j.p.Stocks[stock], kerf: j.p.Kerf}
	w.out.Stock = int(stock)
	trim := w.s.Trim
	w.piece(root, hand{trim, trim, w.s.Length, w.s.Width}, 0)
	w.number()
	slices.SortStableFunc(w.out.Offcuts, func(a, b sheet.Rect) int {
		return cmp.Or(cmp.Compare(b.Area(), a.Area()), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	slices.SortStableFunc(w.out.Placements, func(a, b sheet.Placement) int {
		return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return w.out
}

// piece lays out the strip in the piece in hand, whose cuts are of the stage.
func (w *sawyer) piece(n *strip, h hand, stage int) {
	l, b := n.l-w.kerf, n.w-w.kerf
	switch n.kind {
	case free:
		if l > 0 && b > 0 && min(l, b) >= w.j.p.KeptSide {
			w.out.Offcuts = append(w.out.Offcuts, sheet.Rect{X: h.x, Y: h.y, DX: l, DY: b})
		}
	case part:
		it := w.j.items[n.item]
		w.free(n, h, stage)
		w.out.Placements = append(w.out.Placements, sheet.Placement{
			Part: it.part, Copy: it.copy, X: h.x, Y: h.y, DX: l, DY: b, Turned: n.turned})
	case split:
		w.strips(n, h, stage)
	}
}

// free cuts a part from wood beyond it: a rip, then a cross cut.
func (w *sawyer) free(n *strip, h hand, stage int) {
	if end := h.y + n.w - w.kerf; end < h.endY {
		w.cut(sheet.Y, end, h, stage)
		h.endY = end
		stage++
	}
	if end := h.x + n.l - w.kerf; end < h.endX {
		w.cut(sheet.X, end, h, stage)
	}
}

// strips parts the piece in hand into the kids of a split: the widest first,
// the free one last.
func (w *sawyer) strips(n *strip, h hand, stage int) {
	sortKids(n)
	for _, kid := range n.kids {
		at, end, size := h.x, h.endX, kid.extent(n.axis)
		if n.axis == sheet.Y {
			at, end = h.y, h.endY
		}
		mine := h
		edge := at + size - w.kerf // of the strip
		if edge < end && kid.kind != free {
			w.cut(n.axis, edge, h, stage)
			end = edge
		}
		if n.axis == sheet.X {
			mine.endX, h.x = end, at+size
		} else {
			mine.endY, h.y = end, at+size
		}
		w.piece(kid, mine, stage+1)
	}
}

func sortKids(n *strip) {
	slices.SortStableFunc(n.kids, func(a, b *strip) int {
		if (a.kind == free) != (b.kind == free) {
			if b.kind == free {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(b.extent(n.axis), a.extent(n.axis)), cmp.Compare(b.kind, a.kind), cmp.Compare(a.least(), b.least()))
	})
}

func (w *sawyer) cut(axis sheet.Axis, at int64, h hand, stage int) {
	c := sheet.Cut{Axis: axis, At: at, From: h.y, To: h.endY, Fence: at - h.x, Stage: stage}
	if axis == sheet.Y {
		c.From, c.To, c.Fence = h.x, h.endX, at-h.y
	}
	w.out.Cuts = append(w.out.Cuts, c)
}

// number puts the cuts in the order of work: the trim cuts, then stage by
// stage, in each the rips first, and like fence settings together. A strip is
// never wider than the one before it, so that no cut comes before the one that
// frees its piece.
func (w *sawyer) number() {
	slices.SortStableFunc(w.out.Cuts, func(a, b sheet.Cut) int {
		return cmp.Or(cmp.Compare(a.Stage, b.Stage), cmp.Compare(b.Axis, a.Axis), cmp.Compare(b.Fence, a.Fence))
	})
	if trim := w.s.Trim; trim > 0 {
		w.out.Cuts = append([]sheet.Cut{
			{Axis: sheet.Y, At: trim, To: w.s.Length, Fence: trim, Trim: true},
			{Axis: sheet.X, At: trim, From: trim, To: w.s.Width, Fence: trim, Trim: true},
		}, w.out.Cuts...)
	}
	for i := range w.out.Cuts {
		w.out.Cuts[i].Number = i + 1
	}
}

// setUps counts the fence settings of a layout: runs of cuts of one axis and
// one setting.
func setUps(l sheet.Layout) int {
	n := 0
	for i, c := range l.Cuts {
		if i == 0 || c.Axis != l.Cuts[i-1].Axis || c.Fence != l.Cuts[i-1].Fence {
			n++
		}
	}
	return n
}
