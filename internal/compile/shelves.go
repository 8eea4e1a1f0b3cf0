package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// shelves lays every shelf of the piece file: on pins, with their rows of
// holes, or fixed in housings.
func (b *builder) shelves() {
	for i := range b.d.Shelves {
		w := &b.d.Shelves[i]
		s := b.spaceNamed(w.In)
		if s == nil {
			b.noSpace(w.Path, w.In)
			continue
		}
		if w.Pins {
			b.pinned(w, s)
		} else {
			b.fixed(w, s)
		}
	}
}

func (b *builder) spaceNamed(name string) *space {
	for _, s := range b.spaces {
		if s.name == name {
			return s
		}
	}
	return nil
}

// shelfFront is the z of the front edge of a shelf with its edging: behind the
// body's front, or behind the front that covers it, by the set back.
func (b *builder) shelfFront(w *design.Shelf, s *space) trace.Num {
	return b.behindFront(s.covered).Sub(w.SetBack)
}

// shelf makes the panel and its edging with the underside at y, between x0 and x1.
func (b *builder) shelf(w *design.Shelf, s *space, id string, x0, x1, y trace.Num) *piece.Part {
	role := b.pick(w.Role, "shelves", "panels")
	z := b.shelfFront(w, s)
	edge := trace.Num{}
	if w.EdgingRole != nil {
		edge = b.thick(*w.EdgingRole)
	}
	rear := b.backThick
	if w.Pins {
		rear = rear.Add(b.constant("rule.shelf back play", 0.5, "a shelf on pins ends 0.5 mm before the back, so that it comes out: common practice, no source"))
	}
	p := &piece.Part{ID: id, Name: id, Role: piece.Shelf, Stock: role.Stock, Thick: b.thick(role), Length: x1.Sub(x0),
		Width: z.Sub(edge).Sub(rear), Grain: piece.AlongLength, Pose: horizontal3, Path: w.Path, Loose: w.Pins,
		NameA: "upper face", NameB: "underside", Show: piece.FaceA}
	p.Origin = [3]trace.Num{x0, y, z.Sub(edge)}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	b.add(p)
	s.shelves = append(s.shelves, p.ID)
	if w.EdgingRole != nil {
		b.edging(w, p, z)
	}
	return p
}

// edging makes the strip along a shelf's front edge, its upper edge flush.
func (b *builder) edging(w *design.Shelf, p *piece.Part, z trace.Num) {
	e := &piece.Part{ID: "edging of " + p.ID, Name: "edging of " + p.ID, Role: piece.Edging, Stock: w.EdgingRole.Stock,
		Length: p.Length, Width: w.EdgingHigh, Thick: b.thick(*w.EdgingRole), Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face", NameB: "rear face, to the shelf", Show: piece.FaceA, Path: w.Path, Loose: p.Loose, Of: p.ID}
	e.Origin = [3]trace.Num{p.Origin[0], p.Origin[1].Add(p.Thick).Sub(w.EdgingHigh), p.Origin[2]}
	e.BlankLength, e.BlankWidth = e.Length.Add(b.d.Shop.Habits.Oversize.Scale(2)), e.Width
	b.add(e)
	b.join(piece.Joint{Kind: "edging", A: p.ID, B: e.ID, Enter: r3.Vec{Z: -1}, Glued: true, Area: p.Thick.Mul(p.Length), Path: w.Path})
}

// fixed houses shelves in the uprights: at the height that is written, or
// evenly spread where there are several.
func (b *builder) fixed(w *design.Shelf, s *space) {
	role := b.pick(w.Role, "shelves", "panels")
	t := b.thick(role)
	l, r := b.uprights[s.bay].rightward, b.uprights[s.bay+1].leftward
	dl, dr := b.housingDepth(l.part.Stock, "shelf", "side"), b.housingDepth(r.part.Stock, "shelf", "side")
	gap := s.y1.Sub(s.y0).Sub(t.Scale(float64(w.Count))).Scale(1 / float64(w.Count+1))
	for n := range w.Count {
		y := s.y0.Add(w.FixedAt)
		if w.Count > 1 || w.FixedAt.V == 0 {
			y = s.y0.Add(gap.Add(t).Scale(float64(n)).Add(gap))
		}
		if y.V < s.y0.V || y.V+t.V > s.y1.V {
			b.errorAt(w.Path, "shelf-outside", "the shelf does not lie in "+s.name, fmt.Sprintf("%s is %.1f mm high inside.", s.name, s.y1.V-s.y0.V))
			return
		}
		ends := [2]boardEnd{{deep: dl}, {deep: dr}}
		if w.Follow {
			ends = b.bendEnds(s, y, y.Add(t), dl, dr)
		} else if !b.clearOf(shelfID(w, s, n), w.Path, s.x0, s.x1, y, y.Add(t)) {
			return
		}
		if !b.clearOfBars(shelfID(w, s, n), w.Path, s.x0, s.x1, y, y.Add(t), b.backThick, b.shelfFront(w, s)) {
			return
		}
		p := b.shelf(w, s, shelfID(w, s, n), s.x0.Sub(ends[0].deep).Add(ends[0].in), s.x1.Add(ends[1].deep).Sub(ends[1].in), y)
		b.fitEnds(p, ends, s)
		b.boardEnds(p, s.bay, ends, p.Origin[2], trace.Num{}, "shelf", [2]string{"side", "side"})
	}
}

// shelfID names a shelf by its space; the one room of a body without bays is
// called inside.
func shelfID(w *design.Shelf, s *space, n int) string {
	in := "in " + s.name
	if s.name == "inside" {
		in = s.name
	}
	if w.Count == 1 {
		return "shelf " + in
	}
	return fmt.Sprintf("shelf %d %s", n+1, in)
}

// pinned drills the rows in both uprights and lays the shelves on pins, evenly
// spread over the holes.
func (b *builder) pinned(w *design.Shelf, s *space) {
	pin := b.pin()
	if pin == nil {
		b.errorAt(w.Path, "no-pin", "the shop has no shelf pins", "Add one under 'pins' in the shop file: its hole's diameter and depth, and how far behind the edge the row stands.")
		return
	}
	count := b.rowCount(w, s)
	if count < 1 || w.Count > count {
		b.errorAt(w.Path, "row-short", "the row of holes is too short",
			fmt.Sprintf("In %s there is room for %d holes from %.0f mm up, every %.0f mm; %d shelves were asked for.",
				s.name, max(count, 0), w.FirstHole.V, w.Pitch.V, w.Count))
		return
	}
	z := b.shelfFront(w, s)
	rowFront, rowBack := z.Sub(pin.Line), b.backThick.Add(pin.Line)
	faces := []surface{b.uprights[s.bay].rightward, b.uprights[s.bay+1].leftward}
	for range 4 { // rows of neighbouring bays must not meet in the divider
		if !rowsMeet(faces, pin, rowFront, rowBack) {
			break
		}
		rowFront, rowBack = rowFront.Sub(pin.Diameter.Scale(3)), rowBack.Add(pin.Diameter.Scale(3))
	}
	first := s.y0.Add(w.FirstHole)
	for _, f := range faces {
		for _, rz := range []trace.Num{rowFront, rowBack} {
			f.hole(first, rz, pin.Diameter, pin.Depth, w.Pitch, count, "shelf pins in "+s.name)
		}
	}
	// The shelf's underside lies on the pin: half its diameter over the hole's centre.
	on := pin.Diameter.Scale(0.5)
	for i := range count {
		s.holes = append(s.holes, w.FirstHole.Add(w.Pitch.Scale(float64(i))).Add(on))
	}
	play := b.d.Shop.Habits.ShelfClear.Scale(0.5)
	for n := range w.Count {
		hole := (n + 1) * count / (w.Count + 1)
		if h, ok := b.holes[shelfID(w, s, n)]; ok && h >= 1 {
			hole = h - 1
		}
		y := s.y0.Add(s.holes[min(hole, count-1)])
		if !b.clearOf(shelfID(w, s, n), w.Path, s.x0.Add(play), s.x1.Sub(play), y, y.Add(b.thick(b.pick(w.Role, "shelves", "panels")))) ||
			!b.clearOfBars(shelfID(w, s, n), w.Path, s.x0, s.x1, y, y.Add(b.thick(b.pick(w.Role, "shelves", "panels"))), b.backThick, b.shelfFront(w, s)) {
			return
		}
		p := b.shelf(w, s, shelfID(w, s, n), s.x0.Add(play), s.x1.Sub(play), y)
		for _, u := range []*upright{b.uprights[s.bay], b.uprights[s.bay+1]} {
			b.join(piece.Joint{Kind: "pins", A: u.part.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Also: []r3.Vec{{Z: -1}}, Path: w.Path})
		}
		b.out.Fittings = append(b.out.Fittings, piece.Fitting{What: pin.Name, Kind: "pin", Count: 4, On: p.ID, InHand: pin.InHand,
			Price: pin.Price, Path: w.Path})
	}
}

// rowsMeet reports whether a row would be drilled at a row on the other face of
// the same panel, so deep that the two leave less than a millimetre between
// them.
func rowsMeet(faces []surface, pin *design.Pin, zs ...trace.Num) bool {
	for _, f := range faces {
		for _, c := range f.part.Cuts {
			if c.Kind != piece.HoleRow || c.Face == f.face || c.Depth.V+pin.Depth.V+1 < f.part.Thick.V {
				continue
			}
			for _, z := range zs {
				if d := f.y(z).V - c.Y0.V; d*d < c.Diameter.V*c.Diameter.V*4 {
					return true
				}
			}
		}
	}
	return false
}

func (b *builder) pin() *design.Pin {
	if len(b.d.Shop.Pins) == 0 {
		return nil
	}
	return b.d.Shop.Pins[0]
}

// rowCount finds how many holes a row has: as far as is written, or, for
// 'auto', as far from the ceiling as the first is from the floor, clear of a
// bend, and clear of what is cut from the other face of the same panel.
func (b *builder) rowCount(w *design.Shelf, s *space) int {
	high := s.y1.Sub(s.y0)
	last := high.V - w.FirstHole.V
	if w.LastHole != nil {
		last = min(w.LastHole.V, high.V-w.Pitch.V/2)
	} else {
		last = min(last, b.clearOfRail(s, high.V), b.clearBelowBend(s), b.clearOfHousings(w, s))
	}
	if w.Pitch.V <= 0 || last < w.FirstHole.V {
		return 0
	}
	return 1 + int((last-w.FirstHole.V)/w.Pitch.V+1e-6)
}

// clearOfRail keeps a row below the rail that stands before the back.
func (b *builder) clearOfRail(s *space, high float64) float64 {
	if s.y1.V != b.ceilY().V {
		return high
	}
	deepest := 0.0
	for _, r := range b.bars {
		if r.y1.V > b.ceilY().V-1 {
			deepest = max(deepest, r.y1.V-r.y0.V)
		}
	}
	return high - deepest
}

// clearBelowBend returns how high over the space's floor a hole may be drilled
// in an outer side that goes over into a bend.
func (b *builder) clearBelowBend(s *space) float64 {
	clear := s.y1.V
	for i, near := range []bool{b.uprights[s.bay].side, b.uprights[s.bay+1].side} {
		c := 1 + i // the upper corner of the left side, of the right side
		k := b.corner(c)
		if near && k.Bent {
			clear = min(clear, b.foot.V+b.height.V-k.Radius.V-b.bendClear(c))
		}
	}
	return clear - s.y0.V
}

// bendClear is how far from a tangent point nothing else may be cut.
func (b *builder) bendClear(c int) float64 {
	for _, p := range b.shellParts() {
		for _, bd := range p.Bends {
			if bd.Corner == design.CornerNames[c] {
				return bd.Clear.V
			}
		}
	}
	return 0
}

// clearOfHousings keeps a row off the housings on the other face of its
// panels, where hole and housing together would leave less than a millimetre.
func (b *builder) clearOfHousings(w *design.Shelf, s *space) float64 {
	pin := b.pin()
	limit := s.y1.V - s.y0.V
	for _, f := range []surface{b.uprights[s.bay].rightward, b.uprights[s.bay+1].leftward} {
		for _, c := range f.part.Cuts {
			if c.Kind != piece.Housing || c.Face == f.face || c.Depth.V+pin.Depth.V+1 < f.part.Thick.V {
				continue
			}
			lo := c.X0.V - f.along(s.y0).V - pin.Diameter.V
			if lo > w.FirstHole.V {
				limit = min(limit, lo)
			}
		}
	}
	return limit
}
