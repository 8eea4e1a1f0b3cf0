package planar

import (
	"errors"
	"fmt"
	"math"

	"rodwork/internal/geom/r2"
)

// Rect returns the upright rectangle between two opposite corners, in any
// order; a region without shapes where it has no area.
func Rect(x0, y0, x1, y1 float64) Region {
	x0, x1 = min(x0, x1), max(x0, x1)
	y0, y1 = min(y0, y1), max(y0, y1)
	if !(x1 > x0 && y1 > y0) {
		return nil
	}
	return Region{{Outer: Polygon(r2.Vec{X: x0, Y: y0}, r2.Vec{X: x1, Y: y0}, r2.Vec{X: x1, Y: y1}, r2.Vec{X: x0, Y: y1})}}
}

// Polygon returns the loop with straight edges through the points, in the
// direction given.
func Polygon(ps ...r2.Vec) Loop {
	l := make(Loop, len(ps))
	for i, p := range ps {
		l[i].P = p
	}
	return l
}

// Circle returns a full circle as two half turns, anticlockwise, starting at
// its leftmost point.
func Circle(c r2.Vec, radius float64) Loop {
	return Loop{
		{P: r2.Vec{X: c.X - radius, Y: c.Y}, Bulge: 1},
		{P: r2.Vec{X: c.X + radius, Y: c.Y}, Bulge: 1},
	}
}

// Disc returns the region of a full circle; without shapes where radius ≤ 0.
func Disc(c r2.Vec, radius float64) Region {
	if !(radius > 0) {
		return nil
	}
	return Region{{Outer: Circle(c, radius)}}
}

// Of returns the region of one outer loop with holes, each loop turned the
// right way round.
func Of(outer Loop, holes ...Loop) Region {
	s := Shape{Outer: outer.turned(true)}
	for _, h := range holes {
		s.Holes = append(s.Holes, h.turned(false))
	}
	return Region{s}
}

func (l Loop) turned(anticlockwise bool) Loop {
	if (l.Area() > 0) == anticlockwise {
		return l
	}
	return l.Reverse()
}

// Corner is a corner of an outline before it is rounded: Round is the radius
// of the arc that takes its place, 0 for a sharp one.
type Corner struct {
	P     r2.Vec
	Round float64
}

// Rounded returns the loop through the corners in order, each rounded by its
// radius. It fails where a rounding does not fit between its neighbours.
func Rounded(corners ...Corner) (Loop, error) {
	n := len(corners)
	if n < 3 {
		return nil, errors.New("planar: an outline needs three corners or more")
	}
	var l Loop
	used := make([]float64, n) // of the edge that leaves corner i, mm
	for i, c := range corners {
		before, after := corners[(i+n-1)%n].P, corners[(i+1)%n].P
		if !(c.Round > 0) {
			l = append(l, Vertex{P: c.P})
			continue
		}
		f, err := Fillet(before, c.P, after, c.Round)
		if err != nil {
			return nil, fmt.Errorf("planar: corner %d: %w", i+1, err)
		}
		used[(i+n-1)%n] += f.A.Sub(c.P).Len()
		used[i] += f.B.Sub(c.P).Len()
		l = append(l, Vertex{P: f.A, Bulge: f.Bulge}, Vertex{P: f.B})
	}
	for i, u := range used {
		if room := corners[(i+1)%n].P.Sub(corners[i].P).Len(); u > room+Near {
			return nil, fmt.Errorf("planar: the roundings at the ends of edge %d need %g mm, it has %g", i+1, u, room)
		}
	}
	return l.tidy(Near), nil
}

// Fillet returns the arc of the given radius that touches the lines from
// before to corner and from corner to after.
//
// With the turn τ at the corner, both tangent points lie r·tan(|τ|/2) from it
// and the arc sweeps τ.
func Fillet(before, corner, after r2.Vec, radius float64) (Edge, error) {
	in, out := corner.Sub(before).Unit(), after.Sub(corner).Unit()
	turn := math.Atan2(in.Cross(out), in.Dot(out))
	if math.Abs(turn) < 1e-9 || math.Abs(turn) > math.Pi-1e-6 {
		return Edge{}, errors.New("the edges don't turn, or fold back")
	}
	t := radius * math.Tan(math.Abs(turn)/2)
	if t > corner.Sub(before).Len()+Near || t > after.Sub(corner).Len()+Near {
		return Edge{}, fmt.Errorf("a radius of %g mm needs %g mm of each edge", radius, t)
	}
	return Edge{corner.Sub(in.Mul(t)), corner.Add(out.Mul(t)), math.Tan(turn / 4)}, nil
}

// ArcThrough returns the arc from a to b of the given radius and at most half
// a turn: positive turns left, negative right. It fails where the ends lie
// further apart than twice the radius.
func ArcThrough(a, b r2.Vec, radius float64) (Edge, error) {
	h, r := b.Sub(a).Len()/2, math.Abs(radius)
	if !(r > 0) || !(h <= r+Near) {
		return Edge{}, fmt.Errorf("planar: an arc of radius %g can't span %g mm", radius, 2*h)
	}
	// b = tan(θ/4) with sin(θ/2) = h/r.
	bulge := h / (r + math.Sqrt(max(0, r*r-h*h)))
	return Edge{a, b, math.Copysign(bulge, radius)}, nil
}

// Reverse returns the loop walked the other way, from the same first vertex.
func (l Loop) Reverse() Loop {
	n := len(l)
	out := make(Loop, n)
	for i := range l {
		j := (n - i) % n
		out[i] = Vertex{P: l[j].P, Bulge: -l[(j+n-1)%n].Bulge}
	}
	return out
}
