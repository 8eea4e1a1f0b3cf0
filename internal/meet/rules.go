package meet

import "rodwork/internal/cite"

// ClashRule tells whether two parts take the same room.
var ClashRule = &cite.Rule{
	ID:       "MEET-01",
	Title:    "Room for every part",
	Question: "Do two parts take the same room, once all cuts are made?",
	Formula:  "over = max(0, r − p − m)",
	Symbols: []cite.Symbol{
		{Letter: "r", Name: "reach", Meaning: "how far one part reaches into the other: the greatest thickness of what they share", Unit: "mm", Min: 0, Max: 10000, Why: "a piece of furniture"},
		{Letter: "p", Name: "press", Meaning: "interference that the fit between the two asks for", Unit: "mm", Min: 0, Max: 5, Why: "a press fit", Optional: true, Else: "none"},
		{Letter: "m", Name: "margin", Meaning: "what can't be told from touching", Unit: "mm", Min: 0, Max: 1, Why: "chords and sums of lengths", Optional: true, Else: "0.02 mm"},
	},
	Sources: []cite.Source{
		{Text: "two bodies can't be in one place; measured on the parts as solids with all their cuts, in their places", Label: cite.Derived},
	},
	Assumes: []string{
		"parts are as drawn: no error of cutting, no swelling, so that a real part may bind that is said to go in",
		"kerfs of bent parts are left out and their inside counts as smooth: what the rib tips do is told by the bend's own plan",
		"hardware is not a solid: a screw or a runner in the way is not seen, so that more may clash than is said",
	},
	Accuracy: "0.01 mm: a straight line may lie 0.005 mm within the arc that it stands for, on each part",
	Remedies: []string{"a wider or a deeper cut in the one", "a shorter or a thinner other", "a place of its own for each"},
	Example: cite.Example{
		In: map[string]float64{"reach": 0.1, "press": 0.05, "margin": 0.02}, Out: map[string]float64{"over": 0.03}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		margin, ok := in["margin"]
		if !ok {
			margin = Clear
		}
		return []cite.Result{{Name: "over", Unit: "mm", Value: max(0, in["reach"]-in["press"]-margin)}}
	},
}

// GapRule tells whether a joint touches where it should.
var GapRule = &cite.Rule{
	ID:       "MEET-02",
	Title:    "Joints that touch",
	Question: "Do the partners of a joint touch where one comes to rest on the other?",
	Formula:  "open = max(0, g − l)",
	Symbols: []cite.Symbol{
		{Letter: "g", Name: "gap", Meaning: "widest gap between the faces where the part comes to rest", Unit: "mm", Min: -10, Max: 10, Why: "faces further apart belong to no joint"},
		{Letter: "l", Name: "line", Meaning: "glue line that the gap may have", Unit: "mm", Min: 0, Max: 0.5, Why: "a glue line", Optional: true, Else: "0.05 mm"},
	},
	Sources: []cite.Source{
		{Text: "a glue line as thin as it can be; for white glue 0.05 to 0.15 mm", Label: cite.Practice},
	},
	Assumes: []string{
		"parts are as drawn: errors of cutting come on top, so that the real gap is wider or narrower",
		"only faces that look against the way in are asked, flat or about one axis: where a part rests along a line or at a point nothing is said",
	},
	Accuracy: "exact for flat faces and arcs as drawn",
	Remedies: []string{"a longer part", "a shallower housing", "a glue that fills gaps, where the joint is not to be seen"},
	Example: cite.Example{
		In: map[string]float64{"gap": 0.1, "line": 0.05}, Out: map[string]float64{"open": 0.05}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		line, ok := in["line"]
		if !ok {
			line = Touch
		}
		return []cite.Result{{Name: "open", Unit: "mm", Value: max(0, in["gap"]-line)}}
	},
}

// HoldRule tells whether every part is held by something.
var HoldRule = &cite.Rule{
	ID:       "MEET-03",
	Title:    "Nothing in the air",
	Question: "Is every part held, by a joint, by hardware or by what it rests on?",
	Formula:  "loose = parts − held",
	Symbols: []cite.Symbol{
		{Letter: "n", Name: "parts", Meaning: "parts of the piece", Unit: "1", Min: 0, Max: 10000, Why: "a piece of furniture", Whole: true},
		{Letter: "m", Name: "held", Meaning: "parts that hang together by joints that touch and by hardware, and what rests on them or on the floor", Unit: "1", Min: 0, Max: 10000, Why: "a piece of furniture", Whole: true},
	},
	Sources: []cite.Source{
		{Text: "what is joined to nothing, hangs on nothing and rests on nothing falls", Label: cite.Derived},
	},
	Assumes: []string{
		"a joint that touches counts as holding, glued or not, and so does what a part rests on, however little of it: errs on the side of 'held'",
		"a part that touches along a line or at a point only counts as loose: errs on the side of 'loose'",
	},
	Accuracy: "a count",
	Remedies: []string{"a joint for the part", "pins, hinges or slides for it", "a size that lets it reach its partner"},
	Example: cite.Example{
		In: map[string]float64{"parts": 12, "held": 11}, Out: map[string]float64{"loose": 1}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "loose", Unit: "1", Value: in["parts"] - in["held"]}}
	},
}

// Rules are the rules of this package.
var Rules = []*cite.Rule{ClashRule, GapRule, HoldRule}
