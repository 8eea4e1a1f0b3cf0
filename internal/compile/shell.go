package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// The members, clockwise from the left; corner i lies where member i starts.
const (
	left = iota
	top
	right
	bottom
)

var memberNames = [4]string{"left side", "top", "right side", "bottom"}

// member is one side of the body's outline. Its coordinate u runs clockwise
// from the outer corner where it starts; from and to are where its wood starts
// and ends.
type member struct {
	index    int
	from, to trace.Num
	part     *piece.Part
	// along maps the member's coordinate in the piece (y for sides, x for top
	// and bottom) to the part's x.
	along func(c trace.Num) trace.Num
	face  piece.Face // the face that looks inside
	legs  []*leg     // its stretches between seams, in the same order
}

// surface returns the inner face of the member; nothing where the body is open.
func (b *builder) surface(i int) surface {
	m := b.members[i]
	if m == nil {
		return surface{}
	}
	return surface{part: m.part, face: m.face, along: m.along}
}

// surfaceAt returns the inner face of the member's stretch at coordinate c.
func (b *builder) surfaceAt(i int, c trace.Num) surface {
	s := b.surface(i)
	if s.part == nil {
		return s
	}
	if l := b.legAt(i, c); l != nil {
		s.part, s.along = l.part, l.along
	}
	return s
}

// span returns the outer length of member i.
func (b *builder) span(i int) trace.Num {
	if i == left || i == right {
		return b.height
	}
	return b.width
}

// u turns a coordinate in the piece into the member's own.
func (b *builder) u(i int, c trace.Num) trace.Num {
	switch i {
	case left:
		return c.Sub(b.foot)
	case top:
		return c
	case right:
		return b.foot.Add(b.height).Sub(c)
	}
	return b.width.Sub(c)
}

// corner returns corner i; where the body is open beside it there is none.
func (b *builder) corner(i int) design.Corner {
	if b.openCorner(i) {
		return design.Corner{}
	}
	return b.d.Body.Corners[design.CornerNames[i%4]]
}

// opens reports whether the body is open at a side; the front is where nothing
// else is said.
func (b *builder) opens(side string) bool {
	return b.d.Body.OpenAt(side) || side == "front" && len(b.d.Body.Open) == 0
}

// absent reports whether the body has no member i.
func (b *builder) absent(i int) bool { return (i+4)%4 == top && b.opens("top") }

// openCorner reports whether one of the members that would meet at corner c is
// left out.
func (b *builder) openCorner(c int) bool { return b.absent(c%4) || b.absent(c%4+3) }

// through reports whether member i runs through at corner c.
func (b *builder) through(i, c int) bool {
	said := b.corner(c).Through
	if i == left || i == right {
		return said == "side"
	}
	return said == memberNames[i]
}

// entry returns how deep a member enters the one that runs through at corner c.
func (b *builder) entry(c int) trace.Num {
	if b.corner(c).Joint != "rabbet" {
		return trace.Num{}
	}
	if b.runsOn(left, c%4) {
		return b.housingDepth(b.role("shell").Stock, "side", "bottom")
	}
	return b.inner[0].Mul(b.d.Shop.Habits.RabbetShare)
}

// shell makes the four members' parts and the joints at square corners.
func (b *builder) shell() {
	b.checkRadii()
	if b.diags.HasErrors() {
		return
	}
	for i := range b.members {
		if !b.absent(i) {
			b.members[i] = b.member(i)
		}
	}
	runs := b.runs()
	if runs == nil {
		return
	}
	for _, run := range runs {
		if len(run) == 1 {
			b.straight(b.members[run[0].index])
		} else {
			b.strip(run, len(runs) == 1 || b.strips(runs) == 1)
		}
	}
	for c := range 4 {
		if !b.corner(c).Bent && !b.openCorner(c) {
			b.squareCorner(c)
		}
	}
	if b.d.Back != nil && b.d.Back.Set == "rabbet" {
		b.edgeRabbets("back", b.backThick, b.d.Back.Depth, b.d.Back.Path, true)
	}
	if b.frontThick.V > 0 {
		b.edgeRabbets("front panel", b.frontThick, b.frontIn(), "body.open", false)
	}
	b.seams()
}

func (b *builder) checkRadii() {
	for i := range 4 {
		r := trace.Num{}
		for _, c := range []int{i, i + 1} {
			if k := b.corner(c); k.Bent {
				r = r.Add(k.Radius)
				if k.Radius.V <= b.inner[0].V {
					b.errorAt(k.Path, "radius-small", "the bend's outside radius is no more than the sheet's thickness",
						fmt.Sprintf("A bend of %.1f mm outside leaves nothing inside a sheet of %.1f mm.", k.Radius.V, b.inner[0].V))
				}
			}
		}
		if r.V > b.span(i).V {
			b.errorAt(b.corner(i).Path, "radius-large", "the bends do not fit on the "+memberNames[i],
				fmt.Sprintf("They need %.1f mm of its %.1f mm.", r.V, b.span(i).V))
		}
	}
	if b.corner(0).Bent && b.corner(1).Bent && b.corner(2).Bent && b.corner(3).Bent && len(b.d.Body.Seams) == 0 {
		b.errorAt("body.corners", "closed-loop", "a shell with four bent corners needs a seam",
			"Write one under 'seams', or leave one corner square, with a joint.")
	}
}

// member finds where the wood of member i starts and ends.
func (b *builder) member(i int) *member {
	m := &member{index: i}
	ends := [2]trace.Num{}
	for e, c := range []int{i, i + 1} {
		switch k := b.corner(c); {
		case b.openCorner(c):
		case k.Bent:
			ends[e] = k.Radius
		case b.d.Base.Kind == "sides" && c%4 != 1 && c%4 != 2 && i != bottom:
			ends[e] = b.foot.Neg() // a side that runs on to the floor
		case !b.through(i, c):
			ends[e] = b.inner[0].Sub(b.entry(c))
		}
	}
	m.from, m.to = ends[0], b.span(i).Sub(ends[1])
	return m
}

// straight makes a member that bends nowhere a panel of its own.
func (b *builder) straight(m *member) {
	role := b.role("shell")
	p := &piece.Part{ID: memberNames[m.index], Name: memberNames[m.index], Stock: role.Stock,
		Length: m.to.Sub(m.from), Width: b.front.Sub(b.rear), Thick: b.thick(role), Grain: piece.AlongLength, Path: "body"}
	up := b.foot.Add(b.height)
	m.face = piece.FaceB
	switch m.index {
	case left:
		p.Role, p.Pose = piece.Side, upright3
		p.Origin = [3]trace.Num{b.inner[left], b.foot.Add(m.from), b.front}
		p.NameA, p.NameB, p.Show = "left face, outside", "right face, inside", piece.FaceA
		m.along = func(c trace.Num) trace.Num { return b.u(left, c).Sub(m.from) }
	case top:
		p.Role, p.Pose = piece.Top, horizontal3
		p.Origin = [3]trace.Num{m.from, up.Sub(b.inner[top]), b.front}
		p.NameA, p.NameB, p.Show = "upper face, outside", "underside, inside", piece.FaceA
		m.along = func(c trace.Num) trace.Num { return b.u(top, c).Sub(m.from) }
	case right:
		p.Role, p.Pose, m.face = piece.Side, upright3, piece.FaceA
		p.Origin = [3]trace.Num{b.width, up.Sub(m.to), b.front}
		p.NameA, p.NameB, p.Show = "left face, inside", "right face, outside", piece.FaceB
		m.along = func(c trace.Num) trace.Num { return m.to.Sub(b.u(right, c)) }
	case bottom:
		p.Role, p.Pose, m.face = piece.Bottom, horizontal3, piece.FaceA
		p.Origin = [3]trace.Num{b.width.Sub(m.to), b.foot, b.front}
		p.NameA, p.NameB = "upper face, inside", "underside"
		m.along = func(c trace.Num) trace.Num { return m.to.Sub(b.u(bottom, c)) }
	}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	m.part = b.add(p)
	m.legs[0].part, m.legs[0].along = m.part, m.along
}

// squareCorner cuts the rabbet of corner c, if it has one, and books the joint.
func (b *builder) squareCorner(c int) {
	before, after := (c+3)%4, c
	a, in := b.members[before], b.members[after]
	if b.through(after, c) {
		a, in = in, a
	} else if !b.through(before, c) {
		b.errorAt(b.corner(c).Path, "who-runs-through", "neither part runs through at the "+design.CornerNames[c],
			fmt.Sprintf("Say 'runs through: %s' or 'runs through: side'.", map[bool]string{true: "top", false: "bottom"}[c == 1 || c == 2]))
		return
	}
	depth := b.entry(c)
	kind := b.corner(c).Joint
	var pegs *piece.Pegs
	if kind == screw { // glued, and screwed
		kind, pegs = "butt", &piece.Pegs{Kind: screw}
	}
	if depth.V > 0 && b.runsOn(a.index, c) {
		b.bottomHousing(a, in, c, depth)
		return
	}
	if depth.V > 0 {
		b.cornerRabbet(a, c, depth)
	}
	enter, also := cornerMoves(in.index, a.index)
	area := b.inner[0].Mul(b.front.Sub(b.rear))
	if kind == "rabbet" {
		area = b.inner[0].Add(depth).Mul(b.front.Sub(b.rear))
	}
	j := piece.Joint{Kind: kind, A: a.part.ID, B: in.part.ID, Enter: enter, Depth: depth, Glued: true, Area: area, Path: b.corner(c).Path, Pegs: pegs}
	if kind == "rabbet" {
		j.Also = also
	}
	b.join(j)
}

// cornerRabbet takes the rabbet from the end of the member that runs through:
// as wide as the other is thick, on the face that looks inside.
func (b *builder) cornerRabbet(a *member, c int, depth trace.Num) {
	s := b.surface(a.index)
	t := b.inner[0]
	outer := trace.Num{} // the corner's coordinate along the member, in the piece
	inward := t
	switch a.index {
	case left, right:
		outer = b.foot
		if c == 1 || c == 2 {
			outer, inward = b.foot.Add(b.height), t.Neg()
		}
	default:
		if c == 2 || c == 3 {
			outer, inward = b.width, t.Neg()
		}
	}
	s.pocket(piece.Rabbet, outer, outer.Add(inward), b.rear, b.front, depth, "corner "+design.CornerNames[c])
}

// cornerMoves returns the directions in which member 'in' can enter member 'a':
// towards a's inner face, and from the open end of a's rabbet.
func cornerMoves(in, a int) (r3.Vec, []r3.Vec) {
	outward := [4]r3.Vec{{X: -1}, {Y: 1}, {X: 1}, {Y: -1}}
	return outward[a], []r3.Vec{outward[in].Mul(-1)}
}

// edgeRabbets takes the rabbet for the back from the members' rear edges, or
// that for the front panel from their front edges, over their whole length.
func (b *builder) edgeRabbets(why string, wide, deep trace.Num, path string, rear bool) {
	for _, p := range b.shellParts() {
		face := piece.FaceB
		for _, m := range b.members {
			if m != nil && m.part == p {
				face = m.face
			}
		}
		y0, y1 := trace.Num{}, wide
		if rear {
			y0, y1 = p.Width.Sub(wide), p.Width
		}
		cut(p, piece.Cut{Kind: piece.Rabbet, Face: face, X0: trace.Num{}, X1: p.Length, Y0: y0, Y1: y1, Depth: deep, For: why})
		if deep.V >= p.Thick.V {
			b.errorAt(path, "rabbet-deep", "the rabbet for the "+why+" is as deep as the shell is thick",
				fmt.Sprintf("It takes %.1f mm of %.1f mm.", deep.V, p.Thick.V))
		}
	}
}

const quarter = math.Pi / 2
