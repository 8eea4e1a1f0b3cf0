package bend_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/bend"
)

var shop = []bend.Blade{
	{Name: "narrow", Kerf: 2.2, KerfSD: 0.03, DepthSD: 0.08, Deepest: 48, Longest: 2700},
	{Name: "wide", Kerf: 3.2, KerfSD: 0.02, DepthSD: 0.05, Deepest: 80, Longest: 1300},
}

// A corner of the usual sheet fits, with either blade; what is picked has no
// stop.
func TestSeekFindsWhatFits(t *testing.T) {
	got, err := bend.Seek(quarter(17.7, 1.6, 2.2, 140, 0), shop, 0.05)
	if err != nil || !got.Best.Fits() || got.Binds.Key != "" || len(got.ByBlade) != 2 || got.Radius != 0 {
		t.Fatalf("%+v %v", got, err)
	}
	for _, v := range got.Best.Plan.Verdicts() {
		if v.Level == bend.Stop {
			t.Errorf("%s says stop", v.Key)
		}
	}
}

// A sheet with thin faces, turned too tightly for any number of kerfs: closing
// binds, and what is proposed fits, while a hair less does not.
func TestSeekSaysWhatWouldWork(t *testing.T) {
	s := bend.Spec{Thick: 18, Skin: 0.6, Kerf: 2.2, Radius: 30, Angle: math.Pi / 2, Width: 400, GrainAlong: true, LeastRib: 3, LeastMouth: 0.3,
		Layers: []bend.Layer{{Thick: 0.6, E: 17500}, {Thick: 1.4, E: 600}, {Thick: 1.4, E: 17500}}}
	got, err := bend.Seek(s, shop[:1], 0)
	if err != nil {
		t.Fatal(err)
	}
	if got.Best.Fits() || got.Binds.Level != bend.Stop {
		t.Fatalf("fits, or nothing binds: %+v", got.Binds)
	}
	if got.Radius <= 30 || !got.AtRadius.Fits() {
		t.Fatalf("no nearest radius: %g", got.Radius)
	}
	s.Radius = got.Radius - 1
	if again, _ := bend.Seek(s, shop[:1], 0); again.Best.Fits() {
		t.Errorf("a radius of %g fits too", s.Radius)
	}
	t.Logf("binds %s, most %d kerfs, radius %g, kerf %g", got.Binds.Key, got.MostCount, got.Radius, got.Kerf)
}

// What a blade cannot reach is not proposed.
func TestSeekKeepsToTheReach(t *testing.T) {
	s := quarter(17.7, 1.6, 2.2, 140, 0)
	s.Width = 1500
	got, err := bend.Seek(s, shop, 0.05)
	if err != nil || len(got.TooShort) != 1 || got.TooShort[0].Name != "wide" || len(got.ByBlade) != 1 {
		t.Errorf("%+v %v", got.TooShort, err)
	}
}

// level orders verdicts, the worst highest.
var level = map[bend.Level]int{bend.Fine: 0, bend.Look: 1, bend.NotCovered: 2, bend.Stop: 3}

func verdictOf(t *rapid.T, s bend.Spec, key string) (int, bool) {
	p, err := bend.New(s)
	if err != nil {
		return 0, false
	}
	for _, v := range p.Verdicts() {
		if v.Key == key {
			return level[v.Level], true
		}
	}
	t.Fatalf("no verdict %s", key)
	return 0, false
}

func drawn(t *rapid.T) bend.Spec {
	s := quarter(rapid.Float64Range(6, 30).Draw(t, "thick"), rapid.Float64Range(0.5, 3).Draw(t, "skin"),
		rapid.Float64Range(1, 5).Draw(t, "kerf"), rapid.Float64Range(40, 600).Draw(t, "radius"), rapid.IntRange(3, 80).Draw(t, "count"))
	s.GrainAlong = rapid.Bool().Draw(t, "along")
	s.Soaked = rapid.Bool().Draw(t, "soaked")
	s.Outside = rapid.Bool().Draw(t, "outside")
	return s
}

// A thicker skin, a smaller radius at the same pitch, fewer kerfs: none makes
// the strain's verdict milder.
func TestStrainIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawn(t)
		was, ok := verdictOf(t, s, bend.KeyStrain)
		if !ok {
			t.Skip("no such bend")
		}
		skin, fewer, tight := s, s, s
		if !s.Outside { // a thicker skin of another layer may move the line towards the kerf's floor
			skin.Skin += rapid.Float64Range(0.01, 8).Draw(t, "more skin")
		}
		fewer.Count -= rapid.IntRange(1, 2).Draw(t, "fewer")
		k := rapid.Float64Range(0.5, 0.99).Draw(t, "tighter")
		tight.Radius *= k
		tight.Count = max(1, int(float64(s.Count)*k)) // the pitch stays
		for name, next := range map[string]bend.Spec{"a thicker skin": skin, "fewer kerfs": fewer, "a smaller radius": tight} {
			if now, ok := verdictOf(t, next, bend.KeyStrain); ok && now < was {
				t.Errorf("%s improves the strain's verdict: from %d to %d", name, was, now)
			}
		}
	})
}

// A thinner blade never improves closing.
func TestClosingIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawn(t)
		was, ok := verdictOf(t, s, bend.KeyMouth)
		thin := s
		thin.Kerf *= rapid.Float64Range(0.3, 0.99).Draw(t, "thinner")
		now, ok2 := verdictOf(t, thin, bend.KeyMouth)
		if ok && ok2 && now < was {
			t.Errorf("a kerf of %g instead of %g improves closing", thin.Kerf, s.Kerf)
		}
	})
}

// Kerfs outside fold to the same outside: the routine that folds knows nothing
// of the plan's formulas.
func TestOutsideFolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawn(t)
		s.Outside = true
		p, err := bend.New(s)
		if err != nil {
			t.Skip("no such bend")
		}
		f := bend.Fold(p.Strip(100, 100), 100, 100+p.Flat)
		near(t, "angle", f.Angle, s.Angle, 1e-9)
		near(t, "radius at the rib tips", f.Radius, s.Radius, 0.002)
		near(t, "width", f.Width, s.Radius, 0.002)
		if p.Mouth <= s.Kerf || p.Verdicts()[0].Level != bend.Fine {
			t.Errorf("a mouth of %g from a kerf of %g", p.Mouth, s.Kerf)
		}
	})
}

// Bare, a bend gives all back; the thicker the ply that is bonded to it, the
// less.
func TestGivenBackFalls(t *testing.T) {
	p, err := bend.New(quarter(17.7, 1.6, 2.2, 140, 36))
	if err != nil {
		t.Fatal(err)
	}
	last := 2.0
	for _, ply := range []float64{0, 1.5, 3, 6} {
		lost, ok := p.GivenBack(bend.Bonded{PlyThick: ply, PlyE: 9000})
		if !ok || lost >= last || ply == 0 && lost != 1 {
			t.Errorf("with a ply of %g the bend gives back %g", ply, lost)
		}
		last = lost
	}
	filled, _ := p.GivenBack(bend.Bonded{FillE: bend.FillerE})
	if filled <= 0 || filled > 0.01 {
		t.Errorf("filled kerfs give back %g", filled)
	}
}

func ExampleSpec_MostCount() {
	s := bend.Spec{Thick: 18, Skin: 0.6, Kerf: 2.2, Radius: 40, Angle: math.Pi / 2, LeastRib: 3}
	fmt.Println(s.MostCount())
	// Output: 12
}

func BenchmarkSeek(b *testing.B) {
	for b.Loop() {
		if _, err := bend.Seek(quarter(17.7, 1.6, 2.2, 140, 0), shop, 0.05); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSeekNothingFits(b *testing.B) {
	s := quarter(17.7, 1.6, 2.2, 30, 0)
	for b.Loop() {
		if _, err := bend.Seek(s, shop, 0.05); err != nil {
			b.Fatal(err)
		}
	}
}
