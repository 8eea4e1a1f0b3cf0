package chain

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Load is a weight that hangs on a place of the chain: its direction stays.
type Load struct {
	Link  int
	Along float64 // from the link's start, mm
	Over  float64 // over its neutral line, mm
	Force r2.Vec  // N
}

// Problem is a strip, what it lies on and what pulls at it.
type Problem struct {
	Links  []Link
	Former *Former
	Loads  []Load
	// Clamps are links whose middle of the face is drawn on the former.
	Clamps []int
	// HeldStart fixes place and direction of the first link; Slides lets it slide
	// along the former too; else it is only kept from sliding along x.
	HeldStart, Slides bool
	// Start is the directions to begin from, one for each link; nil: straight.
	Start []float64
	From  r2.Vec // where the chain starts
}

// Stiffness of what may not be entered or turned further: so high that what
// pushes there gives way by less than is measured, and no higher, for the sake
// of the arithmetic.
const (
	faceStiff = 1e6 // N/mm at one place
	stopStiff = 1e5 // times the hinge's own
)

// system is a problem with its unknowns: x and y of the start, then the
// directions.
type system struct {
	Problem
	n      int
	probes []probe
	// scratch of one evaluation
	at  []r2.Vec // start of each link
	dir []r2.Vec
}

// probe is a place of a link that can touch, is clamped, or carries a load.
type probe struct {
	link        int
	along, over float64
	held        bool
	touch       bool
	force       r2.Vec
}

// shares of a face at which it is asked whether it touches.
var touchShares = [...]float64{0, 0.25, 0.5, 0.75, 1}

func newSystem(p Problem) *system {
	s := &system{Problem: p, n: len(p.Links), at: make([]r2.Vec, len(p.Links)+1), dir: make([]r2.Vec, len(p.Links))}
	clamped := map[int]bool{}
	for _, c := range p.Clamps {
		clamped[c] = true
	}
	for i, l := range p.Links {
		if p.Former == nil {
			break
		}
		for _, t := range touchShares {
			s.probes = append(s.probes, probe{link: i, along: l.From + t*(l.To-l.From), over: l.Over, touch: true, held: clamped[i] && t == 0.5})
		}
	}
	for _, l := range p.Loads {
		s.probes = append(s.probes, probe{link: l.Link, along: l.Along, over: l.Over, force: l.Force})
	}
	return s
}

// place sets the chain out from the unknowns.
func (s *system) place(q []float64) {
	p := r2.Vec{X: q[0], Y: q[1]}
	for i, l := range s.Links {
		sin, cos := math.Sincos(q[2+i])
		s.at[i], s.dir[i] = p, r2.Vec{X: cos, Y: sin}
		p = p.Add(s.dir[i].Mul(l.Length))
	}
	s.at[s.n] = p
}

func (s *system) point(b probe) r2.Vec {
	d := s.dir[b.link]
	return s.at[b.link].Add(d.Mul(b.along)).Add(d.Left().Mul(b.over))
}

// push is the energy at one probe, its gradient and second derivatives by the
// probe's place.
func (s *system) push(b probe) (e float64, g r2.Vec, xx, xy, yy float64) {
	p := s.point(b)
	e, g = -b.force.Dot(p), b.force.Mul(-1)
	if s.Former == nil || !b.touch {
		return e, g, 0, 0, 0
	}
	d, away, curv, ok := s.Former.gap(p)
	if !ok || d > 0 && !b.held {
		return e, g, 0, 0, 0
	}
	k := faceStiff
	e += k / 2 * d * d
	g = g.Add(away.Mul(k * d))
	side := k * d * curv // of the turning normal
	xx = k*away.X*away.X + side*away.Y*away.Y
	xy = k*away.X*away.Y - side*away.X*away.Y
	yy = k*away.Y*away.Y + side*away.X*away.X
	return e, g, xx, xy, yy
}

// energy of the unknowns.
func (s *system) energy(q []float64) float64 {
	s.place(q)
	e := 0.0
	for i := 1; i < s.n; i++ {
		v, _, _ := s.hinge(i, q[2+i]-q[1+i])
		e += v
	}
	for _, b := range s.probes {
		v, _, _, _, _ := s.push(b)
		e += v
	}
	return e
}

// hinge is the energy of the hinge before link i at a turn, with its first and
// second derivative.
func (s *system) hinge(i int, turn float64) (e, m, k float64) {
	l := s.Links[i]
	e, m, k = l.Stiff/2*turn*turn, l.Stiff*turn, l.Stiff
	if over := turn - l.Shut; l.Shut > 0 && over > 0 {
		stop := l.Stop
		if stop == 0 {
			stop = stopStiff * l.Stiff
		}
		e, m, k = e+stop/2*over*over, m+stop*over, k+stop
	}
	return e, m, k
}
