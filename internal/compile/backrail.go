package compile

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// corners4 is an upright rectangle in the front view whose corners may be round.
type corners4 struct {
	x0, y0, x1, y1 float64
	round          [4]float64 // radius by corner: bottom left, top left, top right, bottom right
}

// outline returns the shape with its lower left corner at the origin.
func (c corners4) outline() planar.Region {
	w, h := c.x1-c.x0, c.y1-c.y0
	r := c.round
	quarterBulge := math.Tan(math.Pi / 8)
	var l planar.Loop
	corner := func(at, in, out r2.Vec, radius float64) {
		if radius <= 0 {
			l = append(l, planar.Vertex{P: at})
			return
		}
		l = append(l, planar.Vertex{P: at.Add(in.Mul(radius)), Bulge: quarterBulge}, planar.Vertex{P: at.Add(out.Mul(radius))})
	}
	// Anticlockwise: bottom left, bottom right, top right, top left.
	corner(r2.Vec{}, r2.Vec{Y: 1}, r2.Vec{X: 1}, r[0])
	corner(r2.Vec{X: w}, r2.Vec{X: -1}, r2.Vec{Y: 1}, r[3])
	corner(r2.Vec{X: w, Y: h}, r2.Vec{Y: -1}, r2.Vec{X: -1}, r[2])
	corner(r2.Vec{Y: h}, r2.Vec{X: 1}, r2.Vec{Y: -1}, r[1])
	return planar.Region{{Outer: l}}
}

// rounds returns the radii of the four corners of a panel that lies inset from
// the body's outside by 'in', square where the body is square.
func (b *builder) rounds(in trace.Num) [4]float64 {
	var r [4]float64
	for c := range 4 {
		if k := b.corner(c); k.Bent {
			r[c] = math.Max(0, k.Radius.V-in.V)
		}
	}
	return r
}

// back makes the panel that closes the body behind.
func (b *builder) back() {
	w := b.d.Back
	if w == nil {
		return
	}
	in := trace.Num{} // from the body's outside to the panel's edge
	kind, enter := "on", r3.Vec{Z: 1}
	if w.Set == "rabbet" {
		kind = "rabbet"
		play := b.constant("rule.back play", 0.5, "a back is cut 0.5 mm smaller than its rabbet on each side: common practice, no source")
		in = b.inner[0].Sub(w.Depth).Add(play)
	}
	role := b.pick(w.Role, "back")
	p := &piece.Part{ID: "back", Name: "back", Role: piece.BackPanel, Stock: role.Stock, Thick: b.thick(role),
		Length: b.width.Sub(in.Scale(2)), Width: b.height.Sub(in.Scale(2)), Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face, inside", NameB: "rear face, to the wall", Show: piece.FaceA, Path: w.Path}
	p.Origin = [3]trace.Num{in, b.foot.Add(in), {}}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	p.Outline = corners4{0, 0, p.Length.V, p.Width.V, b.rounds(in)}.outline()
	b.add(p)
	done := map[string]bool{}
	for i := range b.members {
		a := b.members[i].part
		if done[a.ID] {
			continue
		}
		done[a.ID] = true
		depth := trace.Num{}
		if kind == "rabbet" {
			depth = w.Depth
		}
		broad := b.inner[0]
		if depth.V > 0 {
			broad = depth
		}
		b.join(piece.Joint{Kind: kind, A: a.ID, B: p.ID, Enter: enter, Depth: depth, Glued: true,
			Area: a.Length.Mul(broad), Path: w.Path})
	}
}

// railThick is the thickness of the rail at the top back, 0 without one.
func (b *builder) railThick() trace.Num {
	if len(b.d.Rails) == 0 {
		return trace.Num{}
	}
	return b.thick(b.pick(b.d.Rails[0].Role, "rails", "panels"))
}

// rails makes the board under the top, in front of the back, from side to side;
// where the shell bends its end follows the bend.
func (b *builder) rails() {
	for i := range b.d.Rails {
		if i > 0 {
			b.errorAt(b.d.Rails[i].Path, "not-yet", "a second rail is not built yet", "Only one rail, at the top back.")
			return
		}
		b.rail(b.d.Rails[i])
	}
}

func (b *builder) rail(w design.Rail) {
	role := b.pick(w.Role, "rails", "panels")
	p := &piece.Part{ID: "rail", Name: "rail, top back", Role: piece.Rail, Stock: role.Stock, Thick: b.thick(role),
		Width: w.Height, Grain: piece.AlongLength, Pose: facing3, Path: w.Path,
		NameA: "front face", NameB: "rear face, to the back", Show: piece.FaceA}
	y0 := b.ceilY().Sub(w.Height)
	x0, x1 := b.inner[left], b.width.Sub(b.inner[right])
	ends := [2]*railEnd{}
	for e, c := range []int{1, 2} {
		k := b.corner(c)
		if !k.Bent {
			continue
		}
		if !w.Follow {
			b.errorAt(w.Path, "rail-must-follow", "the rail runs into the bend", "Write 'follow: shell', and its end is cut to the bend's inside.")
			return
		}
		ends[e] = b.railEnd(c, y0)
		if e == 0 {
			x0 = ends[e].x
		} else {
			x1 = ends[e].x
		}
	}
	p.Length = x1.Sub(x0)
	p.Origin = [3]trace.Num{x0, y0, b.backThick}
	over := trace.Num{}
	if ends[0] != nil || ends[1] != nil {
		over = b.d.Shop.Habits.Oversize.Scale(2)
	}
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width
	p.Outline = railOutline(p.Length.V, p.Width.V, x0.V, y0.V, ends)
	b.add(p)
	b.railJoints(p, w)
}

// railEnd is the end of a rail that follows a bend: the radius of its curve,
// the curve's centre, and the x of its outermost point.
type railEnd struct {
	x              trace.Num
	radius         float64
	centre         r2.Vec
	toX            float64 // +1: the right end
	straightAtFoot bool
}

// railEnd finds where a rail's end meets the inside of the bend at corner c: the
// largest convex curve that the rib tips take (bend.Plan.RailRadius), about the
// bend's own centre.
func (b *builder) railEnd(c int, y0 trace.Num) *railEnd {
	k := b.corner(c)
	radius := k.Radius.Sub(b.inner[0])
	cx, cy := k.Radius, b.foot.Add(b.height).Sub(k.Radius)
	e := &railEnd{toX: -1}
	if c == 2 {
		cx, e.toX = b.width.Sub(k.Radius), 1
	}
	for _, m := range b.members {
		for _, bd := range m.part.Bends {
			if bd.Corner == design.CornerNames[c] && bd.RailRadius.V > 0 {
				radius = bd.RailRadius
			}
		}
	}
	e.radius, e.centre = radius.V, r2.Vec{X: cx.V, Y: cy.V}
	below := y0.Sub(cy) // height of the rail's foot over the bend's centre
	reach := radius
	if below.V > 0 {
		reach = radius.Mul(radius).Sub(below.Mul(below)).Sqrt()
	} else {
		e.straightAtFoot = true
	}
	e.x = cx.Add(reach.Scale(e.toX))
	return e
}

// railOutline draws the rail in its own frame: square ends, or arcs from the
// rail's foot (or the tangent point above it) to its head.
func railOutline(l, w, x0, y0 float64, ends [2]*railEnd) planar.Region {
	local := func(v r2.Vec) r2.Vec { return r2.Vec{X: v.X - x0, Y: v.Y - y0} }
	loop := planar.Loop{{P: r2.Vec{}}, {P: r2.Vec{X: l}}}
	if e := ends[1]; e == nil {
		loop = append(loop, planar.Vertex{P: r2.Vec{X: l, Y: w}})
	} else {
		loop = appendArc(loop, local(e.centre), e.radius, w, e, false)
	}
	if e := ends[0]; e == nil {
		loop = append(loop, planar.Vertex{P: r2.Vec{Y: w}})
	} else {
		loop = appendArc(loop, local(e.centre), e.radius, w, e, true)
	}
	return planar.Region{{Outer: loop}}
}

// appendArc adds the curved end: anticlockwise round the outline the right end
// climbs to the head, the left end comes down from it.
func appendArc(loop planar.Loop, c r2.Vec, r, w float64, e *railEnd, isLeft bool) planar.Loop {
	top := r2.Vec{X: c.X + e.toX*math.Sqrt(math.Max(0, r*r-(w-c.Y)*(w-c.Y))), Y: w}
	crown := []planar.Vertex(nil) // the head runs level to the tangent point, and steps down to the arc there
	if w-c.Y > r {
		top = r2.Vec{X: c.X, Y: c.Y + r}
		crown = []planar.Vertex{{P: r2.Vec{X: c.X, Y: w}}}
	}
	foot := r2.Vec{X: c.X + e.toX*r, Y: c.Y}
	if !e.straightAtFoot {
		foot = r2.Vec{X: c.X + e.toX*math.Sqrt(math.Max(0, r*r-c.Y*c.Y)), Y: 0}
	}
	a0 := math.Atan2(foot.Y-c.Y, foot.X-c.X)
	a1 := math.Atan2(top.Y-c.Y, top.X-c.X)
	sweep := math.Abs(math.Remainder(a1-a0, 2*math.Pi))
	bulge := math.Tan(sweep / 4)
	if isLeft {
		loop = append(append(loop, crown...), planar.Vertex{P: top, Bulge: bulge})
		if e.straightAtFoot {
			loop = append(loop, planar.Vertex{P: foot})
		}
		return loop // the arc (or line) ends at the outline's first vertex
	}
	if e.straightAtFoot {
		loop = append(loop, planar.Vertex{P: foot, Bulge: bulge})
	} else {
		loop[len(loop)-1].Bulge = bulge
	}
	return append(append(loop, planar.Vertex{P: top}), crown...)
}

// railJoints books what the rail meets: the shell or sides at its ends, the top
// above it, and the dividers that are cut round it.
func (b *builder) railJoints(p *piece.Part, w design.Rail) {
	t := p.Thick
	ends := map[string]r3.Vec{b.members[left].part.ID: {X: -1}, b.members[right].part.ID: {X: 1}}
	ids := []string{b.members[left].part.ID}
	if r := b.members[right].part.ID; r != ids[0] {
		ids = append(ids, r)
	}
	for _, id := range ids {
		b.join(piece.Joint{Kind: "butt", A: id, B: p.ID, Enter: ends[id], Also: []r3.Vec{{Y: 1}, {Z: 1}}, Glued: true,
			Area: t.Mul(w.Height), Path: w.Path})
	}
	if id := b.members[top].part.ID; id != ids[0] && id != ids[len(ids)-1] {
		b.join(piece.Joint{Kind: "butt", A: id, B: p.ID, Enter: r3.Vec{Y: 1}, Also: []r3.Vec{{Z: 1}}, Glued: true,
			Area: t.Mul(p.Length), Path: w.Path})
	}
	for i := 1; i < len(b.uprights)-1; i++ {
		id := b.uprights[i].part.ID
		b.join(piece.Joint{Kind: "notch", A: id, B: p.ID, Enter: r3.Vec{Z: 1}, Also: []r3.Vec{{Y: -1}}, Glued: true,
			Area: t.Add(w.Height).Mul(b.uprights[i].part.Thick), Path: w.Path})
	}
}
