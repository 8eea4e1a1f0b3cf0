package planar

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// Span is a stretch of a line, from T0 to T1 mm along it.
type Span struct{ T0, T1 float64 }

// Along returns the stretches of the line through o in direction d (length 1)
// that lie in the region, in order; exact for arcs. Stretches that run along
// the boundary may count or not; those shorter than Near are left out.
func (r Region) Along(o, d r2.Vec) []Span {
	var ts []float64
	for l := range r.All {
		for i := range l {
			ts = crossings(ts, l.Edge(i), o, d)
		}
	}
	slices.SortFunc(ts, cmp.Compare[float64])
	ts = slices.CompactFunc(ts, func(a, b float64) bool { return math.Abs(b-a) < Near })
	var out []Span
	for i := 1; i < len(ts); i++ {
		if !r.Contains(o.Add(d.Mul((ts[i-1] + ts[i]) / 2))) {
			continue
		}
		if n := len(out); n > 0 && out[n-1].T1 == ts[i-1] {
			out[n-1].T1 = ts[i]
			continue
		}
		out = append(out, Span{ts[i-1], ts[i]})
	}
	return out
}

// crossings appends where the line meets an edge; of an edge that runs along
// the line both ends. An end near the line counts, so that no corner is missed.
func crossings(ts []float64, e Edge, o, d r2.Vec) []float64 {
	a, b := e.A.Sub(o), e.B.Sub(o)
	da, db := d.Cross(a), d.Cross(b)
	if math.Abs(da) <= Near {
		ts = append(ts, d.Dot(a))
	}
	if math.Abs(db) <= Near {
		ts = append(ts, d.Dot(b))
	}
	if !e.IsArc() {
		if (da > 0) != (db > 0) {
			ts = append(ts, d.Dot(a)+(d.Dot(b)-d.Dot(a))*da/(da-db))
		}
		return ts
	}
	c, r := e.Center().Sub(o), e.Radius()
	h := d.Cross(c)
	if math.Abs(h) > r {
		return ts
	}
	half := math.Sqrt((r - h) * (r + h))
	for _, t := range [2]float64{d.Dot(c) - half, d.Dot(c) + half} {
		if e.spans(d.Mul(t).Sub(c)) {
			ts = append(ts, t)
		}
	}
	return ts
}
