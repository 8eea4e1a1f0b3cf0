package stability

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r3"
)

// TipLoad returns the mass, kg, that just tips the state about the edge when it
// hangs at the point: at the front edge of an open drawer, the outer edge of a
// door. +Inf where a mass there holds the piece; 0 where it tips without.
func (s State) TipLoad(edge string, at r3.Vec) (float64, error) {
	o, err := s.About(edge)
	if err != nil {
		return 0, err
	}
	if o.Net <= 0 {
		return 0, nil
	}
	one := s
	one.Masses = []Mass{{Name: "load", Kg: 1, At: at}}
	one.Pulls = nil
	p, err := one.About(edge)
	if err != nil {
		return 0, err
	}
	if p.Net >= 0 {
		return math.Inf(1), nil
	}
	return o.Net / -p.Net, nil
}

// TipPull returns the level pull, N, straight out over the edge at the height
// (mm) of the point, that just tips the state. 0 where it tips without.
func (s State) TipPull(edge string, at r3.Vec) (float64, error) {
	o, err := s.About(edge)
	if err != nil {
		return 0, err
	}
	if o.Net <= 0 {
		return 0, nil
	}
	one := s
	one.Masses = nil
	one.Pulls = []Pull{{Name: "pull", N: 1, At: at, Dir: o.Edge.outward()}}
	p, err := one.About(edge)
	if err != nil {
		return 0, err
	}
	if p.Net >= 0 {
		return math.Inf(1), nil
	}
	return o.Net / -p.Net, nil
}

// hullOf returns the convex hull of the feet, in the sense that outward wants,
// starting at the leftmost: Andrew's monotone chain (A. M. Andrew, Information
// Processing Letters 9(5), 1979, from memory). Points on an edge are left out.
func hullOf(feet []Foot) []Foot {
	pts := slices.Clone(feet)
	slices.SortFunc(pts, func(a, b Foot) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Z, b.Z))
	})
	pts = slices.Compact(pts)
	if len(pts) < 3 {
		return pts
	}
	half := func(order []Foot) []Foot {
		var h []Foot
		for _, p := range order {
			for len(h) >= 2 && turn(h[len(h)-2], h[len(h)-1], p) <= 1e-9 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	upper := half(pts)
	slices.Reverse(pts)
	return append(upper, half(pts)...)
}

// turn is positive where c lies to the outward-consistent side of a to b.
func turn(a, b, c Foot) float64 {
	return (b.Z-a.Z)*(c.X-a.X) - (b.X-a.X)*(c.Z-a.Z)
}
