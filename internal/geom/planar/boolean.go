package planar

import (
	"errors"
	"math"
	"slices"
	"sort"

	"rodwork/internal/geom/r2"
)

// # How regions are put together
//
// Union, Intersection and Difference work on arcs as they are; nothing is
// flattened. Five steps (overlay):
//
//  1. Gather. The corners of both regions, and all places where an edge of one
//     meets an edge of the other, become points; places within Near of each
//     other become the same point.
//  2. Split. Each edge is cut at the points on it, into pieces that run from
//     point to point and cross nothing.
//  3. Judge. A piece lies inside the other region, outside it, or along its
//     boundary, the same way round or opposite. Its middle decides.
//  4. Choose. The table below says which pieces bound the result.
//  5. Stitch. The pieces are walked into loops, material on the left, and the
//     loops nested into shapes.
//
//	                 piece of A              piece of B
//	                 in  out same opposite   in  out
//	union            .   x   x    .          .   x
//	intersection     x   .   x    .          x   .
//	difference       .   x   .    x          x (reversed)
//
// Where a step finds a contradiction (a walk that does not come back), all is
// tried again with a coarser Near, and at last an error is returned; a wrong
// region never is, as far as areas can tell (checked).

// Near is how close two places may lie and still be the same one, mm.
const Near = 1e-6

// maxEdges bounds the work of one operation: it grows with the square.
const maxEdges = 20000

// ErrTooMany says that an operand has more edges than an operation takes.
var ErrTooMany = errors.New("planar: more than 20000 edges")

// ErrTangled says that the operands could not be put together: one of them
// crosses itself, or has numbers that are not finite.
var ErrTangled = errors.New("planar: the outlines cross themselves or are not closed")

type operation int

const (
	union operation = iota
	intersection
	difference
)

// Union returns what lies in a, in b or in both. Results share loops with the
// operands, which are therefore never to be written to.
func Union(a, b Region) (Region, error) { return combine(a, b, union) }

// Intersection returns what lies in both a and b.
func Intersection(a, b Region) (Region, error) { return combine(a, b, intersection) }

// Difference returns what lies in a and not in b.
func Difference(a, b Region) (Region, error) { return combine(a, b, difference) }

func combine(a, b Region, op operation) (Region, error) {
	if len(a) == 0 || len(b) == 0 {
		return apart(a, b, op), nil
	}
	if op == intersection {
		if r, ok := bothRects(a, b); ok {
			return r, nil
		}
	}
	if op == difference {
		a, b = filled(a, b)
	}
	ea, eb := edgesOf(a), edgesOf(b)
	if len(ea)+len(eb) > maxEdges {
		return nil, ErrTooMany
	}
	if !finite(ea) || !finite(eb) {
		return nil, ErrTangled
	}
	if r, ok := atOnce(a, b, ea, eb, op); ok {
		return r, nil
	}
	for tol := Near; tol < 2e-4; tol *= 10 {
		r, err := overlay(a, b, ea, eb, op, tol)
		if err == nil && checked(a, b, r, op) {
			return r, nil
		}
	}
	return nil, ErrTangled
}

// filled returns both regions without the holes that they have in common: what
// is in neither region has no say in their difference. Two slabs of a panel with
// rows of holes are so compared by their few other edges. A hole with an island
// in it stays.
func filled(a, b Region) (Region, Region) {
	without := func(r, other Region) Region {
		out := slices.Clone(r)
		for i := range out {
			out[i].Holes = slices.DeleteFunc(slices.Clone(r[i].Holes), func(h Loop) bool {
				return other.hasHole(h) && !r.hasIsland(h) && !other.hasIsland(h)
			})
		}
		return out
	}
	return without(a, b), without(b, a)
}

func (r Region) hasHole(h Loop) bool {
	for _, s := range r {
		for _, g := range s.Holes {
			if slices.Equal(g, h) {
				return true
			}
		}
	}
	return false
}

func (r Region) hasIsland(h Loop) bool {
	if len(r) < 2 {
		return false
	}
	around := h.Reverse()
	return slices.ContainsFunc(r, func(s Shape) bool { return around.holds(s.Outer, Near) })
}

// apart is the result where the operands share nothing.
func apart(a, b Region, op operation) Region {
	switch op {
	case union:
		out := make(Region, 0, len(a)+len(b))
		return append(append(out, a...), b...)
	case difference:
		return a
	}
	return nil
}

// atOnce answers at once where no edge of one region comes near the other as a
// whole: a hole drilled in the middle of a panel, a pocket beside it.
func atOnce(a, b Region, ea, eb []Edge, op operation) (Region, bool) {
	ba, bb := a.reach().Grown(Near), b.reach().Grown(Near)
	if !ba.Touches(bb) {
		return apart(a, b, op), true
	}
	if !anyTouches(ea, bb) {
		if !a.Contains(b[0].Outer[0].P) {
			return apart(a, b, op), true
		}
		switch op { // b lies wholly within a
		case union:
			return a, true
		case intersection:
			return b, true
		}
		return pierced(a, b)
	}
	if anyTouches(eb, ba) {
		return nil, false
	}
	if !b.Contains(a[0].Outer[0].P) {
		return apart(a, b, op), true
	}
	switch op { // a lies wholly within b
	case union:
		return b, true
	case intersection:
		return a, true
	}
	return nil, true
}

// pierced returns a with the solid shapes of b, which lie within it, as holes.
func pierced(a, b Region) (Region, bool) {
	out := append(Region(nil), a...)
	for _, s := range b {
		if len(s.Holes) > 0 {
			return nil, false
		}
		for i := range out {
			if out[i : i+1].Contains(s.Outer[0].P) {
				holes := make([]Loop, 0, len(out[i].Holes)+1)
				out[i].Holes = append(append(holes, out[i].Holes...), s.Outer.Reverse())
				break
			}
		}
	}
	return out, true
}

func anyTouches(es []Edge, b r2.Box) bool {
	for _, e := range es {
		if e.reach().Touches(b) {
			return true
		}
	}
	return false
}

func edgesOf(r Region) []Edge {
	n := 0
	for l := range r.All {
		n += len(l)
	}
	es := make([]Edge, 0, n)
	for l := range r.All {
		for i := range l {
			es = append(es, l.Edge(i))
		}
	}
	return es
}

func finite(es []Edge) bool {
	for _, e := range es {
		// Beyond 1e9 mm Near is under the spacing of the numbers; a sum of
		// anything not finite is not finite either.
		if s := math.Abs(e.A.X) + math.Abs(e.A.Y); !(s < 1e9) || !(math.Abs(e.Bulge) < 1e9) {
			return false
		}
	}
	return true
}

// checked tests the laws of areas that one operation alone can be held to.
func checked(a, b, r Region, op operation) bool {
	aa, ab, ar := a.Area(), b.Area(), r.Area()
	slack := 1e-4 * (1 + a.Perimeter() + b.Perimeter())
	switch op {
	case union:
		return ar >= max(aa, ab)-slack && ar <= aa+ab+slack
	case intersection:
		return ar >= -slack && ar <= min(aa, ab)+slack
	default:
		return ar >= aa-ab-slack && ar <= aa+slack
	}
}

// overlay does the five steps with the given nearness.
func overlay(a, b Region, ea, eb []Edge, op operation, tol float64) (Region, error) {
	t := &table{tol: tol}
	pa, pb := t.split(ea, eb)
	shared := t.shared(pa, pb)
	keep := make([]piece, 0, len(pa)+len(pb))
	for i, p := range pa {
		side := shared[i]
		if side == alone {
			side = outside
			if b.Contains(p.At(0.5)) {
				side = inside
			}
		}
		if chosen[op][side] {
			keep = append(keep, p)
		}
	}
	for _, p := range pb {
		if p.shared {
			continue // decided by its twin
		}
		in := a.Contains(p.At(0.5))
		switch {
		case op == union && !in, op == intersection && in:
			keep = append(keep, p)
		case op == difference && in:
			keep = append(keep, piece{Edge: p.Reverse(), from: p.to, to: p.from})
		}
	}
	loops, err := t.stitch(keep)
	if err != nil {
		return nil, err
	}
	return nest(loops, tol)
}

// side is where a piece of A lies as seen from B.
type side int

const (
	inside side = iota
	outside
	same
	opposite
	alone // not on B's boundary; inside or outside is still to be found
)

// chosen says which pieces of A bound the result.
var chosen = [3][4]bool{
	union:        {outside: true, same: true},
	intersection: {inside: true, same: true},
	difference:   {outside: true, opposite: true},
}

// nest sorts loops into shapes: a hole belongs to the smallest outer loop
// round it. Slivers, thinner than the tolerance, are dropped.
func nest(loops []Loop, tol float64) (Region, error) {
	var out Region
	var holes []Loop
	for _, l := range loops {
		l = l.tidy(tol)
		a := l.Area()
		switch {
		case len(l) < 2 || math.Abs(a) <= 4*tol*l.Perimeter():
		case a > 0:
			out = append(out, Shape{Outer: l})
		default:
			holes = append(holes, l)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return before(out[i].Outer, out[j].Outer) })
	sort.SliceStable(holes, func(i, j int) bool { return before(holes[i], holes[j]) })
	for _, h := range holes {
		best := -1
		for i := range out {
			if out[i].Outer.holds(h, tol) && (best < 0 || out[i].Outer.Area() < out[best].Outer.Area()) {
				best = i
			}
		}
		if best < 0 {
			return nil, ErrTangled
		}
		out[best].Holes = append(out[best].Holes, h)
	}
	return out, nil
}

// holds reports whether the hole h, which crosses l nowhere, lies within l: the
// first place on it that is clear of l's boundary decides. A round hole may touch
// l in the middle of each of its arcs, so other places on them are asked as well.
func (l Loop) holds(h Loop, tol float64) bool {
	r := Region{{Outer: l}}
	for _, share := range [...]float64{0.5, 0.27, 0.71, 0.11, 0.93} {
		for i := range h {
			if p := h.Edge(i).At(share); !r.OnEdge(p, 10*tol) {
				return r.Contains(p)
			}
		}
	}
	return false
}

func before(a, b Loop) bool {
	if a[0].P != b[0].P {
		return a[0].P.X < b[0].P.X || a[0].P.X == b[0].P.X && a[0].P.Y < b[0].P.Y
	}
	return len(a) < len(b)
}
