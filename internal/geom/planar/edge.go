package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// straight is the bulge below which an edge counts as a straight line: the
// sagitta of a chord of 4 m is then 2e-9 mm.
const straight = 1e-12

// Edge is one side of a loop: from A to B, straight or a circular arc. Bulge is
// that of Vertex.
type Edge struct {
	A, B  r2.Vec
	Bulge float64
}

// IsArc reports whether the edge is curved.
func (e Edge) IsArc() bool { return math.Abs(e.Bulge) > straight }

// Sweep returns the angle that the edge turns through, rad: positive to the
// left, 0 for a straight line.
func (e Edge) Sweep() float64 {
	if !e.IsArc() {
		return 0
	}
	return 4 * math.Atan(e.Bulge)
}

// Radius returns the radius of an arc in mm, and 0 for a straight line.
//
// With chord c and bulge b = tan(θ/4) the sagitta is bc/2, so r = c(1+b²)/(4|b|).
func (e Edge) Radius() float64 {
	if !e.IsArc() {
		return 0
	}
	return e.B.Sub(e.A).Len() * (1 + e.Bulge*e.Bulge) / (4 * math.Abs(e.Bulge))
}

// Center returns the centre of an arc; of a straight line its middle.
func (e Edge) Center() r2.Vec {
	c := e.B.Sub(e.A)
	m := e.A.Add(c.Mul(0.5))
	if !e.IsArc() {
		return m
	}
	return m.Add(c.Left().Mul((1 - e.Bulge*e.Bulge) / (4 * e.Bulge)))
}

// Len returns the length along the edge, mm.
func (e Edge) Len() float64 {
	if !e.IsArc() {
		return e.B.Sub(e.A).Len()
	}
	return e.Radius() * math.Abs(e.Sweep())
}

// At returns the point at share t (0 at A, 1 at B) of the way along the edge.
func (e Edge) At(t float64) r2.Vec {
	switch {
	case t == 0:
		return e.A
	case t == 1:
		return e.B
	case !e.IsArc():
		return e.A.Lerp(e.B, t)
	}
	c := e.Center()
	return c.Add(e.A.Sub(c).Turn(t * e.Sweep()))
}

// Tangent returns the unit direction of travel at share t of the way.
func (e Edge) Tangent(t float64) r2.Vec {
	c := e.B.Sub(e.A).Unit()
	if !e.IsArc() {
		return c
	}
	return c.Turn((t - 0.5) * e.Sweep())
}

// Reverse returns the edge walked the other way.
func (e Edge) Reverse() Edge { return Edge{e.B, e.A, -e.Bulge} }

// Part returns the stretch between the shares t0 < t1, with the given ends.
func (e Edge) part(t0, t1 float64, a, b r2.Vec) Edge {
	if !e.IsArc() {
		return Edge{A: a, B: b}
	}
	return Edge{a, b, math.Tan((t1 - t0) * e.Sweep() / 4)}
}

// share returns how far along the edge the point lies that is nearest to p,
// clamped to 0..1.
func (e Edge) share(p r2.Vec) float64 {
	if !e.IsArc() {
		d := e.B.Sub(e.A)
		if l := d.Dot(d); l > 0 {
			return min(1, max(0, p.Sub(e.A).Dot(d)/l))
		}
		return 0
	}
	c, sweep := e.Center(), e.Sweep()
	from, to := e.A.Sub(c), p.Sub(c)
	turn := math.Atan2(from.Cross(to), from.Dot(to)) // of p from A, -π..π
	if sweep < 0 {
		turn, sweep = -turn, -sweep
	}
	// Past either end the nearer end wins: the gap of the circle is halved.
	if turn < 0 && turn < (sweep-2*math.Pi)/2 {
		turn += 2 * math.Pi
	} else if turn > sweep && turn > sweep+(2*math.Pi-sweep)/2 {
		turn -= 2 * math.Pi
	}
	return min(1, max(0, turn/sweep))
}

// dist returns the distance from p to the edge, mm.
func (e Edge) dist(p r2.Vec) float64 { return p.Sub(e.At(e.share(p))).Len() }

// reach returns a box that holds the edge and may be a little larger: the
// chord's box, widened by the sagitta.
func (e Edge) reach() r2.Box {
	b := r2.EmptyBox().With(e.A).With(e.B)
	if !e.IsArc() {
		return b
	}
	if math.Abs(e.Bulge) > 1 {
		c, r := e.Center(), e.Radius()
		return r2.Box{Min: c, Max: c}.Grown(r)
	}
	return b.Grown(math.Abs(e.Bulge) * e.B.Sub(e.A).Len() / 2)
}

// extent returns the least and greatest value of p·d over the edge, exact.
func (e Edge) extent(d r2.Vec) (lo, hi float64) {
	lo, hi = e.A.Dot(d), e.B.Dot(d)
	if lo > hi {
		lo, hi = hi, lo
	}
	l := d.Len()
	if !e.IsArc() || l == 0 {
		return lo, hi
	}
	c, r := e.Center(), e.Radius()
	if e.spans(d) {
		hi = max(hi, c.Dot(d)+r*l)
	}
	if e.spans(d.Mul(-1)) {
		lo = min(lo, c.Dot(d)-r*l)
	}
	return lo, hi
}

// spans reports whether the arc has a point in direction d from its centre.
func (e Edge) spans(d r2.Vec) bool {
	turn, sweep := e.turnTo(d), e.Sweep()
	if sweep < 0 {
		turn, sweep = -turn, -sweep
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	return turn <= sweep
}

// turnTo returns the angle from the arc's start to direction d from its
// centre, -π..π.
func (e Edge) turnTo(d r2.Vec) float64 {
	from := e.A.Sub(e.Center())
	return math.Atan2(from.Cross(d), from.Dot(d))
}

// Edge returns the i-th edge of the loop.
func (l Loop) Edge(i int) Edge {
	j := i + 1
	if j == len(l) {
		j = 0
	}
	return Edge{l[i].P, l[j].P, l[i].Bulge}
}

// Edges returns all edges in order.
func (l Loop) Edges() []Edge {
	es := make([]Edge, len(l))
	for i := range l {
		es[i] = l.Edge(i)
	}
	return es
}

// All yields the loops of all shapes, each outer loop before its holes.
func (r Region) All(yield func(Loop) bool) {
	for _, s := range r {
		if !yield(s.Outer) {
			return
		}
		for _, h := range s.Holes {
			if !yield(h) {
				return
			}
		}
	}
}

// Loops returns the loops of all shapes, each outer loop before its holes.
func (r Region) Loops() []Loop {
	n := 0
	for _, s := range r {
		n += 1 + len(s.Holes)
	}
	ls := make([]Loop, 0, n)
	for l := range r.All {
		ls = append(ls, l)
	}
	return ls
}
