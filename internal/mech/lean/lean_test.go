package lean

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
)

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

// The formulas against the vectors: the level plane's normal in the frame of a
// stick whose one pair of faces lies along the z axis.
func TestAnglesAgainstVectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across, along := rapid.Float64Range(0, 1).Draw(t, "across"), rapid.Float64Range(0, 1).Draw(t, "along")
		got, err := Of(across, along)
		if err != nil {
			t.Fatal(err)
		}
		up := r3.Vec{X: -math.Tan(across), Y: 1, Z: -math.Tan(along)}
		axis := up.Unit()
		face := r3.Vec{Z: 1}.Cross(axis).Unit() // normal of the face along z
		edge := axis.Cross(face)                // normal of the other pair
		level := r3.Vec{Y: 1}
		tilt := math.Asin(math.Abs(level.Dot(face)))
		mitre := math.Atan(math.Abs(level.Dot(edge) / level.Dot(axis)))
		lean := math.Acos(axis.Dot(level))
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"tilt", got.Tilt, tilt}, {"mitre", got.Mitre, mitre}, {"lean", got.Lean, lean}, {"stretch", got.Stretch, up.Len()}} {
			if math.Abs(c.got-c.want) > 1e-7 {
				t.Fatalf("%s %v, by vectors %v", c.what, c.got, c.want)
			}
		}
	})
}

// With a lean one way only, the cut is no compound one.
func TestOneWay(t *testing.T) {
	a, _ := Of(0.2, 0)
	b, _ := Of(0, 0.2)
	if a.Mitre != 0 || math.Abs(a.Tilt-0.2) > 1e-12 || b.Tilt != 0 || math.Abs(b.Mitre-0.2) > 1e-12 || math.Abs(a.Lean-0.2) > 1e-9 || math.Abs(b.Lean-0.2) > 1e-9 {
		t.Errorf("%v, %v", a, b)
	}
	for _, c := range [][2]float64{{-0.1, 0}, {0, 1.2}, {math.NaN(), 0}} {
		if _, err := Of(c[0], c[1]); err == nil {
			t.Errorf("%v was taken", c)
		}
	}
}
