package stability

import "rodwork/internal/cite"

// anchorSpare is by how much more than balance an anchor is asked to hold
// (common practice: a child climbs, and does not hang still).
const anchorSpare = 1.5

// Anchor returns the level force, N, that an anchor at the height y (mm) must
// hold so that what holds and what tips (N·mm) balance one and a half times
// over; 0 where they do without it (STAND-08).
func Anchor(holds, tips, y float64) float64 {
	if need := anchorSpare*tips - holds; need > 0 && y > 0 {
		return need / y
	}
	return 0
}

var ruleAnchor = &cite.Rule{
	ID: "STAND-08", Title: "What an anchor must hold",
	Question: "What force must a fixing to the wall hold so that the piece does not tip?",
	Formula:  "F = (1.5·M_tips − M_holds)/y",
	Symbols: []cite.Symbol{
		{Letter: "M_h", Name: "holds", Meaning: "moment that holds", Unit: "N·m", Min: 0, Max: 100000, Why: "furniture"},
		{Letter: "M_t", Name: "tips", Meaning: "moment that tips", Unit: "N·m", Min: 0, Max: 100000, Why: "furniture"},
		length("y", "high", "height of the anchor"),
	},
	Sources: []cite.Source{statics,
		{Text: "ASTM F3096-23, Tipover restraints used with clothing storage units", Locator: "abstract: static test weight of 60 lb", Label: cite.Read},
		{Text: "one and a half times what balances, since children climb and jump", Label: cite.Practice}},
	Assumes:  []string{"the wall and the screw hold: in half of the failures that were collected they did not", cautions},
	Accuracy: "exact for the model",
	Remedies: []string{"anchor it higher", "two anchors or more, each for the whole force"},
	Example: cite.Example{In: map[string]float64{"holds": 40, "tips": 60, "high": 1000}, Out: map[string]float64{"force": 50, "least": 266.893},
		From: "by hand: (90 − 40)/1; 60 lb"},
	Eval: func(in map[string]float64) []cite.Result {
		f := 0.0
		if in["high"] > 0 {
			f = Anchor(1000*in["holds"], 1000*in["tips"], in["high"])
		}
		return []cite.Result{{Name: "force", Unit: "N", Value: f}, {Name: "least", Unit: "N", Value: 60 * pound * Gravity}}
	},
}
