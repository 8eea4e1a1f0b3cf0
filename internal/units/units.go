// Package units has the quantities of the trade, how people write them and how
// they are printed.
//
// Inside Rodwork a quantity is a float64 in millimetres, newtons, MPa,
// kilograms, seconds, radians, and money in whole units of one currency; what
// a number measures is told by its Dim beside it, or by its name. An inch is
// exactly 25.4 mm; 1/64 in is 0.396875 mm, which binary floats hold exactly,
// 1/10 in they do not.
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
	Force   = Dim{Force: 1}
	Stress  = Dim{Force: 1, Length: -2}
	Moment  = Dim{Force: 1, Length: 1}
	Time    = Dim{Time: 1}
	Angle   = Dim{Angle: 1}
	Money   = Dim{Money: 1}
	Temp    = Dim{Temp: 1}
	Count   = Dim{Count: true}
)

// System is how lengths (and with them areas and masses) are printed.
type System string

const (
	MM   System = "mm" // millimetres, kilograms
	Inch System = "in" // inches in fractions to 1/64 with what is left, pounds
)
