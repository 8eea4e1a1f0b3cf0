package chain

import (
	"fmt"
	"math"

	"rodwork/internal/geom/r2"
)

// Shape is the strip at rest.
type Shape struct {
	// At are the places on the neutral line where links start, and the end of the
	// last; Turned their directions, rad.
	At     []r2.Vec
	Turned []float64
	// Gaps are how far the inner face stands off the former, along the strip.
	Gaps []Gap
	// Worst is the largest of them, between the outermost places that are there.
	Worst Gap
	// Pulls are the least forces of the clamps, in the order of Problem.Clamps, N.
	Pulls []float64
	// Pushes is what the former bears in all, N; Highest at one place.
	Pushes, Highest float64
	// Shut counts the kerfs that are shut.
	Shut int
	// Energy is what the shape holds, N·mm; Way the energies of the search.
	Energy float64
	Way    []float64
}

// Gap is one place of the strip's inner face and how far it stands off.
type Gap struct {
	Along float64 // from the chain's start, laid flat, mm
	Link  int
	Off   float64 // mm; nought or a hair under where it touches
	Push  float64 // N, on the former
	There bool    // false: the former does not reach here
	Point r2.Vec
}

// UnsolvedError says that no balanced shape was found.
type UnsolvedError struct{ Steps int }

// Error says so.
func (e *UnsolvedError) Error() string {
	return fmt.Sprintf("chain: no shape in balance after %d steps", e.Steps)
}

// InputError says that a chain cannot be solved as given.
type InputError struct{ What string }

// Error names what is wrong.
func (e *InputError) Error() string { return "chain: " + e.What }

// mostLinks bounds the work, which grows with the third power.
const mostLinks = 1000

func (p Problem) check() error {
	if len(p.Links) < 2 || len(p.Links) > mostLinks {
		return &InputError{fmt.Sprintf("%d links: want 2 to %d", len(p.Links), mostLinks)}
	}
	if p.Start != nil && len(p.Start) != len(p.Links) {
		return &InputError{"directions to start from for each link"}
	}
	for i, l := range p.Links {
		if !(l.Length > 0 && l.Length < 1e6) || i > 0 && !(l.Stiff > 0 && l.Stiff < 1e15) || !(l.Shut >= 0) || !(l.Stop >= 0 && l.Stop < 1e18) {
			return &InputError{fmt.Sprintf("link %d: a length and a stiffness above nought are wanted", i)}
		}
	}
	for _, l := range p.Loads {
		if l.Link < 0 || l.Link >= len(p.Links) || !(l.Force.Len() < 1e9) {
			return &InputError{"a load on a link of the chain is wanted"}
		}
	}
	for _, c := range p.Clamps {
		if c < 0 || c >= len(p.Links) {
			return &InputError{"a clamp on a link of the chain is wanted"}
		}
	}
	if f := p.Former; f != nil && !(f.Radius > 0 && f.Radius < 1e6 && f.Angle > 0 && f.Angle < math.Pi) {
		return &InputError{"a former with a radius, and an angle under half a turn, is wanted"}
	}
	return nil
}

// Solve finds the strip's shape. The error is an *InputError, or an
// *UnsolvedError where the forces do not come into balance.
func Solve(p Problem) (Shape, error) {
	if err := p.check(); err != nil {
		return Shape{}, err
	}
	s := newSystem(p)
	q, way, ok := s.solve()
	if !ok {
		return Shape{}, &UnsolvedError{Steps: len(way)}
	}
	return s.shape(q, way), nil
}

func (s *system) shape(q, way []float64) Shape {
	s.place(q)
	out := Shape{At: s.at, Turned: q[2:], Energy: way[len(way)-1], Way: way, Pulls: make([]float64, len(s.Clamps))}
	for i := 1; i < s.n; i++ {
		if l := s.Links[i]; l.Shut > 0 && q[2+i]-q[1+i] > l.Shut-1e-7 {
			out.Shut++
		}
	}
	starts := make([]float64, s.n)
	for i := 1; i < s.n; i++ {
		starts[i] = starts[i-1] + s.Links[i-1].Length
	}
	for _, b := range s.probes {
		if b.touch {
			out.take(s, b, starts[b.link])
		}
	}
	return out
}

func (out *Shape) take(s *system, b probe, start float64) {
	p := s.point(b)
	d, _, _, ok := s.Former.gap(p)
	g := Gap{Along: start + b.along, Link: b.link, Off: d, There: ok, Point: p}
	if !ok {
		out.Gaps = append(out.Gaps, g)
		return
	}
	if d < 0 {
		g.Push = -faceStiff * d
		out.Pushes += g.Push
		out.Highest = math.Max(out.Highest, g.Push)
	}
	if b.held && d > 0 {
		for i, c := range s.Clamps {
			if c == b.link {
				out.Pulls[i] = faceStiff * d
			}
		}
	}
	if d > out.Worst.Off {
		out.Worst = g
	}
	out.Gaps = append(out.Gaps, g)
}

// Bent returns the directions of a chain whose rib hinges each turn by alpha,
// flats straight: a good place to start from.
func Bent(links []Link, alpha float64) []float64 {
	out := make([]float64, len(links))
	for i := 1; i < len(links); i++ {
		out[i] = out[i-1]
		if links[i].Rib {
			out[i] += alpha
		}
	}
	return out
}
