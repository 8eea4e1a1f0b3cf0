// Package units has the quantities of the trade, how people write them and how
// they are printed.
//
// Inside Rodwork a quantity is a float64 in millimetres, newtons, MPa,
// kilograms, seconds, radians, and money in whole units of one currency; what
// a number measures is told by its Dim beside it, or by its name. An inch is
// exactly 25.4 mm; 1/64 in is 0.396875 mm, which binary floats hold exactly,
// 1/10 in they do not.
//
// # How quantities are written
//
// An amount, then its unit: '18 mm', '.5 in', '90°', '680 kg/m3', '89 EUR'. An
// amount is a decimal number, with a point and never a comma, or a fraction, or
// a whole number and a fraction: '3/4 in', '1 1/2 in'. Feet take inches, pounds
// ounces, hours minutes: `4' 6 1/2"`, '2 ft 3 in', '5 lb 3 oz', '1 h 30 min'. A
// unit may be raised and divided: 'N/mm2', 'kg/m3', 'g/m2', 'min/m'. '3 x' is a
// count, '5 %' the plain number 0.05.
//
// # How they are printed
//
// In the metric system with the decimals that the caller thinks they deserve;
// in inches as a fraction to the nearest 1/64, followed by what is left in
// thousandths where there is any: '35 27/64 in +0.003'. Under a quarter of an
// inch, or an inch for what a calliper tells, what is no fraction is printed in
// thousandths, '0.098 in', and under a five-hundredth in tenths of them. Half of
// a thousandth of an inch is 0.013 mm, less than a shop can cut. Parse reads
// back whatever Format prints.
package units

// Dim is the dimension of a quantity as exponents of base quantities. Force is
// a base here beside mass and length because N and kg·mm/s² differ by 1000.
type Dim struct {
	Length, Mass, Force, Time, Angle, Money, Temp int8
	// Count is 1 for a number of whole things ('3 x'); it behaves as a plain
	// number in formulas.
	Count bool
}

// The dimensions that fields of the two files ask for.
var (
	None    = Dim{}
	Length  = Dim{Length: 1}
	Area    = Dim{Length: 2}
	Volume  = Dim{Length: 3}
	Mass    = Dim{Mass: 1}
	Density = Dim{Mass: 1, Length: -3}
	// Spread is glue or finish on a surface, kg/mm² inside.
	Spread = Dim{Mass: 1, Length: -2}
	// MassPerLength is what stands on a shelf, kg/mm inside.
	MassPerLength = Dim{Mass: 1, Length: -1}
	Force         = Dim{Force: 1}
	Stress        = Dim{Force: 1, Length: -2}
	Moment        = Dim{Force: 1, Length: 1}
	Time          = Dim{Time: 1}
	// TimePerLength and TimePerArea are rates of work, s/mm and s/mm² inside.
	TimePerLength = Dim{Time: 1, Length: -1}
	TimePerArea   = Dim{Time: 1, Length: -2}
	Angle         = Dim{Angle: 1}
	Money         = Dim{Money: 1}
	MoneyPerMass  = Dim{Money: 1, Mass: -1}
	Temp          = Dim{Temp: 1} // °C inside
	Count         = Dim{Count: true}
)

// System is how lengths (and with them areas and masses) are printed.
type System string

const (
	MM   System = "mm" // millimetres, kilograms
	Inch System = "in" // inches in fractions to 1/64 with what is left, pounds
)

// SecondsPerYear is a year of 365.25 days, as ages are counted in.
const SecondsPerYear = 365.25 * 24 * 3600

// Plain returns the dimension without the mark of a count: what formulas
// reckon with.
func (d Dim) Plain() Dim { d.Count = false; return d }

// Mul returns the dimension of a product.
func (d Dim) Mul(e Dim) Dim { return d.plus(e, 1) }

// Div returns the dimension of a quotient.
func (d Dim) Div(e Dim) Dim { return d.plus(e, -1) }

func (d Dim) plus(e Dim, sign int8) Dim {
	return Dim{
		Length: d.Length + sign*e.Length, Mass: d.Mass + sign*e.Mass,
		Force: d.Force + sign*e.Force, Time: d.Time + sign*e.Time,
		Angle: d.Angle + sign*e.Angle, Money: d.Money + sign*e.Money,
		Temp: d.Temp + sign*e.Temp,
	}
}

// reasonable tells that no exponent is out of the range that a formula about
// furniture could need; it keeps int8 from wrapping.
func (d Dim) reasonable() bool {
	for _, e := range d.exponents() {
		if e < -12 || e > 12 {
			return false
		}
	}
	return true
}

func (d Dim) exponents() [7]int8 {
	return [7]int8{d.Length, d.Mass, d.Force, d.Time, d.Angle, d.Money, d.Temp}
}

// Reasonable reports whether the dimension is one that a formula about
// furniture could need (no exponent over 12), so that products of products
// stay in bounds.
func (d Dim) Reasonable() bool { return d.reasonable() }

var dimWords = []struct {
	dim  Dim
	word string
}{
	{None, "a plain number"}, {Length, "a length"}, {Area, "an area"}, {Volume, "a volume"},
	{Mass, "a mass"}, {Density, "a density"}, {Spread, "a mass per area"},
	{MassPerLength, "a mass per length"}, {Force, "a force"}, {Stress, "a stress"},
	{Moment, "a moment"}, {Time, "a time"}, {TimePerLength, "a time per length"},
	{TimePerArea, "a time per area"}, {Angle, "an angle"}, {Money, "a sum of money"},
	{MoneyPerMass, "a price per mass"}, {Temp, "a temperature"}, {Count, "a count"},
}

// String names the dimension with its article, as diagnostics speak of it: "a
// length", "a plain number"; an odd one by its exponents: "length⁻¹·mass".
func (d Dim) String() string {
	for _, w := range dimWords {
		if w.dim == d {
			return w.word
		}
	}
	names := [7]string{"length", "mass", "force", "time", "angle", "money", "temperature"}
	out := ""
	for i, e := range d.exponents() {
		if e == 0 {
			continue
		}
		if out != "" {
			out += "·"
		}
		out += names[i]
		if e != 1 {
			out += superscript(int(e))
		}
	}
	return out
}

func superscript(n int) string {
	digits := []rune("⁰¹²³⁴⁵⁶⁷⁸⁹")
	if n < 0 {
		return "⁻" + superscript(-n)
	}
	if n >= 10 {
		return superscript(n/10) + string(digits[n%10])
	}
	return string(digits[n])
}
