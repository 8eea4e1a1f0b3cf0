package making

import (
	"math"

	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// CutterRule asks whether a bit goes into a slot and reaches its floor.
var CutterRule = &cite.Rule{
	ID:       "SETUP-01",
	Title:    "A cutter for every slot",
	Question: "Does a router bit go into the slot, does it reach the floor, and in how many runs is the slot cut?",
	Formula:  "D ≤ w; L ≥ d; runs side by side = 1 + ⌈(w − D)/D⌉; passes = ⌈d/3.2 mm⌉",
	Symbols: []cite.Symbol{
		{Letter: "w", Name: "width", Meaning: "width of the slot", Unit: "mm", Min: 0.5, Max: 200, Why: "slots in furniture"},
		{Letter: "d", Name: "depth", Meaning: "depth of the slot", Unit: "mm", Min: 0.1, Max: 60, Why: "slots in furniture"},
		{Letter: "D", Name: "bit", Meaning: "diameter of the bit, as measured", Unit: "mm", Min: 0.5, Max: 60, Why: "bits of hand-held routers"},
		{Letter: "L", Name: "reach", Meaning: "cutting length of the bit", Unit: "mm", Min: 0.5, Max: 100, Why: "bits of hand-held routers"},
	},
	Sources: []cite.Source{
		{Text: "geometry of a round cutter in a straight slot", Label: cite.Derived},
		{Text: "a router maker’s manuals, several models", Locator: "1/8 in at most in one pass", Label: cite.Read},
	},
	Assumes: []string{
		"a bit cuts as wide as it measures: run-out makes it wider, so that a bit as fat as the slot may cut it too wide; try it in an offcut",
		"an open rabbet may be cut by a fatter bit that hangs over the edge: there the rule is not needed",
	},
	Accuracy: "as good as the measured bit",
	Remedies: []string{"a leaner bit, or one that reaches deeper", "a saw, where the slot runs from edge to edge", "a fit or a stock that makes the slot wider"},
	Example: cite.Example{
		In: map[string]float64{"width": 18.1, "depth": 6, "bit": 12, "reach": 30}, Out: map[string]float64{"room": 6.1, "spare": 24, "runs": 2, "passes": 2}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{
			{Name: "room", Unit: "mm", Value: in["width"] - in["bit"]},
			{Name: "spare", Unit: "mm", Value: in["reach"] - in["depth"]},
			{Name: "runs", Unit: "1", Value: float64(across(in["width"], in["bit"], false))},
			{Name: "passes", Unit: "1", Value: float64(passes(in["depth"]))},
		}
	},
}

// Rules are the rules of this package.
var Rules = []*cite.Rule{CutterRule}

// findings names each set-up that nothing in the shop can make, or says once
// that every slot has its cutter.
func (g *gatherer) findings(ups []work.SetUp) []work.Finding {
	var out []work.Finding
	slots := 0
	for _, u := range ups {
		if u.Tool == work.Router && u.Kind != "edges" {
			slots += len(u.Cuts)
		}
		if u.Missing {
			out = append(out, g.missing(u))
		}
	}
	if len(out) == 0 && slots > 0 {
		out = append(out, work.Finding{ID: "setups", Rule: CutterRule.ID, Verdict: work.Fine, Title: "a cutter for every slot", Unit: "1",
			Value: trace.Const(float64(slots)), Limit: trace.Const(float64(slots)), Path: "bits", Chapter: "cut",
			Text: say.F("The shop has a bit or a saw for each of {} housings, rabbets and grooves.", slots)})
	}
	return out
}

func (g *gatherer) missing(u work.SetUp) work.Finding {
	c := u.Cuts[0]
	name, path := c.Part, ""
	if q := g.p.Part(c.Part); q != nil {
		name, path = q.Name, q.Path
	}
	f := work.Finding{ID: "setup/" + c.Cut, Rule: CutterRule.ID, Verdict: work.Look, Title: "a bit for the " + u.Kind, Part: c.Part, Path: path,
		Unit: "mm", Limit: u.Width, Chapter: "cut",
		Mends: []work.Mend{{Text: say.F("have a straight bit of at most {} that cuts {} deep, and list it in the shop file", say.LenN(u.Width, 2), say.LenN(u.Depth, 1))}}}
	lean := g.leanest(u.Depth.V)
	switch {
	case g.d.Shop == nil || len(g.d.Shop.Bits) == 0:
		f.Text = say.F("The shop file lists no router bits; the {} in {} is {} wide and {} deep.", u.Kind, say.Name(name), say.LenN(u.Width, 2), say.LenN(u.Depth, 2))
	case lean == nil:
		f.Text = say.F("No bit of the shop cuts {} deep, as the {} in {} is.", say.LenN(u.Depth, 2), u.Kind, say.Name(name))
	default:
		f.Value = lean.Diameter
		f.Text = say.F("The {} in {} is {} wide; the leanest bit that cuts {} deep is {}.", u.Kind, say.Name(name), say.LenN(u.Width, 2),
			say.LenN(u.Depth, 1), say.LenN(lean.Diameter, 2))
	}
	return f
}

// leanest is the leanest bit that cuts as deep, or nil.
func (g *gatherer) leanest(depth float64) *design.Bit {
	var best *design.Bit
	if g.d.Shop == nil {
		return nil
	}
	least := math.Inf(1)
	for _, b := range g.d.Shop.Bits {
		if b.Diameter.V > 0 && b.Diameter.V < least && (b.Length.V <= 0 || b.Length.V >= depth-slack) {
			best, least = b, b.Diameter.V
		}
	}
	return best
}

// Carries lists what each surface carries, in the order of the parts: the
// contents that the brief puts there, and the load that its sag was computed
// for.
func Carries(p *piece.Piece, contents []work.MassLine, perMetre map[string]trace.Num) []work.Carried {
	var out []work.Carried
	for _, q := range p.Parts {
		c := work.Carried{Part: q.ID, PerMetre: perMetre[q.ID]}
		for _, l := range contents {
			if l.Part == q.ID {
				c.Contents = c.Contents.Add(l.Mass)
			}
		}
		if c.Contents.V > 0 || c.PerMetre.V > 0 {
			out = append(out, c)
		}
	}
	return out
}
