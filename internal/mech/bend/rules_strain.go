package bend

import (
	"math"

	"rodwork/internal/cite"
)

var faa = cite.Source{Text: "FAA AC 43.13-1B, Acceptable Methods, Techniques and Practices, 1998",
	Locator: "minimum recommended bend radii for aircraft plywood, as an engineering table prints them", Label: cite.Quoted}

var ruleStrain = &cite.Rule{
	ID: "BEND-05", Title: "Strain of the skin",
	Question: "How much is the outer fibre of the skin stretched, and is that more than thin plywood bears?",
	Formula:  "ε = y_n·α/(w + β·h), at β = 0 and β = 2 (3.2 mm/h where that is more, up to 2.9, in plywood bent along its face grain); fine up to BEND-07's strain, stop beyond 2.5 times that",
	Symbols:  []cite.Symbol{symSkin, symKerf, symAngle, symCount, symNeutral, symAlong, symSoaked},
	Sources: []cite.Source{
		{Text: "bending of an elastic hinge of the length w + β·h", Label: cite.Derived},
		faa,
		{Text: "an aircraft builder's manual", Locator: "p. 10-8: 2 mm birch plywood breaks at about 1.5 in", Label: cite.Read},
	},
	Assumes: []string{
		"the length of the hinge is unknown between w and w + 2h until a test strip tells; the verdict takes the short end, the cautious one",
		"the skin bears what a whole plywood of its thickness and grain bears; a skin of one veneer has no crossband to hold a split, which errs to the unsafe side: bend a test strip",
	},
	Accuracy: "the two ends differ by a factor of 1 + 2h/w; of three workshop reports the verdict is right on the one that split (stop at both ends) and on one that held; on the other that held it is 'look' if 1/32 in of skin was left, and 'stop', wrongly, if 1/16 in was",
	Remedies: []string{"More kerfs.", "A wider blade.", "A thinner skin, just into the first crossband.", "Kerfs across the face grain.", "Soak the face with hot water.", "Bend a test strip of this blade and batch."},
	Example: cite.Example{
		In:   map[string]float64{"skin": 2, "kerf": 3.2, "angle": 90, "count": 24, "neutral": 0.57729, "along": 1},
		Out:  map[string]float64{"strainHigh": 0.011807, "strainLow": 0.0052477},
		From: "worked by hand: α 3.75° = 0.0654498; 0.57729·0.0654498/3.2, and over 7.2",
	},
	Eval: func(in map[string]float64) []cite.Result {
		y, alpha := neutralOf(in), rad(in["angle"])/in["count"]
		fine, stop, ok := Allowed(in["skin"], in["along"] == 1, in["soaked"] == 1)
		if !ok {
			fine, stop = math.NaN(), math.NaN()
		}
		return []cite.Result{plain("strainHigh", Strain(y, alpha, in["kerf"], in["skin"], 0)),
			plain("strainLow", Strain(y, alpha, in["kerf"], in["skin"], BetaWidest)),
			plain("fine", fine), plain("stop", stop)}
	},
}

var rulePlywood = &cite.Rule{
	ID: "BEND-07", Title: "Least radius of thin plywood",
	Question: "To what radius may an unkerfed sheet, a lamination or a skin of this thickness be bent cold?",
	Formula:  "R from the table, straight between its rows; ε = (h/2)/(R + h/2)",
	Symbols: []cite.Symbol{
		{Letter: "h", Name: "ply", Meaning: "thickness of the plywood", Unit: "mm", Min: 0.889, Max: 9.525, Why: "the table has 0.035 to 0.375 in"},
		symAlong, symSoaked,
	},
	Sources: []cite.Source{faa},
	Assumes: []string{
		"the table's '90° to the face grain' is read as grain that runs round the bend: the larger radius, the cautious reading",
		"aircraft plywood at 10 % moisture on a cold mandrel; furniture plywood has knots and patches and bears less",
	},
	Accuracy: "a recommendation, not a breaking radius: 2 mm birch was reported to break at two fifths of it",
	Remedies: []string{"Soak the sheet.", "Use thinner sheets, glued up on a former.", "Turn the sheet."},
	Example: cite.Example{
		In:   map[string]float64{"ply": 1.778, "along": 1},
		Out:  map[string]float64{"radius": 132.08, "strain": 0.0066859},
		From: "the table's own row of 0.070 in: 5.2 in",
	},
	Eval: func(in map[string]float64) []cite.Result {
		h := in["ply"]
		r, ok := MinRadius(h, in["along"] == 1, in["soaked"] == 1)
		if !ok {
			r = math.NaN()
		}
		return []cite.Result{mm("radius", r), plain("strain", h/2/(r+h/2))}
	},
}

var ruleSkin = &cite.Rule{
	ID: "BEND-10", Title: "Spread of the skin",
	Question: "Will the saw stay out of the face veneer with the spread that this sheet and saw have?",
	Formula:  "h_least = h − 3·√(σ_t² + σ_d²) for a saw that rides on the kerfed face; σ_d alone with the show face on the bed",
	Symbols: []cite.Symbol{symSkin,
		{Letter: "σ_t", Name: "thicksd", Meaning: "standard deviation of the sheet's thickness", Unit: "mm", Min: 0, Max: 2, Why: "sheets"},
		{Letter: "σ_d", Name: "depthsd", Meaning: "standard deviation of the cutting depth", Unit: "mm", Min: 0, Max: 2, Why: "saws"},
		{Letter: "r", Name: "rides", Meaning: "1: the depth is taken from the kerfed face; 0: from the bed under the show face", Unit: "1", Min: 0, Max: 1, Whole: true, Why: "one of the two"},
	},
	Sources: []cite.Source{{Text: "sum of two independent spreads; three standard deviations", Label: cite.Derived},
		{Text: "cut just into the first crossband under the face veneer: a workshop magazine, no. 88", Locator: "p. 46", Label: cite.Read}},
	Assumes:  []string{"thickness and depth vary independently and about evenly; a warped sheet on a bed is worse"},
	Accuracy: "as good as the two spreads",
	Remedies: []string{"Lay the show face on the bed and gauge the depth from the bed.", "Measure the sheet along every kerf.", "Leave a little more skin and look at the strain again."},
	Example: cite.Example{
		In:   map[string]float64{"skin": 1.6, "thicksd": 0.1, "depthsd": 0.05, "rides": 1},
		Out:  map[string]float64{"least": 1.26459, "most": 1.93541},
		From: "worked by hand: √(0.01 + 0.0025) = 0.111803; 1.6 ∓ 0.335410",
	},
	Eval: func(in map[string]float64) []cite.Result {
		sd := SkinSpread(in["thicksd"], in["depthsd"], in["rides"] == 1)
		return []cite.Result{mm("least", in["skin"]-3*sd), mm("most", in["skin"]+3*sd), mm("sd", sd)}
	},
}

var ruleMoment = &cite.Rule{
	ID: "BEND-12", Title: "Moment that holds the bend",
	Question: "How hard must the strip be pulled, and how much of the bend is given back when it is let go?",
	Formula:  "k = b·ΣE·I/w for one hinge; M = k·α; a bare strip gives back nearly all its curvature",
	Symbols: []cite.Symbol{symWidth, symKerf, symSkin, symAngle, symCount,
		{Letter: "E", Name: "modulus", Meaning: "modulus of a homogeneous skin along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood"}},
	Sources:  []cite.Source{{Text: "bending of an elastic hinge of the length w", Label: cite.Derived}},
	Assumes:  []string{"elastic, β = 0: an upper bound, until a kerf shuts and the moment rises steeply"},
	Accuracy: "within a factor of two",
	Remedies: []string{"Hold the bend on a former until what is bonded to it has cured."},
	Example: cite.Example{
		In:   map[string]float64{"width": 400, "kerf": 3.2, "skin": 1.1, "angle": 90, "count": 24, "modulus": 17500},
		Out:  map[string]float64{"stiffness": 242630, "moment": 15880},
		From: "worked by hand: 400·17500·1.331/12/3.2 = 242 630; times 0.0654498",
	},
	Eval: func(in map[string]float64) []cite.Result {
		k := in["width"] * in["modulus"] * math.Pow(in["skin"], 3) / 12 / in["kerf"]
		return []cite.Result{{Name: "stiffness", Unit: "N·mm", Value: k},
			{Name: "moment", Unit: "N·mm", Value: k * rad(in["angle"]) / in["count"]}}
	},
}
