package making

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// corner is what an outline lacks of its rectangle at one corner, with its
// centre in the part's frame.
type corner struct{ area, x, y trace.Num }

// corners lists what the outline lacks of the rectangle of length and width:
// where it follows a bend of the shell the missing piece hangs on the bend's
// radius; whatever else is missing, and is not booked as a notch, is taken as
// it is.
func corners(p *piece.Piece, q *piece.Part) []corner {
	whole := q.Length.V * q.Width.V
	lacks := whole - q.Outline.Area()
	if len(q.Outline) == 0 || math.Abs(lacks) <= 1e-9*whole {
		return nil
	}
	var out []corner
	for l := range q.Outline.All {
		for _, e := range l.Edges() {
			if c, ok := cornerOf(p, q, e); ok {
				out = append(out, c)
			}
		}
	}
	// What is left of the missing moment, once what is known is taken from it,
	// says where the rest lies.
	c := q.Outline.Centroid()
	rest := lacks
	first := r2.Vec{X: q.Length.V / 2, Y: q.Width.V / 2}.Mul(whole).Sub(c.Mul(whole - lacks))
	take := func(area, x, y float64) {
		rest -= area
		first = first.Sub(r2.Vec{X: x, Y: y}.Mul(area))
	}
	for _, k := range out {
		take(k.area.V, k.x.V, k.y.V)
	}
	for _, k := range q.Cuts {
		if k.Kind == piece.Notch {
			take((k.X1.V-k.X0.V)*(k.Y1.V-k.Y0.V), (k.X0.V+k.X1.V)/2, (k.Y0.V+k.Y1.V)/2)
		}
	}
	if math.Abs(rest) > 1e-7*whole {
		at := first.Mul(1 / rest)
		out = append(out, corner{trace.Step(rest, q.Length, q.Width), trace.Const(at.X), trace.Const(at.Y)})
	}
	return out
}

// cornerOf tells what an arc leaves of the corner beside it: a quarter round
// between two sides, or an end that runs from a corner of the foot (y = 0) to
// the head along the inside of a bend.
func cornerOf(p *piece.Piece, q *piece.Part, e planar.Edge) (corner, bool) {
	if e.Bulge <= 0 {
		return corner{}, false
	}
	left := (e.A.X + e.B.X) < q.Length.V
	low := (e.A.Y + e.B.Y) < q.Width.V
	chord := e.B.Sub(e.A)
	turn := 4 * math.Atan(e.Bulge)
	radius := chord.Len() / 2 / math.Sin(turn/2)
	b := bendAt(p, q, left, low)
	if b == nil {
		return corner{}, false
	}
	r := tracedRadius(p, q, b, radius)
	var h, high trace.Num
	switch {
	case math.Abs(turn-math.Pi/2) < 1e-6 && square(chord):
		high = r
	case !low || touchesFoot(e):
		high = q.Width
		h = r.Sub(q.Width)
	}
	if h.V < 0 || high.V <= 0 || h.V+high.V > r.V+1e-6 {
		return corner{}, false
	}
	return lacking(q, r, h, high, left, low && h.V == 0), true
}

// square tells whether the chord of a quarter round lies at 45°.
func square(c r2.Vec) bool { return math.Abs(math.Abs(c.X)-math.Abs(c.Y)) < 1e-6*c.Len() }

func touchesFoot(e planar.Edge) bool { return math.Min(e.A.Y, e.B.Y) < 1e-6 }

// lacking is the region between a side and a circle of radius r, from the
// height h over the circle's centre up by high, where the circle touches the
// side's line at its lower end: in closed form, with S the area under the arc.
func lacking(q *piece.Part, r, h, high trace.Num, left, low bool) corner {
	args := []trace.Num{r, h, high}
	if h.V == 0 { // a quarter round: as high as its radius, whatever that is
		args = []trace.Num{r}
	}
	n := trace.LiftN(func(x []float64) []float64 {
		if len(x) == 1 {
			return underArc(x[0], 0, x[0])
		}
		return underArc(x[0], x[1], x[2])
	}, args...)
	c := corner{area: n[0], x: n[1], y: n[2]}
	if h.V == 0 { // told from the corner itself
		c.y = high.Sub(n[2])
	}
	if !left {
		c.x = q.Length.Sub(c.x)
	}
	if h.V == 0 && !low {
		c.y = q.Width.Sub(c.y)
	}
	return c
}

// underArc is the area between side and arc, and its centre across from the
// side and up from the foot.
func underArc(r, h, high float64) []float64 {
	under := func(u float64) float64 { return (u*math.Sqrt(max(0, r*r-u*u)) + r*r*math.Asin(min(1, u/r))) / 2 }
	cube := func(v float64) float64 { return math.Pow(max(0, r*r-v*v), 1.5) / 3 }
	reach, u := math.Sqrt(max(0, r*r-h*h)), h+high
	s := under(u) - under(h)
	area := reach*high - s
	across := (reach*reach*high - 2*reach*s + r*r*high - (u*u*u-h*h*h)/3) / 2
	up := reach*high*high/2 - (cube(h) - cube(u) - h*s)
	return []float64{area, across / area, up / area}
}

// bendAt returns the bend at the corner of the piece that a part's corner looks
// to.
func bendAt(p *piece.Piece, q *piece.Part, left, low bool) *piece.Bend {
	v := r3.Vec{X: q.Length.V, Y: q.Width.V}
	if left {
		v.X = 0
	}
	if low {
		v.Y = 0
	}
	at := q.Pose.At(v)
	name := "top"
	if at.Y < p.Height.V/2 {
		name = "bottom"
	}
	mid := q.Pose.At(r3.Vec{X: q.Length.V / 2, Y: q.Width.V / 2})
	if at.X < mid.X {
		name += " left"
	} else {
		name += " right"
	}
	for _, o := range p.Parts {
		for i := range o.Bends {
			if o.Bends[i].Corner == name {
				return &o.Bends[i]
			}
		}
	}
	return nil
}

// tracedRadius finds what the radius of a rounded corner hangs on: the bend's
// radius less the part's distance from the body's outside, or the bend's rail.
func tracedRadius(p *piece.Piece, q *piece.Part, b *piece.Bend, radius float64) trace.Num {
	lo, hi := reach(q, 0)
	in := lo
	if b.Corner == "top right" || b.Corner == "bottom right" {
		in = p.Width.Sub(hi)
	}
	for _, n := range []trace.Num{b.Radius.Sub(in), b.RailRadius} {
		if math.Abs(n.V-radius) < 1e-6 {
			return n
		}
	}
	return trace.Step(radius, b.Radius)
}

// reach is where a flat part lies along an axis of the piece.
func reach(q *piece.Part, k int) (lo, hi trace.Num) {
	lo = origin(q, k)
	hi = lo
	for i, size := range []trace.Num{q.Length, q.Width, q.Thick} {
		switch d := axis(q, i, k); {
		case d > 0.5:
			hi = hi.Add(size)
		case d < -0.5:
			lo = lo.Sub(size)
		}
	}
	return lo, hi
}
