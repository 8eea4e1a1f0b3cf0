package frame

import (
	"math"

	"rodwork/internal/cite"
	"rodwork/internal/geom/r3"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{rulePortal, ruleSprings, ruleBack, ruleJoint, ruleLean, ruleLeg, rulePressure}

var (
	memory = cite.Source{Text: "A. Kleinlogel, Rigid Frame Formulas", Locator: "portal frames with hinged and with fixed feet", Label: cite.FromMemory}
	hibb   = cite.Source{Text: "R. C. Hibbeler, Structural Analysis, 6th edition in SI units, teaching slides", Locator: "example 16.1", Label: cite.Read}
	statik = cite.Source{Text: "the stiffness method for frames of elastic bars", Label: cite.Derived}
)

func length(letter, name, meaning string, hi float64) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: "mm", Min: 1, Max: hi, Why: "frames from a stool to a hall"}
}

func inertia(letter, name, meaning string) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: "mm⁴", Min: 1, Max: 1e10, Why: "bars"}
}

func optional(s cite.Symbol, or string) cite.Symbol { s.Optional, s.Else = true, or; return s }

var (
	symE    = cite.Symbol{Letter: "E", Name: "modulus", Meaning: "modulus of elasticity along the bars", Unit: "MPa", Min: 100, Max: 250000, Why: "wood, boards, steel"}
	symPush = cite.Symbol{Letter: "P", Name: "push", Meaning: "level push at the height of the beam, shared by its ends", Unit: "N", Min: 0, Max: 1e6, Why: "people, and the books' examples"}
	symHeld = cite.Symbol{Letter: "f", Name: "held", Meaning: "1: the feet cannot turn; 0: they are hinged", Unit: "1", Min: 0, Max: 1, Why: "a choice", Whole: true}
)

// number is an optional input, or what is taken for it.
func number(in map[string]float64, name string, or float64) float64 {
	if v, ok := in[name]; ok {
		return v
	}
	return or
}

var rulePortal = &cite.Rule{
	ID: "FRAME-01", Title: "A portal under a push",
	Question: "How far does a frame of two posts and a beam sway, and what do its foot and its corner bear?",
	Formula:  "K·u = F for three bars; hinged feet: M = P·h/2, sway = P·h³/(6·E·I₁) + P·h²·l/(12·E·I₂)",
	Symbols: []cite.Symbol{
		length("h", "high", "height of the posts", 20000), length("l", "wide", "between the posts", 20000),
		inertia("I₁", "post", "second moment of a post"), inertia("I₂", "beam", "second moment of the beam"),
		symE, symPush, symHeld,
		optional(cite.Symbol{Letter: "A", Name: "area", Meaning: "section of each bar", Unit: "mm²", Min: 1, Max: 1e7, Why: "bars"}, "10⁷ mm²: bars that do not give along themselves"),
	},
	Sources:  []cite.Source{memory, hibb, statik},
	Assumes:  []string{"joints that do not give: real ones do (FRAME-02), so that a piece sways more", "small moves; the shear of the bars is left out, some per cent in stout ones"},
	Accuracy: "exact for the model",
	Remedies: []string{"thicker posts or a deeper beam", "a back, or a brace across the corner", "feet that cannot turn"},
	Example: cite.Example{
		In:   map[string]float64{"high": 6000, "wide": 12000, "post": 180e6, "beam": 180e6, "modulus": 200000, "push": 40000, "held": 1, "area": 6000},
		Out:  map[string]float64{"sway": 17.512, "foot": 75.0187, "lift": 7.49687},
		From: "R. C. Hibbeler, example 16.1: one half of it is the frame there (20 kN on a post of 6 m, a beam of 6 m to a roller)",
	},
	Eval: evalPortal,
}

func evalPortal(in map[string]float64) []cite.Result {
	h, l := in["high"], in["wide"]
	foot := [6]bool{true, true, true, true, true, in["held"] == 1}
	f := Frame{Plane: true, Nodes: []Node{{Fix: foot}, {At: r3.Vec{Y: h}}, {At: r3.Vec{X: l, Y: h}}, {At: r3.Vec{X: l}, Fix: foot}}}
	for i, s := range []float64{in["post"], in["beam"], in["post"]} {
		sec := Section{A: number(in, "area", 1e7), Iy: s, Iz: s, J: s, E: in["modulus"], G: in["modulus"] / 16}
		f.Bars = append(f.Bars, Bar{A: i, B: i + 1, Section: sec, Ends: [2]Spring{Welded, Welded}})
	}
	half := r3.Vec{X: in["push"] / 2}
	f.Loads = []Load{{Node: 1, Force: half}, {Node: 2, Force: half}}
	s, err := f.Solve()
	if err != nil {
		return []cite.Result{{Name: "sway", Unit: "mm", Value: math.NaN()}}
	}
	return []cite.Result{
		{Name: "sway", Unit: "mm", Value: s.Moves[1][0]}, {Name: "corner", Unit: "kN·m", Value: math.Abs(s.Ends[0][11]) / 1e6},
		{Name: "foot", Unit: "kN·m", Value: math.Abs(s.Ends[0][5]) / 1e6}, {Name: "lift", Unit: "kN", Value: -s.Holds[0][1] / 1e3},
		{Name: "rise", Unit: "mm", Value: s.Moves[1][1]},
	}
}

var symSpring = cite.Symbol{Letter: "k", Name: "spring", Meaning: "turning stiffness of each end", Unit: "N·mm/rad", Min: 0, Max: 1e12, Why: "from a hinge to a weld"}

var ruleSprings = &cite.Rule{
	ID: "FRAME-02", Title: "A beam whose ends give",
	Question: "How far does a beam sag that is neither free to turn at its ends nor held fast?",
	Formula:  "r = 1/(1 + 3·E·I/(k·L)); M = q·L²/12 · 3·r/(2 + r); δ = 5·q·L⁴/(384·E·I) − M·L²/(8·E·I)",
	Symbols: []cite.Symbol{
		{Letter: "q", Name: "load", Meaning: "load along the beam", Unit: "N/mm", Min: 0, Max: 1000, Why: "shelves and floors"},
		length("L", "span", "span", 20000), inertia("I", "second", "second moment of the beam"), symE, symSpring,
	},
	Sources: []cite.Source{
		{Text: "G. R. Monforton and T. S. Wu, Matrix analysis of semi-rigidly connected frames, J. Struct. Div. ASCE 89(ST6), 1963", Locator: "fixity factor", Label: cite.FromMemory},
		{Text: "Roark's Formulas for Stress and Strain", Locator: "beams: free and fixed ends, uniform load", Label: cite.FromMemory}, statik},
	Assumes:  []string{"a spring that stays straight: joints of furniture soften as they are loaded", "equal springs at both ends"},
	Accuracy: "exact for the model; the spring of a joint is known to a factor of two at best",
	Remedies: []string{"a stiffer joint", "a stiffer beam"},
	Example: cite.Example{
		In:   map[string]float64{"load": 0.4, "span": 800, "second": 40000, "modulus": 10000, "spring": 0},
		Out:  map[string]float64{"sag": 5.33333, "moment": 0},
		From: "by hand: 5·0.4·800⁴/(384·4·10⁸)",
	},
	Eval: func(in map[string]float64) []cite.Result {
		ei, l, q := in["modulus"]*in["second"], in["span"], in["load"]
		r := fixity(in["spring"], ei, l)
		m := q * l * l / 12 * 3 * r / (2 + r)
		return []cite.Result{{Name: "sag", Unit: "mm", Value: 5*q*l*l*l*l/(384*ei) - m*l*l/(8*ei)}, {Name: "moment", Unit: "N·mm", Value: m}}
	},
}

var ruleBack = &cite.Rule{
	ID: "FRAME-03", Title: "A back that keeps a carcase square",
	Question: "How far does a carcase of hinged corners sway when only its back holds it?",
	Formula:  "sway = P·h/(S·w); 1/S = 1/(G·t) + (2/s)·(1/w + 1/h), s = 5 N/mm² for screws or nails; glued: S = G·t",
	Symbols: []cite.Symbol{
		symPush, length("h", "high", "height of the back", 5000), length("w", "wide", "width of the back", 5000),
		{Letter: "t", Name: "thick", Meaning: "thickness of the back", Unit: "mm", Min: 0.5, Max: 50, Why: "sheets"},
		{Letter: "G", Name: "shear", Meaning: "modulus of shear in the sheet's plane", Unit: "MPa", Min: 50, Max: 5000, Why: "boards"},
		{Letter: "g", Name: "glued", Meaning: "1: glued all round; 0: screwed or nailed", Unit: "1", Min: 0, Max: 1, Why: "a choice", Whole: true},
	},
	Sources:  []cite.Source{{Text: "shear of a flat panel, G·t; the give of a nailed edge is a cautious guess", Label: cite.Practice}},
	Assumes:  []string{"a back that does not buckle: a thin one in a large carcase may ripple first, and is then softer", "an edge fastened every 150 mm or closer: fewer screws give more"},
	Accuracy: "to a factor of two for a screwed back",
	Remedies: []string{"glue the back in, or screw it closer", "a thicker back", "a back in two halves with a divider behind their seam"},
	Example: cite.Example{
		In:   map[string]float64{"push": 300, "high": 1800, "wide": 600, "thick": 6.4, "shear": 620, "glued": 1},
		Out:  map[string]float64{"sway": 0.22681},
		From: "by hand: 300·1800/(620·6.4·600)",
	},
	Eval: func(in map[string]float64) []cite.Result {
		s := BackShear(in["shear"], in["thick"], in["wide"], in["high"], in["glued"] == 1)
		return []cite.Result{{Name: "sway", Unit: "mm", Value: in["push"] * in["high"] / (s * in["wide"])}, {Name: "stiffness", Unit: "N/mm", Value: s}}
	},
}
