package step

import (
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// points numbers places of the plane; those nearer than near are the same.
type points struct {
	at   []r2.Vec
	grid map[[2]int64][]int
}

const gridSize = 1e-3

func gridOf(p r2.Vec) [2]int64 {
	return [2]int64{int64(math.Floor(p.X / gridSize)), int64(math.Floor(p.Y / gridSize))}
}

// find returns the number of a place, -1 for none.
func (ps *points) find(p r2.Vec) int {
	g := gridOf(p)
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			for _, i := range ps.grid[[2]int64{g[0] + dx, g[1] + dy}] {
				if ps.at[i].Sub(p).Len() <= near {
					return i
				}
			}
		}
	}
	return -1
}

// add returns the number of a place, a new one if there was none.
func (ps *points) add(p r2.Vec) int {
	if i := ps.find(p); i >= 0 {
		return i
	}
	if ps.grid == nil {
		ps.grid = map[[2]int64][]int{}
	}
	g := gridOf(p)
	ps.at = append(ps.at, p)
	ps.grid[g] = append(ps.grid[g], len(ps.at)-1)
	return len(ps.at) - 1
}

// curveOf returns the curve that an edge lies on, the same one for all edges
// that lie on it.
func (o *outline) curveOf(e planar.Edge) *curve {
	for _, c := range o.curves {
		if c.holds(e) {
			return c
		}
	}
	c := &curve{seams: [2]int{-1, -1}}
	if e.IsArc() {
		c.arc, c.center, c.radius = true, e.Center(), e.Radius()
	} else {
		c.from, c.dir = e.A, e.B.Sub(e.A).Unit()
	}
	o.curves = append(o.curves, c)
	return c
}

func (c *curve) holds(e planar.Edge) bool {
	if c.arc != e.IsArc() {
		return false
	}
	if c.arc {
		return e.Center().Sub(c.center).Len() <= near && math.Abs(e.Radius()-c.radius) <= near
	}
	return math.Abs(c.dir.Cross(e.A.Sub(c.from))) <= near && math.Abs(c.dir.Cross(e.B.Sub(c.from))) <= near &&
		math.Abs(c.dir.Cross(e.B.Sub(e.A).Unit())) <= 1e-7
}

func turnOf(e planar.Edge) turn {
	if e.Bulge < 0 {
		e = e.Reverse()
	}
	d := e.A.Sub(e.Center())
	return turn{math.Atan2(d.Y, d.X), e.Sweep()}
}

// seam decides whether the wall over a circle is cut, and adds the points where
// it is. It is if its stretches leave no gap of half a turn.
func (o *outline) seam(c *curve) {
	if !c.arc || widestGap(c.turns) > math.Pi-1e-6 {
		return
	}
	r := r2.Vec{X: c.radius}
	c.seams = [2]int{o.points.add(c.center.Add(r)), o.points.add(c.center.Sub(r))}
}

// widestGap returns the greatest stretch of a circle that no turn covers, rad.
func widestGap(turns []turn) float64 {
	if len(turns) == 0 {
		return 2 * math.Pi
	}
	ts := slices.Clone(turns)
	slices.SortFunc(ts, func(a, b turn) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	end, gap := ts[0].from+ts[0].sweep, 0.0
	for _, t := range ts[1:] {
		gap = max(gap, t.from-end)
		end = max(end, t.from+t.sweep)
	}
	return max(gap, ts[0].from+2*math.Pi-end)
}

// pieces cuts a loop at all points on it.
func (o *outline) pieces(l planar.Loop) []piece {
	var out []piece
	for i := range l {
		out = append(out, o.split(l.Edge(i))...)
	}
	return out
}

// split cuts an edge at all points on it.
func (o *outline) split(e planar.Edge) []piece {
	type cut struct {
		point int
		share float64
	}
	a, b := o.points.find(e.A), o.points.find(e.B)
	if a == b {
		return nil // shorter than near: no direction can be told
	}
	cuts := []cut{{a, 0}, {b, 1}}
	lo, hi := reach(e)
	for i, p := range o.points.at {
		if i == a || i == b || p.X < lo.X || p.Y < lo.Y || p.X > hi.X || p.Y > hi.Y {
			continue
		}
		if t, ok := share(e, p); ok {
			cuts = append(cuts, cut{i, t})
		}
	}
	slices.SortFunc(cuts, func(a, b cut) int {
		switch {
		case a.share < b.share:
			return -1
		case a.share > b.share:
			return 1
		}
		return a.point - b.point
	})
	c := o.curveOf(e)
	var out []piece
	for i := 1; i < len(cuts); i++ {
		u, v := cuts[i-1], cuts[i]
		if u.point == v.point {
			continue // shorter than near
		}
		part := planar.Edge{A: o.points.at[u.point], B: o.points.at[v.point]}
		if e.IsArc() {
			part.Bulge = math.Tan((v.share - u.share) * e.Sweep() / 4)
		}
		out = append(out, piece{u.point, v.point, o.mids.add(part.At(0.5)), part, c})
	}
	return out
}

// reach returns a box round an edge, near mm larger or more.
func reach(e planar.Edge) (lo, hi r2.Vec) {
	lo = r2.Vec{X: min(e.A.X, e.B.X), Y: min(e.A.Y, e.B.Y)}
	hi = r2.Vec{X: max(e.A.X, e.B.X), Y: max(e.A.Y, e.B.Y)}
	grow := near
	if e.IsArc() { // an arc lies no further from both its ends than its diameter
		grow += 2 * e.Radius()
	}
	d := r2.Vec{X: grow, Y: grow}
	return lo.Sub(d), hi.Add(d)
}

// share tells how far along an edge a point lies, if it lies on it and between
// its ends.
func share(e planar.Edge, p r2.Vec) (float64, bool) {
	if !e.IsArc() {
		d := e.B.Sub(e.A)
		t := p.Sub(e.A).Dot(d) / d.Dot(d)
		return t, t > 0 && t < 1 && p.Sub(e.A.Lerp(e.B, t)).Len() <= near
	}
	c, sweep := e.Center(), e.Sweep()
	u, v := e.A.Sub(c), p.Sub(c)
	if math.Abs(v.Len()-e.Radius()) > near {
		return 0, false
	}
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	if sweep < 0 {
		turn, sweep = -turn, -sweep
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	t := turn / sweep
	return t, t > 0 && t < 1
}
