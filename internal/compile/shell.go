package compile

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
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
}

// surface returns the inner face of the member.
func (b *builder) surface(i int) surface {
	m := b.members[i]
	return surface{m.part, m.face, m.along}
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

func (b *builder) corner(i int) design.Corner { return b.d.Body.Corners[design.CornerNames[i%4]] }

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
	return b.inner[0].Mul(b.d.Shop.Habits.RabbetShare)
}

// shell makes the four members' parts and the joints at square corners.
func (b *builder) shell() {
	b.checkRadii()
	if b.diags.HasErrors() {
		return
	}
	for i := range b.members {
		b.members[i] = b.member(i)
	}
	for _, run := range b.runs() {
		if len(run) == 1 {
			b.straight(b.members[run[0]])
		} else {
			b.strip(run)
		}
	}
	for c := range 4 {
		if !b.corner(c).Bent {
			b.squareCorner(c)
		}
	}
	if b.d.Back != nil && b.d.Back.Set == "rabbet" {
		for i := range b.members {
			b.backRabbet(i)
		}
	}
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
	if b.corner(0).Bent && b.corner(1).Bent && b.corner(2).Bent && b.corner(3).Bent {
		b.errorAt("body.corners", "closed-loop", "a shell with four bent corners needs a seam, which is not built yet",
			"Leave one corner square, with a joint.")
	}
}

// member finds where the wood of member i starts and ends.
func (b *builder) member(i int) *member {
	m := &member{index: i}
	ends := [2]trace.Num{}
	for e, c := range []int{i, i + 1} {
		switch k := b.corner(c); {
		case k.Bent:
			ends[e] = k.Radius
		case !b.through(i, c):
			ends[e] = b.inner[0].Sub(b.entry(c))
		}
	}
	m.from, m.to = ends[0], b.span(i).Sub(ends[1])
	return m
}

// runs groups the members into strips: rows of members that meet at bent
// corners, each row in clockwise order.
func (b *builder) runs() [][]int {
	start := 0
	for i := range 4 {
		if !b.corner(i).Bent {
			start = i
			break
		}
	}
	var runs [][]int
	for k := range 4 {
		i := (start + k) % 4
		if k > 0 && b.corner(i).Bent {
			runs[len(runs)-1] = append(runs[len(runs)-1], i)
		} else {
			runs = append(runs, []int{i})
		}
	}
	return runs
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
}

// strip makes a run of members that meet at bent corners one part.
func (b *builder) strip(run []int) {
	role := b.role("shell")
	over := b.d.Shop.Habits.Oversize
	var names []string
	for _, i := range run {
		names = append(names, memberNames[i])
	}
	p := &piece.Part{ID: "shell", Role: piece.Strip, Stock: role.Stock, Thick: b.thick(role),
		Name: "shell: " + strings.Join(names, " and "), Width: b.front.Sub(b.rear), Grain: piece.AlongLength,
		NameA: "show face, outside", NameB: "kerfed face, inside", Show: piece.FaceA, Path: "body",
		Pose: r3.Identity()}
	p.ID = b.stripID(run)
	x := trace.Num{}
	at, dir := b.startOf(run[0])
	for k, i := range run {
		m := b.members[i]
		m.part, m.face = p, piece.FaceB
		start := x
		m.along = func(c trace.Num) trace.Num { return start.Add(b.u(i, c).Sub(m.from)) }
		flat := m.to.Sub(m.from)
		p.Run = append(p.Run, piece.Stretch{X0: x.V, X1: x.Add(flat).V, From: at, Dir: dir})
		at, x = at.Add(dir.Mul(flat.V)), x.Add(flat)
		if k == len(run)-1 {
			break
		}
		bend := b.bend((i+1)%4, x)
		p.Bends = append(p.Bends, bend)
		p.Run = append(p.Run, piece.Stretch{X0: x.V, X1: x.Add(bend.Length).V, From: at, Dir: dir, Radius: bend.Radius.V, Angle: bend.Angle.V})
		centre := at.Sub(dir.Left().Mul(bend.Radius.V))
		at, dir = centre.Add(at.Sub(centre).Turn(-bend.Angle.V)), dir.Turn(-bend.Angle.V)
		x = x.Add(bend.Length)
	}
	p.Length = x
	p.BlankLength, p.BlankWidth = p.Length.Add(over.Scale(2)), p.Width
	p.Origin = [3]trace.Num{{}, {}, b.front}
	p.Outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	b.add(p)
	p.Pose = r3.Identity()
}

// stripID keeps the plain name 'shell' for the only strip.
func (b *builder) stripID(run []int) string {
	n := 0
	for _, r := range b.runs() {
		if len(r) > 1 {
			n++
		}
	}
	if n == 1 {
		return "shell"
	}
	return "shell from " + memberNames[run[0]]
}

// startOf returns the place of member i's outer face where its wood starts, and
// the direction in which it runs.
func (b *builder) startOf(i int) (r2.Vec, r2.Vec) {
	f, h := b.foot.V, b.foot.Add(b.height).V
	u := b.members[i].from.V
	switch i {
	case left:
		return r2.Vec{X: 0, Y: f + u}, r2.Vec{Y: 1}
	case top:
		return r2.Vec{X: u, Y: h}, r2.Vec{X: 1}
	case right:
		return r2.Vec{X: b.width.V, Y: h - u}, r2.Vec{Y: -1}
	}
	return r2.Vec{X: b.width.V - u, Y: f}, r2.Vec{X: -1}
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
	if depth.V > 0 {
		b.cornerRabbet(a, c, depth)
	}
	kind := b.corner(c).Joint
	enter, also := cornerMoves(in.index, a.index)
	area := b.inner[0].Mul(b.front.Sub(b.rear))
	if kind == "rabbet" {
		area = b.inner[0].Add(depth).Mul(b.front.Sub(b.rear))
	}
	j := piece.Joint{Kind: kind, A: a.part.ID, B: in.part.ID, Enter: enter, Depth: depth, Glued: true, Area: area, Path: b.corner(c).Path}
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

// backRabbet takes the rabbet for the back from the rear edge of member i, over
// its straight stretch; a bend's share is taken with the strip as a whole.
func (b *builder) backRabbet(i int) {
	m := b.members[i]
	p := m.part
	for _, c := range p.Cuts {
		if c.For == "back" {
			return // a strip has one rabbet from end to end
		}
	}
	w := p.Width
	cut(p, piece.Cut{Kind: piece.Rabbet, Face: m.face, X0: trace.Num{}, X1: p.Length,
		Y0: w.Sub(b.backThick), Y1: w, Depth: b.d.Back.Depth, For: "back"})
	if b.d.Back.Depth.V >= p.Thick.V {
		b.errorAt(b.d.Back.Path, "rabbet-deep", "the back's rabbet is as deep as the shell is thick",
			fmt.Sprintf("It takes %.1f mm of %.1f mm.", b.d.Back.Depth.V, p.Thick.V))
	}
}

const quarter = math.Pi / 2
