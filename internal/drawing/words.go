package drawing

import (
	"math"
	"strconv"
	"strings"

	"rodwork/internal/units"
)

// ink prints values for one leaf.
type ink struct{ sys units.System }

// snap rounds to a millionth, as the sentences and tables of the book do: two
// ways of reckoning a length, which differ in its last bits, print alike.
func snap(mm float64) float64 { return math.Round(mm*1e6) / 1e6 }

// size prints a length without its unit: metric with the decimals given, and
// without any where the length is whole to a ten-thousandth of a millimetre (a size that was
// written, not one that came out).
func (k ink) size(mm float64, decimals int) string {
	mm = snap(mm)
	if k.sys == units.Inch {
		return bareInches(mm)
	}
	if math.Abs(mm-math.Round(mm)) < 1e-4 {
		decimals = 0
	}
	return minus(strconv.FormatFloat(mm+0, 'f', decimals, 64))
}

// fine prints a length always with its decimals: thickness, kerf, fit, gap. In
// inches these are decimal, to a thousandth, and to a ten-thousandth for a gap.
func (k ink) fine(mm float64, decimals int) string {
	mm = snap(mm)
	if k.sys == units.Inch {
		return minus(strconv.FormatFloat(mm/25.4, 'f', max(3, decimals+1), 64))
	}
	return minus(strconv.FormatFloat(mm, 'f', decimals, 64))
}

// by prints two lengths, '736.4 × 393.6'.
func (k ink) by(a, b float64) string { return k.size(a, 1) + " × " + k.size(b, 1) }

func minus(s string) string {
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// bareInches prints a length in inches to the nearest 1/64, as figures have
// it: what the rounding leaves is printed in the tables beside.
func bareInches(mm float64) string {
	n := int(math.Round(math.Abs(mm) / 25.4 * 64))
	sign := ""
	if mm < 0 && n > 0 {
		sign = "−"
	}
	whole, part := n/64, n%64
	if part == 0 {
		return sign + strconv.Itoa(whole)
	}
	den := 64
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	frac := strconv.Itoa(part) + "/" + strconv.Itoa(den)
	if whole == 0 {
		return sign + frac
	}
	return sign + strconv.Itoa(whole) + " " + frac
}

// deg prints an angle given in radians, in degrees.
func deg(rad float64, decimals int) string {
	s := strconv.FormatFloat(rad*180/math.Pi, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return minus(s) + "°"
}
