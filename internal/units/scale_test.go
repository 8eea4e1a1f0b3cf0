package units

import (
	"math"
	"testing"
)

func TestScale(t *testing.T) {
	tests := []struct {
		d      Dim
		s      System
		v      float64
		want   float64
		word   string
		reason string
	}{
		{Length, MM, 700, 700, "mm", "a millimetre is a millimetre"},
		{Length, Inch, 19.05, 0.75, "in", "3/4 in"},
		{Area, MM, 2.5e6, 2.5, "m²", "1000 mm by 2500 mm"},
		{Mass, Inch, 0.45359237, 1, "lb", "the pound of 1959"},
		{Angle, MM, math.Pi / 2, 90, "°", "a quarter turn"},
		{Time, MM, 5400, 90, "min", "an hour and a half"},
		{Count, MM, 3, 3, "", "a count"},
		{Money, Inch, 89, 89, "", "money"},
		{Moment, MM, 12, 12, "mm·N", "no customary unit"},
	}
	for _, tt := range tests {
		f, word := Scale(tt.d, tt.s)
		if got := tt.v / f; math.Abs(got-tt.want) > 1e-12*tt.want || word != tt.word {
			t.Errorf("%s: %g %s, want %g %s", tt.reason, got, word, tt.want, tt.word)
		}
	}
}
