package solid

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r3"
)

// # Least distance
//
// The bodies' convex cells are compared pair by pair, those whose boxes are
// nearest first, until no box is nearer than what was found. Two convex cells
// are nearest at a corner and a face or at two edges (or, where they cross, an
// edge of one pierces the other), and all of these are tried: no iteration, and
// nothing that nearly parallel faces could lead astray.

// Gap is the least distance between two bodies, mm, and where it is: a place on
// each. A body that touches or crosses another is at distance 0.
type Gap struct {
	Distance float64
	A, B     r3.Vec
}

// Distance returns the least distance between two bodies, mm; +Inf where one is
// empty. Chords stand for arcs within the material, so that it is never too
// small, and too great by no more than 2·Chord.
func Distance(a, b Body) float64 { return Prepare(a).Distance(Prepare(b)).Distance }

// Distance returns the least distance to another body; see Distance.
func (r *Ready) Distance(o *Ready) Gap {
	best := Gap{Distance: math.Inf(1)}
	mine, theirs := nearest(r.pieces(), o.box), nearest(o.pieces(), r.box)
	if len(mine) == 0 || len(theirs) == 0 {
		return best
	}
	best = mine[0].to(theirs[0].cell, best.Distance)
	type pair struct {
		least float64
		a, b  *cell
	}
	var pairs []pair
	for _, c := range mine {
		if c.least >= best.Distance {
			break
		}
		for _, d := range theirs {
			if d.least >= best.Distance {
				break
			}
			if l := gapOf(c.box, d.box); l < best.Distance {
				pairs = append(pairs, pair{l, c.cell, d.cell})
			}
		}
	}
	slices.SortStableFunc(pairs, func(p, q pair) int { return cmp.Compare(p.least, q.least) })
	for _, p := range pairs {
		if p.least >= best.Distance {
			break
		}
		if g := p.a.to(p.b, best.Distance); g.Distance < best.Distance {
			best = g
		}
	}
	return best
}

// cell is a convex piece of a body with what distances need.
type cell struct {
	convex
	planes  []plane
	corners []r3.Vec
	edges   [][2]r3.Vec
	box     r3.Box
	sawed   bool // no prism any more
}

// edged gives cells their corners and edges: of a prism those of foot, head and
// uprights; else those of all faces, each edge as one of its two faces has it.
func edged(cells []cell) []cell {
	for k := range cells {
		c := &cells[k]
		if c.sawed {
			for _, f := range c.faces {
				for i, p := range f {
					if q := f[(i+1)%len(f)]; before(p, q) {
						c.edges = append(c.edges, [2]r3.Vec{p, q})
					}
				}
				c.corners = append(c.corners, f...)
			}
			continue
		}
		foot, head := c.faces[0], c.faces[1]
		n := len(foot)
		c.corners = append(append(c.corners, foot...), head...)
		for i := range n {
			j := (i + 1) % n
			c.edges = append(c.edges, [2]r3.Vec{foot[i], foot[j]}, [2]r3.Vec{head[i], head[j]}, [2]r3.Vec{foot[i], head[n-1-i]})
		}
	}
	return cells
}

// before puts places in an order.
func before(p, q r3.Vec) bool {
	return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y), cmp.Compare(p.Z, q.Z)) < 0
}

// from is a cell and a least distance to it.
type from struct {
	*cell
	least float64
}

// nearest returns cells by the distance of their boxes to a box.
func nearest(cells []cell, b r3.Box) []from {
	out := make([]from, len(cells))
	for i := range cells {
		out[i] = from{&cells[i], gapOf(cells[i].box, b)}
	}
	slices.SortStableFunc(out, func(a, b from) int { return cmp.Compare(a.least, b.least) })
	return out
}

// gapOf returns the distance between two boxes.
func gapOf(a, b r3.Box) float64 {
	d := r3.Vec{
		X: max(0, a.Min.X-b.Max.X, b.Min.X-a.Max.X),
		Y: max(0, a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y),
		Z: max(0, a.Min.Z-b.Max.Z, b.Min.Z-a.Max.Z),
	}
	return d.Len()
}

// to returns the least distance between two convex cells, where it is less than
// a limit.
func (c *cell) to(d *cell, limit float64) Gap {
	if gapOf(c.box, d.box) == 0 {
		if p, ok := pierced(c, d); ok {
			return Gap{0, p, p}
		}
	}
	best := Gap{Distance: limit}
	take := func(p, q r3.Vec) {
		if l := q.Sub(p).Len(); l < best.Distance {
			best = Gap{l, p, q}
		}
	}
	for _, p := range c.corners {
		if q, ok := d.under(p, best.Distance); ok {
			take(p, q)
		}
	}
	for _, q := range d.corners {
		if p, ok := c.under(q, best.Distance); ok {
			take(p, q)
		}
	}
	for _, e := range c.edges {
		if near := edgeBox(e); gapOf(near, d.box) < best.Distance {
			for _, f := range d.edges {
				if gapOf(near, edgeBox(f)) < best.Distance {
					take(closest(e, f))
				}
			}
		}
	}
	return best
}

func edgeBox(e [2]r3.Vec) r3.Box {
	return r3.Box{
		Min: r3.Vec{X: min(e[0].X, e[1].X), Y: min(e[0].Y, e[1].Y), Z: min(e[0].Z, e[1].Z)},
		Max: r3.Vec{X: max(e[0].X, e[1].X), Y: max(e[0].Y, e[1].Y), Z: max(e[0].Z, e[1].Z)},
	}
}

// pierced returns a point that two cells share, where they do: then an edge of
// one has a point in the other.
func pierced(c, d *cell) (r3.Vec, bool) {
	for _, e := range c.edges {
		if p, ok := d.holds(e); ok {
			return p, true
		}
	}
	for _, e := range d.edges {
		if p, ok := c.holds(e); ok {
			return p, true
		}
	}
	return r3.Vec{}, false
}

// holds returns the middle of what of a line lies in the cell.
func (c *cell) holds(e [2]r3.Vec) (r3.Vec, bool) {
	t0, t1 := 0.0, 1.0
	for _, p := range c.planes {
		a, b := p.over(e[0]), p.over(e[1])
		switch {
		case a > 0 && b > 0:
			return r3.Vec{}, false
		case a > 0:
			t0 = max(t0, a/(a-b))
		case b > 0:
			t1 = min(t1, a/(a-b))
		}
	}
	if t0 > t1 {
		return r3.Vec{}, false
	}
	return e[0].Add(e[1].Sub(e[0]).Mul((t0 + t1) / 2)), true
}

// under returns the foot of the perpendicular from p on the face that it lies
// over, where there is one and it is nearer than limit.
func (c *cell) under(p r3.Vec, limit float64) (r3.Vec, bool) {
	for i, f := range c.planes {
		h := f.over(p)
		if h < 0 || h >= limit {
			continue
		}
		foot := p.Sub(f.n.Mul(h))
		in := true
		for j, g := range c.planes {
			if j != i && g.over(foot) > 0 {
				in = false
				break
			}
		}
		if in {
			return foot, true
		}
	}
	return r3.Vec{}, false
}

// closest returns the nearest points of two straight edges. (After C. Ericson,
// Real-Time Collision Detection, 2005, section 5.1.9, from memory.)
func closest(e, f [2]r3.Vec) (p, q r3.Vec) {
	d, g, w := e[1].Sub(e[0]), f[1].Sub(f[0]), e[0].Sub(f[0])
	a, b, c := d.Dot(d), d.Dot(g), g.Dot(g)
	dw, gw := d.Dot(w), g.Dot(w)
	s := 0.0
	if det := a*c - b*b; det > 1e-12*a*c {
		s = clamped((b*gw - c*dw) / det)
	}
	t := 0.0
	if c > 0 {
		t = (b*s + gw) / c
	}
	if t < 0 || t > 1 {
		t = clamped(t)
		if a > 0 {
			s = clamped((b*t - dw) / a)
		}
	}
	return e[0].Add(d.Mul(s)), f[0].Add(g.Mul(t))
}

func clamped(x float64) float64 { return min(1, max(0, x)) }
