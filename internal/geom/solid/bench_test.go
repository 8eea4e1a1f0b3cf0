package solid_test

import (
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// rack is a wall of shelves: 16 uprights, each with 20 housings on both faces
// and two rows of holes, and 300 boards between them.
func rack(tb testing.TB) []solid.Body {
	const t, bay, rise, depth, in = 18.0, 300.0, 100.0, 280.0, 6.0
	var out []solid.Body
	add := func(pose r3.Pose, outline planar.Region, cuts []solid.Pocket) {
		b, err := solid.Panel(pose, outline, t, cuts)
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, b)
	}
	for i := range 16 {
		var cuts []solid.Pocket
		for k := range 20 {
			at := rise * float64(k+1)
			for _, face := range []solid.Side{solid.A, solid.B} {
				cuts = append(cuts, solid.Pocket{Region: planar.Rect(at-0.05, -1, at+t+0.05, depth+1), Face: face, Depth: in})
			}
			cuts = append(cuts, solid.Pocket{Region: planar.Disc(r2.Vec{X: at + 50, Y: 37}, 2.5), Face: solid.A, Depth: 9})
		}
		pose := upright
		pose.O.X = float64(i) * bay
		add(pose, planar.Rect(0, 0, 2200, depth), cuts)
	}
	for i := range 15 {
		for k := range 20 {
			pose := r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}}
			pose.O = r3.Vec{X: float64(i)*bay + t - in, Y: rise*float64(k+1) + t}
			add(pose, planar.Rect(0, 0, bay-t+2*in, depth), nil)
		}
	}
	return out
}

// asked asks all pairs of bodies, boxes first, and returns how many touch.
func asked(tb testing.TB, bodies []*solid.Ready) (touching int) {
	for i, a := range bodies {
		for _, b := range bodies[:i] {
			s, err := a.Overlap(b)
			if err != nil || s.Volume > 0 {
				tb.Fatal(s, err)
			}
			ps, err := a.Contact(b, 0.1)
			if err != nil {
				tb.Fatal(err)
			}
			if len(ps) > 0 {
				touching++
			}
		}
	}
	return touching
}

func ready(bodies []solid.Body) []*solid.Ready {
	out := make([]*solid.Ready, len(bodies))
	for i, b := range bodies {
		out[i] = solid.Prepare(b)
	}
	return out
}

func TestRack(t *testing.T) {
	if n := asked(t, ready(rack(t))); n != 600 {
		t.Errorf("%d pairs touch, want 600", n)
	}
}

// 316 parts: what all pairs share, and where they touch.
func BenchmarkRack(b *testing.B) {
	bodies := rack(b)
	for b.Loop() {
		asked(b, ready(bodies))
	}
}

func BenchmarkMeshOfRack(b *testing.B) {
	bodies := rack(b)
	for b.Loop() {
		for _, s := range bodies {
			if _, err := s.Mesh(0.1); err != nil {
				b.Fatal(err)
			}
		}
	}
}
