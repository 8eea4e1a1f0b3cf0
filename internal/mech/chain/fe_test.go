package chain

import (
	"math"
	"testing"

	"rodwork/internal/geom/r2"
)

// A strip of ten kerfs under a pull, against figures of a finite-element program
// (tools/fe-bend, ccx 2.20): plane stress, eight-node elements, large
// displacements, plies as layers. The hinge's stiffness is that of one kerf by
// the same program, 391.7 N·mm/rad for 1 mm of width; all else is the chain's. The end's place agrees within 0.3 %;
// its turn within 1.5 %, as the pull at one node warps the end face.
func TestChainMeetsFiniteElements(t *testing.T) {
	const (
		rib, kerf, stiff, length = 3.88, 2.2, 391.7, 60.80
		neutral, middle          = 0.5697, 17.7 / 2
		n                        = 10
	)
	links := []Link{{Length: rib/2 + kerf/2}}
	for i := range n {
		l := rib + kerf
		if i == n-1 {
			l = kerf/2 + rib/2
		}
		links = append(links, Link{Length: l, Stiff: stiff})
	}
	for _, c := range []struct{ load, along, across, turned float64 }{
		{0.05, -0.0021, 1.5563, 2.2305}, {0.15, -0.1432, 4.5800, 6.4927}, {0.30, -0.6503, 8.8373, 12.3487},
	} {
		s, err := Solve(Problem{Links: links, HeldStart: true,
			Loads: []Load{{Link: n, Along: links[n].Length, Over: middle - neutral, Force: r2.Vec{Y: c.load}}}})
		if err != nil {
			t.Fatal(err)
		}
		turned := s.Turned[n]
		end := s.At[n+1].Add(r2.Vec{Y: -neutral}.Turn(turned)) // on the show face
		if got := turned * 180 / math.Pi; math.Abs(got-c.turned) > 0.015*c.turned {
			t.Errorf("pull %g: turned %.4f°, elements %.4f°", c.load, got, c.turned)
		}
		if got := end.Y + neutral; math.Abs(got-c.across) > 0.004*c.across {
			t.Errorf("pull %g: across %.4f, elements %.4f", c.load, got, c.across)
		}
		if got := end.X - length; math.Abs(got-c.along) > 0.005 {
			t.Errorf("pull %g: along %.4f, elements %.4f", c.load, got, c.along)
		}
	}
}
