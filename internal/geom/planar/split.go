package planar

import (
	"math"
	"sort"

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

// split cuts the edges of both regions where they meet.
func (t *table) split(ea, eb []Edge) (pa, pb []piece) {
	ends := func(es []Edge) [][2]int {
		out := make([][2]int, len(es))
		for i, e := range es {
			out[i] = [2]int{t.at(e.A), t.at(e.B)}
		}
		return out
	}
	na, nb := ends(ea), ends(eb)
	sa, sb := make([][]stop, len(ea)), make([][]stop, len(eb))
	boxes := make([]r2.Box, len(eb))
	for j, f := range eb {
		boxes[j] = f.reach().Grown(t.tol)
	}
	var found []r2.Vec
	for i, e := range ea {
		box := e.reach()
		for j, f := range eb {
			if !box.Touches(boxes[j]) {
				continue
			}
			found = meet(found[:0], e, f, t.tol)
			for _, p := range found {
				k := t.at(p)
				if k != na[i][0] && k != na[i][1] {
					sa[i] = append(sa[i], stop{e.share(p), k})
				}
				if k != nb[j][0] && k != nb[j][1] {
					sb[j] = append(sb[j], stop{f.share(p), k})
				}
			}
		}
	}
	return t.cut(ea, na, sa), t.cut(eb, nb, sb)
}

// cut returns the pieces of the edges between their stops.
func (t *table) cut(es []Edge, ends [][2]int, stops [][]stop) []piece {
	out := make([]piece, 0, 2*len(es))
	for i, e := range es {
		st := stops[i]
		sort.Slice(st, func(a, b int) bool {
			return st[a].t < st[b].t || st[a].t == st[b].t && st[a].point < st[b].point
		})
		last := stop{0, ends[i][0]}
		add := func(s stop) {
			if s.point == last.point && !(e.IsArc() && s.t-last.t > 0.5) {
				return
			}
			p := e.part(last.t, s.t, t.points[last.point], t.points[s.point])
			out = append(out, piece{Edge: p, from: last.point, to: s.point})
			last = s
		}
		for _, s := range st {
			add(s)
		}
		add(stop{1, ends[i][1]})
	}
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
	if h >= r {
		if h-r <= tol {
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
	h := math.Sqrt(max(0, (r-a)*(r+a)))
	if h == 0 {
		return append(out, foot)
	}
	w := u.Left().Mul(h)
	return append(out, foot.Add(w), foot.Sub(w))
}
