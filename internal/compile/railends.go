package compile

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/trace"
)

// railEnd is the end of a rail that follows a bend: the radius of its curve,
// the curve's centre, and the x of its outermost point. Touch is how long it lies
// along the shell, straight and round; in, how far inwards its head begins.
type railEnd struct {
	touch, in      trace.Num
	x              trace.Num
	radius         float64
	centre         r2.Vec
	toX            float64 // +1: the right end
	straightAtFoot bool
}

// railEnd finds where a rail's end meets the inside of the bend at corner c: the
// largest convex curve that the rib tips take (bend.Plan.RailRadius), about the
// bend's own centre. Mirrored, a rail at the bottom is one at the top: low is
// then the body's height less the rail's.
func (b *builder) railEnd(c int, y0 trace.Num, atBottom bool) *railEnd {
	k := b.corner(c)
	radius := b.tipRadius(c)
	cx, cy := k.Radius, b.foot.Add(b.height).Sub(k.Radius)
	e := &railEnd{toX: -1}
	if c == 2 || c == 3 {
		cx, e.toX = b.width.Sub(k.Radius), 1
	}
	e.radius, e.centre = radius.V, r2.Vec{X: cx.V, Y: cy.V}
	if atBottom { // the same in a mirror half way up the body
		y0 = b.foot.Scale(2).Add(b.height).Sub(y0)
	}
	below := y0.Sub(cy) // height of the rail's foot over the bend's centre
	reach := radius
	if below.V > 0 {
		reach = radius.Mul(radius).Sub(below.Mul(below)).Sqrt()
	} else {
		e.straightAtFoot = true
	}
	e.x = cx.Add(reach.Scale(e.toX))
	e.lies(radius, below, reach, k.Radius.Sub(b.inner[0]))
	return e
}

// lies finds how far the end lies along the shell: from the rail's foot straight
// up to the tangent point, where the foot is under the bend's centre, and round
// to the head, which lies so far over the centre as head says.
func (e *railEnd) lies(radius, below, reach, head trace.Num) {
	from, to, level := trace.Num{}, trace.Const(math.Pi/2), trace.Num{} // angles, and the head's end from the centre
	if below.V > 0 {
		from = arcsine(below.Div(radius))
	}
	if head.V < radius.V*(1-1e-6) {
		to = arcsine(head.Div(radius))
		level = radius.Mul(radius).Sub(head.Mul(head)).Sqrt()
	}
	e.touch = radius.Mul(to.Sub(from))
	if e.straightAtFoot {
		e.touch = e.touch.Sub(below)
	}
	e.in = reach.Sub(level)
}

func arcsine(r trace.Num) trace.Num {
	return r.Apply(math.Asin(r.V), 1/math.Sqrt(1-r.V*r.V))
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
