package layout

import (
	"math"

	"rodwork/internal/cite"
)

// The ids of this stage's rules.
const (
	RuleFits  = "LAYOUT-01"
	RuleKerf  = "LAYOUT-02"
	RuleLeast = "LAYOUT-03"
)

// Rules are the rules behind the layouts.
var Rules = []*cite.Rule{fits, kerfs, least}

var fits = &cite.Rule{
	ID:       RuleFits,
	Title:    "What a sheet gives inside its trim",
	Question: "How long, or wide, may a blank be?",
	Formula:  "Lu = L - 2·t",
	Symbols: []cite.Symbol{
		{Letter: "L", Name: "length", Meaning: "length, or width, of the sheet as bought", Unit: "mm", Min: 1, Max: 20000, Why: "the sizes that a layout takes on"},
		{Letter: "t", Name: "trim", Meaning: "cut off each edge before use, kerf included", Unit: "mm", Max: 500, Why: "more would be no trim"},
	},
	Sources:  []cite.Source{{Text: "the trade", Locator: "sheets are trimmed to one straight edge and one square corner", Label: cite.Practice}},
	Assumes:  []string{"both edges lose the trim; where the far edge is clean as bought, a blank may be longer by it (errs on the safe side)"},
	Accuracy: "exact for the sheet as measured",
	Remedies: []string{"a smaller trim, if the edges are clean", "a longer sheet", "the part in two, with a joint"},
	Example:  cite.Example{In: map[string]float64{"length": 2440, "trim": 8}, Out: map[string]float64{"usable": 2424}, From: "by hand: 2440 - 16"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "usable", Unit: "mm", Value: in["length"] - 2*in["trim"]}}
	},
}

var kerfs = &cite.Rule{
	ID:       RuleKerf,
	Title:    "Like strips with a kerf between each two",
	Question: "How many strips of one width does a sheet give?",
	Formula:  "n = ⌊(Lu + k)/(b + k)⌋",
	Symbols: []cite.Symbol{
		{Letter: "Lu", Name: "usable", Meaning: "length inside the trim", Unit: "mm", Min: 1, Max: 20000, Why: "the sizes that a layout takes on"},
		{Letter: "b", Name: "strip", Meaning: "width of one strip", Unit: "mm", Min: 0.001, Max: 20000, Why: "the sizes that a layout takes on"},
		{Letter: "k", Name: "kerf", Meaning: "kerf of the blade, as measured", Unit: "mm", Max: 50, Why: "the blades that a layout takes on"},
	},
	Sources:  []cite.Source{{Text: "the geometry of sawing", Locator: "n strips have n - 1 kerfs between them: n·b + (n - 1)·k ≤ Lu", Label: cite.Derived}},
	Assumes:  []string{"the blade's kerf is the same in each cut; a wider one loses length (errs on the unsafe side by n times the difference)"},
	Accuracy: "exact for the kerf as measured",
	Remedies: []string{"a thinner blade", "narrower strips"},
	Example:  cite.Example{In: map[string]float64{"usable": 1204, "strip": 299, "kerf": 2.2}, Out: map[string]float64{"strips": 4}, From: "by hand: 4·299 + 3·2.2 = 1202.6; a fifth does not go"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "strips", Unit: "1", Value: math.Floor((in["usable"] + in["kerf"]) / (in["strip"] + in["kerf"]))}}
	},
}

var least = &cite.Rule{
	ID:       RuleLeast,
	Title:    "The least number of sheets, by area",
	Question: "How many sheets are needed whatever the layout?",
	Formula:  "N = ⌈Σ(l + k)(w + k) / ((Lu + k)(Wu + k))⌉",
	Symbols: []cite.Symbol{
		{Letter: "Σ(l + k)(w + k)", Name: "blanks", Meaning: "area of all blanks, each larger by the kerf both ways", Unit: "m²", Min: 0, Max: 10000, Why: "a shop's order"},
		{Letter: "Lu", Name: "usable", Meaning: "length inside the trim", Unit: "mm", Min: 1, Max: 20000, Why: "the sizes that a layout takes on"},
		{Letter: "Wu", Name: "across", Meaning: "width inside the trim", Unit: "mm", Min: 1, Max: 20000, Why: "the sizes that a layout takes on"},
		{Letter: "k", Name: "kerf", Meaning: "kerf of the blade, as measured", Unit: "mm", Max: 50, Why: "the blades that a layout takes on"},
	},
	Sources: []cite.Source{
		{Text: "the geometry of sawing", Locator: "edge-to-edge cuts: a = a1 + k + a2 gives a + k = (a1 + k) + (a2 + k)", Label: cite.Derived},
		{Text: "S. P. Fekete and J. Schepers, A general framework for bounds for higher-dimensional orthogonal packing problems, Mathematical Methods of Operations Research 60, 2004", Locator: "dual feasible functions, of which the area is the plainest; the program tries the others too", Label: cite.FromMemory},
	},
	Assumes:  []string{"parts could be cut to any shape; the true number may be higher, never lower"},
	Accuracy: "a bound from below; the layout's own proof may be better",
	Remedies: []string{"narrower or shorter parts", "a larger sheet"},
	Example:  cite.Example{In: map[string]float64{"blanks": 3.2, "usable": 2424, "across": 1204, "kerf": 2.2}, Out: map[string]float64{"sheets": 2}, From: "by hand: 3.2 m² over 2.4262 × 1.2062 = 2.926 m² is 1.09"},
	Eval: func(in map[string]float64) []cite.Result {
		one := (in["usable"] + in["kerf"]) * (in["across"] + in["kerf"])
		return []cite.Result{{Name: "sheets", Unit: "1", Value: math.Ceil(in["blanks"] * 1e6 / one)}}
	},
}
