package planar

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// # Convex cells
//
// Solids ask their questions of convex pieces. A region is first given chords
// for its arcs, all of them on the side of the material, so that what the cells
// hold is never more than the region does and two shapes that touch along an
// arc stay apart: round material the corners lie on the arc, at a hollow the
// sides are tangents of it. Then the plane is cut into level bands at the height
// of every corner; in a band, material is a row of trapezoids. A trapezoid goes
// on from the one below where their levels fit and the two together are convex,
// so that a rectangle, a disc, a slot become one cell each.

// Inscribed returns the corners of the loop with each arc replaced by straight
// lines no further than err mm from it and all of them on the loop's left, the
// side of the material.
func (l Loop) Inscribed(err float64) []r2.Vec {
	out := make([]r2.Vec, 0, len(l))
	for i := range l {
		e := l.Edge(i)
		out = append(out, e.A)
		n := e.Chords(err)
		if !e.IsArc() || e.Bulge > 0 && n == 1 {
			continue
		}
		c := e.Center()
		from, step := e.A.Sub(c), e.Sweep()/float64(n)
		if e.Bulge > 0 {
			for k := 1; k < n; k++ {
				out = append(out, c.Add(from.Turn(step*float64(k))))
			}
			continue
		}
		// The tangents at both ends of a step meet over its middle.
		from = from.Mul(1 / math.Cos(step/2))
		for k := range n {
			out = append(out, c.Add(from.Turn(step*(float64(k)+0.5))))
		}
	}
	return out
}

// Cells returns convex polygons, anticlockwise, that fill the region and don't
// overlap. Chords stand for arcs as Loop.Inscribed tells.
func (r Region) Cells(err float64) [][]r2.Vec {
	s := sweep{}
	for l := range r.All {
		ps := l.Inscribed(err)
		for i, p := range ps {
			s.add(p, ps[(i+1)%len(ps)])
		}
	}
	return s.cells()
}

// rise is an edge that is not level, told upwards.
type rise struct{ a, b r2.Vec }

func (e rise) x(y float64) float64 {
	switch {
	case y <= e.a.Y:
		return e.a.X
	case y >= e.b.Y:
		return e.b.X
	}
	return e.a.X + (e.b.X-e.a.X)*(y-e.a.Y)/(e.b.Y-e.a.Y)
}

// level is how near in height two corners are to be on one level, mm.
const level = 1e-9

type sweep struct {
	rises []rise
	ys    []float64
	open  []chains
	done  [][]r2.Vec
}

// chains are the sides of a cell that is still growing, both upwards.
type chains struct{ left, right []r2.Vec }

func (s *sweep) add(a, b r2.Vec) {
	s.ys = append(s.ys, a.Y)
	switch {
	case b.Y-a.Y > level:
		s.rises = append(s.rises, rise{a, b})
	case a.Y-b.Y > level:
		s.rises = append(s.rises, rise{b, a})
	}
}

func (s *sweep) cells() [][]r2.Vec {
	slices.SortFunc(s.ys, cmp.Compare[float64])
	s.ys = slices.CompactFunc(s.ys, func(a, b float64) bool { return math.Abs(b-a) <= level })
	slices.SortFunc(s.rises, func(e, f rise) int { return cmp.Compare(e.a.Y, f.a.Y) })
	var active []rise
	next := 0
	for k := 1; k < len(s.ys); k++ {
		y0, y1 := s.ys[k-1], s.ys[k]
		mid := (y0 + y1) / 2
		active = slices.DeleteFunc(active, func(e rise) bool { return e.b.Y < mid })
		for next < len(s.rises) && s.rises[next].a.Y < mid {
			if s.rises[next].b.Y > mid {
				active = append(active, s.rises[next])
			}
			next++
		}
		slices.SortFunc(active, func(e, f rise) int { return cmp.Compare(e.x(mid), f.x(mid)) })
		s.band(active, y0, y1)
	}
	for _, c := range s.open {
		s.close(c)
	}
	return s.done
}

// band adds the trapezoids of one band: material lies between the first and the
// second edge, the third and the fourth, and so on.
func (s *sweep) band(active []rise, y0, y1 float64) {
	before := s.open
	s.open = nil
	for i := 1; i < len(active); i += 2 {
		l, r := active[i-1], active[i]
		y0, y1 := uncrossed(l, r, y0, y1)
		l0, l1 := r2.Vec{X: l.x(y0), Y: y0}, r2.Vec{X: l.x(y1), Y: y1}
		r0, r1 := r2.Vec{X: r.x(y0), Y: y0}, r2.Vec{X: r.x(y1), Y: y1}
		if r0.X-l0.X <= level && r1.X-l1.X <= level {
			continue
		}
		c, ok := s.below(before, l0, l1, r0, r1)
		if !ok {
			c = chains{left: []r2.Vec{l0}, right: []r2.Vec{r0}}
		}
		c.left, c.right = grown(c.left, l1), grown(c.right, r1)
		s.open = append(s.open, c)
	}
	for _, c := range before {
		if c.left != nil {
			s.close(c)
		}
	}
}

// uncrossed returns the part of a band in which l lies left of r: where material
// is thinner than the chords' error, their edges may cross.
func uncrossed(l, r rise, y0, y1 float64) (float64, float64) {
	w0, w1 := r.x(y0)-l.x(y0), r.x(y1)-l.x(y1)
	switch at := y0 + (y1-y0)*w0/(w0-w1); {
	case w0 < -level && w1 > level:
		return at, y1
	case w1 < -level && w0 > level:
		return y0, at
	}
	return y0, y1
}

// below takes the cell out of the list that the trapezoid goes on from.
func (s *sweep) below(before []chains, l0, l1, r0, r1 r2.Vec) (chains, bool) {
	for i, c := range before {
		if c.left == nil {
			continue
		}
		nl, nr := len(c.left), len(c.right)
		if math.Abs(c.left[nl-1].Y-l0.Y) > level || math.Abs(c.left[nl-1].X-l0.X) > level ||
			math.Abs(c.right[nr-1].X-r0.X) > level {
			continue
		}
		if bent(l1.Sub(l0), l0.Sub(c.left[nl-2])) < 0 || bent(r0.Sub(c.right[nr-2]), r1.Sub(r0)) < 0 {
			return chains{}, false
		}
		before[i].left = nil
		return c, true
	}
	return chains{}, false
}

// grown returns the chain with one more corner, without a corner in the middle
// of a straight side.
func grown(c []r2.Vec, p r2.Vec) []r2.Vec {
	if n := len(c); n >= 2 {
		if bent(c[n-1].Sub(c[n-2]), p.Sub(c[n-1])) == 0 {
			c = c[:n-1]
		}
	}
	return append(c, p)
}

// bent tells which way a chain turns from d to e: 1 left, −1 right, and 0 where
// the corner between them lies within level of a straight line.
func bent(d, e r2.Vec) int {
	switch c, slack := d.Cross(e), level*(d.Len()+e.Len()); {
	case c > slack:
		return 1
	case c < -slack:
		return -1
	}
	return 0
}

// close turns the chains into a polygon.
func (s *sweep) close(c chains) {
	out := make([]r2.Vec, 0, len(c.left)+len(c.right))
	put := func(p r2.Vec) {
		if n := len(out); n == 0 || p.Sub(out[n-1]).Len() > level {
			out = append(out, p)
		}
	}
	for _, p := range c.right {
		put(p)
	}
	for i := len(c.left) - 1; i >= 0; i-- {
		put(c.left[i])
	}
	if n := len(out); n > 1 && out[0].Sub(out[n-1]).Len() <= level {
		out = out[:n-1]
	}
	if len(out) >= 3 {
		s.done = append(s.done, out)
	}
}
