package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// stitch walks the pieces into loops. At a point where several leave, the walk
// takes the next one clockwise from where it came, which keeps to the rim of
// the material on its left; where it comes to a point that it has passed, the
// stretch since then is a loop of its own.
func (t *table) stitch(ps []piece) ([]Loop, error) {
	leaving := make([][]int, len(t.points))
	for i, p := range ps {
		leaving[p.from] = append(leaving[p.from], i)
	}
	used := make([]bool, len(ps))
	onWay := make([]int, len(t.points)) // place in way that leaves the point, plus 1
	var loops []Loop
	var way []int
	for first := range ps {
		if used[first] {
			continue
		}
		way = append(way[:0], first)
		used[first] = true
		onWay[ps[first].from] = 1
		for len(way) > 0 {
			at := ps[way[len(way)-1]].to
			if k := onWay[at]; k > 0 {
				loops = append(loops, loopOf(ps, way[k-1:]))
				for _, i := range way[k-1:] {
					onWay[ps[i].from] = 0
				}
				way = way[:k-1]
				continue
			}
			next := choose(ps, used, leaving[at], ps[way[len(way)-1]].Edge)
			if next < 0 {
				return nil, ErrTangled
			}
			used[next] = true
			way = append(way, next)
			onWay[at] = len(way)
		}
	}
	return loops, nil
}

// choose picks the unused piece that comes first clockwise from the way back.
func choose(ps []piece, used []bool, from []int, came Edge) int {
	best, bestTurn := -1, 0.0
	for _, i := range from {
		if used[i] {
			continue
		}
		if best < 0 {
			best = i
			if len(from) > 1 {
				bestTurn = clockwise(came, ps[i].Edge)
			}
			continue
		}
		if turn := clockwise(came, ps[i].Edge); turn < bestTurn {
			best, bestTurn = i, turn
		}
	}
	return best
}

// clockwise returns the angle, 0 to 2π, clockwise from the way back along came
// to the way out along next. Edges that leave along one tangent are told apart
// a little way on.
func clockwise(came, next Edge) float64 {
	back := came.Reverse()
	const bit = 1e-3
	d0, d1 := chordDir(back, bit), chordDir(next, bit)
	turn := math.Atan2(d1.Cross(d0), d0.Dot(d1))
	if turn <= 0 {
		turn += 2 * math.Pi
	}
	return turn
}

// chordDir returns the direction from the start of e to the place that is at
// distance s (mm, or half the edge if shorter) along it.
func chordDir(e Edge, s float64) r2.Vec {
	if !e.IsArc() {
		return e.B.Sub(e.A)
	}
	share := min(0.5, s/e.Len())
	return e.Tangent(share / 2)
}

func loopOf(ps []piece, way []int) Loop {
	l := make(Loop, len(way))
	for k, i := range way {
		l[k] = Vertex{ps[i].A, ps[i].Bulge}
	}
	return l
}

// tidy drops corners that are none: between two edges of one line or one
// circle, and edges shorter than tol; and starts the loop at its lowest corner
// at the left.
func (l Loop) tidy(tol float64) Loop {
	out := make(Loop, 0, len(l))
	for i := range l {
		if e := l.Edge(i); e.Len() > tol {
			out = append(out, l[i])
		}
	}
	for i := 0; i < len(out) && len(out) > 2; {
		n := len(out)
		prev := (i + n - 1) % n
		if b, ok := joined(out.Edge(prev), out.Edge(i), tol); ok {
			out[prev].Bulge = b
			out = append(out[:i], out[i+1:]...)
			continue
		}
		i++
	}
	return out.fromLowest()
}

// joined reports whether two edges in a row are one, and its bulge. Arcs are
// joined to half a turn at most, so that a circle stays two arcs.
func joined(e, f Edge, tol float64) (bulge float64, ok bool) {
	if e.IsArc() != f.IsArc() {
		return 0, false
	}
	if !e.IsArc() {
		d := f.B.Sub(e.A)
		l := d.Len()
		ok = l > tol && math.Abs(d.Cross(e.B.Sub(e.A))) <= tol*l &&
			e.B.Sub(e.A).Dot(d) > 0 && f.B.Sub(f.A).Dot(d) > 0
		return 0, ok
	}
	sum := e.Sweep() + f.Sweep()
	// A short arc tells its centre badly, so what is asked is whether its ends
	// and middle lie on the longer one's circle.
	long, short := e, f
	if short.Len() > long.Len() {
		long, short = short, long
	}
	c, r := long.Center(), long.Radius()
	off := func(p r2.Vec) bool { return math.Abs(p.Sub(c).Len()-r) > 4*tol }
	if (e.Bulge > 0) != (f.Bulge > 0) || math.Abs(sum) > math.Pi+1e-9 ||
		off(short.A) || off(short.B) || off(short.At(0.5)) {
		return 0, false
	}
	return math.Tan(sum / 4), true
}

func (l Loop) fromLowest() Loop {
	if len(l) == 0 {
		return l
	}
	k := 0
	for i, v := range l {
		if w := l[k]; v.P.Y < w.P.Y || v.P.Y == w.P.Y && v.P.X < w.P.X {
			k = i
		}
	}
	out := make(Loop, 0, len(l))
	return append(append(out, l[k:]...), l[:k]...)
}
