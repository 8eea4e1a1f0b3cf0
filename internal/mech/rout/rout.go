// Package rout has the arithmetic of a hand-held router that follows a
// template: how far its cut lies from the template's edge, which bit goes into
// a corner, how thick the template must be, how much wood the saw should leave.
//
// # The bush
//
// A guide bush of diameter D runs along the template; the bit of diameter d
// turns in its middle. Bush and bit have one axis, so the bit's flank stays
// (D − d)/2 further into the waste than the bush's flank stays off the
// template. Round the outside of a part the template is smaller than the part by
// that much all round; inside an opening it is larger. Both are one sentence of
// geometry: the template is the part's region, shrunk by (D − d)/2, its holes
// growing as the rest shrinks.
//
// # Corners
//
// The axis can't come nearer to the finished edge than d/2, so an inside corner
// is never tighter than the bit. A bush follows the template's inside corner
// only if that corner's radius is at least D/2; because it is the part's radius
// plus (D − d)/2, this asks the same: R ≥ d/2. Outside corners may be as sharp
// as one likes: the bush rolls round them.
//
// # The pattern bit
//
// A bit with a bearing of its own diameter follows a template of the part's own
// size. D = d: the offset is nothing, and the template is the outline itself.
//
// Lengths are in mm.
package rout

import (
	"errors"
	"math"
)

// Offset returns how far the cut's edge lies from the template's edge, for a
// guide bush and a bit of these diameters: (D − d)/2. It fails where the bit
// does not go through the bush.
func Offset(bush, bit float64) (float64, error) {
	if !(bit > 0) || !(bush > bit) {
		return 0, errors.New("rout: the bush must be wider than the bit that turns in it")
	}
	return (bush - bit) / 2, nil
}

// Opening returns the template's opening, a width or a diameter, for a finished
// opening: finished + D − d.
func Opening(finished, bush, bit float64) float64 { return finished + bush - bit }

// Corner returns the radius that a bush leaves in the part at an inside corner
// of the template. A bush that is wider than the template's corner does not
// reach into it: the part is then left with the bit's own radius, and more wood
// than the template shows.
func Corner(template, bush, bit float64) float64 {
	return max(template-(bush-bit)/2, bit/2)
}

// LargestBit returns the diameter of the largest bit that goes into an inside
// corner of this radius; nothing goes into a sharp one.
func LargestBit(radius float64) float64 { return 2 * max(0, radius) }

// What a template is made of, and what a saw leaves for the bit.
const (
	// Thick is the usual thickness of a template for a bush (1/2 in).
	Thick = 12.0
	// LeastForBearing is the least thickness that a bearing runs on safely.
	LeastForBearing = 6.0
	// Proud is how far outside the finished line the saw runs, and its range.
	Proud, LeastProud, MostProud = 2.5, 2.0, 3.0
	// Play is how much the template is thicker than the bush is long, so that
	// the bush never touches the work.
	Play = 1.0
	// LeastWall is how much wider a bush is at least than the bit in it: its two
	// walls, and room for chips.
	LeastWall = 3.0
	// DeepestPass is the most that one pass takes whatever the bit (1/8 in).
	DeepestPass = 25.4 / 8
)

// Template returns the least thickness of a template for a bush that stands
// out by this length below the router's base.
func Template(bushLength float64) float64 { return max(LeastForBearing, bushLength+Play) }

// Passes returns into how many passes a depth is divided, and how deep each is:
// at most an eighth of an inch, and at most half the bit.
func Passes(depth, bit float64) (count int, each float64) {
	most := min(DeepestPass, bit/2)
	if !(depth > 0) || !(most > 0) {
		return 0, 0
	}
	count = int(math.Ceil(depth/most - 1e-9))
	return count, depth / float64(count)
}
