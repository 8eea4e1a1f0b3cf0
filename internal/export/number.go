package export

import (
	"math"
	"strconv"

	"rodwork/internal/trace"
)

// Number is a float64 as documents print it; see “Numbers” in the package text.
type Number float64

const (
	significant = 10
	nought      = 1e-9
)

// MarshalJSON prints the rounded number, or null.
func (n Number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return []byte("null"), nil
	case math.Abs(v) < nought:
		return []byte("0"), nil
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', significant, 64), 64)
	if err != nil {
		return nil, err
	}
	if a := math.Abs(rounded); a >= 1e15 || a < 1e-6 {
		return strconv.AppendFloat(nil, rounded, 'g', -1, 64), nil
	}
	return strconv.AppendFloat(nil, rounded, 'f', -1, 64), nil
}

// coarse rounds to five digits: for a partial derivative, which is a
// difference of two near numbers and has lost the others.
func coarse(v float64) Number {
	if math.Abs(v) < 1e-6 || math.IsNaN(v) || math.IsInf(v, 0) {
		if math.Abs(v) < 1e-6 {
			return 0
		}
		return Number(v)
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 5, 64), 64)
	if err != nil {
		return Number(v)
	}
	return Number(r)
}

func num(n trace.Num) Number { return Number(n.V) }

// deg prints an angle of the model, which is in radians.
func deg(rad float64) Number { return Number(rad * 180 / math.Pi) }

// nums prints a list of traced numbers; never null.
func nums(ns []trace.Num) []Number {
	out := make([]Number, len(ns))
	for i, n := range ns {
		out[i] = num(n)
	}
	return out
}

// each converts a list; never null, so that readers need not look.
func each[A, B any](in []A, f func(A) B) []B {
	out := make([]B, 0, len(in))
	for _, a := range in {
		out = append(out, f(a))
	}
	return out
}
