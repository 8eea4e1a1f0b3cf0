package dryfit

import (
	"fmt"

	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// TimeRule compares a glue-up with the glue's open time.
var TimeRule = &cite.Rule{
	ID:       "ORDER-02",
	Title:    "A glue-up in its open time",
	Question: "How long does a glue-up take from the first spread to the last clamp?",
	Formula:  "T = A · r + n · b + m · c",
	Symbols: []cite.Symbol{
		{Letter: "A", Name: "area", Meaning: "area of all glue lines", Unit: "m²", Min: 0, Max: 100, Why: "a piece of furniture"},
		{Letter: "r", Name: "rate", Meaning: "time to spread a square metre, as this shop does it", Unit: "s/m²", Min: 0, Max: 36000, Why: "a hand"},
		{Letter: "n", Name: "parts", Meaning: "parts that are brought in", Unit: "1", Min: 0, Max: 1000, Why: "a piece of furniture", Whole: true, Optional: true, Else: "none"},
		{Letter: "b", Name: "bring", Meaning: "time to bring one in", Unit: "s", Min: 0, Max: 3600, Why: "a hand", Optional: true, Else: "0 s"},
		{Letter: "m", Name: "clamps", Meaning: "clamps that are put on", Unit: "1", Min: 0, Max: 1000, Why: "a shop", Whole: true, Optional: true, Else: "none"},
		{Letter: "c", Name: "each", Meaning: "time to put one on", Unit: "s", Min: 0, Max: 3600, Why: "a hand", Optional: true, Else: "0 s"},
	},
	Sources: []cite.Source{
		{Text: "a sum; the rates are the shop's own", Label: cite.Practice},
		{Text: "a clamp every 8 to 12 in: unnamed trade sheet (wood glue, a technical guide, year not told)", Locator: "read in an excerpt, page not known", Label: cite.Read},
		{Text: "a fifth of the open time is kept back: warm or dry air and thirsty edges shorten it", Label: cite.Practice},
	},
	Assumes: []string{
		"all glue is spread first, by one pair of hands: two are faster",
		"the open time is the glue's as the shop file tells it; its temperature and the room's are not reckoned with, which the margin is for",
		"rows of clamps are told from the boxes of the parts: a clamp that can't be set there is not seen, so that the true time may be longer",
	},
	Accuracy: "as good as the rates in the shop file: measure one glue-up, dry",
	Remedies: []string{"glue in two stages, with the rest held dry", "a slower glue", "a second pair of hands"},
	Example: cite.Example{
		In:  map[string]float64{"area": 0.2, "rate": 900, "parts": 3, "bring": 20, "clamps": 6, "each": 15},
		Out: map[string]float64{"time": 330}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "time", Unit: "s", Value: in["area"]*in["rate"] + in["parts"]*in["bring"] + in["clamps"]*in["each"]}}
	},
}

// ClampRule compares the clamps that a glue-up wants with those of the shop.
var ClampRule = &cite.Rule{
	ID:       "ORDER-03",
	Title:    "Clamps for a glue-up",
	Question: "Are there clamps enough that reach, and do they press enough?",
	Formula:  "short = max(0, p · A − n · F)",
	Symbols: []cite.Symbol{
		{Letter: "A", Name: "area", Meaning: "area of a glue line between flat faces", Unit: "mm²", Min: 0, Max: 1e7, Why: "a piece of furniture"},
		{Letter: "n", Name: "clamps", Meaning: "clamps of the row", Unit: "1", Min: 0, Max: 1000, Why: "a shop", Whole: true},
		{Letter: "F", Name: "force", Meaning: "force of one", Unit: "N", Min: 0, Max: 1e5, Why: "a hand clamp"},
		{Letter: "p", Name: "pressure", Meaning: "pressure on the glue line", Unit: "MPa", Min: 0, Max: 5, Why: "wood is crushed beyond", Optional: true, Else: "0.7 MPa"},
	},
	Sources: []cite.Source{
		{Text: "100 to 150 lbf/in² for soft woods, 200 to 300 for hard ones: unnamed trade sheet (wood glue, a technical guide, year not told)", Locator: "read in an excerpt, page not known", Label: cite.Read},
		{Text: "Forest Products Laboratory, Wood Handbook: about 0.7 MPa for light woods, 1.7 MPa for the heaviest", Locator: "chapter 10", Label: cite.FromMemory},
	},
	Assumes: []string{
		"housings and rabbets are only to be closed: no pressure is asked for there",
		"a long caul spreads the force: without one it is less between the clamps",
		"the least published pressure is asked for: hard woods want twice as much and more",
	},
	Accuracy: "a factor of two: hands differ, and so do clamps",
	Remedies: []string{"borrow clamps", "two shorter ones hooked into each other", "a caul that is bowed a little", "glue in stages"},
	Example: cite.Example{
		In: map[string]float64{"area": 10000, "clamps": 2, "force": 2500}, Out: map[string]float64{"short": 2000}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		p, ok := in["pressure"]
		if !ok {
			p = clampPressure
		}
		return []cite.Result{{Name: "short", Unit: "N", Value: max(0, p*in["area"]-in["clamps"]*in["force"])}}
	},
}

// timeFindings says which glue-ups take longer than the glue stays open, or which
// comes nearest; and what clamps are lacking.
func timeFindings(d *design.Design, ups []work.GlueUp) []work.Finding {
	var out, lacks []work.Finding
	longest := -1
	for i, g := range ups {
		if longest < 0 || g.Total.V > ups[longest].Total.V {
			longest = i
		}
		if g.Limit.V > 0 && g.Total.V > g.Limit.V {
			out = append(out, timeFinding(d, g))
		}
		if f, ok := clampFinding(d, g); ok {
			lacks = append(lacks, f)
		}
	}
	if len(out) == 0 && longest >= 0 && ups[longest].Limit.V > 0 && ups[longest].Total.V > 0 {
		out = append(out, timeFinding(d, ups[longest]))
	}
	return append(out, lacks...)
}

// timeFinding tells of one glue-up.
func timeFinding(d *design.Design, g work.GlueUp) work.Finding {
	f := work.Finding{
		ID: fmt.Sprintf("glue-up/%d", g.Number), Rule: TimeRule.ID, Verdict: work.Fine, Title: fmt.Sprintf("glue-up %d", g.Number),
		Value: g.Total, Limit: g.Limit, Unit: "s", Path: "joints", At: d.At("joints"), Chapter: "assemble",
		Text: say.F("Glue-up {} takes longest: {} s from the first spread to the last clamp, of the {} s that four fifths of the open time are.",
			g.Number, say.Num(g.Total.V, 0), say.Num(g.Limit.V, 0)),
	}
	if g.Total.V > g.Limit.V {
		f.Verdict = work.Look
		f.Text = say.F("Glue-up {} takes {} s from the first spread to the last clamp; four fifths of the open time are {} s. It is a single act and can't be made shorter by stages.",
			g.Number, say.Num(g.Total.V, 0), say.Num(g.Limit.V, 0))
		f.Mends = []work.Mend{{Text: say.F("glue it with two pairs of hands, or with a slower glue")}}
	}
	return f
}

// clampFinding tells what clamps one glue-up lacks; ok is false for none.
func clampFinding(d *design.Design, g work.GlueUp) (f work.Finding, ok bool) {
	if d.Shop == nil || len(d.Shop.Clamps) == 0 {
		return f, false
	}
	lacking, reach := 0, 0.0
	var weak *work.ClampRow
	for i := range g.Rows {
		r := &g.Rows[i]
		switch {
		case r.Clamp == "":
			lacking += r.Count
			reach = max(reach, r.Reach)
		case r.Force < r.Need.V && (weak == nil || r.Force/r.Need.V < weak.Force/weak.Need.V):
			weak = r
		}
	}
	f = work.Finding{ID: fmt.Sprintf("clamps/%d", g.Number), Rule: ClampRule.ID, Verdict: work.Look, Title: fmt.Sprintf("clamps for glue-up %d", g.Number),
		Path: "joints", At: d.At("joints"), Chapter: "assemble"}
	switch {
	case lacking > 0:
		f.Value, f.Unit = trace.Const(float64(lacking)), "1"
		f.Text = say.F("Glue-up {} wants {} more than the shop has: the longest must span {}.", g.Number, count(lacking, "clamp"), say.Len(reach, 0))
		f.Mends = []work.Mend{{Text: say.F("borrow or buy {} that span {}, hook two into each other, or use a strap", count(lacking, "clamp"), say.Len(reach, 0))}}
	case weak != nil:
		f.Value, f.Limit, f.Unit = trace.Const(weak.Force), weak.Need, "N"
		f.Text = say.F("In glue-up {} the {} on {} press with {} N; the glue line wants {} N at the least.",
			g.Number, count(weak.Count, "clamp"), say.Name(weak.Joints[0]), say.Num(weak.Force, 0), say.Num(weak.Need.V, 0))
		f.Mends = []work.Mend{{Text: say.F("put on more clamps, with a stiff caul under them")}}
	default:
		return f, false
	}
	return f, true
}
