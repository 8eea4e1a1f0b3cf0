package export

import (
	"math"
	"testing"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// A reader of the document alone finds each part's body in the piece: from its
// pose and outline, its box; of a sawn part, within its bevels.
func TestOutlinesAndPoses(t *testing.T) {
	for name, p := range plans(t) {
		for i, q := range PartsOf(p).Parts {
			if len(q.Run) > 0 {
				continue
			}
			body, err := piece.Solid(p.Piece.Parts[i], 0)
			if err != nil {
				t.Fatal(err)
			}
			rough := q.Outline
			if len(q.Bevels) > 0 {
				rough = q.Rough
			}
			at := func(x, y, z float64) r3.Vec {
				v := func(n []Number) r3.Vec { return r3.Vec{X: float64(n[0]), Y: float64(n[1]), Z: float64(n[2])} }
				return v(q.Pose.Origin).Add(v(q.Pose.X).Mul(x)).Add(v(q.Pose.Y).Mul(y)).Add(v(q.Pose.Z).Mul(z))
			}
			box := r3.EmptyBox()
			for _, s := range rough {
				for _, c := range s.Outer.Corners {
					for _, z := range []float64{0, float64(q.Thickness)} {
						v := at(float64(c.X), float64(c.Y), z)
						box = box.Union(r3.Box{Min: v, Max: v})
					}
				}
			}
			want := body.Box()
			if len(q.Bevels) > 0 { // what is sawn off lies outside
				if box.Min.Y > want.Min.Y || box.Max.Y < want.Max.Y {
					t.Errorf("%s: %s has its rough outline in %v, the body in %v", name, q.ID, box, want)
				}
				continue
			}
			round := false
			for _, s := range rough {
				for _, c := range s.Outer.Corners {
					round = round || c.Bulge != 0
				}
			}
			if d := math.Max(box.Min.Sub(want.Min).Len(), box.Max.Sub(want.Max).Len()); d > 1e-6 && !round {
				t.Errorf("%s: %s is found %g mm off", name, q.ID, d)
			}
		}
	}
}
