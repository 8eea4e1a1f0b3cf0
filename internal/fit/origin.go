package fit

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/learn"
)

// standardError is how well the mean of a spread is known.
func standardError(s design.Spread) float64 {
	return learn.Measured{Mean: s.Mean.V, SD: s.SD.V, N: s.Readings}.SE(learn.LeastError)
}

// readings says in words what a spread comes from.
func readings(s design.Spread) string {
	switch {
	case s.Readings > 1:
		return fmt.Sprintf("%d readings", s.Readings)
	case s.SD.V > 0:
		return "a spread in the shop file"
	}
	return "one reading: no spread was measured"
}

func inf(sign int) float64 { return math.Inf(sign) }
