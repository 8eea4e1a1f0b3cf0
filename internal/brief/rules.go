package brief

import (
	"math"

	"rodwork/internal/cite"
)

// FitRule tells how many upright things a row takes.
var FitRule = &cite.Rule{
	ID:       "FIT-01",
	Title:    "Things in a row",
	Question: "How many things of one thickness stand upright in a clear width, side by side?",
	Formula:  "n = ⌊(w − f) / t⌋",
	Symbols: []cite.Symbol{
		{Letter: "w", Name: "width", Meaning: "clear width of the row", Unit: "mm", Min: 1, Max: 20000, Why: "a piece of furniture"},
		{Letter: "t", Name: "thickness", Meaning: "thickness of one thing", Unit: "mm", Min: 0.1, Max: 5000, Why: "a thing that stands on a shelf"},
		{Letter: "f", Name: "finger", Meaning: "room left free to tip the first one out", Unit: "mm", Min: 0, Max: 200, Why: "a hand"},
	},
	Sources: []cite.Source{{Text: "division; that a finger's room is left free is a habit of this project, 15 mm along the row and 10 mm above", Label: cite.Practice}},
	Assumes: []string{
		"things stand close and are as thick as the brief says: real rows are looser, so that fewer may go in",
		"things stand upright: laid flat more may go in",
	},
	Accuracy: "exact for equal things; one thing either way for a mixed row",
	Remedies: []string{"a wider space", "another shelf", "a deeper space, for a second row behind"},
	Example: cite.Example{
		In:   map[string]float64{"width": 484, "thickness": 22, "finger": 15},
		Out:  map[string]float64{"count": 21},
		From: "by hand: (484 − 15)/22 = 21.3",
	},
	Eval: func(in map[string]float64) []cite.Result {
		n := math.Floor((in["width"]-in["finger"])/in["thickness"] + 1e-9)
		return []cite.Result{{Name: "count", Unit: "1", Value: math.Max(0, n)}}
	},
}

// PlaceRule compares the piece with its place.
var PlaceRule = &cite.Rule{
	ID:       "FIT-02",
	Title:    "The piece in its place",
	Question: "Does the piece go where it is to stand?",
	Formula:  "left = place − piece",
	Symbols: []cite.Symbol{
		{Letter: "P", Name: "place", Meaning: "width, height or depth of the place", Unit: "mm", Min: 1, Max: 100000, Why: "a room"},
		{Letter: "p", Name: "piece", Meaning: "the same of the piece, with what keeps it off the wall", Unit: "mm", Min: 1, Max: 100000, Why: "a piece of furniture"},
	},
	Sources:  []cite.Source{{Text: "subtraction; measure walls at floor, middle and top, they are seldom straight", Label: cite.Practice}},
	Assumes:  []string{"walls and floor are plumb, level and flat: a real corner may take 10 mm more", "the way to the place (doors, stairs) is not looked at"},
	Accuracy: "as good as the tape",
	Remedies: []string{"a smaller piece", "a plinth higher than the skirting and set back from the wall", "edges scribed to the wall"},
	Example: cite.Example{
		In:   map[string]float64{"place": 1700, "piece": 1460},
		Out:  map[string]float64{"left": 240},
		From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "left", Unit: "mm", Value: in["place"] - in["piece"]}}
	},
}

// Rules are the rules of this package.
var Rules = []*cite.Rule{FitRule, PlaceRule}
