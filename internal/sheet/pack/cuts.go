package pack

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// sawyer turns the tree of one sheet into placements, cuts and offcuts in real
// lengths.
type sawyer struct {
	j    *job
	t    *tree
	s    sheet.Stock
	out  sheet.Layout
	kerf int64
}

// hand is a piece in hand during sawing: where it starts, and where the wood
// really ends, which on the far sides of the sheet is beyond what may be used.
type hand struct{ x, y, endX, endY int64 }

// layout reads one open sheet.
func (t *tree) layout(j *job, o openSheet) sheet.Layout {
	w := &sawyer{j: j, t: t, s: j.p.Stocks[o.stock], kerf: j.p.Kerf}
	w.out.Stock = int(o.stock)
	trim := w.s.Trim
	w.piece(o.root, hand{trim, trim, w.s.Length, w.s.Width}, 0)
	w.number()
	slices.SortStableFunc(w.out.Offcuts, func(a, b sheet.Rect) int {
		return cmp.Or(cmp.Compare(b.Area(), a.Area()), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	slices.SortStableFunc(w.out.Placements, func(a, b sheet.Placement) int {
		return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X))
	})
	return w.out
}

// piece lays out the node in the piece in hand, whose cuts are of the stage.
func (w *sawyer) piece(i int32, h hand, stage int) {
	n := w.t.nodes[i]
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
func (w *sawyer) free(n node, h hand, stage int) {
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
func (w *sawyer) strips(n node, h hand, stage int) {
	kids := w.kids(n)
	for _, k := range kids {
		kid := w.t.nodes[k]
		at, end := h.x, h.endX
		size := kid.l
		if n.axis == sheet.Y {
			at, end, size = h.y, h.endY, kid.w
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
		w.piece(k, mine, stage+1)
	}
}

func (w *sawyer) kids(n node) []int32 {
	var kids []int32
	for k := n.first; k != none; k = w.t.nodes[k].next {
		kids = append(kids, k)
	}
	size := func(k int32) int64 {
		if n.axis == sheet.X {
			return w.t.nodes[k].l
		}
		return w.t.nodes[k].w
	}
	slices.SortStableFunc(kids, func(a, b int32) int {
		p, q := w.t.nodes[a], w.t.nodes[b]
		if (p.kind == free) != (q.kind == free) {
			if q.kind == free {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(size(b), size(a)), cmp.Compare(q.kind, p.kind), cmp.Compare(w.firstItem(a), w.firstItem(b)))
	})
	return kids
}

// firstItem is the least item below a node, which makes the order of kids of
// one size independent of the way in which they were found.
func (w *sawyer) firstItem(i int32) int32 {
	n := w.t.nodes[i]
	if n.kind != split {
		return n.item
	}
	least := int32(sheet.MaxCopies)
	for k := n.first; k != none; k = w.t.nodes[k].next {
		if m := w.firstItem(k); m != none {
			least = min(least, m)
		}
	}
	return least
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
