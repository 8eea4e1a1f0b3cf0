package rout

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{RuleBush, RuleCorner, RuleTemplate, RuleProud, RulePass}

var (
	symBush = cite.Symbol{Letter: "D", Name: "bush", Meaning: "outside diameter of the guide bush", Unit: "mm", Min: 4, Max: 80, Why: "guide bushes"}
	symBit  = cite.Symbol{Letter: "d", Name: "bit", Meaning: "diameter of the bit, as measured", Unit: "mm", Min: 1, Max: 60, Why: "straight bits"}
)

var exact = "exact; in the shop as good as the bush runs true about the bit: turn the router half round and cut again, and half of what the groove widens by is the fault"

// RuleBush is the offset of a guide bush.
var RuleBush = &cite.Rule{
	ID: "ROUT-01", Title: "Offset of a guide bush",
	Question: "How much smaller than the part is a template for a guide bush, and how much larger than an opening?",
	Formula:  "o = (D − d)/2; opening of the template = finished opening + D − d",
	Symbols: []cite.Symbol{symBush, symBit,
		{Letter: "a", Name: "opening", Meaning: "finished opening, its width or diameter", Unit: "mm", Min: 1, Max: 3000, Why: "work for a hand-held router",
			Optional: true, Else: "no opening: only the offset is told"}},
	Sources: []cite.Source{
		{Text: "a woodworkers' forum, threads on guide bushes (year not noted)", Locator: "the offset, (bush − bit)/2; an opening of 8 × 4 in with a 3/4 in bush and a 1/4 in bit", Label: cite.Read},
		{Text: "a public question-and-answer site for woodworkers", Locator: "question 7205: the template for a 6 in hole", Label: cite.Read},
		{Text: "outside cuts: the same offset inwards, bush and bit having one axis", Label: cite.Derived},
	},
	Assumes:  []string{"bush and bit have one axis; one that is off by e shifts the cut by up to e, to and fro as the router is turned", "the bush stays on the template; where it lifts off on an outside cut, waste is left: go round again", "bit and bush are the measured ones: a ground bit is thinner than its label, and every 0.1 mm moves the edge by 0.05 mm"},
	Accuracy: exact,
	Remedies: []string{"Measure both with a calliper and cut a test edge before the part.", "A pattern bit with a bearing of its own size, for which the template is the outline itself."},
	Example: cite.Example{In: map[string]float64{"bush": 19.05, "bit": 6.35, "opening": 203.2}, Out: map[string]float64{"offset": 6.35, "template": 215.9},
		From: "the first source: 8 in asks for 8 1/2 in"},
	Eval: func(in map[string]float64) []cite.Result {
		o, err := Offset(in["bush"], in["bit"])
		if err != nil {
			o = math.NaN()
		}
		out := []cite.Result{{Name: "offset", Unit: "mm", Value: o}}
		if a, ok := in["opening"]; ok {
			out = append(out, cite.Result{Name: "template", Unit: "mm", Value: Opening(a, in["bush"], in["bit"])})
		}
		return out
	},
}

// RuleCorner is the bit that goes into an inside corner.
var RuleCorner = &cite.Rule{
	ID: "ROUT-02", Title: "The bit that goes into a corner",
	Question: "How large may a bit be for the tightest inside corner of an outline?",
	Formula:  "d ≤ 2·R; with a bush the template's inside corner is R + (D − d)/2 ≥ D/2, which asks the same",
	Symbols: []cite.Symbol{
		{Letter: "R", Name: "radius", Meaning: "radius of the tightest inside corner of the finished outline", Unit: "mm", Min: 0, Max: 5000, Why: "0 is a sharp corner"}},
	Sources: []cite.Source{
		{Text: "the axis of a bit stays its radius away from the edge that it cuts", Label: cite.Derived}},
	Assumes:  []string{"a bit that is just as wide as the corner chatters in it: a smaller one cuts cleaner", "a sharp inside corner comes out with the bit's radius and is squared by hand, or relieved on purpose"},
	Accuracy: "exact",
	Remedies: []string{"A smaller bit.", "A larger rounding in the piece file.", "Square the corner with a chisel, or leave a relief cut in it."},
	Example:  cite.Example{In: map[string]float64{"radius": 15}, Out: map[string]float64{"largest": 30}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "largest", Unit: "mm", Value: LargestBit(in["radius"])}}
	},
}

// RuleTemplate is the thickness of a template.
var RuleTemplate = &cite.Rule{
	ID: "ROUT-03", Title: "Thickness of a template",
	Question: "How thick must a template be, so that neither the bush touches the work nor the bearing runs off?",
	Formula:  "t ≥ h + 1 mm for a bush that stands out by h, and t ≥ 6 mm; 12 mm is usual",
	Symbols: []cite.Symbol{
		{Letter: "h", Name: "length", Meaning: "how far the bush stands out below the router's base; 0 for a pattern bit", Unit: "mm", Min: 0, Max: 40, Why: "guide bushes"}},
	Sources: []cite.Source{
		{Text: "a woodworkers' forum, threads on guide bushes (year not noted)", Locator: "about 1/2 in (12 mm) of fibreboard or plywood, thicker than the bush is long", Label: cite.Read},
		{Text: "at least 6 mm under a bearing; a millimetre of play under a bush", Label: cite.Practice},
	},
	Assumes:  []string{"a flat sheet without voids at its edge; a bearing drops into a void and copies it"},
	Accuracy: "a habit",
	Remedies: []string{"A thicker template.", "A bush filed shorter."},
	Example:  cite.Example{In: map[string]float64{"length": 9.5}, Out: map[string]float64{"least": 10.5, "usual": 12}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		least := Template(in["length"])
		return []cite.Result{{Name: "least", Unit: "mm", Value: least}, {Name: "usual", Unit: "mm", Value: max(Thick, least)}}
	},
}

// RuleProud is how far the saw stays off the line.
var RuleProud = &cite.Rule{
	ID: "ROUT-04", Title: "What the saw leaves for the bit",
	Question: "How far outside the finished line does the jigsaw run?",
	Formula:  "2 mm ≤ a ≤ 3 mm; the line is drawn at 2.5 mm",
	Symbols: []cite.Symbol{
		{Letter: "a", Name: "left", Meaning: "wood that is left outside the finished line", Unit: "mm", Min: 0, Max: 20, Why: "what a hand-held saw leaves"}},
	Sources:  []cite.Source{{Text: "2 to 3 mm are left outside the line for a bit that trims to a template", Label: cite.Practice}},
	Assumes:  []string{"a jigsaw whose blade leans by less than what is left; in thick or curved work look at the lower face first"},
	Accuracy: "a habit",
	Remedies: []string{"Less makes the saw reach the line, more makes the bit grab."},
	Example:  cite.Example{In: map[string]float64{"left": 2.5}, Out: map[string]float64{"fine": 1}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		fine := 0.0
		if in["left"] >= LeastProud && in["left"] <= MostProud {
			fine = 1
		}
		return []cite.Result{{Name: "fine", Unit: "1", Value: fine}}
	},
}

// RulePass is the depth of one pass.
var RulePass = &cite.Rule{
	ID: "ROUT-05", Title: "Depth of a pass",
	Question: "In how many passes does a bit go to its depth?",
	Formula:  "each pass ≤ 1/8 in (3.2 mm) and ≤ d/2",
	Symbols: []cite.Symbol{symBit,
		{Letter: "T", Name: "depth", Meaning: "whole depth of the cut", Unit: "mm", Min: 0.1, Max: 100, Why: "work for a hand-held router"}},
	Sources: []cite.Source{
		{Text: "unnamed trade sheet (hand-held routers, manuals of several models; year not printed)", Locator: "not more than 1/8 in in one pass, regardless of the size of the bit or the softness of the work", Label: cite.Read},
		{Text: "at most half the bit's diameter", Label: cite.Practice},
	},
	Assumes:  []string{"a cut into full wood; trimming the 2 to 3 mm that a saw left may go deeper, as the tool's manual allows"},
	Accuracy: "on the careful side",
	Remedies: []string{"More passes.", "A thicker bit, where the corner allows it."},
	Example:  cite.Example{In: map[string]float64{"bit": 12, "depth": 17.7}, Out: map[string]float64{"passes": 6, "each": 2.95}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		n, each := Passes(in["depth"], in["bit"])
		return []cite.Result{{Name: "passes", Unit: "1", Value: float64(n)}, {Name: "each", Unit: "mm", Value: each}}
	},
}
