package bend

import "math"

// A radius of aircraft plywood, in inches as printed: the least on a cold
// mandrel at 10 % moisture content, dry or soaked in hot water, with the bend
// at 90° to the face grain (the grain runs round the bend) or at 0 to 45°.
type plywoodRadius struct{ thick, dry90, dry0, soaked90, soaked0 float64 }

// FAA AC 43.13-1B, 'minimum recommended bend radii for aircraft plywood'. The
// rows with three plies reach to 0.185 in, those with five go on from 0.190 in;
// the row of 0.160 in with five plies lies between two of three and is left out
// (its radii are those of the line between, within 0.5 in).
var plywoodRadii = []plywoodRadius{
	{.035, 2.0, 1.1, 0.5, 0.1},
	{.070, 5.2, 3.2, 1.5, 0.4},
	{.100, 8.6, 5.2, 2.6, 0.8},
	{.125, 12, 7.1, 3.8, 1.2},
	{.155, 16, 10, 5.3, 1.8},
	{.185, 20, 13, 7.1, 2.6},
	{.190, 21, 14, 7.0, 3.0},
	{.225, 27, 17, 10, 4.0},
	{.250, 31, 20, 12, 5.0},
	{.315, 43, 28, 16, 7.0},
	{.375, 54, 36, 21, 10},
}

func (r plywoodRadius) column(grainAlong, soaked bool) float64 {
	switch {
	case grainAlong && soaked:
		return r.soaked90
	case soaked:
		return r.soaked0
	case grainAlong:
		return r.dry90
	}
	return r.dry0
}

const inch = 25.4 // mm

// The thicknesses that the table of radii covers, mm.
const (
	thinnestPly = .035 * inch
	thickestPly = .375 * inch
)

// MinRadius returns the least radius, mm, to the inner face, that a plywood of
// the thickness (mm) is recommended to be bent to cold: FAA AC 43.13-1B,
// straight between its rows (BEND-07). ok is false outside 0.889 to 9.525 mm.
func MinRadius(thick float64, grainAlong, soaked bool) (radius float64, ok bool) {
	t := thick / inch
	rows := plywoodRadii
	if !(thick >= thinnestPly && thick <= thickestPly) {
		return 0, false
	}
	for i := 1; i < len(rows); i++ {
		if t > rows[i].thick {
			continue
		}
		a, b := rows[i-1], rows[i]
		share := (t - a.thick) / (b.thick - a.thick)
		ra, rb := a.column(grainAlong, soaked), b.column(grainAlong, soaked)
		return inch * (ra + share*(rb-ra)), true
	}
	return inch * rows[len(rows)-1].column(grainAlong, soaked), true // rounding at the last row
}

// BreakFactor is what the strain at the recommended radius is multiplied with
// for the band's upper end: a builders' manual reports 2 mm birch plywood to
// break at about 1.5 in, 2.6 % of strain, where the recommended radius gives 1.0 %.
const BreakFactor = 2.5

// Allowed returns the strain of the outer fibre at the recommended radius of a
// plywood as thick as the skin, and BreakFactor times that:
//
//	ε = (h/2)/(R + h/2)
//
// A skin thinner than the table's first row (0.889 mm) is given the strain of
// that row, the safe side: thinner sheets are recommended to higher strains. ok
// is false under 1/64 in and over 9.525 mm.
func Allowed(skin float64, grainAlong, soaked bool) (fine, stop float64, ok bool) {
	if !(skin >= thinnestSkin) {
		return 0, 0, false
	}
	h := math.Max(skin, thinnestPly)
	r, ok := MinRadius(h, grainAlong, soaked)
	if !ok {
		return 0, 0, false
	}
	fine = h / 2 / (r + h/2)
	return fine, BreakFactor * fine, true
}

const thinnestSkin = inch / 64 // the least that any printed rule leaves

// Strain returns the strain of the fibre at the distance y (mm) from the
// neutral line, of a hinge that turns alpha (rad) over the length w + β·h:
//
//	ε = y·α/(w + β·h)     (BEND-05)
func Strain(y, alpha, kerf, skin, beta float64) float64 {
	return y * alpha / (kerf + beta*skin)
}
