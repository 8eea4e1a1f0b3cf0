package spread

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules.
var Rules = []*cite.Rule{ruleStack}

// Stack returns the standard deviation of n like errors added: those that are
// the same each time, and those that are drawn anew each time.
func Stack(n int, same, own float64) float64 {
	return math.Hypot(float64(n)*same, math.Sqrt(float64(n))*own)
}

var ruleStack = &cite.Rule{
	ID: "SPREAD-01", Title: "Errors that add up",
	Question: "By how much does a sum of many like steps scatter, if part of each step's error is the same every time and part is drawn anew?",
	Formula:  "σ = √((N·σ_s)² + N·σ_o²); for any fit f: σ² = Σ (∂f/∂x_i)²·σ_i²",
	Symbols: []cite.Symbol{
		{Letter: "N", Name: "count", Meaning: "number of steps", Unit: "1", Min: 1, Max: 2000, Whole: true, Why: "at least one"},
		{Letter: "σ_s", Name: "same", Meaning: "standard deviation of what is the same in every step: a blade, a stop left in its place", Unit: "mm", Min: 0, Max: 5, Why: "errors in a shop"},
		{Letter: "σ_o", Name: "own", Meaning: "standard deviation of what is drawn anew in every step: a setting", Unit: "mm", Min: 0, Max: 5, Why: "errors in a shop"},
	},
	Sources: []cite.Source{{Text: "JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM)", Locator: "5.1.2, eq. (10); 5.2.2, eq. (13) and its note for fully correlated inputs", Label: cite.FromMemory}},
	Assumes: []string{"a fit that is straight over the spread; where it is not (the thickest of several places, a kerf that shuts) virtual builds take its place",
		"causes that do not know of each other; a common cause must be written as one"},
	Accuracy: "exact for a straight fit, whatever the shapes of the spreads",
	Remedies: []string{"Measure the cause with the largest share, and write the measure down: its spread then falls to that of the calliper.", "Place each cut from one stop, and not from the last cut."},
	Example: cite.Example{
		In:   map[string]float64{"count": 36, "same": 0.03, "own": 0.1},
		Out:  map[string]float64{"deviation": 1.23548},
		From: "worked by hand: 36·0.03 = 1.08, 6·0.1 = 0.6, √(1.1664 + 0.36)",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "deviation", Unit: "mm", Value: Stack(int(in["count"]), in["same"], in["own"])}}
	},
}
