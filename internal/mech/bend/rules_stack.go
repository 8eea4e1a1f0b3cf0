package bend

import (
	"math"

	"rodwork/internal/cite"
)

var symPly = cite.Symbol{Letter: "p", Name: "ply", Meaning: "thickness of one ply, as measured", Unit: "mm", Min: 0.3, Max: 12, Why: "sheets that are bent"}

var ruleStack = &cite.Rule{
	ID: "BEND-23", Title: "Plies and glue lines",
	Question: "How thick do the plies come to, how much glue goes between them, and is there time to spread it?",
	Formula:  "T = n·p; A = (n − 1)·b·L; time A·r ≤ half the open time",
	Symbols: []cite.Symbol{symPly,
		{Letter: "n", Name: "plies", Meaning: "number of equal plies", Unit: "1", Min: 1, Max: 50, Whole: true, Why: "laminations"},
		symWidth,
		{Letter: "L", Name: "length", Meaning: "length of the strip that is glued", Unit: "mm", Min: 1, Max: 20000, Why: "a strip"},
		{Letter: "r", Name: "rate", Meaning: "time to spread one square metre of glue line", Unit: "s", Min: 0, Max: 36000, Why: "by brush or roller"}},
	Sources: []cite.Source{{Text: "a product of counts and sizes", Label: cite.Derived},
		{Text: "half of the open time is kept for bending and clamping", Label: cite.Practice}},
	Assumes:  []string{"glue on one face of each line; on both it takes longer", "glue lines add 0.05 to 0.15 mm each (from memory), which are left out of T"},
	Accuracy: "as good as the shop's own rate of spreading",
	Remedies: []string{"Fewer, thicker plies, if the radius allows.", "More hands, or a roller.", "A slower glue.", "Two glue-ups: half the plies first."},
	Example: cite.Example{
		In:   map[string]float64{"ply": 3, "plies": 6, "width": 300, "length": 800, "rate": 400},
		Out:  map[string]float64{"thick": 18, "lines": 5, "area": 1200000, "time": 480},
		From: "worked by hand: 6·3; 5·0.3·0.8 = 1.2 m²; 1.2·400",
	},
	Eval: func(in map[string]float64) []cite.Result {
		lines := in["plies"] - 1
		area := lines * in["width"] * in["length"]
		return []cite.Result{mm("thick", in["ply"]*in["plies"]), plain("lines", lines),
			{Name: "area", Unit: "mm²", Value: area}, {Name: "time", Unit: "s", Value: area * 1e-6 * in["rate"]}}
	},
}

var ruleCold = &cite.Rule{
	ID: "BEND-24", Title: "A sheet bent cold",
	Question: "How hard does one sheet pull that is bent cold, and how tightly may it be bent?",
	Formula:  "M = b·E·p³/(12·R); R no less than by BEND-07; it gives back all of its bend",
	Symbols: []cite.Symbol{symPly, symWidth,
		{Letter: "R", Name: "radius", Meaning: "radius at mid-thickness", Unit: "mm", Min: 10, Max: 20000, Why: "furniture"},
		{Letter: "E", Name: "modulus", Meaning: "modulus of the sheet along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood"}},
	Sources:  []cite.Source{{Text: "bending of an elastic plate", Label: cite.Derived}},
	Assumes:  []string{"elastic; under load for years wood creeps, and pulls a third to a half less (from memory)"},
	Accuracy: "a fifth, as the modulus is",
	Remedies: []string{"A thinner sheet.", "Two thin plies, glued to each other on the curve: they keep three quarters of it by themselves.", "Fix it along the whole bend."},
	Example: cite.Example{
		In:   map[string]float64{"ply": 4, "width": 400, "radius": 500, "modulus": 9000},
		Out:  map[string]float64{"moment": 38400},
		From: "worked by hand: 400·9000·64/12/500",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "moment", Unit: "N·mm", Value: in["width"] * in["modulus"] * math.Pow(in["ply"], 3) / 12 / in["radius"]}}
	},
}
