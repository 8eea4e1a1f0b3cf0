package planar

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// table holds the points of an operation; each stands for all places within
// tol of it.
type table struct {
	tol    float64
	points []r2.Vec
}

// piece is a stretch of an edge between two points of the table.
type piece struct {
	Edge
	from, to int
	shared   bool // lies along a piece of the other region
}

// at returns the index of the point at p, new if there is none.
func (t *table) at(p r2.Vec) int {
	for i, q := range t.points {
		if math.Abs(q.X-p.X) <= t.tol && math.Abs(q.Y-p.Y) <= t.tol {
			return i
		}
	}
	t.points = append(t.points, p)
	return len(t.points) - 1
}

// stop is a point on an edge, at share t of its way.
type stop struct {
	t     float64
	point int
}

// split cuts the edges of both regions where they meet. Every point of the
// table that lies on an edge cuts it, those of its own region as well: a region
// may touch itself at a corner, and there the other one's edges are cut too.
func (t *table) split(ea, eb []Edge) (pa, pb []piece) {
	na, nb := t.ends(ea), t.ends(eb)
	boxes := make([]r2.Box, len(eb))
	for j, f := range eb {
		boxes[j] = f.reach().Grown(t.tol)
	}
	var found []r2.Vec
	for _, e := range ea {
		box := e.reach()
		for j, f := range eb {
			if box.Touches(boxes[j]) {
				found = meet(found[:0], e, f, t.tol)
				for _, p := range found {
					t.at(p)
				}
			}
		}
	}
	return t.cut(ea, na), t.cut(eb, nb)
}

// ends enters the corners of the edges, and returns the points they became.
func (t *table) ends(es []Edge) [][2]int {
	out := make([][2]int, len(es))
	for i, e := range es {
		out[i] = [2]int{t.at(e.A), t.at(e.B)}
	}
	return out
}

// cut returns the pieces of the edges between the points on them.
func (t *table) cut(es []Edge, ends [][2]int) []piece {
	out := make([]piece, 0, 2*len(es))
	var stops []stop
	for i, e := range es {
		stops = t.stops(stops[:0], e, ends[i])
		out = t.along(out, e, ends[i][0], ends[i][1], stops)
	}
	return out
}

// along appends the pieces of an edge between its stops.
func (t *table) along(out []piece, e Edge, from, to int, stops []stop) []piece {
	last := stop{0, from}
	for _, s := range append(stops, stop{1, to}) {
		// Both ends of a piece in one point: it has no length, or is an arc
		// that comes back.
		if s.point == last.point && !(e.IsArc() && s.t-last.t > 0.5) {
			continue
		}
		p := e.part(last.t, s.t, t.points[last.point], t.points[s.point])
		out = append(out, piece{Edge: p, from: last.point, to: s.point})
		last = s
	}
	return out
}

// stops returns the points on an edge between its ends, in order.
func (t *table) stops(out []stop, e Edge, ends [2]int) []stop {
	box := e.reach().Grown(t.tol)
	for k, p := range t.points {
		if k == ends[0] || k == ends[1] || !box.Holds(p) {
			continue
		}
		if at := e.share(p); p.Sub(e.At(at)).Len() <= 1.5*t.tol {
			out = append(out, stop{at, k})
		}
	}
	slices.SortFunc(out, func(a, b stop) int {
		return cmp.Or(cmp.Compare(a.t, b.t), cmp.Compare(a.point, b.point))
	})
	return out
}

// shared tells for each piece of A whether it runs along a piece of B, and
// marks those of B.
func (t *table) shared(pa, pb []piece) []side {
	type pair struct{ lo, hi int }
	key := func(p piece) pair { return pair{min(p.from, p.to), max(p.from, p.to)} }
	at := make(map[pair][]int, len(pb))
	for j, p := range pb {
		at[key(p)] = append(at[key(p)], j)
	}
	out := make([]side, len(pa))
	for i, p := range pa {
		out[i] = alone
		for _, j := range at[key(p)] {
			q := pb[j]
			if q.shared || p.At(0.5).Sub(q.At(0.5)).Len() > 4*t.tol {
				continue
			}
			pb[j].shared = true
			out[i] = opposite
			if p.from == q.from {
				out[i] = same
			}
			break
		}
	}
	return out
}

// meet appends the places where two edges meet: ends of one that lie on the
// other (which covers edges that run along each other), and crossings.
func meet(out []r2.Vec, e, f Edge, tol float64) []r2.Vec {
	for _, p := range [2]r2.Vec{e.A, e.B} {
		if f.dist(p) <= tol {
			out = append(out, p)
		}
	}
	for _, p := range [2]r2.Vec{f.A, f.B} {
		if e.dist(p) <= tol {
			out = append(out, p)
		}
	}
	n := len(out)
	switch {
	case !e.IsArc() && !f.IsArc():
		out = lineLine(out, e, f)
	case e.IsArc() && f.IsArc():
		out = arcArc(out, e, f, tol)
	case e.IsArc():
		out = lineArc(out, f, e, tol)
	default:
		out = lineArc(out, e, f, tol)
	}
	kept := out[:n]
	for _, p := range out[n:] {
		if e.dist(p) <= tol && f.dist(p) <= tol {
			kept = append(kept, p)
		}
	}
	return kept
}

func lineLine(out []r2.Vec, e, f Edge) []r2.Vec {
	d, g := e.B.Sub(e.A), f.B.Sub(f.A)
	c := d.Cross(g)
	if math.Abs(c) <= 1e-12*d.Len()*g.Len() {
		return out // parallel: their ends tell
	}
	t := f.A.Sub(e.A).Cross(g) / c
	if t < -0.5 || t > 1.5 {
		return out
	}
	return append(out, e.A.Lerp(e.B, t))
}

// lineArc appends where the line through e meets the circle of a. A line that
// just misses or just cuts a circle touches it at the foot of the perpendicular.
func lineArc(out []r2.Vec, e, a Edge, tol float64) []r2.Vec {
	c, r := a.Center(), a.Radius()
	u := e.B.Sub(e.A).Unit()
	foot := e.A.Add(u.Mul(c.Sub(e.A).Dot(u)))
	h := foot.Sub(c).Len()
	if h >= r-tol {
		if h <= r+tol {
			out = append(out, foot)
		}
		return out
	}
	s := u.Mul(math.Sqrt((r - h) * (r + h)))
	return append(out, foot.Sub(s), foot.Add(s))
}

func arcArc(out []r2.Vec, e, f Edge, tol float64) []r2.Vec {
	c, r := e.Center(), e.Radius()
	g, s := f.Center(), f.Radius()
	d := g.Sub(c)
	l := d.Len()
	if l <= tol || l > r+s+tol || l < math.Abs(r-s)-tol {
		return out // concentric, apart, or one within the other
	}
	a := (l*l + (r-s)*(r+s)) / (2 * l)
	u := d.Mul(1 / l)
	foot := c.Add(u.Mul(a))
	if math.Abs(a) >= r-tol { // they touch
		return append(out, foot)
	}
	h := math.Sqrt((r - a) * (r + a))
	w := u.Left().Mul(h)
	return append(out, foot.Add(w), foot.Sub(w))
}
