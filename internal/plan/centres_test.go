package plan

import (
	"context"
	"math"
	"os"
	"testing"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// Mass and centre of each part by its cuts are those of its solid, for shapes
// that are no rectangles too. A strip's kerfs are not in its solid, so its mass
// is less and its centre a little off.
func TestCentresAreThoseOfTheSolids(t *testing.T) {
	shop, err := os.ReadFile("../../examples/main/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"nursery-bench", "half-round-table"} {
		text, err := os.ReadFile("../../examples/" + name + "/piece.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p, ds := Make(context.Background(), Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, Options{})
		if p == nil {
			t.Fatal(ds)
		}
		for _, l := range p.Masses {
			q := p.Piece.Part(l.Part)
			if q == nil {
				continue
			}
			body, err := piece.Solid(q, 0)
			if err != nil {
				t.Fatal(err)
			}
			volume, at := lessNarrow(q, body.Volume(), body.Centroid())
			want := volume * q.Stock.Density.V
			off := r3.Vec{X: l.X.V, Y: l.Y.V, Z: l.Z.V}.Sub(at).Len()
			switch {
			case len(q.Bends) > 0:
				if l.Mass.V > want || l.Mass.V < want*0.7 || off > 5 {
					t.Errorf("%s: %s weighs %.4f of a solid's %.4f kg, its centre is %.2f mm off", name, l.Part, l.Mass.V, want, off)
				}
			case q.Role == piece.Side: // rabbets that cross at its corners are taken twice
				if math.Abs(l.Mass.V-want) > 4e-3*want || off > 0.5 {
					t.Errorf("%s: %s weighs %.5f kg, its solid %.5f; its centre is %.3f mm off", name, l.Part, l.Mass.V, want, off)
				}
			case math.Abs(l.Mass.V-want) > 1e-4*want || off > 0.01:
				t.Errorf("%s: %s weighs %.5f kg, its solid %.5f; its centre is %.3f mm off", name, l.Part, l.Mass.V, want, off)
			}
		}
	}
}

// lessNarrow takes the holes in a part's edges and ends from its body's volume
// and centre, where they are not hollow in it.
func lessNarrow(q *piece.Part, volume float64, at r3.Vec) (float64, r3.Vec) {
	first := at.Mul(volume)
	for _, c := range q.Cuts {
		if !c.Face.Narrow() || c.Kind != piece.Hole && c.Kind != piece.HoleRow {
			continue
		}
		for i := range c.Count {
			v := math.Pi / 4 * c.Diameter.V * c.Diameter.V * c.Depth.V
			mid := q.OnFace(c.Face, c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V).Sub(c.Face.Normal().Mul(c.Depth.V / 2))
			volume, first = volume-v, first.Sub(q.Pose.At(mid).Mul(v))
		}
	}
	return volume, first.Mul(1 / volume)
}
