package check

import (
	"rodwork/internal/cite"
	"rodwork/internal/material"
	"rodwork/internal/mech/beam"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/child"
	"rodwork/internal/mech/frame"
	"rodwork/internal/mech/hang"
	"rodwork/internal/mech/reach"
	"rodwork/internal/mech/season"
	"rodwork/internal/mech/stability"
)

// ShareRule tells how much of a thickness a housing or a rabbet may take.
var ShareRule = &cite.Rule{
	ID:       "JOIN-01",
	Title:    "Depth of a housing or rabbet",
	Question: "How deep may a housing, groove or rabbet be in its panel?",
	Formula:  "share = d / t",
	Symbols: []cite.Symbol{
		{Letter: "d", Name: "depth", Meaning: "depth of the cut", Unit: "mm", Min: 0.1, Max: 200, Why: "a cut in a panel"},
		{Letter: "t", Name: "thick", Meaning: "thickness of the panel, as measured", Unit: "mm", Min: 0.5, Max: 200, Why: "a panel"},
	},
	Sources: []cite.Source{
		{Text: "a quarter to a third of the thickness for a housing, up to a half for a rabbet or groove", Label: cite.Practice},
	},
	Assumes:  []string{"plywood or solid wood; in fibreboard and particleboard the wall beside the cut is weaker, so that the rule is too kind there"},
	Accuracy: "a rule of proportion; no strength is computed",
	Remedies: []string{"a shallower cut", "thicker stock", "a joint of another kind"},
	Example: cite.Example{
		In: map[string]float64{"depth": 6, "thick": 18}, Out: map[string]float64{"share": 0.33333}, From: "by hand: 6/18",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "share", Unit: "1", Value: in["depth"] / in["thick"]}}
	},
}

// WebRule tells what two cuts from opposite faces leave.
var WebRule = &cite.Rule{
	ID:       "JOIN-02",
	Title:    "Cuts from both faces",
	Question: "What is left of a panel where a hole or housing lies over one from the other face?",
	Formula:  "web = t − a − b",
	Symbols: []cite.Symbol{
		{Letter: "t", Name: "thick", Meaning: "thickness of the panel, as measured", Unit: "mm", Min: 0.5, Max: 200, Why: "a panel"},
		{Letter: "a", Name: "one", Meaning: "depth of the cut from the one face", Unit: "mm", Min: 0, Max: 200, Why: "a cut in a panel"},
		{Letter: "b", Name: "other", Meaning: "depth of the cut from the other face", Unit: "mm", Min: 0, Max: 200, Why: "a cut in a panel"},
	},
	Sources: []cite.Source{
		{Text: "subtraction; that two veneers, 2.5 mm, should be left is a habit", Label: cite.Practice},
	},
	Assumes:  []string{"cuts are as deep as planned: a drill that wanders in or a thin sheet leaves less"},
	Accuracy: "as good as the depth stop",
	Remedies: []string{"shallower holes", "rows set off from each other by half a pitch", "a housing clear of the row"},
	Example: cite.Example{
		In: map[string]float64{"thick": 17.7, "one": 5.9, "other": 9}, Out: map[string]float64{"web": 2.8}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "web", Unit: "mm", Value: in["thick"] - in["one"] - in["other"]}}
	},
}

// CrowdRule tells what stands between two cuts on one face.
var CrowdRule = &cite.Rule{
	ID:       "JOIN-03",
	Title:    "Holes side by side",
	Question: "How much wood stands between a hole and the next hole or slot on its face?",
	Formula:  "gap = a − b/2 − c/2",
	Symbols: []cite.Symbol{
		{Letter: "a", Name: "apart", Meaning: "from the hole's centre to the other's, or to the slot's edge", Unit: "mm", Min: 0, Max: 5000, Why: "a place on a panel"},
		{Letter: "b", Name: "one", Meaning: "diameter of the hole", Unit: "mm", Min: 0.5, Max: 200, Why: "a hole"},
		{Letter: "c", Name: "other", Meaning: "diameter of the other hole; 0 for a slot", Unit: "mm", Min: 0, Max: 200, Why: "a hole or a slot"},
	},
	Sources: []cite.Source{
		{Text: "subtraction; that 3 mm should stand is a habit", Label: cite.Practice},
	},
	Assumes:  []string{"two holes of one diameter and one centre are one hole: a plate that is screwed into a row of pin holes", "holes into an edge are not looked at"},
	Accuracy: "as good as the marking out",
	Remedies: []string{"move the hinge or the shelf", "another row of holes"},
	Example: cite.Example{
		In: map[string]float64{"apart": 32, "one": 5, "other": 5}, Out: map[string]float64{"gap": 27}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "gap", Unit: "mm", Value: in["apart"] - in["one"]/2 - in["other"]/2}}
	},
}

// HandRule compares hardware needed and in hand.
var HandRule = &cite.Rule{
	ID:       "HAND-01",
	Title:    "Hardware in hand",
	Question: "Is the hardware there that holes are drilled for?",
	Formula:  "missing = need − has",
	Symbols: []cite.Symbol{
		{Letter: "n", Name: "need", Meaning: "pieces that the piece takes", Unit: "1", Min: 0, Max: 100000, Why: "a count", Whole: true},
		{Letter: "h", Name: "has", Meaning: "pieces that the shop has", Unit: "1", Min: 0, Max: 100000, Why: "a count", Whole: true},
	},
	Sources:  []cite.Source{{Text: "have the hardware before the holes: makers change geometry under one name", Label: cite.Practice}},
	Assumes:  []string{"what the shop file says is in hand is not promised to another piece"},
	Accuracy: "a count",
	Remedies: []string{"buy it first and measure it", "cut the holes last"},
	Example: cite.Example{
		In: map[string]float64{"need": 4, "has": 2}, Out: map[string]float64{"missing": 2}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "missing", Unit: "1", Value: max(0, in["need"]-in["has"])}}
	},
}

// own are the rules of this package.
var own = []*cite.Rule{ShareRule, WebRule, CrowdRule, PegRule, BlindRule, HandRule}

// Rules returns every rule that a finding of this package may name: its own,
// and those of the mechanics that it calls, in the order of their packages.
func Rules() []*cite.Rule {
	var out []*cite.Rule
	for _, rs := range [][]*cite.Rule{bend.Rules, beam.Rules, stability.Rules, frame.Rules, hang.Rules, child.Rules, reach.Rules, season.Rules, material.Rules, own} {
		out = append(out, rs...)
	}
	return out
}
