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

// TimeRule compares the spreading of glue with its open time.
var TimeRule = &cite.Rule{
	ID:       "ORDER-02",
	Title:    "A glue-up in its open time",
	Question: "How long does the spreading for one glue-up take?",
	Formula:  "T = A · r",
	Symbols: []cite.Symbol{
		{Letter: "A", Name: "area", Meaning: "area of all glue lines", Unit: "m²", Min: 0, Max: 100, Why: "a piece of furniture"},
		{Letter: "r", Name: "rate", Meaning: "time to spread a square metre, as this shop does it", Unit: "s/m²", Min: 0, Max: 36000, Why: "a hand"},
	},
	Sources:  []cite.Source{{Text: "multiplication; the rate is the shop's own", Label: cite.Practice}},
	Assumes:  []string{"only the spreading is counted: bringing together and clamping need open time too, so that the true time is longer"},
	Accuracy: "as good as the rate in the shop file",
	Remedies: []string{"glue in two stages, with the rest held dry", "a slower glue", "a second pair of hands"},
	Example: cite.Example{
		In: map[string]float64{"area": 0.2, "rate": 900}, Out: map[string]float64{"time": 180}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "time", Unit: "s", Value: in["area"] * in["rate"]}}
	},
}

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
var Rules = []*cite.Rule{OrderRule, TimeRule, DriverRule, HingeRule, SlideRule}

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
	return append(out, timeFindings(p, d, r)...)
}

func orderFinding(d *design.Design, id string, v work.Verdict, value float64, text say.Sentence) work.Finding {
	return work.Finding{ID: id, Rule: OrderRule.ID, Verdict: v, Title: "going together", Text: text,
		Value: trace.Const(value), Unit: "1", Path: "joints", At: d.At("joints"), Chapter: "assemble"}
}

// timeFindings says which glue-ups take longer to spread than the glue stays
// open.
func timeFindings(p *piece.Piece, d *design.Design, r Result) []work.Finding {
	rate, open := clock(d)
	if rate <= 0 || open <= 0 {
		return nil
	}
	last := 0
	for _, s := range r.Steps {
		last = max(last, s.Group)
	}
	times := groupTime(r.Steps, p, rate)
	longest := 0
	var out []work.Finding
	for g := 1; g <= last; g++ {
		if longest == 0 || times[g] > times[longest] {
			longest = g
		}
		if times[g] > open {
			out = append(out, timeFinding(p, d, r, g, times[g]))
		}
	}
	if len(out) == 0 && longest > 0 {
		out = append(out, timeFinding(p, d, r, longest, times[longest]))
	}
	return out
}

// timeFinding tells of one glue-up.
func timeFinding(p *piece.Piece, d *design.Design, r Result, g int, time float64) work.Finding {
	limit := d.Shop.Glues[0].Open
	f := work.Finding{
		ID: fmt.Sprintf("glue-up/%d", g), Rule: TimeRule.ID, Verdict: work.Fine, Title: fmt.Sprintf("glue-up %d", g),
		Value: glueTime(p, d, r.Steps, g), Limit: limit, Unit: "s", Path: "joints", At: d.At("joints"), Chapter: "assemble",
		Text: say.F("Spreading takes longest in glue-up {}: {} s of the {} s that the glue stays open.", g, say.Num(time, 0), say.Num(limit.V, 0)),
	}
	if time > limit.V {
		f.Verdict = work.Look
		f.Text = say.F("Spreading for glue-up {} takes {} s; the glue stays open for {} s.", g, say.Num(time, 0), say.Num(limit.V, 0))
		f.Mends = []work.Mend{{Text: say.F("glue it with two pairs of hands, or with a slower glue")}}
	}
	return f
}

// glueTime is the traced spreading time of a glue-up.
func glueTime(p *piece.Piece, d *design.Design, steps []work.Step, g int) trace.Num {
	var area trace.Num
	for _, s := range steps {
		if s.Group != g {
			continue
		}
		for _, id := range s.Joints {
			for _, j := range p.Joints {
				if j.ID == id && j.Glued {
					area = area.Add(j.Area)
				}
			}
		}
	}
	return area.Scale(1e-6).Mul(d.Shop.Rates.SpreadPerM2)
}
