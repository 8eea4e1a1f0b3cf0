package hang_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/hang"
)

func TestHinges(t *testing.T) {
	for _, c := range []struct {
		height, width, mass float64
		want                int
	}{
		{700, 400, hang.Mass(700, 400, 18, 685), 2}, // 3.45 kg of birch plywood
		{1300, 400, 4, 3},          // by height
		{762, 400, 20 * 0.4536, 3}, // 20 lb at 30 in
		{700, 400, 6, 3},           // the second maker's limit
		{700, 601, 6.1, 2},         // which does not cover so wide a door
		{1016, 400, 3, 3},          // at 40 in: the larger number
		{2159, 500, 20, 5},         // the end of the tables
		{500, 400, 27, 5},          // by mass
	} {
		got, err := hang.Hinges(c.height, c.width, c.mass)
		if err != nil || got.Hinges != c.want {
			t.Errorf("%g × %g, %.2f kg: %+v %v, want %d", c.height, c.width, c.mass, got, err, c.want)
		}
		if got.Wide != (c.width > c.height) {
			t.Errorf("wide: %+v", got)
		}
	}
}

func TestHigherOrHeavierNeverFewer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, w, m := rapid.Float64Range(100, 2100).Draw(t, "h"), rapid.Float64Range(100, 600).Draw(t, "w"), rapid.Float64Range(0.5, 26).Draw(t, "m")
		a, err := hang.Hinges(h, w, m)
		if err != nil {
			t.Fatal(err)
		}
		b, err := hang.Hinges(h+rapid.Float64Range(0, 50).Draw(t, "dh"), w, m+rapid.Float64Range(0, 1).Draw(t, "dm"))
		if err != nil {
			t.Fatal(err)
		}
		if b.Hinges < a.Hinges || a.Hinges < 2 || a.Hinges > 5 {
			t.Errorf("%+v then %+v", a, b)
		}
	})
}

func TestNotCovered(t *testing.T) {
	for _, c := range [][3]float64{
		{2160, 400, 5}, {700, 400, 28}, {0, 400, 5}, {700, 0, 5}, {700, 400, 0}, {-1, 400, 5},
		{math.NaN(), 400, 5}, {700, math.NaN(), 5}, {700, 400, math.NaN()}, {700, 400, math.Inf(1)},
	} {
		var re *hang.RangeError
		if got, err := hang.Hinges(c[0], c[1], c[2]); !errors.As(err, &re) || got.Hinges != 0 {
			t.Errorf("%v: %+v %v", c, got, err)
		}
	}
}

func TestLeadingEdge(t *testing.T) {
	for _, c := range []struct{ w, t, want float64 }{{400, 18, 0.4048}, {300, 18, 0.5395}, {400, 0, 0}} {
		if got := hang.LeadingEdge(c.w, c.t); math.Abs(got-c.want) > 5e-5 {
			t.Errorf("%g × %g: %g, want %g", c.w, c.t, got, c.want)
		}
	}
	if hang.LeadingEdge(300, 18) <= hang.LeadingEdge(400, 18) || hang.LeadingEdge(300, 20) <= hang.LeadingEdge(300, 18) {
		t.Error("narrower and thicker doors ask for more")
	}
}

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		name        string
		h, w        float64
		at          []float64
		ends, apart bool
	}{
		{"as makers say", 700, 400, []float64{80, 620}, true, true},
		{"three", 1300, 400, []float64{80, 650, 1220}, true, true},
		{"any order", 700, 400, []float64{620, 80}, true, true},
		{"kept clear of a bend", 700, 400, []float64{80, 535}, false, true},
		{"close together", 400, 400, []float64{80, 320}, true, false},
		{"one only", 700, 400, []float64{350}, false, false},
		{"none", 700, 400, nil, false, false},
	} {
		if p := hang.Place(c.h, c.w, c.at); p.EndsFine != c.ends || p.ApartFine != c.apart {
			t.Errorf("%s: %+v", c.name, p)
		}
	}
}
