package drawing

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/svg"
	"rodwork/internal/leaf"
	"rodwork/internal/units"
)

// TestNonsenseIsDrawnWithoutPanic puts absurd numbers into a plan: what comes
// out may look absurd too, but it comes out, and soon.
func TestNonsenseIsDrawnWithoutPanic(t *testing.T) {
	odd := rapid.SampledFrom([]float64{0, -1, 1e-9, 0.5, 17.7, 400, 1e5, 1e12, math.NaN(), math.Inf(1), math.Inf(-1)})
	rapid.Check(t, func(t *rapid.T) {
		p := sideboard()
		q := p.Piece.Parts[0]
		b := &q.Bends[0]
		for _, n := range []*float64{&q.Length.V, &q.Width.V, &q.Thick.V, &b.Start.V, &b.Length.V, &b.Radius.V, &b.Angle.V,
			&b.Plan.Alpha, &b.Plan.Pitch, &b.Plan.Rib, &b.Plan.RailGap, &b.Plan.RailRadius, &b.Plan.Depth, &b.Plan.Spec.Kerf, &b.Plan.Spec.Thick,
			&q.Cuts[1].X0.V, &q.Cuts[1].X1.V, &q.Run[1].Radius, &q.Run[1].Angle,
			&p.Piece.Width.V, &p.Piece.Height.V, &p.Piece.Depth.V, &p.Piece.Parts[1].Length.V, &p.Piece.Parts[1].Thick.V} {
			if rapid.IntRange(0, 7).Draw(t, "change") == 0 {
				*n = odd.Draw(t, "value")
			}
		}
		s := &p.Layouts[0].Sheets[0]
		for _, n := range []*float64{&s.Length, &s.Width, &s.Kerf, &s.Placements[0].X, &s.Placements[0].Length, &s.Cuts[2].Y0, &s.Cuts[3].X1, &s.Offcuts[0].Width,
			&p.Layouts[1].Sticks[0].Length, &p.Layouts[1].Sticks[0].Lengths[0].Length} {
			if rapid.IntRange(0, 7).Draw(t, "change") == 0 {
				*n = odd.Draw(t, "value")
			}
		}
		for _, l := range All(p, Options{System: rapid.SampledFrom([]units.System{units.MM, units.Inch, ""}).Draw(t, "system")}) {
			if n := len(svg.Render(l)); n > 1<<20 {
				t.Fatalf("%s grew to %d bytes", l.Key, n)
			}
		}
	})
}

// TestLongNamesStayOnPaper gives every part, space and stock a name that no
// sheet of paper holds.
func TestLongNamesStayOnPaper(t *testing.T) {
	long := strings.Repeat("a very long name <b>&amp; ", 200)
	p := planOf(t, "main")
	p.Piece.Name = long
	for _, q := range p.Piece.Parts {
		q.Name, q.NameA, q.NameB = long, long, long
		for i := range q.Cuts {
			q.Cuts[i].For = long
		}
	}
	for i := range p.Piece.Spaces {
		p.Piece.Spaces[i].Name = long
	}
	for _, l := range All(p, Options{}) {
		for _, it := range leaf.Plate(l).Items {
			if q, ok := it.(leaf.Text); ok && (q.Box().Min.X < 2 || q.Box().Max.X > 208) {
				t.Errorf("%s: %.60q runs off the paper", l.Key, q.S)
			}
		}
	}
}
