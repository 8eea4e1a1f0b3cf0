package check

import (
	"math"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// A leg that is broad above and narrow below stands on its foot: between 60 and
// 100 mm behind its edge, not from 0 to 150.
func TestALegStandsOnItsFoot(t *testing.T) {
	n := trace.Const
	q := &piece.Part{ID: "leg", Role: piece.Leg, Length: n(140), Width: n(150), Thick: n(18),
		Pose:   r3.Pose{O: r3.Vec{X: 118, Z: 400}, X: r3.Vec{Y: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: -1}},
		Origin: [3]trace.Num{n(118), n(0), n(400)},
		Outline: planar.Of(planar.Polygon(r2.Vec{Y: 60}, r2.Vec{X: 140}, r2.Vec{X: 140, Y: 150},
			r2.Vec{Y: 100}))}
	lo, hi, y := footprint(q)
	for what, c := range map[string][2]float64{
		"left": {lo[0].V, 100}, "right": {hi[0].V, 118}, "rear": {lo[1].V, 300}, "front": {hi[1].V, 340}, "height": {y, 0},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s is %g, want %g", what, c[0], c[1])
		}
	}
}

// A strip that bends in plan stands on the rectangle round its half circle.
func TestARoundStripStandsOnItsBox(t *testing.T) {
	n := trace.Const
	q := &piece.Part{ID: "shell", Role: piece.Strip, Length: n(200 + math.Pi*200), Width: n(450), Thick: n(12),
		Pose:   r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}},
		Origin: [3]trace.Num{{}, n(460), {}},
		Run: []piece.Stretch{{X0: 0, X1: 100, From: r2.Vec{X: 400}, Dir: r2.Vec{Y: -1}},
			{X0: 100, X1: 100 + math.Pi*200, From: r2.Vec{X: 400, Y: -100}, Dir: r2.Vec{Y: -1}, Radius: 200, Angle: math.Pi},
			{X0: 100 + math.Pi*200, X1: 200 + math.Pi*200, From: r2.Vec{Y: -100}, Dir: r2.Vec{Y: 1}}}}
	lo, hi, y := footprint(q)
	for what, c := range map[string][2]float64{
		"left": {lo[0].V, 0}, "right": {hi[0].V, 400}, "rear": {lo[1].V, 0}, "front": {hi[1].V, 300}, "height": {y, 10},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s is %g, want %g", what, c[0], c[1])
		}
	}
}
