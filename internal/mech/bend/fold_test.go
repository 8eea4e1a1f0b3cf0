package bend_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/bend"
)

// anySpec draws bends that a shop could make, with a count that leaves ribs.
func anySpec(t *rapid.T) bend.Spec {
	s := bend.Spec{
		Thick:  rapid.Float64Range(6, 30).Draw(t, "thick"),
		Kerf:   rapid.Float64Range(1, 6).Draw(t, "kerf"),
		Radius: rapid.Float64Range(60, 800).Draw(t, "radius"),
		Angle:  rapid.Float64Range(20, 360).Draw(t, "angle") * math.Pi / 180,
		Width:  400, GrainAlong: rapid.Bool().Draw(t, "along"),
		Layers: []bend.Layer{{Thick: 1.1, E: 17500}, {Thick: 1.4, E: 600}, {Thick: 1.4, E: 17500}},
	}
	s.Skin = rapid.Float64Range(0.6, math.Min(3, s.Thick/3)).Draw(t, "skin")
	if !s.GrainAlong {
		s.Layers = []bend.Layer{{Thick: 1.1, E: 600}, {Thick: 1.4, E: 17500}, {Thick: 1.4, E: 600}}
	}
	least := int(math.Ceil(s.Angle / (math.Pi / 4)))
	most := max(least, min(150, int(s.Angle*(s.Radius-s.Skin)/s.Kerf*0.95)))
	s.Count = rapid.IntRange(least, most).Draw(t, "count")
	return s
}

func mustPlan(t interface {
	Helper()
	Fatal(...any)
}, s bend.Spec) bend.Plan {
	t.Helper()
	p, err := bend.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6f, want %.6f ± %g", what, got, want, tol)
	}
}

// The independent routine folds the list of kerfs and finds the outside where
// it was drawn: the claim is 0.05 mm, what is demanded 0.001.
func TestFoldFindsTheOutside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		p := mustPlan(t, s)
		before, after := rapid.Float64Range(0, 300).Draw(t, "before"), rapid.Float64Range(0, 300).Draw(t, "after")
		f := bend.Fold(p.Strip(before, after), before, before+p.Flat)
		near(t, "angle", f.Angle, s.Angle, 1e-9)
		near(t, "width", f.Width, s.Radius*math.Sin(s.Angle), 1e-3)
		near(t, "height", f.Height, s.Radius*(1-math.Cos(s.Angle)), 1e-3)
		if s.Angle < 350*math.Pi/180 { // the normals of a nearly closed ring cross at a bad angle
			near(t, "radius", f.Radius, s.Radius, 1e-3)
			near(t, "least radius", f.RadiusLow, s.Radius, 1e-3)
			near(t, "largest radius", f.RadiusHigh, s.Radius, 1e-3)
			near(t, "peak", f.Peak, p.Facet, 1e-3)
		}
		// The mouth is told along its arc; measured is its chord.
		near(t, "mouth", f.Mouth, p.Mouth, 0.03*s.Kerf*p.Alpha*p.Alpha+s.Thick*math.Pow(p.Alpha, 3)/20+1e-3)
	})
}

func TestRingCloses(t *testing.T) {
	for _, n := range []int{8, 37, 38, 120} {
		p := mustPlan(t, bend.Spec{Thick: 18, Skin: 1.5, Kerf: 3, Radius: 300, Angle: 2 * math.Pi, Count: n})
		f := bend.Fold(p.Strip(0, 0), 0, p.Flat)
		near(t, "closure", math.Hypot(f.End.X, f.End.Y), 0, 1e-3)
		near(t, "radius", f.Radius, 300, 1e-3)
	}
}

// The proof is no proof if it can not fail: the shared-out pitch, a kerf at a
// wrong place, a count short by one and a wider blade are all noticed.
func TestFoldNoticesAWrongList(t *testing.T) {
	p := mustPlan(t, bend.Spec{Thick: 18, Skin: 2, Kerf: 3.2, Radius: 150, Angle: math.Pi / 2, Count: 9})
	shared := math.Pi / 2 * 149 / 9
	s := p.Strip(0, 0)
	for i := range s.Positions {
		s.Positions[i] = (float64(i) + 0.5) * shared
	}
	s.Length = 9 * shared
	f := bend.Fold(s, 0, s.Length)
	near(t, "radius by the shared-out pitch", f.Radius, 150-0.33, 0.01)

	for name, wrong := range map[string]func(*bend.Strip){
		"one kerf moved by 1 mm": func(s *bend.Strip) { s.Positions[4]++ },
		"last kerf left out":     func(s *bend.Strip) { s.Positions = s.Positions[:8] },
		"turned too little":      func(s *bend.Strip) { s.Alpha *= 0.99 },
		"neutral line elsewhere": func(s *bend.Strip) { s.NeutralY += 0.2 },
	} {
		s := p.Strip(0, 0)
		wrong(&s)
		f := bend.Fold(s, 0, s.Length)
		off := math.Max(math.Abs(f.Width-150), math.Max(math.Abs(f.Height-150), math.Abs(f.Angle-math.Pi/2)*150))
		if off < 0.05 {
			t.Errorf("%s: off by %.4f only", name, off)
		}
	}
}

// The inside of the folded strip meets a rail of R_o − t at the rib middles,
// and nowhere nearer.
func TestRailMeetsRibMiddles(t *testing.T) {
	p := mustPlan(t, bend.Spec{Thick: 17.7, Skin: 1.6, Kerf: 2.2, Radius: 140, Angle: math.Pi / 2, Count: 30})
	f := bend.Fold(p.Strip(20, 20), 20, 20+p.Flat)
	near(t, "rail", p.RailRadius, 140-17.7, 1e-9)
	for _, r := range f.Ribs[1 : len(f.Ribs)-1] {
		mid := r.InnerA.Add(r.InnerB).Mul(0.5)
		near(t, "rib middle", mid.Sub(f.Centre).Len(), p.RailRadius, 1e-4)
		near(t, "rib edge", r.InnerA.Sub(f.Centre).Len()-p.RailRadius, p.RailGap, 1e-4)
	}
}
