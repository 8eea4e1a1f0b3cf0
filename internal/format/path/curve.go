package path

import (
	"errors"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// course is a curve over 0 ≤ t ≤ 1: its place and its direction, a unit vector.
type course interface {
	at(t float64) r2.Vec
	way(t float64) r2.Vec
}

// bezier is a cubic Bézier curve by its four points.
type bezier [4]r2.Vec

func (b bezier) at(t float64) r2.Vec {
	s := 1 - t
	return b[0].Mul(s * s * s).Add(b[1].Mul(3 * s * s * t)).Add(b[2].Mul(3 * s * t * t)).Add(b[3].Mul(t * t * t))
}

// way is the derivative's direction; where a handle has no length, that of what
// lies next.
func (b bezier) way(t float64) r2.Vec {
	s := 1 - t
	d := b[1].Sub(b[0]).Mul(s * s).Add(b[2].Sub(b[1]).Mul(2 * s * t)).Add(b[3].Sub(b[2]).Mul(t * t))
	if d.Len() > 1e-9 {
		return d.Unit()
	}
	const near = 1e-4
	return b.at(min(1, t+near)).Sub(b.at(max(0, t-near))).Unit()
}

// ellipse is an arc of an ellipse: the two half axes as vectors from its centre.
type ellipse struct {
	c, a, b     r2.Vec
	from, sweep float64
}

func (e ellipse) at(t float64) r2.Vec {
	s, c := math.Sincos(e.from + t*e.sweep)
	return e.c.Add(e.a.Mul(c)).Add(e.b.Mul(s))
}

func (e ellipse) way(t float64) r2.Vec {
	s, c := math.Sincos(e.from + t*e.sweep)
	return e.b.Mul(c).Sub(e.a.Mul(s)).Mul(math.Copysign(1, e.sweep)).Unit()
}

// deepest is how often a curve is halved.
const deepest = 10

// curve adds a curve as arcs.
func (r *reader) curve(c course) { r.part(c, 0, 1, 0) }

func (r *reader) part(c course, t0, t1 float64, depth int) {
	p, q := c.at(t0), c.at(t1)
	if len(r.loop) > r.room {
		return // told by who called
	}
	if q.Sub(p).Len() < shortest && depth > 2 {
		r.edge(p, 0)
		return
	}
	if depth > 0 || q.Sub(p).Len() > shortest {
		if pair, ok := biarc(p, c.way(t0), q, c.way(t1)); ok && (follows(pair, c, t0, t1) || depth == deepest) {
			r.edge(pair[0].A, pair[0].Bulge)
			r.edge(pair[1].A, pair[1].Bulge)
			return
		}
	}
	if depth == deepest {
		r.edge(p, 0)
		return
	}
	mid := (t0 + t1) / 2
	r.part(c, t0, mid, depth+1)
	r.part(c, mid, t1, depth+1)
}

// biarc returns the two arcs from p in direction u to q in direction v.
func biarc(p, u, q, v r2.Vec) ([2]planar.Edge, bool) {
	w, t := q.Sub(p), u.Add(v)
	a, b := t.Dot(t)-4, w.Dot(t)
	var d float64
	switch {
	case a < -1e-9:
		d = (b - math.Sqrt(b*b-a*w.Dot(w))) / a
	case b > 1e-12:
		d = w.Dot(w) / (2 * b)
	}
	if !(d > 0) || d > 1e6 {
		return [2]planar.Edge{}, false
	}
	m := p.Add(u.Mul(d)).Lerp(q.Sub(v.Mul(d)), 0.5)
	first, second := turnTo(u, m.Sub(p)), turnTo(q.Sub(m), v)
	if math.Abs(first) > 1.5 || math.Abs(second) > 1.5 { // more than about half a turn each
		return [2]planar.Edge{}, false
	}
	return [2]planar.Edge{{A: p, B: m, Bulge: math.Tan(first / 2)}, {A: m, B: q, Bulge: math.Tan(second / 2)}}, true
}

// turnTo is the angle from one direction to another.
func turnTo(a, b r2.Vec) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// follows reports whether a pair of arcs keeps within half of Within of the
// curve, at 15 places of it; the other half is for what lies between them.
func follows(pair [2]planar.Edge, c course, t0, t1 float64) bool {
	const places = 16
	for i := 1; i < places; i++ {
		p := c.at(t0 + (t1-t0)*float64(i)/places)
		if min(apart(pair[0], p), apart(pair[1], p)) > Within/2 {
			return false
		}
	}
	return true
}

// apart is the distance of a point from an edge.
func apart(e planar.Edge, p r2.Vec) float64 {
	ends := min(p.Sub(e.A).Len(), p.Sub(e.B).Len())
	if !e.IsArc() {
		d := e.B.Sub(e.A)
		if s := p.Sub(e.A).Dot(d) / max(d.Dot(d), 1e-18); s > 0 && s < 1 {
			return math.Abs(p.Sub(e.A).Cross(d.Unit()))
		}
		return ends
	}
	c := e.Center()
	turn := turnTo(e.A.Sub(c), p.Sub(c))
	sweep := e.Sweep()
	if sweep < 0 {
		turn, sweep = -turn, -sweep
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if turn <= sweep {
		return math.Abs(p.Sub(c).Len() - math.Abs(e.Radius()))
	}
	return ends
}

// arc reads an elliptical arc and adds it: W3C SVG 1.1, appendix F.6.5, from
// ends to centre, with the half axes made larger where they do not reach.
func (r *reader) arc(c byte) error {
	var v [3]float64
	for i := range v {
		var err error
		if v[i], err = r.number(); err != nil {
			return err
		}
	}
	large, err := r.flag()
	if err != nil {
		return err
	}
	swept, err := r.flag()
	if err != nil {
		return err
	}
	ps, err := r.points(c, 1)
	if err != nil {
		return err
	}
	from, to := r.d.at(r.here), r.d.at(ps[0])
	rx, ry := math.Abs(v[0])*r.d.kx, math.Abs(v[1])*r.d.ky
	if from.Sub(to).Len() < shortest {
		return nil
	}
	if rx < shortest || ry < shortest {
		r.line(ps[0])
		return nil
	}
	e, ok := centred(from, to, rx, ry, -v[2]*math.Pi/180, large, !swept) // y is turned over
	if !ok {
		return errors.New("path data: an arc cannot be reckoned")
	}
	if math.Abs(rx-ry) < 1e-9*rx {
		r.circle(e)
	} else {
		r.curve(e)
	}
	r.here = ps[0]
	return nil
}

// circle adds an arc of a circle exactly, in edges of less than half a turn.
func (r *reader) circle(e ellipse) {
	n := int(math.Ceil(math.Abs(e.sweep) / 3))
	for i := range n {
		r.edge(e.at(float64(i)/float64(n)), math.Tan(e.sweep/float64(n)/4))
	}
}

func centred(p, q r2.Vec, rx, ry, tilt float64, large, left bool) (ellipse, bool) {
	h := p.Sub(q).Mul(0.5).Turn(-tilt)
	if need := h.X*h.X/(rx*rx) + h.Y*h.Y/(ry*ry); need > 1 {
		rx, ry = rx*math.Sqrt(need), ry*math.Sqrt(need)
	}
	k := rx*rx*h.Y*h.Y + ry*ry*h.X*h.X
	f := math.Sqrt(max(0, rx*rx*ry*ry/k-1))
	if large == left {
		f = -f
	}
	c := r2.Vec{X: f * rx * h.Y / ry, Y: -f * ry * h.X / rx}
	unit := func(v r2.Vec) r2.Vec { return r2.Vec{X: v.X / rx, Y: v.Y / ry} }
	a, b := unit(h.Sub(c)), unit(h.Mul(-1).Sub(c))
	e := ellipse{c: c.Turn(tilt).Add(p.Lerp(q, 0.5)), a: r2.Vec{X: rx}.Turn(tilt), b: r2.Vec{Y: ry}.Turn(tilt),
		from: math.Atan2(a.Y, a.X), sweep: turnTo(a, b)}
	if left && e.sweep < 0 {
		e.sweep += 2 * math.Pi
	} else if !left && e.sweep > 0 {
		e.sweep -= 2 * math.Pi
	}
	return e, !math.IsNaN(e.c.X + e.c.Y + e.sweep)
}
