package bend_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/bend"
)

var birch = []bend.Layer{{Thick: 1.1, E: 17500}, {Thick: 1.4, E: 600}, {Thick: 1.4, E: 17500}}

func quarter(thick, skin, kerf, radius float64, n int) bend.Spec {
	return bend.Spec{Thick: thick, Skin: skin, Kerf: kerf, Radius: radius, Angle: math.Pi / 2, Count: n,
		Width: 400, Layers: birch, GrainAlong: true}
}

// The neutral line of two skins worked by hand: the face round the bend, and
// along the kerfs.
func ExampleNeutral() {
	fmt.Printf("%.3f\n", bend.Neutral([]bend.Layer{{1.1, 17500}, {1.4, 600}}, 2))
	fmt.Printf("%.3f\n", bend.Neutral([]bend.Layer{{1.1, 600}, {1.4, 17500}}, 2))
	fmt.Printf("%.3f\n", bend.Neutral(nil, 2))
	// Output:
	// 0.577
	// 1.510
	// 1.000
}

func TestNeutralLiesInTheSkin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers := []bend.Layer{}
		for range rapid.IntRange(1, 6).Draw(t, "layers") {
			layers = append(layers, bend.Layer{Thick: rapid.Float64Range(0.2, 3).Draw(t, "h"), E: rapid.Float64Range(100, 20000).Draw(t, "E")})
		}
		skin := rapid.Float64Range(0.1, 8).Draw(t, "skin")
		y := bend.Neutral(layers, skin)
		if !(y > 0 && y < skin) {
			t.Errorf("neutral line at %g of a skin of %g", y, skin)
		}
		// Stiffness about the neutral line is the least about any parallel line:
		// a stiffer layer more never takes from it.
		if ei := bend.SkinEI(layers, skin); ei <= 0 {
			t.Errorf("stiffness %g", ei)
		}
		stiff := append([]bend.Layer(nil), layers...)
		for i := range stiff {
			stiff[i].E *= 2
		}
		near(t, "neutral of a skin twice as stiff", bend.Neutral(stiff, skin), y, 1e-9)
		near(t, "its stiffness", bend.SkinEI(stiff, skin), 2*bend.SkinEI(layers, skin), 1e-6*bend.SkinEI(stiff, skin))
	})
}

// All lengths scaled by one factor: lengths follow, strains and angles stay.
func TestScaling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		k := rapid.Float64Range(0.6, 2.5).Draw(t, "k")
		b := s
		b.Thick, b.Skin, b.Kerf, b.Radius = k*s.Thick, k*s.Skin, k*s.Kerf, k*s.Radius
		b.Layers = nil
		for _, l := range s.Layers {
			b.Layers = append(b.Layers, bend.Layer{Thick: k * l.Thick, E: l.E})
		}
		p, q := mustPlan(t, s), mustPlan(t, b)
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"pitch", q.Pitch, k * p.Pitch}, {"mouth", q.Mouth, k * p.Mouth}, {"facet", q.Facet, k * p.Facet},
			{"rail", q.RailRadius, k * p.RailRadius}, {"gap", q.RailGap, k * p.RailGap},
			{"strain", q.StrainHigh, p.StrainHigh}, {"least", float64(q.LeastCount), float64(p.LeastCount)},
		} {
			near(t, c.name, c.got, c.want, 1e-8*(1+math.Abs(c.want)))
		}
	})
}

// More kerfs: mouths wider, strain and facets less, ribs narrower.
func TestMoreKerfs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		p := mustPlan(t, s)
		s.Count++
		q, err := bend.New(s)
		if err != nil {
			return // no rib left
		}
		if !(q.Mouth > p.Mouth && q.StrainHigh < p.StrainHigh && q.StrainLow < p.StrainLow && q.Facet < p.Facet && q.Rib < p.Rib && q.RailGap < p.RailGap) {
			t.Errorf("with %d kerfs %+v\nwith one more %+v", p.Count, p, q)
		}
		if !(p.StrainLow <= p.StrainMid && p.StrainMid <= p.StrainHigh) {
			t.Errorf("strain band out of order: %g %g %g", p.StrainLow, p.StrainMid, p.StrainHigh)
		}
	})
}

// A homogeneous skin that is thicker is strained more; a wider blade less.
func TestThickerSkinAndWiderBlade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		s.Layers = nil
		s.Count = int(math.Ceil(s.Angle / (math.Pi / 4)))
		p := mustPlan(t, s)
		thick, wide := s, s
		thick.Skin *= 1.2
		wide.Kerf *= 1.2
		if q := mustPlan(t, thick); q.StrainHigh <= p.StrainHigh || q.StrainLow <= p.StrainLow {
			t.Errorf("thicker skin: %g to %g", p.StrainHigh, q.StrainHigh)
		}
		q, err := bend.New(wide)
		if err == nil && (q.StrainHigh >= p.StrainHigh || q.Mouth <= p.Mouth) {
			t.Errorf("wider blade: %g to %g", p.StrainHigh, q.StrainHigh)
		}
	})
}

// With shut kerfs a blade's error adds in every kerf; with open kerfs the
// outside does not move, only mouth and strain.
func TestWhatTheBladeDoes(t *testing.T) {
	a, b := mustPlan(t, quarter(18, 2, 3.2, 150, 9)), mustPlan(t, quarter(18, 2, 3.25, 150, 9))
	near(t, "error of the shut angle", 9*(b.ClosedAt-a.ClosedAt), 9*0.05/(18-a.NeutralY), 1e-12)
	f := bend.Fold(b.Strip(0, 0), 0, b.Flat)
	near(t, "outside with the other blade", f.Radius, 150, 1e-3)
	near(t, "mouth", b.Mouth-a.Mouth, 0.05, 1e-9)
}

func TestBadSpecs(t *testing.T) {
	good := quarter(18, 2, 3.2, 150, 24)
	mustPlan(t, good)
	for name, spoil := range map[string]func(*bend.Spec){
		"thick 0":          func(s *bend.Spec) { s.Thick = 0 },
		"thick NaN":        func(s *bend.Spec) { s.Thick = math.NaN() },
		"skin negative":    func(s *bend.Spec) { s.Skin = -1 },
		"skin whole":       func(s *bend.Spec) { s.Skin = 18 },
		"kerf 0":           func(s *bend.Spec) { s.Kerf = 0 },
		"kerf infinite":    func(s *bend.Spec) { s.Kerf = math.Inf(1) },
		"radius in sheet":  func(s *bend.Spec) { s.Radius = 18 },
		"radius huge":      func(s *bend.Spec) { s.Radius = 1e9 },
		"angle 0":          func(s *bend.Spec) { s.Angle = 0 },
		"angle two turns":  func(s *bend.Spec) { s.Angle = 13 },
		"count negative":   func(s *bend.Spec) { s.Count = -1 },
		"count huge":       func(s *bend.Spec) { s.Count = 10000 },
		"kerfs in kerfs":   func(s *bend.Spec) { s.Count = 90 },
		"no modulus":       func(s *bend.Spec) { s.Layers = []bend.Layer{{1, 0}} },
		"layer negative":   func(s *bend.Spec) { s.Layers = []bend.Layer{{-1, 100}} },
		"beta upside down": func(s *bend.Spec) { s.BetaLow, s.BetaHigh = 2, 1 },
		"sd NaN":           func(s *bend.Spec) { s.KerfSD = math.NaN() },
	} {
		s := good
		spoil(&s)
		p, err := bend.New(s)
		var se *bend.SpecError
		if !errors.As(err, &se) || se.Field == "" || se.Want == "" {
			t.Errorf("%s: %v, %+v", name, err, p)
		}
		s.Count = 0
		if _, err := bend.New(s); err == nil && name != "count negative" && name != "count huge" && name != "kerfs in kerfs" {
			t.Errorf("%s: chosen all the same", name)
		}
	}
}

// Whatever a spec holds, New neither panics nor gives a number that is none.
func TestNewBearsAnything(t *testing.T) {
	odd := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-10, 300),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 1e-300, 1e300}))
	rapid.Check(t, func(t *rapid.T) {
		s := bend.Spec{Thick: odd.Draw(t, "t"), Skin: odd.Draw(t, "h"), Kerf: odd.Draw(t, "w"), Radius: odd.Draw(t, "R"),
			Angle: odd.Draw(t, "a"), Width: odd.Draw(t, "b"), Count: rapid.IntRange(-5, 3000).Draw(t, "n"), SkinSD: odd.Draw(t, "sd")}
		p, err := bend.New(s)
		if err != nil {
			return
		}
		for _, v := range []float64{p.Pitch, p.Flat, p.Mouth, p.Rib, p.Facet, p.StrainHigh, p.StrainLow, p.RailRadius, p.RailGap, p.Clear} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v gives %+v", s, p)
			}
		}
		p.Verdicts()
	})
}
