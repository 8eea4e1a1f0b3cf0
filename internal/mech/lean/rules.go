package lean

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{RuleAngles}

// RuleAngles gives the settings for the ends of a leg that leans both ways.
var RuleAngles = &cite.Rule{
	ID: "LEAN-01", Title: "A leg that leans both ways",
	Question: "How are blade and mitre gauge set for the ends of a leg that leans sideways and forwards, how long is it, and how does it lean in truth?",
	Formula:  "tilt = a; mitre = arctan(tan b · cos a); lean = arctan √(tan² a + tan² b); sight = arctan(tan a/tan b); length = H · √(1 + tan² a + tan² b)",
	Symbols: []cite.Symbol{
		{Letter: "a", Name: "across", Meaning: "lean as the view across the level line shows it, from the plumb", Unit: "deg", Min: 0, Max: 60, Why: "legs"},
		{Letter: "b", Name: "along", Meaning: "lean as the view along the other way shows it, from the plumb", Unit: "deg", Min: 0, Max: 60, Why: "legs"},
		{Letter: "H", Name: "height", Meaning: "height that the leg bridges", Unit: "mm", Min: 1, Max: 3000, Why: "furniture"}},
	Sources: []cite.Source{
		{Text: "the axis as a vector, and the level plane against the stick's face", Locator: "package text of the rule", Label: cite.Derived},
		{Text: "chairmakers' formulas for the angle to drill at and the line to sight along", Locator: "lean and sight, of which workshop articles (one of 2020 derives them) and tables in handbooks are printed", Label: cite.FromMemory}},
	Assumes: []string{"the stick is square in section and one pair of its faces lies along the level line; turned about its axis it asks for other settings",
		"floor and seat are level and parallel", "both ends are cut with the same face down and the same edge on the gauge, the stick slid along: turned end for end its cuts are mirrored, not parallel"},
	Accuracy: "exact; a tenth of a degree on 40 mm of stick is 0.07 mm at the edge",
	Remedies: []string{"Cut a scrap of the same section first and stand it on a flat surface against a bevel that is set to either view.", "Leave a few millimetres and level the feet on the finished piece."},
	Example: cite.Example{In: map[string]float64{"across": 45, "along": 45, "height": 100},
		Out:  map[string]float64{"tilt": 45, "mitre": 35.264389682754654, "lean": 54.735610317245346, "sight": 45, "length": 173.20508075688772},
		From: "the diagonal of a cube of 100 mm, worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		const deg = math.Pi / 180
		a, err := Of(in["across"]*deg, in["along"]*deg)
		if err != nil {
			nan := math.NaN()
			a = Angles{nan, nan, nan, nan, nan}
		}
		return []cite.Result{{Name: "tilt", Unit: "deg", Value: a.Tilt / deg}, {Name: "mitre", Unit: "deg", Value: a.Mitre / deg},
			{Name: "lean", Unit: "deg", Value: a.Lean / deg}, {Name: "sight", Unit: "deg", Value: a.Sight / deg},
			{Name: "length", Unit: "mm", Value: a.Stretch * in["height"]}}
	},
}
