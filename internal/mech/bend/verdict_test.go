package bend_test

import (
	"math"
	"testing"

	"rodwork/internal/mech/bend"
)

func verdict(t *testing.T, p bend.Plan, key string) bend.Verdict {
	t.Helper()
	for _, v := range p.Verdicts() {
		if v.Key == key {
			return v
		}
	}
	t.Fatalf("no verdict on %s", key)
	return bend.Verdict{}
}

const inch = 25.4

// Three reports from workshops, with what came of them. Kerf 1/8 in and the
// skins in brackets are taken where the report is silent.
func TestWorkshopReports(t *testing.T) {
	report := func(thick, skin, radius float64, n int) bend.Plan {
		return mustPlan(t, bend.Spec{Thick: thick * inch, Skin: skin * inch, Kerf: inch / 8, Radius: radius * inch,
			Angle: math.Pi / 2, Count: n, GrainAlong: true})
	}
	split := report(0.75, 1.0/8, 4, 12)
	v := verdict(t, split, bend.KeyStrain)
	if v.Level != bend.Stop || v.Low < v.Limit {
		t.Errorf("the corner that split: %+v", v)
	}
	near(t, "its mouth, in", split.Mouth/inch, 0.035, 0.0005)

	nearlyShut := report(0.75, 1.0/32, 1.75, 11)
	if v := verdict(t, nearlyShut, bend.KeyStrain); v.Level != bend.Look {
		t.Errorf("the tight corner that held (1/32 in of skin): %+v", v)
	}
	near(t, "its mouth, in", nearlyShut.Mouth/inch, 0.020, 0.001)
	if relieved := report(0.50, 1.0/32, 1.75, 11); relieved.Mouth < 2*nearlyShut.Mouth {
		t.Errorf("a third of the thickness dadoed away opens the mouth to %g only", relieved.Mouth)
	}

	// 12 in radius: pitch 1/2 in showed flats, 1/4 in hardly any. Both held.
	for pitch, want := range map[float64]bend.Level{0.5: bend.Look, 0.25: bend.Fine} {
		n := int(math.Round(math.Pi / 2 * (12 - 1.0/32) / pitch))
		p := report(0.75, 1.0/16, 12, n)
		if v := verdict(t, p, bend.KeyFacet); v.Level != want && p.Facet > bend.FacetUnseen*1.05 {
			t.Errorf("pitch %g in: facet %+v", pitch, v)
		}
		if v := verdict(t, p, bend.KeyStrain); v.Level == bend.Stop {
			t.Errorf("pitch %g in held, but: %+v", pitch, v)
		}
	}
}

func TestVerdictsAtTheirLimits(t *testing.T) {
	base := quarter(18, 2, 3.2, 150, 24)
	for _, c := range []struct {
		name, key string
		spoil     func(*bend.Spec)
		want      bend.Level
	}{
		{"wide open", bend.KeyMouth, func(s *bend.Spec) {}, bend.Fine},
		{"nearly shut", bend.KeyMouth, func(s *bend.Spec) { s.Count = 9 }, bend.Look},
		{"shut", bend.KeyMouth, func(s *bend.Spec) { s.Count = 8 }, bend.Stop},
		{"a blade that wanders", bend.KeyMouth, func(s *bend.Spec) { s.KerfSD = 0.7 }, bend.Look},
		{"ribs", bend.KeyRib, func(s *bend.Spec) {}, bend.Fine},
		{"thin ribs", bend.KeyRib, func(s *bend.Spec) { s.Count = 45 }, bend.Look},
		{"own rib", bend.KeyRib, func(s *bend.Spec) { s.LeastRib = 8 }, bend.Look},
		{"coarse", bend.KeyFacet, func(s *bend.Spec) { s.Count = 9 }, bend.Stop},
		{"noticed", bend.KeyFacet, func(s *bend.Spec) {}, bend.Look},
		{"no veneer known", bend.KeyFacet, func(s *bend.Spec) { s.Count, s.Layers = 9, nil }, bend.Look},
		{"rail", bend.KeyRail, func(s *bend.Spec) {}, bend.Fine},
		{"rail of a coarse bend", bend.KeyRail, func(s *bend.Spec) { s.Count = 9 }, bend.Look},
		{"between the radii", bend.KeyStrain, func(s *bend.Spec) {}, bend.Look},
		{"face along the kerfs", bend.KeyStrain, func(s *bend.Spec) {
			s.GrainAlong, s.Layers = false, []bend.Layer{{Thick: 1.1, E: 600}, {Thick: 1.4, E: 17500}}
		}, bend.Stop},
		{"a test strip says the hinge is long", bend.KeyStrain, func(s *bend.Spec) { s.BetaLow, s.BetaHigh = 1.8, 2 }, bend.Fine},
		{"soaked", bend.KeyStrain, func(s *bend.Spec) { s.Soaked = true }, bend.Fine},
		{"no table for so thin a skin", bend.KeyStrain, func(s *bend.Spec) { s.Skin = 0.3 }, bend.NotCovered},
		{"past the table and strained past its last row", bend.KeyStrain, func(s *bend.Spec) { s.Skin = 11 }, bend.Stop},
		{"no table for so thick a skin, hardly bent", bend.KeyStrain, func(s *bend.Spec) { s.Skin, s.Angle, s.Radius = 11, 0.02, 9000 }, bend.NotCovered},
		{"skin kept", bend.KeySkin, func(s *bend.Spec) { s.SkinSD = 0.1 }, bend.Fine},
		{"skin wanders", bend.KeySkin, func(s *bend.Spec) { s.SkinSD = 0.4 }, bend.Look},
		{"cut through", bend.KeySkin, func(s *bend.Spec) { s.SkinSD = 0.7 }, bend.Stop},
	} {
		s := base
		c.spoil(&s)
		if v := verdict(t, mustPlan(t, s), c.key); v.Level != c.want {
			t.Errorf("%s: %+v, want %s", c.name, v, c.want)
		}
	}
}

func TestGoverns(t *testing.T) {
	soaked := quarter(18, 2, 3.2, 150, 8)
	soaked.Soaked = true
	if v := mustPlan(t, soaked).Governs(); v.Key != bend.KeyMouth {
		t.Errorf("a bend that shuts is governed by %s", v.Key)
	}
	if v := mustPlan(t, quarter(18, 2, 3.2, 150, 30)).Governs(); v.Key != bend.KeyStrain {
		t.Errorf("a bend with mouths wide open is governed by %s", v.Key)
	}
}

// Every verdict names a rule that is there.
func TestVerdictsNameRules(t *testing.T) {
	ids := map[string]bool{}
	for _, r := range bend.Rules {
		ids[r.ID] = true
	}
	s := quarter(18, 2, 3.2, 150, 24)
	s.SkinSD = 0.1
	for _, v := range mustPlan(t, s).Verdicts() {
		if !ids[v.Rule] || v.Why == "" || v.Unit == "" {
			t.Errorf("%+v", v)
		}
	}
}
