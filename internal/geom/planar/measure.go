package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Area returns the area that the loop runs round, mm²: positive where it runs
// anticlockwise. Exact for arcs: the polygon of the chords, and for each arc
// the segment between chord and arc, r²(θ − sin θ)/2.
func (l Loop) Area() float64 {
	a, _ := l.moments()
	return a
}

// moments returns the area and the first moments ∫x dA, ∫y dA.
func (l Loop) moments() (area float64, first r2.Vec) {
	if len(l) == 0 {
		return 0, r2.Vec{}
	}
	o := l[0].P // taken from a point of the loop, large coordinates lose nothing
	for i := range l {
		e := l.Edge(i)
		p, q := e.A.Sub(o), e.B.Sub(o)
		c := p.Cross(q) / 2
		area += c
		first = first.Add(p.Add(q).Mul(c / 3))
		if e.IsArc() {
			sa, sm := segment(e, o)
			area += sa
			first = first.Add(sm)
		}
	}
	return area, first.Add(o.Mul(area))
}

// segment returns the area between an arc and its chord and its moments about
// o, both signed by the way it turns. The centroid of a circular segment lies
// 4r·sin³(θ/2) / (3(θ − sin θ)) from the centre, so that area times distance is
// 2r³·sin³(θ/2)/3.
func segment(e Edge, o r2.Vec) (area float64, first r2.Vec) {
	r, t := e.Radius(), e.Sweep()
	area = r * r / 2 * (t - math.Sin(t))
	if math.Abs(t) < 0.01 { // the difference would cancel
		area = r * r / 12 * t * t * t * (1 - t*t/20)
	}
	c := e.Center()
	s := math.Sin(math.Abs(t) / 2)
	out := e.At(0.5).Sub(c).Mul(2.0 / 3 * r * r * s * s * s)
	if t < 0 {
		out = out.Mul(-1)
	}
	return area, c.Sub(o).Mul(area).Add(out)
}

// Perimeter returns the length of the loop, mm.
func (l Loop) Perimeter() float64 {
	s := 0.0
	for i := range l {
		s += l.Edge(i).Len()
	}
	return s
}

// Area returns the area of the region, mm².
func (r Region) Area() float64 {
	a := 0.0
	for l := range r.All {
		a += l.Area()
	}
	return a
}

// Centroid returns the centre of area; the zero point for an empty region.
func (r Region) Centroid() r2.Vec {
	area, first := 0.0, r2.Vec{}
	for l := range r.All {
		a, m := l.moments()
		area += a
		first = first.Add(m)
	}
	if area == 0 {
		return r2.Vec{}
	}
	return first.Mul(1 / area)
}

// Perimeter returns the length of all edges, those of holes too, mm.
func (r Region) Perimeter() float64 {
	s := 0.0
	for l := range r.All {
		s += l.Perimeter()
	}
	return s
}

// Extent returns the least and the greatest p·d over the region, exact for
// arcs; +Inf, -Inf for an empty one.
func (r Region) Extent(d r2.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range r {
		for i := range s.Outer {
			a, b := s.Outer.Edge(i).extent(d)
			lo, hi = min(lo, a), max(hi, b)
		}
	}
	return lo, hi
}

// Box returns the smallest upright box round the region.
func (r Region) Box() r2.Box {
	x0, x1 := r.Extent(r2.Vec{X: 1})
	y0, y1 := r.Extent(r2.Vec{Y: 1})
	return r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}
}

// reach returns a box that holds the region and may be a little larger.
func (r Region) reach() r2.Box {
	b := r2.EmptyBox()
	for _, s := range r {
		for i := range s.Outer {
			b = b.Union(s.Outer.Edge(i).reach())
		}
	}
	return b
}

// Contains reports whether the point lies in the region. On the boundary
// itself the answer is one or the other; see Region.OnEdge.
func (r Region) Contains(p r2.Vec) bool {
	w := 0
	for _, s := range r {
		w += s.Outer.winding(p)
		for _, h := range s.Holes {
			w += h.winding(p)
		}
	}
	return w > 0
}

// OnEdge reports whether the point lies within tol mm of the boundary.
func (r Region) OnEdge(p r2.Vec, tol float64) bool {
	for l := range r.All {
		for i := range l {
			e := l.Edge(i)
			if e.reach().Grown(tol).Holds(p) && e.dist(p) <= tol {
				return true
			}
		}
	}
	return false
}

// winding returns how often the loop runs round p, anticlockwise. It is the
// winding of the polygon of chords, plus one for each left-turning arc whose
// segment (between chord and arc) holds p, less one for each right-turning.
// Both parts take the side of a chord from the same function, so that a point
// on a chord is counted on one side by both.
func (l Loop) winding(p r2.Vec) int {
	w := 0
	for i := range l {
		e := l.Edge(i)
		arc := e.IsArc()
		if !arc && (e.A.Y > p.Y) == (e.B.Y > p.Y) {
			continue
		}
		left := leftOf(e.A, e.B, p)
		switch {
		case e.A.Y <= p.Y && e.B.Y > p.Y && left:
			w++
		case e.B.Y <= p.Y && e.A.Y > p.Y && !left:
			w--
		}
		if !arc {
			continue
		}
		if c := e.Center(); p.Sub(c).Len() < e.Radius() {
			if e.Bulge > 0 && !left {
				w++
			} else if e.Bulge < 0 && left {
				w--
			}
		}
	}
	return w
}

// leftOf reports whether p lies to the left of the line from a to b. A point on
// the line is taken to lie a hair to the right in x, or above a level line, so
// leftOf(b, a, p) is always the opposite.
func leftOf(a, b, p r2.Vec) bool {
	if a.Y > b.Y || a.Y == b.Y && a.X > b.X {
		return !leftOf(b, a, p)
	}
	d := b.Sub(a) // upwards, or level to the right
	s := d.Cross(p.Sub(a))
	return s > 0 || s == 0 && d.Y == 0
}
