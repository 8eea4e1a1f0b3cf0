package child

import (
	"testing"

	"pgregory.net/rapid"
)

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

func TestOpenings(t *testing.T) {
	for _, c := range []struct {
		small, large, deep float64
		want               Level
		what               string
	}{
		{6, 6, 18, Fine, ""}, {7, 7, 18, Fine, ""}, {9, 9, 18, Stop, "finger"}, {9, 300, 18, Stop, "finger"}, {11, 11, 5, Fine, ""},
		{12, 12, 18, Look, "finger"}, {30, 30, 18, Fine, ""}, {40, 300, 18, Look, "hand"}, {85, 400, 18, Fine, ""},
		{100, 300, 18, Stop, "head"}, {300, 100, 18, Stop, "head"}, {228, 228, 18, Stop, "head"}, {229, 500, 18, Fine, ""}, {30, 200, 18, Look, "hand"},
	} {
		if got, what := Opening(c.small, c.large, c.deep); got != c.want || what != c.what {
			t.Errorf("%g × %g, %g deep: %s %q, want %s %q", c.small, c.large, c.deep, got, what, c.want, c.what)
		}
	}
}

func TestHingeSmallClimb(t *testing.T) {
	for _, c := range []struct {
		shut, open, kg float64
		want           Level
	}{{2, 4, 5, Fine}, {2, 6, 5, Look}, {2, 20, 5, Look}, {12, 30, 5, Fine}, {2, 20, 0.2, Fine}} {
		if got := HingeLine(c.shut, c.open, c.kg); got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
	if !Small(16, 8, 8) || Small(60, 60, 60) || Small(44.5, 44.5, 44.5) || Small(100, 5, 5) {
		t.Error("the cylinder is of another size")
	}
	if h, n := Climb([]float64{100, 400, 900}); h != 400 || n != 2 {
		t.Errorf("it leads to %g in %d", h, n)
	}
	if h, n := Climb([]float64{700}); h != 0 || n != 0 {
		t.Errorf("the first step of 700: %g, %d", h, n)
	}
}

// A part that is larger every way is small only if the smaller one is.
func TestLargerIsNeverMoreOfAChoke(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a, b, c := rapid.Float64Range(1, 80).Draw(rt, "a"), rapid.Float64Range(1, 80).Draw(rt, "b"), rapid.Float64Range(1, 80).Draw(rt, "c")
		if k := rapid.Float64Range(1, 3).Draw(rt, "k"); Small(a*k, b*k, c*k) && !Small(a, b, c) {
			rt.Fatal("it shrank")
		}
	})
}
