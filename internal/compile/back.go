package compile

import (
	"math"

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
		Length: b.width.Sub(in.Scale(2)), Width: b.height.Sub(in).Sub(b.headIn(in)), Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face, inside", NameB: "rear face, to the wall", Show: piece.FaceA, Path: w.Path}
	p.Origin = [3]trace.Num{in, b.foot.Add(in), {}}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	if p.Width.V > p.Length.V {
		p.Grain = piece.AlongWidth // sheets are longest along their face grain
	}
	p.Outline = corners4{0, 0, p.Length.V, p.Width.V, b.rounds(in)}.outline()
	b.add(p)
	depth, broad := trace.Num{}, b.inner[0]
	if kind == "rabbet" {
		depth, broad = w.Depth, w.Depth
	}
	for _, a := range b.shellParts() {
		b.join(piece.Joint{Kind: kind, A: a.ID, B: p.ID, Enter: enter, Depth: depth, Glued: true,
			Area: a.Length.Mul(broad), Path: w.Path})
	}
}

// headIn is how far a panel that lies 'in' from the body's outside keeps from
// its head: nothing where the body is open there.
func (b *builder) headIn(in trace.Num) trace.Num {
	if b.absent(top) {
		return trace.Num{}
	}
	return in
}

// frontIn is the depth of the rabbet for the panel that closes the front.
func (b *builder) frontIn() trace.Num { return b.inner[0].Mul(b.d.Shop.Habits.RabbetShare) }

// frontPanel closes the front of a body that is open at the top only: in a
// rabbet, as a back is.
func (b *builder) frontPanel() {
	if b.frontThick.V <= 0 {
		return
	}
	role := b.role("front panel")
	play := b.constant("rule.back play", 0.5, "a back is cut 0.5 mm smaller than its rabbet on each side: common practice, no source")
	in := b.inner[0].Sub(b.frontIn()).Add(play)
	p := &piece.Part{ID: "front panel", Name: "front panel", Role: piece.FrontPanel, Stock: role.Stock, Thick: b.frontThick,
		Length: b.width.Sub(in.Scale(2)), Width: b.height.Sub(in).Sub(b.headIn(in)), Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face, outside", NameB: "rear face, inside", Show: piece.FaceA, Path: "body.open"}
	p.Origin = [3]trace.Num{in, b.foot.Add(in), b.face()}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	p.Outline = corners4{0, 0, p.Length.V, p.Width.V, b.rounds(in)}.outline()
	b.add(p)
	for _, a := range b.shellParts() {
		b.join(piece.Joint{Kind: "rabbet", A: a.ID, B: p.ID, Enter: r3.Vec{Z: -1}, Depth: b.frontIn(), Glued: true,
			Area: a.Length.Mul(b.frontIn()), Path: "body.open"})
	}
}
