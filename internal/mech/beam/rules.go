package beam

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleSag, ruleCreep, ruleSection, ruleTwist, ruleSpan, ruleStress, ruleLimits, ruleHeld, rulePins, ruleSit}

var (
	symLoad = cite.Symbol{Letter: "m", Name: "load", Meaning: "load along the shelf", Unit: "kg/m",
		Min: 0.01, Max: 500, Why: "books weigh 20 to 60, records up to 92 kg/m"}
	symSpan = cite.Symbol{Letter: "L", Name: "span", Meaning: "clear span between the supports", Unit: "mm",
		Min: 100, Max: 6000, Why: "shelves"}
	symDepth = cite.Symbol{Letter: "b", Name: "depth", Meaning: "depth of the shelf, front to back", Unit: "mm",
		Min: 20, Max: 2000, Why: "shelves"}
	symThick = cite.Symbol{Letter: "t", Name: "thick", Meaning: "thickness as measured", Unit: "mm",
		Min: 3, Max: 100, Why: "boards"}
	symE = cite.Symbol{Letter: "E", Name: "modulus", Meaning: "modulus in bending along the span", Unit: "MPa",
		Min: 500, Max: 30000, Why: "wood and boards"}
	symG = cite.Symbol{Letter: "g", Name: "gravity", Meaning: "acceleration of free fall", Unit: "m/s²",
		Min: 9.7, Max: 9.9, Why: "the earth", Optional: true, Else: "9.80665, the standard one"}
)

func gravityOf(in map[string]float64) float64 {
	if g, ok := in["gravity"]; ok {
		return g
	}
	return Gravity
}

func mm(name string, v float64) cite.Result    { return cite.Result{Name: name, Unit: "mm", Value: v} }
func plain(name string, v float64) cite.Result { return cite.Result{Name: name, Unit: "1", Value: v} }

var statics = cite.Source{Text: "bending of a straight elastic beam (Euler and Bernoulli)", Label: cite.Derived}

var ruleSag = &cite.Rule{
	ID: "SHELF-01", Title: "Sag of a shelf",
	Question: "How far does the shelf sag when it is loaded?",
	Formula:  "δ = 5·q·L⁴/(384·E·I), I = b·t³/12; with both ends wholly fixed a fifth of that",
	Symbols:  []cite.Symbol{symLoad, symSpan, symDepth, symThick, symE, symG},
	Sources: []cite.Source{
		{Text: "a fibreboard trade association's page on shelves", Locator: "δ = 5·W·L³·g/(32·E·b·t³), the same formula", Label: cite.Read},
		statics,
	},
	Assumes: []string{
		"the load is spread evenly over the span: a heap in the middle sags up to 1.6 times as much",
		"ends that turn freely: a shelf in housings sags less",
		"no shear: it adds under 2 % where the span is over 40 thicknesses",
	},
	Accuracy: "as good as E: sheets of one kind differ by a third",
	Remedies: []string{"A thicker shelf: half as thick again sags a third as much.", "A shorter span: a fifth shorter sags less than half.", "The face grain along the span.", "A back edge fastened to the back, with a strip along the front."},
	Example: cite.Example{
		In:   map[string]float64{"load": 25, "span": 800, "depth": 300, "thick": 18, "modulus": 2500, "gravity": 9.81},
		Out:  map[string]float64{"sag": 3.5880, "fixed": 0.71759, "ratio": 222.97},
		From: "worked from the page's formula: 5·20·800³·9.81/(32·2500·300·18³), 20 kg on 800 mm",
	},
	Eval: func(in map[string]float64) []cite.Result {
		ei, _ := EI(Rect{Width: in["depth"], High: in["thick"], E: in["modulus"]})
		q := in["load"] * gravityOf(in) / 1000
		d := Sag(q, in["span"], ei, Pins)
		return []cite.Result{mm("sag", d), mm("fixed", Sag(q, in["span"], ei, Fixed)),
			mm("twoSpans", Sag(q, in["span"], ei, Continuous)), plain("ratio", in["span"]/d),
			{Name: "mass", Unit: "kg", Value: in["load"] * in["span"] / 1000},
			{Name: "force", Unit: "N", Value: q * in["span"]}}
	},
}

var ruleCreep = &cite.Rule{
	ID: "SHELF-02", Title: "Sag after years",
	Question: "How far will the shelf have sagged after years under its load?",
	Formula:  "δ_long = δ·(1 + k_def)",
	Symbols: []cite.Symbol{
		{Letter: "δ", Name: "sag", Meaning: "first sag", Unit: "mm", Min: 0, Max: 1000, Why: "any sag"},
		{Letter: "k_def", Name: "creep", Meaning: "creep factor of the material (MAT-03)", Unit: "1", Min: 0, Max: 4, Why: "published values end at 3"},
	},
	Sources: []cite.Source{{Text: "LVL Handbook Europe, 2025", Locator: "p. 118, eq. 4.2, all of the load lasting", Label: cite.Read},
		{Text: "NDS, 3.5.2, as the publisher's answers quote it", Locator: "'What is creep': 1.5 times the first for seasoned lumber", Label: cite.Quoted}},
	Assumes:  []string{"the whole load stays for years, in an even climate: changing damp makes more, a shelf that is often emptied less"},
	Accuracy: "published factors differ: for fibreboard 0.5 and 2.25",
	Remedies: []string{"Turn the shelf over once a year.", "Plywood or solid wood rather than fibreboard."},
	Example:  cite.Example{In: map[string]float64{"sag": 2.83, "creep": 0.8}, Out: map[string]float64{"long": 5.094}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{mm("long", Long(in["sag"], in["creep"]))}
	},
}

var edgingSymbols = []cite.Symbol{
	symDepth, symThick, symE,
	{Letter: "b_e", Name: "edgewidth", Meaning: "width of the edging, front to back", Unit: "mm", Min: 1, Max: 200, Why: "strips"},
	{Letter: "h_e", Name: "edgehigh", Meaning: "height of the edging, its top level with the shelf's", Unit: "mm", Min: 1, Max: 300, Why: "strips"},
	{Letter: "E_e", Name: "edgemodulus", Meaning: "modulus of the edging along the span", Unit: "MPa", Min: 500, Max: 30000, Why: "wood"},
}

func edged(in map[string]float64) (panel, strip Rect) {
	return Rect{Width: in["depth"], High: in["thick"], E: in["modulus"]},
		Rect{Width: in["edgewidth"], High: in["edgehigh"], E: in["edgemodulus"], Low: in["thick"] - in["edgehigh"]}
}

var ruleSection = &cite.Rule{
	ID: "SHELF-03", Title: "Stiffness with an edging",
	Question: "How much stiffer is the shelf with a strip along its front edge, as one section?",
	Formula:  "EI = Σ E_i·(b_i·h_i³/12 + b_i·h_i·(y_i − y_0)²), y_0 = ΣE_i·A_i·y_i/ΣE_i·A_i",
	Symbols:  edgingSymbols,
	Sources:  []cite.Source{statics},
	Assumes:  []string{"panel and strip are glued all along and sag together: true where the back edge is held, or a strip stands at either edge; a shelf on pins twists (SHELF-04)"},
	Accuracy: "as good as the moduli",
	Remedies: []string{"A deeper strip: its own stiffness grows with the third power of its height."},
	Example: cite.Example{
		In:   map[string]float64{"depth": 300, "thick": 18, "modulus": 10000, "edgewidth": 20, "edgehigh": 38, "edgemodulus": 12000},
		Out:  map[string]float64{"stiffness": 3.33567e9, "bare": 1.458e9},
		From: "worked by hand: EA 54.00e6 and 9.12e6 N, centres 10 mm apart; 1.458e9 + 12000·20·38³/12 + 10²·54·9.12/63.12·10⁶",
	},
	Eval: func(in map[string]float64) []cite.Result {
		panel, strip := edged(in)
		ei, y := EI(panel, strip)
		bare, _ := EI(panel)
		return []cite.Result{{Name: "stiffness", Unit: "N·mm²", Value: ei}, {Name: "bare", Unit: "N·mm²", Value: bare},
			mm("neutralBelowTop", in["thick"]-y), plain("gain", ei/bare)}
	},
}

var ruleTwist = &cite.Rule{
	ID: "SHELF-04", Title: "A shelf with a strip in front, on four pins",
	Question: "How far do the front, the middle and the back of an edged shelf sag, when its back edge is free?",
	Formula:  "least energy of w = w₀ + φ·z, one half sine wave along: (B₀k⁴)w₀ + (B₁k⁴)φ = 4q/π; (B₁k⁴)w₀ + (B₂k⁴ + GJk²)φ = 0; k = π/L",
	Symbols: append(append([]cite.Symbol{symLoad, symSpan}, edgingSymbols...),
		cite.Symbol{Letter: "G", Name: "shear", Meaning: "shear modulus of the panel in its plane", Unit: "MPa", Min: 20, Max: 3000, Why: "wood and boards",
			Optional: true, Else: "E/16"}),
	Sources: []cite.Source{{Text: "Ritz's method on a panel of torsional stiffness G·b·t³/3 and a strip that counts as in SHELF-03", Label: cite.Derived}},
	Assumes: []string{
		"the section stays straight from front to back, which shares the load unevenly and errs a little to the cautious side at the back",
		"the load lies along the middle of the depth: books pushed to the front bear on the strip, and the back sags less",
		"four pins hold the ends from twisting",
	},
	Accuracy: "the one wave is 0.3 to 0.5 % over the sum of many; a finite-element program finds the edges of the solid 3 to 4 % lower, as it dishes a little",
	Remedies: []string{"Fasten the back edge to the back.", "A second strip along the back edge.", "A thicker shelf rather than a deeper strip."},
	Example: cite.Example{
		In: map[string]float64{"load": 54, "span": 900, "depth": 350, "thick": 17.6, "modulus": 10048, "edgewidth": 20, "edgehigh": 30,
			"edgemodulus": 12000, "shear": 620},
		Out:  map[string]float64{"front": 1.4300, "middle": 2.1577, "back": 2.8854},
		From: "worked a second way outside the program; the sum of 25 waves gives 1.426, 2.149 and 2.871; the bare shelf sags 2.83",
	},
	Eval: func(in map[string]float64) []cite.Result {
		panel, strip := edged(in)
		bare, _ := EI(panel)
		ei, _ := EI(panel, strip)
		g, ok := in["shear"]
		if !ok {
			g = in["modulus"] / 16
		}
		t := Twist{Load: LineLoad(in["load"]), Span: in["span"], PanelEI: bare, StripEI: ei - bare,
			Depth: in["depth"], StripWidth: in["edgewidth"], GJ: g * in["depth"] * math.Pow(in["thick"], 3) / 3}
		f, m, b := t.Sags()
		return []cite.Result{mm("front", f), mm("middle", m), mm("back", b), mm("bare", Sag(t.Load, t.Span, bare, Pins))}
	},
}

const inch = 25.4 // mm

var ruleSpan = &cite.Rule{
	ID: "SHELF-05", Title: "Longest span",
	Question: "How long may a shelf be under a load for each square metre, by a limit of span over sag?",
	Formula:  "L = (384·E·I/(5·q·ratio))^(1/3)",
	Symbols: []cite.Symbol{
		{Letter: "p", Name: "pressure", Meaning: "load on the shelf's area", Unit: "Pa", Min: 50, Max: 20000, Why: "15 to 50 lb/ft² are 718 to 2394 Pa"},
		symThick, symE,
		{Letter: "r", Name: "ratio", Meaning: "span over sag", Unit: "1", Min: 50, Max: 1000, Why: "published limits are 144 to 384"},
	},
	Sources:  []cite.Source{{Text: "AWI/AWMAC/WI, Architectural Woodwork Standards, 1st ed., 2009", Locator: "p. 253, 1.2.21, and the spans of p. 279, 4.4.14.10, which the formula gives back", Label: cite.Read}},
	Assumes:  []string{"first sag only, ends that turn freely, an even load; creep is not in it"},
	Accuracy: "the standard's own moduli; a real panel may be far softer",
	Remedies: []string{"A divider.", "A thicker shelf."},
	Example: cite.Example{
		In:   map[string]float64{"pressure": 1915.21, "thick": 19.05, "modulus": 6550, "ratio": 144},
		Out:  map[string]float64{"span": 1016.8, "inches": 40.03},
		From: "the standard's p. 279: 0.95·10⁶ psi, 3/4 in, 40 lb/ft²: 40 in",
	},
	Eval: func(in map[string]float64) []cite.Result {
		// For each mm of depth: q in N/mm, EI in N·mm².
		l := MaxSpan(in["pressure"]*1e-6, in["modulus"]*math.Pow(in["thick"], 3)/12, in["ratio"])
		return []cite.Result{mm("span", l), {Name: "inches", Unit: "in", Value: l / inch}}
	},
}

var ruleStress = &cite.Rule{
	ID: "SHELF-06", Title: "Bending stress of a shelf",
	Question: "How hard is the shelf stressed, against what it may bear for years?",
	Formula:  "σ = q·L²/8 / (b·t²/6)",
	Symbols:  []cite.Symbol{symLoad, symSpan, symDepth, symThick, symG},
	Sources:  []cite.Source{statics},
	Assumes:  []string{"the whole section carries: for plywood the strength must then be one for the whole section too (MAT-01)", "ends that turn freely: the largest moment"},
	Accuracy: "exact for the model; sag nearly always governs before stress",
	Remedies: []string{"A shorter span.", "A thicker shelf."},
	Example: cite.Example{
		In:   map[string]float64{"load": 54, "span": 900, "depth": 350, "thick": 17.6},
		Out:  map[string]float64{"stress": 2.9673, "moment": 53617.9},
		From: "worked by hand: 0.529559·810000/8; over 350·17.6²/6 = 18069.3",
	},
	Eval: func(in map[string]float64) []cite.Result {
		m := Moment(in["load"]*gravityOf(in)/1000, in["span"], Pins)
		return []cite.Result{{Name: "stress", Unit: "MPa", Value: m / (in["depth"] * in["thick"] * in["thick"] / 6)},
			{Name: "moment", Unit: "N·mm", Value: m}}
	},
}

var ruleLimits = &cite.Rule{
	ID: "SHELF-07", Title: "How much sag is too much",
	Question: "What sag do the published limits allow on this span?",
	Formula:  "L/144; the lesser of L/192 and 1/4 in; L/200; L/384",
	Symbols:  []cite.Symbol{symSpan},
	Sources:  []cite.Source{limits[0].Source, limits[1].Source, limits[2].Source, limits[3].Source},
	Assumes: []string{
		"they disagree, and were set for different loads and times; the sag after years is held against all of them, which is the cautious side",
		"beyond the most lenient: stop; beyond any: look",
	},
	Accuracy: "as printed; the European one is from memory",
	Remedies: []string{"See SHELF-01."},
	Example: cite.Example{
		In:   map[string]float64{"span": 914.4},
		Out:  map[string]float64{"casework": 6.35, "kitchen": 4.7625, "european": 4.572, "eye": 2.38125},
		From: "36 in: 1/4, 3/16, and 3/32 in are the standards' own figures",
	},
	Eval: func(in map[string]float64) []cite.Result {
		l := Limits(in["span"])
		return []cite.Result{mm("casework", l[0].Sag), mm("kitchen", l[1].Sag), mm("european", l[2].Sag), mm("eye", l[3].Sag)}
	},
}
