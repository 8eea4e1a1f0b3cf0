package units

import (
	"math"
	"strconv"
	"strings"
)

// printed is the unit that a dimension is printed in.
type printed struct {
	name   string
	factor float64 // Rodwork's own units in one of it
	tight  bool    // no space before it
}

var metric = map[Dim]printed{
	Length: {"mm", 1, false}, Area: {"m²", 1e6, false}, Volume: {"dm³", 1e6, false},
	Mass: {"kg", 1, false}, Density: {"kg/m³", 1e-9, false}, Spread: {"g/m²", 1e-9, false},
	MassPerLength: {"kg/m", 1e-3, false}, Force: {"N", 1, false}, Stress: {"MPa", 1, false},
	TimePerLength: {"min/m", 0.06, false}, TimePerArea: {"min/m²", 6e-5, false},
	Angle: {"°", math.Pi / 180, true}, Temp: {"°C", 1, false},
}

var imperial = map[Dim]printed{
	Area: {"ft²", 144 * inch * inch, false}, Volume: {"ft³", 1728 * inch * inch * inch, false},
	Mass: {"lb", pound, false}, Density: {"lb/ft³", pound / (1728 * inch * inch * inch), false},
	MassPerLength: {"lb/ft", pound / (12 * inch), false},
	Force:         {"lbf", lbf, false}, Stress: {"psi", lbf / (inch * inch), false},
	TimePerLength: {"min/ft", 60 / (12 * inch), false}, TimePerArea: {"min/ft²", 60 / (144 * inch * inch), false},
}

// unitFor returns the unit that the dimension is printed in, false for those
// that are printed as bare numbers.
func unitFor(d Dim, s System) (printed, bool) {
	if s == Inch {
		if d == Length {
			return printed{"in", inch, false}, true
		}
		if p, ok := imperial[d]; ok {
			return p, true
		}
	}
	p, ok := metric[d]
	return p, ok
}

// UnitWord returns the unit that Format prints quantities of the dimension in,
// for the head of a column: "mm", "lb"; "" for plain numbers, money and times
// (whose unit follows their size).
func UnitWord(d Dim, s System) string {
	p, _ := unitFor(d, s)
	return p.name
}

// Format prints a quantity with its unit. Metric quantities, and those that
// have no fraction in use, take the given number of decimals; inches are
// printed in fractions, whatever the decimals, and small ones that are no
// fraction in thousandths. Money is printed as a bare
// number with two decimals where decimals is negative: FormatMoney knows the
// currency.
func Format(v float64, d Dim, s System, decimals int) string {
	return format(v, d, s, decimals, true)
}

// FormatBare is Format without the unit word, as dimensions on a drawing are
// printed ('700'). Degrees keep their sign, and what is left of an inch stays.
func FormatBare(v float64, d Dim, s System, decimals int) string {
	return format(v, d, s, decimals, false)
}

func format(v float64, d Dim, s System, decimals int, word bool) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "—"
	}
	if d == Length && s == Inch {
		return inches(v, word, decimals >= calliper)
	}
	if d == Time {
		return duration(v, decimals)
	}
	p, ok := unitFor(d, s)
	if !ok {
		return decimal(v, decimals) + oddUnit(d)
	}
	text := decimal(v/p.factor, decimals)
	switch {
	case p.tight:
		return text + p.name
	case !word:
		return text
	}
	return text + " " + p.name
}

// oddUnit names the unit of a dimension that has no customary one, in
// Rodwork's own units.
func oddUnit(d Dim) string {
	d = d.Plain()
	if d == None || d == Money {
		return ""
	}
	names := [7]string{"mm", "kg", "N", "s", "rad", "", "K"}
	var parts []string
	for i, e := range d.exponents() {
		if e == 0 || names[i] == "" {
			continue
		}
		p := names[i]
		if e != 1 {
			p += superscript(int(e))
		}
		parts = append(parts, p)
	}
	return " " + strings.Join(parts, "·")
}

// decimal prints a number with a proper minus sign and never a negative nought.
func decimal(v float64, decimals int) string {
	if decimals < 0 {
		decimals = 2
	}
	text := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	if v < 0 && strings.ContainsAny(text, "123456789") {
		return "−" + text
	}
	return text
}

// FormatMoney prints a sum with its currency: '89.00 EUR'.
func FormatMoney(v float64, currency string, decimals int) string {
	if currency == "" {
		return decimal(v, decimals)
	}
	return decimal(v, decimals) + " " + currency
}

// duration prints a time in the unit that its size asks for: seconds under two
// minutes, minutes under two hours, then hours and, over three days, days.
func duration(v float64, decimals int) string {
	switch a := math.Abs(v); {
	case a < 120:
		return decimal(v, decimals) + " s"
	case a < 7200:
		return decimal(v/60, decimals) + " min"
	case a < 3*86400:
		return decimal(v/3600, decimals) + " h"
	case a < SecondsPerYear:
		return decimal(v/86400, decimals) + " days"
	}
	return decimal(v/SecondsPerYear, decimals) + " years"
}

// smallInch and tinyInch are the lengths, in inches, under which a length that
// is no fraction is printed in thousandths (as a feeler gauge or a calliper
// tells a gap), and in tenths of thousandths (the flats of a bend).
// So is one under an inch that metric tells to a hundredth, since it is read off
// a calliper.
const (
	smallInch, tinyInch = 0.25, 0.002
	calliper            = 2 // decimals
)

// inches prints a length to the nearest 1/64 in, and what is left over to a
// thousandth where that is not nought; a small one that is no fraction, or one
// that was measured, in thousandths alone.
func inches(mm float64, word, measured bool) string {
	total := mm / inch
	a := math.Abs(total)
	n := math.Round(a * 64)
	if a < smallInch || measured && a < 1 {
		if digits := thousandths(a, n); digits > 0 {
			return decimal(total, digits) + unless(!word, " in")
		}
	}
	rest := a - n/64
	if rest >= 0.0075 { // half of 1/64 in thousandths: said from above, or what was read would print otherwise
		n, rest = n+1, rest-1.0/64
	}
	text := fraction(n)
	if total < 0 {
		rest = -rest
		if n > 0 {
			text = "−" + text
		}
	}
	if word {
		text += " in"
	}
	switch {
	case rest >= 0.0005:
		return text + " +" + strconv.FormatFloat(rest, 'f', 3, 64)
	case rest <= -0.0005:
		return text + " −" + strconv.FormatFloat(-rest, 'f', 3, 64)
	}
	return text
}

// thousandths returns the decimals that a small length of a inches is printed
// with, 0 where it is nought or a fraction of n sixty-fourths.
func thousandths(a, n float64) int {
	r := math.Round(a*1000) / 1000
	switch {
	case math.Round(a*1e4) == 0:
		return 0
	case n > 0 && (math.Abs(a-n/64) < 1e-5 || math.Abs(r-n/64) < 1e-9):
		return 0
	case math.Round(a*1e4)/1e4 < tinyInch:
		return 4
	}
	return 3
}

func unless(not bool, s string) string {
	if not {
		return ""
	}
	return s
}

// fraction prints a number of 64ths in lowest terms: '35 27/64'.
func fraction(n float64) string {
	whole := math.Floor(n / 64)
	num, den := int(n-whole*64), 64
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	text := strconv.FormatFloat(whole, 'f', 0, 64)
	switch {
	case num == 0:
		return text
	case whole == 0:
		return strconv.Itoa(num) + "/" + strconv.Itoa(den)
	}
	return text + " " + strconv.Itoa(num) + "/" + strconv.Itoa(den)
}
