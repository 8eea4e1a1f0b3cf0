package stability

import (
	"math"

	"rodwork/internal/cite"
	"rodwork/internal/geom/r3"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleTip, ruleCarpet, rulePull, ruleMoments, ruleScope, ruleSeat, ruleChild, ruleAnchor, ruleWall}

const (
	inch  = 25.4                          // mm
	foot  = 12 * inch                     // mm
	pound = 0.45359237                    // kg
	lbfFt = pound * 9.80665 * foot / 1000 // N·m for each lbf·ft
)

var statics = cite.Source{Text: "equilibrium of a rigid body about the line of its front feet", Label: cite.Derived}

func mass(letter, name, meaning string) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: "kg", Min: 0, Max: 5000, Why: "furniture and what it holds"}
}

func length(letter, name, meaning string) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: "mm", Min: 0, Max: 5000, Why: "furniture"}
}

func optional(s cite.Symbol, or string) cite.Symbol { s.Optional, s.Else = true, or; return s }

var symGravity = optional(cite.Symbol{Letter: "g", Name: "gravity", Meaning: "acceleration of free fall", Unit: "m/s²",
	Min: 9.7, Max: 9.9, Why: "the earth"}, "9.80665, the standard one")

// cautions stand on each rule that a life may hang on.
const cautions = "This is a screen, not a test to a standard: anchor the piece to the wall by local rules, whatever the number says, where children live."

var ruleTip = &cite.Rule{
	ID: "STAND-01", Title: "Tipping forwards",
	Question: "Does the piece stand with its doors or drawers open, a weight on them, a block under its back feet and a pull at its top?",
	Formula:  "θ = asin(T/d); x′ = x·cos θ − y·sin θ; holds: Σ m·g·x′ over x′ > 0; tips: Σ m·g·|x′| over x′ < 0, and F·y′ with y′ = x·sin θ + y·cos θ",
	Symbols: []cite.Symbol{
		mass("m", "mass", "all that is behind the front feet"),
		length("x", "arm", "its centre behind the front feet"),
		optional(length("y", "high", "its centre over the floor"), "0, right only without a block"),
		optional(mass("m_o", "open", "what hangs before the front feet: open doors and drawers"), "none"),
		optional(length("x_o", "openarm", "its centre before the front feet"), "0"),
		optional(length("y_o", "openhigh", "its centre over the floor"), "0"),
		optional(mass("m_c", "child", "load at the front edge of what is open"), "none"),
		optional(length("x_c", "childarm", "that edge before the front feet"), "0"),
		optional(length("y_c", "childhigh", "that edge over the floor"), "0"),
		optional(cite.Symbol{Letter: "F", Name: "pull", Meaning: "level pull to the front", Unit: "N", Min: 0, Max: 2000, Why: "people"}, "none"),
		optional(length("y_F", "pullhigh", "its height"), "0"),
		optional(length("T", "block", "block under the rear feet"), "none"),
		optional(cite.Symbol{Letter: "d", Name: "spacing", Meaning: "from the front to the rear feet", Unit: "mm", Min: 20, Max: 5000, Why: "feet"}, "1000 mm, right only without a block"),
		symGravity,
	},
	Sources: []cite.Source{statics,
		{Text: "ASTM F2057-23, as a test laboratory explains it", Locator: "block of 10.9 mm, load of about 60 lb at the front of what is open", Label: cite.Quoted},
		{Text: "R. L. Barnett, 'Overturning File Cabinet', Am. J. Mech. Eng. 8(1), 2020, 26-39", Locator: "abstract: carpet may lower the resistance by 40 %", Label: cite.Read}},
	Assumes:  []string{"statics: a child that climbs or jumps loads more than its weight", "a rigid floor and rigid feet", cautions},
	Accuracy: "exact for the model; the answer can flip inside the spread of children's weights",
	Remedies: []string{"Anchor it to the wall.", "A deeper base, feet nearer the front.", "Heavy things low and at the back.", "Only one drawer that opens at a time."},
	Example: cite.Example{
		In:   map[string]float64{"mass": 63.7, "arm": 240, "open": 9.25, "openarm": 240, "child": 28, "childarm": 550, "gravity": 9.8},
		Out:  map[string]float64{"net": -22.8536},
		From: "University of Delaware, a student engineering page, 7 April 2017: −22.85 N·m (its text says a child of 23 kg, its sum takes 28)",
	},
	Eval: func(in map[string]float64) []cite.Result {
		o, breakEven := frontOutcome(in)
		return []cite.Result{{Name: "net", Unit: "N·m", Value: o.Net / 1000}, {Name: "holds", Unit: "N·m", Value: o.Holds / 1000},
			{Name: "tips", Unit: "N·m", Value: o.Tips / 1000}, {Name: "tipLoad", Unit: "kg", Value: breakEven}}
	},
}

// frontOutcome builds the state of STAND-01 on a strip of feet and asks the
// package's own model; tipLoad is the load at the child's place that just tips.
func frontOutcome(in map[string]float64) (Outcome, float64) {
	d, ok := in["spacing"]
	if !ok {
		d = 1000
	}
	s := State{Name: "rule", Block: in["block"], Gravity: in["gravity"], Feet: []Foot{{0, 0}, {100, 0}, {100, d}, {0, d}}}
	at := func(before, high float64) r3.Vec { return r3.Vec{X: 50, Y: high, Z: d + before} }
	s.Masses = []Mass{{Name: "behind", Kg: in["mass"], At: at(-in["arm"], in["high"])},
		{Name: "open", Kg: in["open"], At: at(in["openarm"], in["openhigh"])}}
	s.Pulls = []Pull{{Name: "pull", N: in["pull"], At: at(0, in["pullhigh"])}}
	edge := at(in["childarm"], in["childhigh"])
	load, err := s.TipLoad("front", edge)
	if err != nil {
		return Outcome{Net: math.NaN()}, 0
	}
	if math.IsInf(load, 1) {
		load = 0 // no load there tips it: told by a childarm of nought
	}
	s.Masses = append(s.Masses, Mass{Name: "child", Kg: in["child"], At: edge})
	o, err := s.About("front")
	if err != nil {
		o.Net = math.NaN()
	}
	return o, load
}

var ruleCarpet = &cite.Rule{
	ID: "STAND-02", Title: "A block under the rear feet",
	Question: "How much does a thick carpet, or a test's block, take from the lever that holds the piece?",
	Formula:  "θ = asin(T/d); x′ = x·cos θ − y·sin θ",
	Symbols: []cite.Symbol{length("T", "block", "block under the rear feet"),
		{Letter: "d", Name: "spacing", Meaning: "from the front to the rear feet", Unit: "mm", Min: 20, Max: 5000, Why: "feet"},
		length("x", "arm", "centre of mass behind the front feet"), length("y", "high", "centre of mass over the floor")},
	Sources:  []cite.Source{statics, {Text: "ASTM F2057-23, as a test laboratory explains it", Locator: "block of 10.9 mm (0.43 in)", Label: cite.Quoted}},
	Assumes:  []string{"a block that does not give, under the very back of the feet", cautions},
	Accuracy: "exact for the model",
	Remedies: []string{"Feet further apart.", "Anchor it to the wall."},
	Example: cite.Example{
		In:   map[string]float64{"block": 10.922, "spacing": 431.8, "arm": 228.6, "high": 508},
		Out:  map[string]float64{"tilt": 1.44943, "lever": 215.678, "lost": 5.6527},
		From: "worked by hand: 0.43 and 17 in; 9·0.99968 − 20·0.025294 = 8.4912 in",
	},
	Eval: func(in map[string]float64) []cite.Result {
		a := Tilt(in["block"], in["spacing"])
		lever := in["arm"]*math.Cos(a) - in["high"]*math.Sin(a)
		lost := 0.0
		if in["arm"] > 0 {
			lost = 100 * (1 - lever/in["arm"])
		}
		return []cite.Result{{Name: "tilt", Unit: "deg", Value: a * 180 / math.Pi}, {Name: "lever", Unit: "mm", Value: lever},
			{Name: "lost", Unit: "%", Value: lost}}
	},
}

var rulePull = &cite.Rule{
	ID: "STAND-03", Title: "A pull at an edge",
	Question: "What pull tips the piece, and does it slide first?",
	Formula:  "tips: F = W·x/(y·cos φ + x_p·sin φ); slides: F = μ·W/(cos φ − μ·sin φ), for a pull outwards and down at φ under the level",
	Symbols: []cite.Symbol{
		{Letter: "W", Name: "weight", Meaning: "weight of the piece", Unit: "N", Min: 1, Max: 50000, Why: "furniture"},
		length("x", "arm", "its centre behind the tipping edge"),
		{Letter: "y", Name: "high", Meaning: "height of the pull", Unit: "mm", Min: 1, Max: 5000, Why: "furniture"},
		optional(length("x_p", "before", "how far before the tipping edge the pull acts"), "0"),
		optional(cite.Symbol{Letter: "φ", Name: "down", Meaning: "angle of the pull under the level", Unit: "deg", Min: 0, Max: 60, Why: "a pull outwards"}, "0"),
		optional(cite.Symbol{Letter: "μ", Name: "friction", Meaning: "friction on the floor", Unit: "1", Min: 0.01, Max: 0.55, Why: "floors"}, "0.4"),
	},
	Sources:  []cite.Source{statics, {Text: "a university physics problem (static equilibrium of a bookcase), as a physics forum discusses it", Locator: "thread 534797: F = W/((1/9)·cos θ + 2·sin θ), θ from the vertical", Label: cite.Quoted}},
	Assumes:  []string{"a slow pull", cautions},
	Accuracy: "exact for the model",
	Remedies: []string{"Anchor it to the wall."},
	Example: cite.Example{
		In:   map[string]float64{"weight": 1500, "arm": 900, "high": 1800, "friction": 0.4},
		Out:  map[string]float64{"tips": 750, "slides": 600},
		From: "the problem: 1.80 m high, feet 0.90 m from the centre; tips at 750 N, slides at 600 N",
	},
	Eval: func(in map[string]float64) []cite.Result {
		sin, cos := math.Sincos(in["down"] * math.Pi / 180)
		mu, ok := in["friction"]
		if !ok {
			mu = 0.4
		}
		lever := in["high"]*cos + in["before"]*sin
		return []cite.Result{{Name: "tips", Unit: "N", Value: in["weight"] * in["arm"] / lever},
			{Name: "slides", Unit: "N", Value: mu * in["weight"] / (cos - mu*sin)}}
	},
}
