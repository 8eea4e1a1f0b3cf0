// Package lean has the angles of legs that lean in two directions at once.
//
// # What the views show and what the saw wants
//
// A drawing gives the lean of a leg twice: as seen from the front (across), and
// as seen from the end (along). Neither is what a saw is set to, and neither is
// the true lean. Per millimetre that the leg goes down it goes tan a sideways and
// tan b forwards, so its axis has the direction
//
//	(tan a, −1, tan b),  of length √(1 + tan² a + tan² b) = k,
//
// and a leg under a seat at the height H is H·k long along its axis. It leans
// from the plumb by arccos(1/k), the angle to drill at, in the upright plane
// that stands turned by arctan(tan a/tan b) from the plane of the end view, the
// line to sight along.
//
// # The cut at its ends
//
// One pair of the leg's faces is chosen to lie along a level line (a square
// stick can't have both pairs so). Let that line run from front to back. The face
// then leans like a board that stands on its long edge, by a, and a level plane
// meets it under 90° − a and 90° + a: the blade is tilted by a, just what the
// view from the front shows. In the face itself the leg's axis runs off from the
// line of steepest slope: per millimetre of height it goes tan b along the level
// line and 1/cos a down the slope, so the mitre gauge is turned from square by
//
//	m = arctan(tan b · cos a).
//
// Both ends are cut at the same two angles, and the cuts are parallel.
package lean

import (
	"errors"
	"math"
)

// Angles are what a leg asks for, rad, and the stretch of its length.
type Angles struct {
	Tilt    float64 // of the blade, from upright
	Mitre   float64 // of the mitre gauge, from square, on the face that lies along the level line
	Lean    float64 // of the leg's axis from the plumb
	Sight   float64 // of the upright plane of the lean, from the plane of the end view
	Stretch float64 // length along the axis for each mm of height
}

// ErrRange says that a leg leans by no sensible angle.
var ErrRange = errors.New("lean: a lean of less than 0 or more than 60 degrees")

const most = math.Pi / 3

// Of returns the angles of a leg whose faces lie along a level line from front to
// back, by its leans as seen from the front (across that line) and from the end
// (along it), rad from 0 to π/3. Rule LEAN-01.
func Of(across, along float64) (Angles, error) {
	if !(across >= 0 && along >= 0 && across <= most && along <= most) {
		return Angles{}, ErrRange
	}
	a, b := math.Tan(across), math.Tan(along)
	k := math.Sqrt(1 + a*a + b*b)
	return Angles{Tilt: across, Mitre: math.Atan(b * math.Cos(across)), Lean: math.Acos(1 / k), Sight: math.Atan2(a, b), Stretch: k}, nil
}
