package reach

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

// A worse lift never lifts more; an older child never sits lower.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := Lift{rapid.Float64Range(0, 600).Draw(rt, "before"), rapid.Float64Range(0, 1700).Draw(rt, "high"), rapid.Float64Range(0, 1700).Draw(rt, "up"),
			rapid.Float64Range(0, 2).Draw(rt, "twist"), 1, 1}
		a, _ := l.Limit()
		l.Before += 20
		l.Twist += 0.1
		l.Up += 20
		if b, _ := l.Limit(); b > a+1e-9 {
			rt.Fatalf("%g after %g", b, a)
		}
		y := rapid.Float64Range(1, 60).Draw(rt, "years")
		s, _ := SeatFor(y)
		if o, _ := SeatFor(y + 1); o.Seat < s.Seat || o.Table < s.Table {
			rt.Fatal("an older one sits lower")
		}
	})
	if _, ok := SeatFor(2); ok {
		t.Error("a child of two has no size here")
	}
	if _, _, ok := Band(2); ok {
		t.Error("a child of two has no band here")
	}
}
