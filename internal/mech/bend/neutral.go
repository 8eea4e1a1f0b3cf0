package bend

import "math"

// Neutral returns the distance of the neutral line from the show face, mm, of
// a skin of the given thickness cut from the layers (from the show face in):
//
//	y_n = ΣE_i·h_i·y_i / ΣE_i·h_i     (BEND-02)
//
// No layers: a homogeneous skin, y_n = skin/2. Layers that are thinner
// together than the skin count as if the last went on.
func Neutral(layers []Layer, skin float64) float64 {
	var eh, ehy float64
	eachLeft(layers, skin, func(top, thick, e float64) {
		eh += e * thick
		ehy += e * thick * (top + thick/2)
	})
	if eh <= 0 {
		return skin / 2
	}
	return ehy / eh
}

// SkinEI returns the bending stiffness of the skin about its neutral line for
// each millimetre of the strip's width, N·mm²/mm. A layer's own E·h³/12 and its
// distance count. Without layers it is 0: a homogeneous skin of no known
// modulus has no stiffness to tell.
func SkinEI(layers []Layer, skin float64) float64 {
	y := Neutral(layers, skin)
	var ei float64
	eachLeft(layers, skin, func(top, thick, e float64) {
		d := top + thick/2 - y
		ei += e * (thick*thick*thick/12 + thick*d*d)
	})
	return ei
}

// eachLeft walks the layers that are left in a skin: the distance of each from
// the show face, its thickness that is left, its modulus.
func eachLeft(layers []Layer, skin float64, visit func(top, thick, e float64)) {
	top := 0.0
	for i, l := range layers {
		thick := l.Thick
		if i == len(layers)-1 {
			thick = math.Inf(1)
		}
		thick = math.Min(thick, skin-top)
		if thick <= 0 {
			return
		}
		visit(top, thick, l.E)
		top += thick
	}
}

// FloorRise returns how much higher than its corners the middle of a kerf's
// floor stands, mm, when the blade's teeth are ground to a bevel (rad): they
// leave an M. The skin of a Spec is the least one, under the corners; in the
// middle it is thicker by this.
func FloorRise(kerf, bevel float64) float64 { return kerf / 2 * math.Tan(bevel) }

// SkinSpread returns the standard deviation of the skin, mm, from those of the
// sheet's thickness and of the cutting depth. A saw that rides on the kerfed
// face takes its depth from there, so all the spread of the thickness falls on
// the skin; with the show face on the bed and the depth gauged from the bed the
// thickness does not matter.
func SkinSpread(thickSD, depthSD float64, fromKerfedFace bool) float64 {
	if !fromKerfedFace {
		return depthSD
	}
	return math.Hypot(thickSD, depthSD)
}
