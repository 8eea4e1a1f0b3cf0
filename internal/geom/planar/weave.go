package planar

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// # Weaving
//
// A mesh of a body is tight only if the regions above one another share their
// corners. So all regions of a body are woven together: their edges are cut
// wherever they meet, arcs as they are; chords are put for the arcs, for each
// stretch the same ones whichever region and direction it is walked in; and what
// chords have newly brought to cross is cut once more. After that two sides of
// different regions are the same, or share no more than ends.

// Side is a straight side of a woven region between two points of the Weave,
// the material on its left.
type Side struct {
	From, To int
	// Round is set where the side stands for a stretch of an arc about Center.
	Round  bool
	Center r2.Vec
}

// Weave is a number of regions with straight sides and common corners.
type Weave struct {
	Points []r2.Vec
	// Regions hold the sides of each region, loop by loop. Where a region touches
	// itself along a side, neither of the two is there.
	Regions [][]Side
}

// Woven puts regions together; no chord lies further than err mm from its arc.
func Woven(err float64, regions ...Region) (Weave, error) {
	n := netter{tol: Near}
	for i, r := range regions {
		for l := range r.All {
			for k := range l {
				n.edges = append(n.edges, threadOf(l.Edge(k), i))
			}
		}
	}
	if len(n.edges) > maxEdges {
		return Weave{}, ErrTooMany
	}
	n.cut()
	if n.chords(err) {
		n.cut()
	}
	w := Weave{Points: n.points.at, Regions: make([][]Side, len(regions))}
	for _, e := range n.edges {
		w.Regions[e.region] = append(w.Regions[e.region], Side{e.from, e.to, e.round, e.center})
	}
	for i, sides := range w.Regions {
		w.Regions[i] = parted(sides)
	}
	return w, nil
}

// parted drops sides that are walked both ways.
func parted(sides []Side) []Side {
	type way struct{ from, to int }
	count := make(map[way]int, len(sides))
	for _, s := range sides {
		count[way{s.From, s.To}]++
	}
	out := sides[:0:0]
	for _, s := range sides {
		if back := (way{s.To, s.From}); count[back] > 0 {
			count[back]--
			continue
		}
		out = append(out, s)
	}
	return out
}

// thread is an edge in the weave.
type thread struct {
	Edge
	region   int
	from, to int
	round    bool
	center   r2.Vec
}

func threadOf(e Edge, region int) thread {
	t := thread{Edge: e, region: region}
	if e.IsArc() {
		t.round, t.center = true, e.Center()
	}
	return t
}

// netter cuts many edges where they meet, with a grid to find who is near whom.
type netter struct {
	tol    float64
	edges  []thread
	points spots
	size   float64 // of a square of the grid, mm
	origin r2.Vec
}

// spots finds points by place.
type spots struct {
	at   []r2.Vec
	grid map[[2]int][]int
}

func (n *netter) square(p r2.Vec) [2]int {
	return [2]int{int(math.Floor((p.X - n.origin.X) / n.size)), int(math.Floor((p.Y - n.origin.Y) / n.size))}
}

// point returns the index of the point at p, new if there is none within tol.
func (n *netter) point(p r2.Vec) int {
	lo, hi := n.square(p.Sub(r2.Vec{X: n.tol, Y: n.tol})), n.square(p.Add(r2.Vec{X: n.tol, Y: n.tol}))
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			for _, i := range n.points.grid[[2]int{x, y}] {
				if q := n.points.at[i]; math.Abs(q.X-p.X) <= n.tol && math.Abs(q.Y-p.Y) <= n.tol {
					return i
				}
			}
		}
	}
	i := len(n.points.at)
	n.points.at = append(n.points.at, p)
	s := n.square(p)
	n.points.grid[s] = append(n.points.grid[s], i)
	return i
}

// spread chooses the grid: about as many squares as edges.
func (n *netter) spread() {
	box := r2.EmptyBox()
	for _, e := range n.edges {
		box = box.Union(e.reach())
	}
	side := max(box.Size().X, box.Size().Y, 1)
	n.size = max(side/math.Sqrt(float64(len(n.edges)+1)), 1e-3)
	n.origin = box.Min
	n.points = spots{grid: make(map[[2]int][]int, len(n.edges))}
}

// cut replaces the edges by their pieces between all points on them.
func (n *netter) cut() {
	if len(n.edges) == 0 {
		return
	}
	n.spread()
	for i, e := range n.edges {
		n.edges[i].from, n.edges[i].to = n.point(e.A), n.point(e.B)
	}
	n.meetings()
	t := table{tol: n.tol, points: n.points.at}
	var out []thread
	for _, e := range n.edges {
		near := n.on(e)
		for _, p := range t.between(e.Edge, e.from, e.to, near) {
			c := e
			c.Edge, c.from, c.to = p.Edge, p.from, p.to
			out = append(out, c)
		}
	}
	n.edges = out
}

// meetings enters all places where edges meet. Edges that are the same, in any
// direction, are asked once.
func (n *netter) meetings() {
	type ends struct{ lo, hi int }
	seen := map[ends][]int{}
	grid := map[[2]int][]int{}
	var found []r2.Vec
	for i, e := range n.edges {
		key := ends{min(e.from, e.to), max(e.from, e.to)}
		if slices.ContainsFunc(seen[key], func(j int) bool { return e.At(0.5).Sub(n.edges[j].At(0.5)).Len() <= n.tol }) {
			continue
		}
		seen[key] = append(seen[key], i)
		asked := map[int]bool{}
		box := e.reach().Grown(n.tol)
		n.squares(box, func(s [2]int) {
			for _, j := range grid[s] {
				if f := n.edges[j]; !asked[j] && box.Touches(f.reach()) {
					asked[j] = true
					found = meet(found[:0], e.Edge, f.Edge, n.tol)
					for _, p := range found {
						n.point(p)
					}
				}
			}
			grid[s] = append(grid[s], i)
		})
	}
}

func (n *netter) squares(b r2.Box, do func([2]int)) {
	lo, hi := n.square(b.Min), n.square(b.Max)
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			do([2]int{x, y})
		}
	}
}

// on lists the points near an edge, in the order of their making.
func (n *netter) on(e thread) []int {
	var out []int
	n.squares(e.reach().Grown(2*n.tol), func(s [2]int) { out = append(out, n.points.grid[s]...) })
	slices.Sort(out)
	return out
}

// between returns the pieces of an edge between the points given that lie on it.
func (t *table) between(e Edge, from, to int, points []int) []piece {
	var stops []stop
	box := e.reach().Grown(t.tol)
	for _, k := range points {
		p := t.points[k]
		if k == from || k == to || !box.Holds(p) {
			continue
		}
		if at := e.share(p); p.Sub(e.At(at)).Len() <= 1.5*t.tol {
			stops = append(stops, stop{at, k})
		}
	}
	slices.SortFunc(stops, func(a, b stop) int { return cmp.Or(cmp.Compare(a.t, b.t), cmp.Compare(a.point, b.point)) })
	return t.along(nil, e, from, to, stops)
}

// chords replaces arcs by chords, the same for both directions, and tells
// whether there were any.
func (n *netter) chords(err float64) bool {
	var out []thread
	any := false
	for _, e := range n.edges {
		if !e.IsArc() {
			out = append(out, e)
			continue
		}
		any = true
		k := e.Chords(err)
		told, back := e.Edge, e.from > e.to
		if back {
			told = e.Reverse()
		}
		at := func(i int) r2.Vec {
			if back {
				i = k - i
			}
			return told.At(float64(i) / float64(k))
		}
		for i := range k {
			c := e
			c.Edge = Edge{A: at(i), B: at(i + 1)}
			out = append(out, c)
		}
	}
	n.edges = out
	return any
}
