package beam

import (
	"rodwork/internal/cite"
)

func rng(letter, name, meaning, unit string, lo, hi float64) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: unit, Min: lo, Max: hi, Why: "furniture"}
}

var ruleHeld = &cite.Rule{
	ID: "SHELF-08", Title: "A shelf fixed to the back",
	Question: "How far does the front edge sag when the rear edge is fastened to the back?",
	Formula:  "δ = (4q/π)·(b²/2)/(EI·b²/3·k⁴ + G·b·t³/3·k²), k = π/L",
	Symbols: []cite.Symbol{symLoad, symSpan, symDepth, symThick, symE,
		{Letter: "G", Name: "shear", Meaning: "shear modulus of the panel in its plane", Unit: "MPa", Min: 20, Max: 3000, Why: "wood and boards", Optional: true, Else: "E/16"}},
	Sources: []cite.Source{{Text: "Ritz's method on a panel that turns about its rear edge", Label: cite.Derived},
		{Text: "N. Denizli, Improving the strength and durability of panel-based cabinet furniture, dissertation, Purdue University", Locator: "abstract: attaching the shelves to the back with screws improves them", Label: cite.Read}},
	Assumes:  []string{"a back that does not give, and screws close enough: every 150 mm", "the section stays straight from front to back", "the load lies along the middle of the depth"},
	Accuracy: "some per cent for the model; a thin back gives a little",
	Remedies: []string{"screws through the back into the shelf's rear edge, every 150 mm", "a strip along the front edge as well"},
	Example: cite.Example{
		In:   map[string]float64{"load": 40, "span": 900, "depth": 300, "thick": 17.7, "modulus": 10048, "shear": 620},
		Out:  map[string]float64{"front": 2.16244},
		From: "worked a second way outside the program: EI = 1.39296·10⁹, k⁴ = 1.48467·10⁻¹⁰, GJ = 3.43804·10⁸",
	},
	Eval: func(in map[string]float64) []cite.Result {
		s := Shelf{Span: in["span"], Load: in["load"], Depth: in["depth"], Thick: in["thick"], E: in["modulus"], G: in["shear"]}
		return []cite.Result{mm("front", s.twistOf().HeldSag())}
	},
}

var rulePins = &cite.Rule{
	ID: "SHELF-09", Title: "What the pins bear",
	Question: "Does the most loaded pin crush its hole, and does the shelf shear off?",
	Formula:  "F = m·g/3; p = 4·F/(d·l) ≤ 0.6/1.3·0.11·(1 − 0.01·d)·ρ; τ = 1.5·V/(b·t)",
	Symbols: []cite.Symbol{rng("m", "mass", "what lies on the shelf, with its own mass", "kg", 0, 1000), rng("d", "dia", "diameter of the pin", "mm", 2, 20),
		rng("l", "deep", "how deep it sits in the panel", "mm", 2, 60), rng("ρ", "density", "of the panel", "kg/m³", 300, 1000)},
	Sources: []cite.Source{{Text: "EN 1995-1-1 (Eurocode 5)", Locator: "equation 8.36, embedding of plywood; k_mod 0.6, γ_M 1.3", Label: cite.FromMemory},
		{Text: "four pins, of which the front two take two thirds; four times the mean pressure at the hole's mouth", Label: cite.Practice}},
	Assumes:  []string{"holes that fit: a loose pin tilts and presses at its tip", "the pin itself holds: its maker's load goes before this"},
	Accuracy: "on the cautious side",
	Remedies: []string{"deeper holes, thicker pins", "a divider under it", "a fixed shelf in a housing"},
	Example: cite.Example{
		In: map[string]float64{"mass": 40, "dia": 5, "deep": 9, "density": 685}, Out: map[string]float64{"force": 130.755, "pressure": 11.6227, "may": 33.0381},
		From: "by hand: 392.27/3; 4·130.76/45; 0.11·0.95·685·0.6/1.3",
	},
	Eval: func(in map[string]float64) []cite.Result {
		f, p, m := FourPins{in["mass"], in["dia"], in["deep"], in["density"]}.Bearing()
		return []cite.Result{{Name: "force", Unit: "N", Value: f}, {Name: "pressure", Unit: "MPa", Value: p}, {Name: "may", Unit: "MPa", Value: m}}
	},
}

var ruleSit = &cite.Rule{
	ID: "SHELF-10", Title: "A person on it",
	Question: "How far does a top or lid give, and how hard is it stressed, when somebody sits or stands on it?",
	Formula:  "δ = P·L³/(48·E·I); σ = P·L/4/(b·t²/6)",
	Symbols: []cite.Symbol{rng("P", "force", "load in the middle", "N", 1, 10000), symSpan,
		rng("b", "depth", "breadth that carries it", "mm", 20, 2000), symThick, symE},
	Sources: []cite.Source{{Text: "Roark's Formulas for Stress and Strain", Locator: "beams: ends free to turn, one load in the middle", Label: cite.FromMemory},
		{Text: "EN 1022:2018, as an explainer quotes it", Locator: "scope: adults up to 110 kg", Label: cite.Quoted},
		{Text: "half as much again for sitting down", Label: cite.Practice}},
	Assumes:  []string{"the whole breadth carries: a knee on the front edge strains it more", "ends that turn freely"},
	Accuracy: "exact for the model; a jump loads two to three times as much",
	Remedies: []string{"a shorter span, a rail or divider under the middle", "a thicker top"},
	Example: cite.Example{
		In: map[string]float64{"force": 1618.1, "span": 925, "depth": 360, "thick": 17.7, "modulus": 10048}, Out: map[string]float64{"sag": 15.9632, "stress": 19.9067},
		From: "by hand: 1618.1·925³/(48·10048·166357); 374186/18797.4",
	},
	Eval: func(in map[string]float64) []cite.Result {
		d, s := Midload(in["force"], in["span"], in["depth"], in["thick"], in["modulus"])
		return []cite.Result{mm("sag", d), {Name: "stress", Unit: "MPa", Value: s}}
	},
}
