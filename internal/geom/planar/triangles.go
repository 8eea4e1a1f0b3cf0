package planar

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// # Triangles
//
// A polygon with holes becomes one ring by bridges: each hole, those furthest to
// the right first, is joined to a corner that it sees there, and the bridge is
// walked both ways. From the ring ears are cut: a corner that turns left, with
// no other corner in the triangle that it makes with its neighbours. (D. Eberly,
// "Triangulation by ear clipping", 2002, from memory.)

// triangles fills a polygon with holes; every corner of the rings is a corner of
// the triangles, and every side of the rings the side of just one.
func triangles(points []r2.Vec, outer []int, holes [][]int) [][3]int {
	ring := bridged(points, outer, holes)
	c := clipper{points: points, next: make([]int, len(ring)), prev: make([]int, len(ring)), ring: ring}
	for i := range ring {
		c.next[i], c.prev[i] = (i+1)%len(ring), (i+len(ring)-1)%len(ring)
	}
	return c.clip()
}

// bridged joins the holes to the outer ring.
func bridged(points []r2.Vec, outer []int, holes [][]int) []int {
	right := func(h []int) int {
		best := 0
		for i, k := range h {
			if p, q := points[k], points[h[best]]; p.X > q.X || p.X == q.X && p.Y > q.Y {
				best = i
			}
		}
		return best
	}
	order := slices.Clone(holes)
	slices.SortStableFunc(order, func(a, b []int) int {
		p, q := points[a[right(a)]], points[b[right(b)]]
		return cmp.Or(cmp.Compare(q.X, p.X), cmp.Compare(q.Y, p.Y))
	})
	ring := slices.Clone(outer)
	has := map[int]bool{}
	for _, p := range ring {
		has[p] = true
	}
	for len(order) > 0 {
		i, k, at := touching(has, order), 0, 0
		if i >= 0 {
			k = slices.IndexFunc(order[i], func(p int) bool { return has[p] })
			at = slices.Index(ring, order[i][k])
		} else {
			i, k = 0, right(order[0])
			at = sees(points, ring, points[order[0][k]])
		}
		h := order[i]
		at = sector(points, ring, at, points[h[k]], points[h[(k+1)%len(h)]])
		in := slices.Concat(ring[:at+1], h[k:], h[:k], h[k:k+1])
		if h[k] == ring[at] {
			in = slices.Concat(ring[:at], h[k:], h[:k], ring[at:at+1])
		} else {
			in = append(in, ring[at])
		}
		ring = append(in, ring[at+1:]...)
		order = slices.Delete(order, i, i+1)
		for _, p := range h {
			has[p] = true
		}
	}
	return ring
}

// touching returns the first hole that has a corner in common with the ring, -1
// if none has.
func touching(ring map[int]bool, holes [][]int) int {
	return slices.IndexFunc(holes, func(h []int) bool {
		return slices.ContainsFunc(h, func(p int) bool { return ring[p] })
	})
}

// sees returns the place in the ring of a corner that p can be joined to. A ray
// to the right from p meets a side first; its right end is seen, or else one of
// the hollow corners in the triangle between: that with the least slope.
func sees(points []r2.Vec, ring []int, p r2.Vec) int {
	best, hit := -1, math.Inf(1)
	n := len(ring)
	for i := range ring {
		a, b := points[ring[i]], points[ring[(i+1)%n]]
		if !(a.Y <= p.Y && b.Y >= p.Y) || a.Y == b.Y { // the material is left of an upward side
			continue
		}
		x := a.X + (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)
		if x < p.X-Near || x >= hit {
			continue
		}
		hit, best = x, i
		if b.X > a.X {
			best = (i + 1) % n
		}
		if a.Y == p.Y {
			best = i
		} else if b.Y == p.Y {
			best = (i + 1) % n
		}
	}
	if best < 0 {
		return 0
	}
	tip := points[ring[best]]
	if tip.Y == p.Y {
		return best
	}
	foot := r2.Vec{X: hit, Y: p.Y}
	slope := math.Inf(1)
	for i := range ring {
		q := points[ring[i]]
		if q == tip || q.X < p.X || !inTriangle(p, foot, tip, q) {
			continue
		}
		if s := math.Abs(q.Y-p.Y) / (q.X - p.X + 1e-300); s < slope || s == slope && q.X < points[ring[best]].X {
			slope, best = s, i
		}
	}
	return best
}

// sector chooses among the places of the ring at one corner (bridges pass some
// twice) the one between whose sides p lies, or where p is that corner itself,
// what follows p.
func sector(points []r2.Vec, ring []int, at int, p, then r2.Vec) int {
	if p == points[ring[at]] {
		p = then
	}
	n := len(ring)
	for i, k := range ring {
		if k != ring[at] {
			continue
		}
		v := points[k]
		out, back, d := points[ring[(i+1)%n]].Sub(v), points[ring[(i+n-1)%n]].Sub(v), p.Sub(v)
		if angle(out, d) < angle(out, back) || out == back {
			return i
		}
	}
	return at
}

// angle returns the turn from a to b, anticlockwise, 0 to 2π (2π for none).
func angle(a, b r2.Vec) float64 {
	t := math.Atan2(a.Cross(b), a.Dot(b))
	if t <= 0 {
		t += 2 * math.Pi
	}
	return t
}

// inTriangle reports whether q lies in a triangle, of any sense, or on its edge.
func inTriangle(a, b, c, q r2.Vec) bool {
	d, e, f := b.Sub(a).Cross(q.Sub(a)), c.Sub(b).Cross(q.Sub(b)), a.Sub(c).Cross(q.Sub(c))
	return d >= 0 && e >= 0 && f >= 0 || d <= 0 && e <= 0 && f <= 0
}

// clipper cuts ears off a ring of places, each with its point.
type clipper struct {
	points     []r2.Vec
	ring       []int
	next, prev []int
}

func (c *clipper) at(i int) r2.Vec { return c.points[c.ring[i]] }

// clip cuts ears until none is left. Where no ear is free, as rounding can have
// it, the next best corner is taken, so that the triangles always close.
func (c *clipper) clip() [][3]int {
	left, i, tries := len(c.ring), 0, 0
	out := make([][3]int, 0, max(0, left-2))
	rest := make([]int, 0, left) // places that may lie in an ear: corners that don't turn left
	for k := range c.ring {
		if !c.turnsLeft(k) {
			rest = append(rest, k)
		}
	}
	gone := make([]bool, left)
	for left > 2 {
		strict := tries < left
		if c.isEar(i, rest, gone, strict, tries >= 2*left) {
			a, b := c.prev[i], c.next[i]
			out = append(out, [3]int{c.ring[a], c.ring[i], c.ring[b]})
			c.next[a], c.prev[b] = b, a
			gone[i] = true
			left--
			tries = 0
			i = b
			if strict { // go on beside the next one, which makes fewer thin ears
				i = c.next[b]
			}
			continue
		}
		i = c.next[i]
		tries++
	}
	return out
}

func (c *clipper) turnsLeft(i int) bool {
	p := c.at(i)
	d, e := p.Sub(c.at(c.prev[i])), c.at(c.next[i]).Sub(p)
	return d.Cross(e) > flat*(d.Len()+e.Len())
}

// flat is how near to a straight line a corner may lie and still not be an ear, mm.
const flat = 1e-9

// isEar reports whether the corner can be cut off.
func (c *clipper) isEar(i int, rest []int, gone []bool, strict, any bool) bool {
	if any {
		return true
	}
	if !c.turnsLeft(i) {
		return false
	}
	a, p, b := c.at(c.prev[i]), c.at(i), c.at(c.next[i])
	box := r2.EmptyBox().With(a).With(p).With(b)
	for _, k := range rest {
		q := c.at(k)
		if gone[k] || !box.Holds(q) || q == a || q == p || q == b {
			continue
		}
		if inner(a, p, b, q, strict) {
			return false
		}
	}
	return true
}

// inner reports whether q lies in a triangle that turns left: clear of its sides,
// or also on them where edges count.
func inner(a, b, c, q r2.Vec, edges bool) bool {
	slack := flat
	if edges {
		slack = -flat
	}
	return off(a, b, q) > slack && off(b, c, q) > slack && off(c, a, q) > slack
}

// off returns how far q lies to the left of the line from a to b, mm.
func off(a, b, q r2.Vec) float64 {
	d := b.Sub(a)
	return d.Cross(q.Sub(a)) / d.Len()
}
