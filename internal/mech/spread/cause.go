package spread

import "math"

// Shape is how a cause scatters.
type Shape int

// The shapes.
const (
	// Normal: many small things together; the default.
	Normal Shape = iota
	// Even: anywhere between two bounds alike, as between two clicks of a scale
	// or between a damp and a dry room. Its half width is √3 of its deviation.
	Even
)

// Cause is one thing that a fit hangs on. Mean and SD are in the unit of the
// variable (mm unless its user says otherwise).
type Cause struct {
	Name     string
	Mean, SD float64
	Shape    Shape
	// Times is how many variables of their own the cause makes: N settings of a
	// stop are N draws. 0 counts as 1. A blade's width is one draw for all kerfs.
	Times int
}

func (c Cause) times() int { return max(c.Times, 1) }

// value is the draw u, even over 0 to 1, of the cause.
func (c Cause) value(u float64) float64 {
	if c.SD == 0 {
		return c.Mean
	}
	if c.Shape == Even {
		return c.Mean + c.SD*math.Sqrt(3)*(2*u-1)
	}
	return c.Mean + c.SD*normal(u)
}

// node is a place of a Gauss rule, in deviations from the mean, and its weight.
type node struct{ at, weight float64 }

// Three-place rules: Gauss-Hermite for a normal cause (0 and ±√3, weights 2/3
// and 1/6), Gauss-Legendre for an even one (0 and ±√(3/5) of the half width,
// weights 4/9 and 5/18). Each is exact up to the fifth power.
var (
	normalNodes = [3]node{{-math.Sqrt(3), 1.0 / 6}, {0, 2.0 / 3}, {math.Sqrt(3), 1.0 / 6}}
	evenNodes   = [3]node{{-math.Sqrt(1.8), 5.0 / 18}, {0, 4.0 / 9}, {math.Sqrt(1.8), 5.0 / 18}}
)

func (c Cause) nodes() [3]node {
	if c.Shape == Even {
		return evenNodes
	}
	return normalNodes
}

// Means returns the variables of the causes at their means, in order.
func Means(causes []Cause) []float64 {
	var out []float64
	for _, c := range causes {
		for range c.times() {
			out = append(out, c.Mean)
		}
	}
	return out
}
