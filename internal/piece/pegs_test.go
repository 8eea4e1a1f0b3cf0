package piece

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
	"rodwork/internal/trace"
)

func num(v float64) trace.Num { return trace.Const(v) }

func hole(f Face, x, y, dia, deep float64) Cut {
	return Cut{Kind: Hole, Face: f, X0: num(x), Y0: num(y), Diameter: num(dia), Depth: num(deep), Count: 1}
}

// What two cuts leave, by hand, in a part of 400 × 100 × 20.
func TestBetween(t *testing.T) {
	p := &Part{Length: num(400), Width: num(100), Thick: num(20)}
	groove := Cut{Kind: Groove, Face: FaceB, X0: num(0), X1: num(400), Y0: num(40), Y1: num(50), Depth: num(6)}
	for _, c := range []struct {
		what string
		a, b Cut
		want float64
	}{
		{"over a groove of the other face", hole(FaceA, 60, 45, 8, 11), groove, 3},
		{"through a groove of the other face", hole(FaceA, 60, 45, 8, 15), groove, -1},
		{"beside a groove", hole(FaceB, 60, 60, 8, 11), groove, 6},
		{"side by side", hole(FaceA, 60, 45, 8, 11), hole(FaceA, 92, 45, 5, 11), 25.5},
		{"from an end, under one from a face", hole(EndLow, 45, 5, 8, 30), hole(FaceA, 20, 45, 8, 9), 2},
		{"from an end, into one from a face", hole(EndLow, 45, 10, 8, 30), hole(FaceA, 20, 45, 8, 9), -3},
		{"from an end, short of one from a face", hole(EndLow, 45, 10, 8, 30), hole(FaceA, 40, 45, 8, 15), 6},
		{"from an edge, beside one from an end", hole(EdgeLow, 50, 10, 6, 30), hole(EndLow, 20, 10, 6, 40), 7},
	} {
		if got := Between(p, &c.a, &c.b); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g, want %g", c.what, got, c.want)
		}
		if back := Between(p, &c.b, &c.a); math.Abs(back-Between(p, &c.a, &c.b)) > 1e-9 {
			t.Errorf("%s: %g the other way", c.what, back)
		}
	}
}

// Two holes that share a point leave nothing, whatever their faces.
func TestBetweenIsNeverTooLarge(t *testing.T) {
	p := &Part{Length: num(200), Width: num(90), Thick: num(30)}
	faces := []Face{FaceA, FaceB, EdgeLow, EdgeHigh, EndLow, EndHigh}
	rapid.Check(t, func(rt *rapid.T) {
		at := r3.Vec{X: rapid.Float64Range(15, 185).Draw(rt, "x"), Y: rapid.Float64Range(15, 75).Draw(rt, "y"), Z: rapid.Float64Range(6, 24).Draw(rt, "z")}
		one := func(name string) Cut {
			f := rapid.SampledFrom(faces).Draw(rt, name)
			d := rapid.Float64Range(2, 12).Draw(rt, name+" dia")
			x, y, deep := at.X, at.Y, at.Z
			switch f {
			case FaceA:
				deep = 30 - at.Z
			case EdgeLow, EdgeHigh:
				y, deep = at.Z, at.Y
				if f == EdgeHigh {
					deep = 90 - at.Y
				}
			case EndLow, EndHigh:
				x, y, deep = at.Y, at.Z, at.X
				if f == EndHigh {
					deep = 200 - at.X
				}
			}
			return hole(f, x, y, d, deep+rapid.Float64Range(0, 5).Draw(rt, name+" more"))
		}
		a, b := one("a"), one("b")
		if got := Between(p, &a, &b); got > 1e-9 {
			rt.Errorf("%g between %+v and %+v", got, a, b)
		}
	})
}
