package season

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

// Damper air never makes wood drier, and a wider board never moves less.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c, h := rapid.Float64Range(-5, 45).Draw(rt, "T"), rapid.Float64Range(0.01, 0.9).Draw(rt, "h")
		if more := rapid.Float64Range(0.001, 0.08).Draw(rt, "more"); Moisture(c, h+more) <= Moisture(c, h) {
			rt.Fatal("damper air, drier wood")
		}
		if Swing(300, 0.003, c, 0.3, 0.6) > Swing(310, 0.003, c, 0.3, 0.6) {
			rt.Fatal("wider moves less")
		}
	})
}
