package bend_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/bend"
)

func TestChoice(t *testing.T) {
	for _, c := range []struct {
		name  string
		spec  bend.Spec
		count int
		how   bend.ChoiceKind
		binds string
	}{
		{"a sideboard's corner", quarter(17.7, 1.6, 2.2, 140, 0), 34, bend.Likely, bend.KeyStrain},
		{"a wide sweep", quarter(17.7, 1.6, 3.2, 600, 0), 55, bend.Easy, bend.KeyFacet},
		{"too tight for its sheet", quarter(17.7, 2.4, 2.2, 40, 0), 17, bend.Compromise, bend.KeyRib},
	} {
		p := mustPlan(t, c.spec)
		if p.Count != c.count || p.Choice.How != c.how || p.Choice.Binds != c.binds {
			t.Errorf("%s: %d %+v, want %d %s %s", c.name, p.Count, p.Choice, c.count, c.how, c.binds)
		}
	}
}

// A chosen count is the fewest of its class: with one kerf less something is
// worse than the class allows; and what is chosen easily is nowhere 'stop'.
func TestChoiceIsTheFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		s.Angle = math.Min(s.Angle, math.Pi)
		s.Count = 0
		p, err := bend.New(s)
		if err != nil {
			return
		}
		if p.Choice.How == bend.Compromise {
			return
		}
		for _, v := range p.Verdicts() {
			if v.Level == bend.Stop || v.Level == bend.Look && (v.Key == bend.KeyMouth || v.Key == bend.KeyRib) {
				t.Errorf("%s by a choice that is %s: %+v", v.Level, p.Choice.How, v)
			}
		}
		if p.Count <= max(1, int(math.Ceil(s.Angle/(math.Pi/4)))) {
			return
		}
		s.Count = p.Count - 1
		less := mustPlan(t, s)
		limit := less.StrainMid > less.StrainFine || less.StrainHigh > less.StrainStop
		if p.Choice.How == bend.Easy {
			limit = less.StrainHigh > less.StrainFine
		}
		limit = limit && less.StrainCovered
		if !limit && less.Facet <= bend.FacetSeen && less.Mouth >= bend.DefaultMouth && less.Facet+bend.SandingAllowance <= 1.1/3 {
			t.Errorf("%d kerfs would have done instead of %d (%+v)", less.Count, p.Count, p.Choice)
		}
	})
}

func BenchmarkChoose(b *testing.B) {
	s := quarter(17.7, 1.6, 2.2, 140, 0)
	for b.Loop() {
		if _, err := bend.New(s); err != nil {
			b.Fatal(err)
		}
	}
}
