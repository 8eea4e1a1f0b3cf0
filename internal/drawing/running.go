package drawing

import (
	"math"
	"slices"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// Measures of running dimensions, paper mm (ISO 129-1's manner, see docs).
const (
	labelGap    = 3.5 // least distance of two values
	ringRadius  = 0.95
	strokeHalf  = 0.636 // half of an oblique stroke of 1.8 at 45°, along each axis
	extGap      = 0.9
	extOverrun  = 1.2
	levelPlain  = 2.3 // from the line to the value
	levelKneed  = 4.6
	kneeStart   = 1.2
	kneeEnd     = 3.4
	lineOutside = 5.5 // from the figure to the line
)

// place is one place on an axis of running dimensions: where on paper, what is
// written, and where its extension line starts (0: at the axis' own start).
type place struct {
	at     float64
	text   string
	start  float64
	origin bool
}

// axis is a line of running dimensions: all places of one part from one
// origin. It runs across the paper, or up and down where Upright.
type axis struct {
	Upright bool
	Line    float64 // where the line lies: its y, or its x where Upright
	Edge    float64 // where extension lines start: the figure's edge
	Lo, Hi  float64 // the values may spread no further
}

// away is the direction from the figure to the line: -1 or 1.
func (a axis) away() float64 {
	if a.Line < a.Edge {
		return -1
	}
	return 1
}

// on returns the paper place at t along the axis and d away from its line.
func (a axis) on(t, d float64) r2.Vec {
	if a.Upright {
		return pt(a.Line+d*a.away(), t)
	}
	return pt(t, a.Line+d*a.away())
}

// running draws the places. Of two that print the same value, one is kept:
// the axis tells every value once.
func (p *pen) running(a axis, places []place) {
	places = distinct(places)
	if len(places) == 0 {
		return
	}
	at := make([]float64, len(places))
	for i, q := range places {
		at[i] = q.at
	}
	p.line(leaf.Dimension, a.on(at[0], 0), a.on(at[len(at)-1], 0))
	to := spread(at, labelGap, a.Lo, a.Hi)
	level := levelPlain
	for i := range to {
		if math.Abs(to[i]-at[i]) > 0.05 {
			level = levelKneed
		}
	}
	for i, q := range places {
		p.extension(a, q)
		if math.Abs(to[i]-at[i]) > 0.05 {
			p.line(leaf.Dimension, a.on(q.at, kneeStart), a.on(to[i], kneeEnd), a.on(to[i], level-0.6))
		}
		if q.origin {
			p.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: circleOf(a.on(q.at, 0), ringRadius)})
		} else {
			c := a.on(q.at, 0)
			p.line(leaf.Visible, pt(c.X-strokeHalf, c.Y+strokeHalf), pt(c.X+strokeHalf, c.Y-strokeHalf))
		}
		p.label(a, to[i], level, q.text)
	}
}

func (p *pen) extension(a axis, q place) {
	edge := a.Edge
	if q.start != 0 {
		edge = q.start
	}
	gap := extGap * a.away()
	if a.Upright {
		p.line(leaf.Dimension, pt(edge+gap, q.at), a.on(q.at, extOverrun))
		return
	}
	p.line(leaf.Dimension, pt(q.at, edge+gap), a.on(q.at, extOverrun))
}

// label writes a value at its level, along the extension line.
func (p *pen) label(a axis, t, level float64, s string) {
	cap := leaf.Name.Cap()
	at := a.on(t, level)
	text := leaf.Text{S: s, Size: leaf.Name}
	switch {
	case a.Upright && a.away() < 0:
		text.At, text.Anchor = pt(at.X, t+cap/2), leaf.End
	case a.Upright:
		text.At = pt(at.X, t+cap/2)
	case a.away() < 0:
		text.At, text.Up = pt(t+cap/2, at.Y), true
	default:
		text.At, text.Up, text.Anchor = pt(t+cap/2, at.Y), true, leaf.End
	}
	p.add(text)
}

// distinct sorts the places along the axis and drops those whose value is
// already told by another; the origin stays.
func distinct(places []place) []place {
	out := slices.Clone(places)
	slices.SortStableFunc(out, func(a, b place) int {
		switch {
		case a.origin != b.origin:
			if a.origin {
				return -1
			}
			return 1
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	seen := map[string]bool{}
	n := 0
	for _, q := range out {
		if !seen[q.text] {
			seen[q.text] = true
			out[n] = q
			n++
		}
	}
	out = out[:n]
	slices.SortStableFunc(out, func(a, b place) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	return out
}

// spread moves sorted places apart so that neighbours stand at least gap from
// each other, each as near to its own place as can be (least squares, by
// pooling neighbours that push each other), and none outside lo … hi. Where
// hi − lo is too short for all, the gap shrinks evenly: order is kept and none
// is left out.
func spread(at []float64, gap, lo, hi float64) []float64 {
	n := len(at)
	if n == 0 {
		return nil
	}
	if room := hi - lo; n > 1 && gap*float64(n-1) > room {
		gap = max(room, 0) / float64(n-1)
	}
	type pool struct {
		sum   float64
		count int
	}
	// With u_i = x_i − i·gap the demand is u_i ≤ u_{i+1}: isotonic regression.
	var pools []pool
	for i, x := range at {
		pools = append(pools, pool{x - float64(i)*gap, 1})
		for k := len(pools) - 1; k > 0; k-- {
			a, b := pools[k-1], pools[k]
			if a.sum/float64(a.count) <= b.sum/float64(b.count) {
				break
			}
			pools[k-1] = pool{a.sum + b.sum, a.count + b.count}
			pools = pools[:k]
		}
	}
	out := make([]float64, 0, n)
	for _, q := range pools {
		u := q.sum / float64(q.count)
		u = math.Min(math.Max(u, lo), hi-float64(n-1)*gap)
		for range q.count {
			out = append(out, u+float64(len(out))*gap)
		}
	}
	return out
}
