package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// # Offsets
//
// The boundary of a region grown by d is all places at distance d from the
// region: along each edge a parallel edge (an arc's is an arc about the same
// centre), about each outer corner an arc of radius d. So these are drawn, all of
// them, and cut where they meet; a piece belongs to the result exactly if its
// middle is nowhere nearer than d to the old boundary. What is left is stitched
// and nested as in an operation on two regions. To shrink is the same to the
// other side. Arcs stay arcs, nothing is flattened, and two edges that would run
// into each other need no special case: their pieces are too near.

// Join says what an offset does at a corner that points away from it.
type Join int

const (
	// Round goes round the corner at the distance, as the rim of a bit does.
	Round Join = iota
	// Mitre carries the edges on, arcs along their tangents, until they meet; a
	// corner whose tip would lie further than MitreLimit times the distance from
	// it stays round.
	Mitre
)

// MitreLimit is how far a mitred corner may reach, in distances: a corner of
// 29° just does.
const MitreLimit = 4

// Offset returns the region grown by d mm on all sides, or shrunk where d < 0;
// without shapes where nothing is left. It fails where the outlines cross
// themselves, with ErrTangled.
func Offset(r Region, d float64, join Join) (Region, error) {
	if len(r) == 0 || math.Abs(d) <= Near {
		return r, nil
	}
	old := edgesOf(r)
	if len(old) > maxEdges/2 {
		return nil, ErrTooMany
	}
	if !finite(old) || !(math.Abs(d) < 1e9) {
		return nil, ErrTangled
	}
	for tol := Near; tol < 2e-4; tol *= 10 {
		out, err := parallel(r, old, d, tol)
		if err != nil || !grownRight(r, out, d) {
			continue
		}
		if join == Mitre {
			return mitred(r, out, d)
		}
		return out, nil
	}
	return nil, ErrTangled
}

// parallel is Offset with the given nearness.
func parallel(r Region, old []Edge, d, tol float64) (Region, error) {
	t := &table{tol: tol}
	pieces := t.splitOwn(beside(r, d))
	reach := newNearby(old, math.Abs(d))
	kept := pieces[:0]
	for _, p := range pieces {
		if reach.bounds(r, p, d, tol) {
			kept = append(kept, p)
		}
	}
	loops, err := t.stitch(single(kept, tol))
	if err != nil {
		return nil, err
	}
	return nest(loops, tol)
}

// beside draws each edge d to its right (to its left where d < 0), and arcs
// about the corners that open up.
func beside(r Region, d float64) []Edge {
	var out []Edge
	for l := range r.All {
		for i := range l {
			e := l.Edge(i)
			if s, ok := e.shifted(d); ok {
				out = append(out, s)
			}
			v, turn := e.B, turnAt(e, l.Edge((i+1)%len(l)))
			if turn*d <= 0 || math.Abs(turn*d) <= Near {
				continue
			}
			n := right(e.Tangent(1)).Mul(d)
			out = append(out, Edge{v.Add(n), v.Add(n.Turn(turn)), math.Tan(turn / 4)})
		}
	}
	return out
}

// shifted returns the edge moved to its right; an arc that closes up is lost.
func (e Edge) shifted(d float64) (Edge, bool) {
	a, b := e.A.Add(right(e.Tangent(0)).Mul(d)), e.B.Add(right(e.Tangent(1)).Mul(d))
	if e.IsArc() && e.Radius()+math.Copysign(d, e.Bulge*d) <= Near {
		return Edge{}, false
	}
	return Edge{a, b, e.Bulge}, true
}

func right(t r2.Vec) r2.Vec { return r2.Vec{X: t.Y, Y: -t.X} }

// turnAt returns the angle from the end of one edge to the start of the next,
// positive to the left, -π..π. At a cusp, where it turns back, the sides of the
// edges a little way on tell which.
func turnAt(e, f Edge) float64 {
	t, u := e.Tangent(1), f.Tangent(0)
	turn := math.Atan2(t.Cross(u), t.Dot(u))
	if math.Abs(turn) < math.Pi-1e-6 {
		return turn
	}
	const bit = 1e-3
	if chordDir(f, bit).Cross(chordDir(e.Reverse(), bit)) >= 0 {
		return math.Abs(turn)
	}
	return -math.Abs(turn)
}

// splitOwn cuts edges where they meet each other.
func (t *table) splitOwn(es []Edge) []piece {
	ends := t.ends(es)
	boxes := make([]r2.Box, len(es))
	for i, e := range es {
		boxes[i] = e.reach().Grown(t.tol)
	}
	var found []r2.Vec
	for i := range es {
		for j := range i {
			if boxes[i].Touches(boxes[j]) {
				found = meet(found[:0], es[i], es[j], t.tol)
				for _, p := range found {
					t.at(p)
				}
			}
		}
	}
	return t.cut(es, ends)
}

// single drops what is drawn twice: of pieces that run along each other the same
// way one is kept, of opposite ones none.
func single(ps []piece, tol float64) []piece {
	type key struct{ from, to int }
	at := make(map[key][]int, len(ps))
	gone := make([]bool, len(ps))
	along := func(p, q piece) bool { return p.At(0.5).Sub(q.At(0.5)).Len() <= 4*tol }
	for i, p := range ps {
		for _, j := range at[key{p.from, p.to}] {
			gone[i] = gone[i] || !gone[j] && along(p, ps[j])
		}
		if gone[i] {
			continue
		}
		for _, j := range at[key{p.to, p.from}] {
			if !gone[j] && along(p, ps[j]) {
				gone[i], gone[j] = true, true
				break
			}
		}
		at[key{p.from, p.to}] = append(at[key{p.from, p.to}], i)
	}
	var out []piece
	for i, p := range ps {
		if !gone[i] {
			out = append(out, p)
		}
	}
	return out
}

// nearby asks whether any of many edges is near a point.
type nearby struct {
	edges []Edge
	boxes []r2.Box
}

func newNearby(es []Edge, d float64) nearby {
	n := nearby{es, make([]r2.Box, len(es))}
	for i, e := range es {
		n.boxes[i] = e.reach().Grown(d)
	}
	return n
}

// bounds reports whether a piece bounds the offset: it lies on the side that the
// region moves to, and nowhere nearer to the old edges. Three places on it are
// asked, as what touches in a point may do so at its middle.
func (n nearby) bounds(r Region, p piece, d, tol float64) bool {
	for _, t := range [3]float64{0.5, 0.29, 0.64} {
		at := p.At(t)
		if n.within(at, math.Abs(d)-3*tol) || r.Contains(at) != (d < 0) {
			return false
		}
	}
	return true
}

func (n nearby) within(p r2.Vec, d float64) bool {
	for i, b := range n.boxes {
		if b.Holds(p) && n.edges[i].dist(p) < d {
			return true
		}
	}
	return false
}

// grownRight holds a result to the laws of areas: what grows takes in at most a
// band along the boundary and a disc at each corner's worth of turning.
func grownRight(r, out Region, d float64) bool {
	before, after := r.Area(), out.Area()
	slack := 1e-4 * (1 + r.Perimeter())
	if d < 0 {
		return after >= -slack && after <= before+slack
	}
	turns := 0.0
	for l := range r.All {
		for i := range l {
			turns += math.Abs(l.Edge(i).Sweep()) + math.Abs(turnAt(l.Edge(i), l.Edge((i+1)%len(l))))
		}
	}
	return after >= before-slack && after <= before+r.Perimeter()*d+turns*d*d/2+slack
}

// mitred fills the corners of a round offset out (or cuts them in).
func mitred(r, round Region, d float64) (Region, error) {
	out := round
	for l := range r.All {
		for i := range l {
			e, f := l.Edge(i), l.Edge((i+1)%len(l))
			turn := turnAt(e, f)
			long := 1 / math.Cos(turn/2)
			if turn*d <= 0 || long > MitreLimit || math.Abs(d)*(long-1) <= 10*Near {
				continue
			}
			n := right(e.Tangent(1)).Mul(d)
			kite := Polygon(e.B, e.B.Add(n), e.B.Add(n.Turn(turn/2).Mul(long)), e.B.Add(n.Turn(turn)))
			var err error
			if d > 0 {
				out, err = Union(out, Of(kite))
			} else {
				out, err = Difference(out, Of(kite))
			}
			if err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}
