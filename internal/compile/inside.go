package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// upright is what bounds a bay at one side: a side of the body or a divider.
type upright struct {
	x0, x1 trace.Num // its left and right faces in the piece
	part   *piece.Part
	// rightward is the face that looks right, into the bay to the right of it;
	// leftward the other. The outer sides have only their inner one.
	rightward, leftward surface
	side                bool
}

// space is a bay or a level: the room between two uprights and two horizontals.
type space struct {
	name           string
	bay            int
	x0, x1, y0, y1 trace.Num
	floor, ceiling surface
	level          int // -1 for a bay that is not divided
	last           bool
	path           string
	covered        *design.Front // the front before it
	holes          []trace.Num
	shelves        []string
	drawer         bool
}

// inside stands the dividers, lays the boards and finds the spaces.
func (b *builder) inside() {
	widths := b.bayWidths()
	if widths == nil {
		return
	}
	b.standUprights(widths)
	for i := range b.d.Bays {
		b.layBoards(i)
	}
	b.coverSpaces()
	b.housings()
}

// bayWidths finds each bay's clear width: what is given, and an even share of
// the rest.
func (b *builder) bayWidths() []trace.Num {
	bays := b.d.Bays
	inner := b.width.Sub(b.inner[left]).Sub(b.inner[right])
	div := b.thick(b.role("dividers", "panels"))
	given := make([]*trace.Num, len(bays))
	for i := range bays {
		if bays[i].Kind == design.Given {
			given[i] = &bays[i].Width
		}
	}
	w, ok := share(inner.Sub(div.Scale(float64(len(bays)-1))), given)
	if !ok {
		b.errorAt(bays[len(bays)-1].Path, "no-room", "the bays do not fill the width",
			fmt.Sprintf("Inside, less %d dividers, there are %.1f mm; the bays leave nothing to share, or do not add up to it.",
				len(bays)-1, inner.V-div.V*float64(len(bays)-1)))
		return nil
	}
	return w
}

// share gives each open place an even part of what the given ones leave. It is
// not ok where nothing is left for them, or where all are given and do not add
// up to the whole within half a millimetre.
func share(whole trace.Num, given []*trace.Num) ([]trace.Num, bool) {
	open, left := 0, whole
	for _, g := range given {
		if g == nil {
			open++
		} else {
			left = left.Sub(*g)
		}
	}
	out := make([]trace.Num, len(given))
	for i, g := range given {
		if g != nil {
			out[i] = *g
		} else {
			out[i] = left.Scale(1 / float64(open))
		}
	}
	if open == 0 {
		return out, left.V > -0.5 && left.V < 0.5
	}
	return out, left.V > float64(open)
}

// standUprights places the sides and dividers; the dividers' parts get their
// depth and their cuts later, when it is known what covers their fronts.
func (b *builder) standUprights(widths []trace.Num) {
	t := b.thick(b.role("dividers", "panels"))
	l, r := b.surface(left), b.surface(right)
	b.uprights = []*upright{{x0: trace.Num{}, x1: b.inner[left], part: l.part, rightward: l, side: true}}
	x := b.inner[left]
	for i := 0; i < len(widths)-1; i++ {
		x = x.Add(widths[i])
		b.uprights = append(b.uprights, &upright{x0: x, x1: x.Add(t)})
		b.clearOfBends(x, x.Add(t), b.d.Bays[i].Path)
		x = x.Add(t)
	}
	b.uprights = append(b.uprights, &upright{x0: b.width.Sub(b.inner[right]), x1: b.width, part: r.part, leftward: r, side: true})
}

// clearOfBends says so where a divider would stand under a bend: its end would
// have to follow the curve, which is not built yet.
func (b *builder) clearOfBends(x0, x1 trace.Num, path string) {
	for c := range 4 {
		k := b.corner(c)
		if !k.Bent {
			continue
		}
		near := x0.V
		if c == 2 || c == 3 {
			near = b.width.V - x1.V
		}
		if near < k.Radius.V {
			b.errorAt(path, "divider-in-bend", "a divider would stand in the bend at the "+design.CornerNames[c],
				fmt.Sprintf("It stands %.1f mm from the outside, the bend needs %.1f mm.", near, k.Radius.V))
		}
	}
}

// floorY and ceilY are the inner faces of bottom and top.
func (b *builder) floorY() trace.Num { return b.foot.Add(b.inner[bottom]) }
func (b *builder) ceilY() trace.Num  { return b.foot.Add(b.height).Sub(b.inner[top]) }

// layBoards finds the levels of bay i and the spaces that they make.
func (b *builder) layBoards(i int) {
	bay := b.d.Bays[i]
	l, r := b.uprights[i], b.uprights[i+1]
	s := &space{name: bay.Name, bay: i, x0: l.x1, x1: r.x0, y0: b.floorY(), y1: b.ceilY(),
		floor: b.surface(bottom), ceiling: b.surface(top), level: -1, last: true, path: bay.Path}
	if len(bay.Levels) == 0 {
		b.spaces = append(b.spaces, s)
		return
	}
	role := b.role("boards", "panels")
	t := b.thick(role)
	given := make([]*trace.Num, len(bay.Levels))
	for k := range bay.Levels {
		if bay.Levels[k].Kind == design.Given {
			given[k] = &bay.Levels[k].Height
		}
	}
	heights, ok := share(s.y1.Sub(s.y0).Sub(t.Scale(float64(len(given)-1))), given)
	if !ok {
		b.errorAt(bay.Path, "no-room", "the levels do not fill the bay's height",
			fmt.Sprintf("Less its boards the bay is %.1f mm high; the levels leave nothing to share, or do not add up to it.",
				s.y1.V-s.y0.V-t.V*float64(len(given)-1)))
		return
	}
	y, floor := s.y0, s.floor
	for k, lv := range bay.Levels {
		sp := &space{name: lv.Name, bay: i, x0: s.x0, x1: s.x1, y0: y, y1: y.Add(heights[k]),
			floor: floor, ceiling: s.ceiling, level: k, last: k == len(given)-1, path: lv.Path}
		y = sp.y1
		if !sp.last {
			if !lv.Follow {
				b.clearOf("the board over "+lv.Name, lv.Path, sp.x0, sp.x1, sp.y1, sp.y1.Add(t))
			}
			p := b.board(sp, lv, role)
			sp.ceiling = surface{part: p, face: piece.FaceB, along: func(c trace.Num) trace.Num { return c.Sub(p.Origin[0]) }}
			floor = surface{part: p, face: piece.FaceA, along: sp.ceiling.along}
			y = y.Add(t)
		}
		b.spaces = append(b.spaces, sp)
	}
}

// board makes the fixed horizontal over a level; its depth is set by depths.
func (b *builder) board(sp *space, lv design.Level, role design.Role) *piece.Part {
	d := [2]trace.Num{b.boardDepth(role.Stock, sp.bay), b.boardDepth(role.Stock, sp.bay+1)}
	p := &piece.Part{ID: "board over " + lv.Name, Role: piece.Board, Name: "board over " + lv.Name, Stock: role.Stock,
		Length: sp.x1.Sub(sp.x0).Add(d[0]).Add(d[1]), Thick: b.thick(role), Grain: piece.AlongLength, Pose: horizontal3,
		NameA: "upper face", NameB: "underside", Show: piece.FaceA, Path: lv.Path}
	p.Origin = [3]trace.Num{sp.x0.Sub(d[0]), sp.y1, {}}
	bd := board{part: p, bay: sp.bay, under: sp, deep: d}
	if lv.Follow {
		bd.follow, bd.ends = true, b.bendEnds(sp, sp.y1, sp.y1.Add(p.Thick), d[0], d[1])
		b.fitEnds(p, bd.ends, sp)
	}
	b.boards = append(b.boards, bd)
	return p
}

// board is a fixed horizontal that waits for its depth and its housings.
type board struct {
	part  *piece.Part
	bay   int
	under *space
	deep  [2]trace.Num // in its housings at the left and the right
	// follow: its ends are found one by one, as some lie in a bend.
	follow bool
	ends   [2]boardEnd
}

// boardPartner is what a board's end at upright i is called with in a wish: the
// divider, or the side where it meets one and the file speaks of that.
func (b *builder) boardPartner(i int) string {
	if i == 0 || i == len(b.uprights)-1 {
		for _, word := range []string{"side", "shell"} {
			if b.wish("board", word) != nil {
				return word
			}
		}
	}
	return "divider"
}

// boardDepth is how deep a level's board is housed at upright i.
func (b *builder) boardDepth(stock *design.Stock, i int) trace.Num {
	return b.housingDepth(stock, b.boardPartner(i), "board")
}

// housingDepth is how deep panels of a stock are housed: what the joint's wish
// says, or the shop's habit as a share of the thickness that is housed into.
func (b *builder) housingDepth(into *design.Stock, roles ...string) trace.Num {
	if w := b.wish(roles...); w != nil {
		switch {
		case plainFaces(w.Kind):
			return trace.Num{}
		case w.Depth != nil:
			return *w.Depth
		}
	}
	return into.Thickness.Mean.Mul(b.d.Shop.Habits.HousingShare)
}

// wish finds a joint that the piece file names by its two partners, in either
// order.
func (b *builder) wish(roles ...string) *design.JointWish {
	for i := range b.d.Joints {
		w := &b.d.Joints[i]
		if len(roles) == 2 && (w.A == roles[0] && w.B == roles[1] || w.A == roles[1] && w.B == roles[0]) {
			return w
		}
	}
	return nil
}

// fit returns the fit of a joint and its clearance.
func (b *builder) fit(roles ...string) (string, trace.Num) {
	name := b.d.Shop.Habits.Fit
	if w := b.wish(roles...); w != nil && w.Fit != "" {
		name = w.Fit
	}
	return name, b.d.Shop.Habits.FitClearance[name]
}

// inBend returns the name of a bent corner into whose wood an upright rectangle
// of the front view would reach, or "".
func (b *builder) inBend(x0, x1, y0, y1 trace.Num) string {
	for c, name := range design.CornerNames {
		k := b.corner(c)
		if !k.Bent {
			continue
		}
		r := k.Radius.V
		x, y := x0.V, y0.V // the rectangle's own corner there
		cx, cy := r, b.foot.V+r
		if c == 2 || c == 3 {
			x, cx = x1.V, b.width.V-r
		}
		if c == 1 || c == 2 {
			y, cy = y1.V, b.foot.V+b.height.V-r
		}
		beyondX := (x-cx)*(cx-b.width.V/2) > 0
		beyondY := (y-cy)*(cy-b.foot.V-b.height.V/2) > 0
		if beyondX && beyondY && math.Hypot(x-cx, y-cy) > r-b.inner[0].V+0.01 {
			return name
		}
	}
	return ""
}

// clearOf says so where a part would reach into a bend, and reports whether it
// does not.
func (b *builder) clearOf(what, path string, x0, x1, y0, y1 trace.Num) bool {
	c := b.inBend(x0, x1, y0, y1)
	if c == "" {
		return true
	}
	b.errorAt(path, "part-in-bend", fmt.Sprintf("%s would reach into the bend at the %s", what, c),
		"Put it clear of the bend, make the radius smaller, or write 'follow: shell' if it is a fixed shelf or a level's board.")
	return false
}
