package child

import (
	"math"

	"rodwork/internal/cite"
)

// VeeLeast is the least angle between two edges that meet in a notch, rad
// (Caring for Our Children, standard 6.2.1.9, read); VeeLeg from which length of
// its shorter edge, mm, a notch counts: less takes no neck (common practice).
const (
	VeeLeast = 55 * math.Pi / 180
	VeeLeg   = 50.0
)

// Vee is what a notch between two straight edges comes to: its angle (rad), and
// the length of the shorter edge (mm). A head or a neck that goes down into a
// narrow one is wedged (CHILD-08).
func Vee(angle, leg float64) Level {
	if angle < VeeLeast && leg >= VeeLeg {
		return Look
	}
	return Fine
}

var ruleVee = &cite.Rule{
	ID: "CHILD-08", Title: "Notches that wedge a head or a neck",
	Question: "Do two edges meet at so narrow an angle that a head or a neck gets wedged?",
	Formula:  "look: φ < 55° with edges of 50 mm and more",
	Symbols: []cite.Symbol{{Letter: "φ", Name: "angle", Meaning: "between the two edges, in the open", Unit: "rad", Min: 0, Max: math.Pi, Why: "outlines"},
		mm("l", "leg", "shorter one of the two edges", 0, 5000)},
	Sources: []cite.Source{care, {Text: "notches with edges under 50 mm take no neck", Label: cite.Practice}},
	Assumes: []string{"edges that are straight where they meet: a rounding between them opens the notch, and its angle is not taken",
		"a notch that opens downwards holds nobody", defers},
	Accuracy: "the angle as printed; the length is a rule of thumb",
	Remedies: []string{"a wider angle", "a rounding in the notch, or a filling"},
	Example:  cite.Example{In: map[string]float64{"angle": 0.7, "leg": 120}, Out: map[string]float64{"says": 1}, From: "40° is under 55°"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "says", Unit: "1", Value: grade(Vee(in["angle"], in["leg"]))}}
	},
}
