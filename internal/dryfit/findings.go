package dryfit

import (
	"fmt"

	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/replay"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// OrderRule tells how an order of assembly is judged.
var OrderRule = &cite.Rule{
	ID:       "ORDER-01",
	Title:    "Going together",
	Question: "Is there an order in which every joint closes along its way in?",
	Formula:  "left = parts − parts placed",
	Symbols: []cite.Symbol{
		{Letter: "n", Name: "parts", Meaning: "parts of the piece", Unit: "1", Min: 0, Max: 10000, Why: "a piece of furniture", Whole: true},
		{Letter: "m", Name: "placed", Meaning: "parts that the order brings in", Unit: "1", Min: 0, Max: 10000, Why: "a piece of furniture", Whole: true},
	},
	Sources: []cite.Source{
		{Text: "R. H. Wilson and J.-C. Latombe, Geometric reasoning about mechanical assembly, Artificial Intelligence 71 (1994)", Locator: "pp. 371–396, directional blocking graphs", Label: cite.FromMemory},
	},
	Assumes: []string{
		"parts move straight and square to the piece, or wrap: a tilted way in is not looked for, so that a piece may go together that is said not to",
		"what stands in the way is judged by upright boxes round the parts: errs on the side of 'blocked'",
	},
	Accuracy: "each order is replayed by a routine that knows nothing of the search",
	Remedies: []string{"a joint that is open on another side: a rabbet for a housing", "a part that is screwed on after the glue"},
	Example: cite.Example{
		In: map[string]float64{"parts": 12, "placed": 12}, Out: map[string]float64{"left": 0}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "left", Unit: "1", Value: in["parts"] - in["placed"]}}
	},
}

// Rules are the rules of this package.
var Rules = []*cite.Rule{OrderRule, TimeRule, ClampRule, DriverRule, HingeRule, SlideRule}

func findings(p *piece.Piece, d *design.Design, r Result) []work.Finding {
	var out []work.Finding
	for i, ids := range r.Stuck {
		out = append(out, orderFinding(d, fmt.Sprintf("order/stuck %d", i+1), work.Stop, float64(len(ids)),
			say.F("These parts do not go together by straight moves or by wrapping: {}. Each is held across the way out of another.", stuckText(ids))))
	}
	if r.Large {
		out = append(out, orderFinding(d, "order/large", work.NotCovered, float64(len(p.Parts)),
			say.F("It has more than {} parts glued into one: no order of assembly was looked for.", MostParts)))
	}
	if len(r.Stuck) == 0 && !r.Large {
		if faults := replay.Joints(p, r.Steps); len(faults) > 0 {
			f := faults[0]
			out = append(out, orderFinding(d, "order/replay", work.Stop, float64(len(faults)),
				say.F("The order of assembly fails when it is replayed, at step {}: {}.", f.Step, f.Text)))
		} else if len(r.Steps) > 0 {
			out = append(out, orderFinding(d, "order", work.Fine, 0,
				say.F("It goes together in {} steps; each joint closes along its way in.", len(r.Steps))))
		}
	}
	return append(out, timeFindings(d, r.GlueUps)...)
}

func orderFinding(d *design.Design, id string, v work.Verdict, value float64, text say.Sentence) work.Finding {
	return work.Finding{ID: id, Rule: OrderRule.ID, Verdict: v, Title: "going together", Text: text,
		Value: trace.Const(value), Unit: "1", Path: "joints", At: d.At("joints"), Chapter: "assemble"}
}
