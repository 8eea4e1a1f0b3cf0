package learn

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules.
var Rules = []*cite.Rule{ruleHinge, ruleReadings, ruleBent, ruleCounts}

var ruleHinge = &cite.Rule{
	ID: "LEARN-01", Title: "Length of the hinge under a kerf",
	Question: "How far into the ribs does the skin bend, told by single and doubled kerfs in one test piece?",
	Formula:  "β = (w_1 − r·w_2)/((r − 1)·h), r = α_1/α_2",
	Symbols: []cite.Symbol{
		{Letter: "w_1", Name: "kerf", Meaning: "width of a kerf cut once", Unit: "mm", Min: 0.5, Max: 12, Why: "saw blades and narrow cutters"},
		{Letter: "w_2", Name: "double", Meaning: "width of a kerf cut twice, side by side", Unit: "mm", Min: 0.6, Max: 24, Why: "two passes"},
		{Letter: "h", Name: "skin", Meaning: "skin left under both", Unit: "mm", Min: 0.3, Max: 12, Why: "skins that are bent"},
		{Letter: "α_1", Name: "once", Meaning: "turn of one single kerf under the weight", Unit: "deg", Min: 0.05, Max: 30, Why: "small enough that nothing breaks, large enough to be read"},
		{Letter: "α_2", Name: "twice", Meaning: "turn of one doubled kerf under the same weight", Unit: "deg", Min: 0.05, Max: 40, Why: "as above"},
	},
	Sources:  []cite.Source{{Text: "equal skins under one moment turn as their lengths, w + β·h", Label: cite.Derived}},
	Assumes:  []string{"one moment over all kerfs: hang the weight so that the piece is bent evenly, or mix single and doubled kerfs", "one skin under both: a doubled kerf that is deeper makes β come out too small"},
	Accuracy: "β to about ± 0.3 with ten kerfs of each width and skins alike within 0.05 mm",
	Remedies: []string{"More kerfs of each width.", "Calliper the skin under each kerf, and leave out those that are off."},
	Example: cite.Example{
		In:   map[string]float64{"kerf": 2.2, "double": 4.4, "skin": 1.6, "once": 3.8, "twice": 6},
		Out:  map[string]float64{"beta": 1},
		From: "worked by hand: (2.2 − 0.63333·4.4)/(−0.36667·1.6); the hinges are 3.8 and 6.0 long",
	},
	Eval: func(in map[string]float64) []cite.Result {
		b := math.NaN()
		if in["twice"] > in["once"] && in["double"] > in["kerf"] {
			b = betaOf(in["kerf"], in["double"], in["skin"], in["once"], in["twice"])
		}
		return []cite.Result{{Name: "beta", Unit: "1", Value: b}}
	},
}

var ruleReadings = &cite.Rule{
	ID: "LEARN-02", Title: "What a few readings are worth",
	Question: "How near does the mean of a few readings lie to what is measured?",
	Formula:  "± √((t·s/√n)² + e²), t of Student for n − 1",
	Symbols: []cite.Symbol{
		{Letter: "s", Name: "spread", Meaning: "standard deviation of the readings", Unit: "mm", Min: 0, Max: 5, Why: "things measured in a shop"},
		{Letter: "n", Name: "count", Meaning: "number of readings", Unit: "1", Min: 2, Max: 1000, Whole: true, Why: "one reading has no scatter"},
		{Letter: "e", Name: "least", Meaning: "what the tool is trusted to at best", Unit: "mm", Min: 0, Max: 1, Why: "callipers and rules", Optional: true, Else: "0.02 mm, a calliper in a hand"},
	},
	Sources:  []cite.Source{{Text: "Student, 'The probable error of a mean', Biometrika 6 (1908) 1-25; the table as printed in handbooks", Locator: "two-sided, 95 %", Label: cite.FromMemory}},
	Assumes:  []string{"readings at places that were picked blindly; readings of the best-looking places come out too close together"},
	Accuracy: "19 times out of 20",
	Remedies: []string{"More readings, at more places."},
	Example: cite.Example{
		In:   map[string]float64{"spread": 0.05, "count": 8, "least": 0},
		Out:  map[string]float64{"within": 0.041808},
		From: "worked by hand: 2.365·0.05/√8",
	},
	Eval: func(in map[string]float64) []cite.Result {
		least, ok := in["least"]
		if !ok {
			least = LeastError
		}
		_, high := Measured{SD: in["spread"], N: int(in["count"])}.Interval(least)
		return []cite.Result{{Name: "within", Unit: "mm", Value: high}}
	},
}

var ruleBent = &cite.Rule{
	ID: "LEARN-03", Title: "Bent further on a test strip",
	Question: "Does a strip that was bent until it cracked, or not, allow the bend?",
	Formula:  "holds where α_held ≥ 1.15·α and no crack under 1.15·α",
	Symbols: []cite.Symbol{
		{Letter: "α", Name: "wanted", Meaning: "turn of one kerf that the part needs", Unit: "deg", Min: 0.05, Max: 45, Why: "kerfed bends"},
		{Letter: "α_held", Name: "held", Meaning: "largest turn of one kerf that the strip bore without a crack", Unit: "deg", Min: 0, Max: 90, Why: "as measured"},
	},
	Sources:  []cite.Source{{Text: "a reserve of a seventh over the turn that is needed, since one strip is no proof of the next", Label: cite.Practice}},
	Assumes:  []string{"the same blade, skin, stock and grain; bent as fast, and as dry, as the part will be", "one strip: skins scatter, so that a second and a third tell more than a better measure of the first"},
	Accuracy: "it takes the place of the published radii for this blade and batch only",
	Remedies: []string{"Bend two more strips.", "More kerfs, so that each turns less."},
	Example: cite.Example{
		In:   map[string]float64{"wanted": 2.5, "held": 3},
		Out:  map[string]float64{"reserve": 1.2},
		From: "worked by hand: 3/2.5",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "reserve", Unit: "1", Value: in["held"] / in["wanted"]}}
	},
}

var ruleCounts = &cite.Rule{
	ID: "LEARN-04", Title: "Test pieces that count",
	Question: "How many of the joints and bends that want a test piece stand on one that is not stale?",
	Formula:  "tested = n_fresh/n",
	Symbols: []cite.Symbol{
		{Letter: "n_fresh", Name: "fresh", Meaning: "set-ups whose test piece was cut with the same tool, blade, stock and batch as now", Unit: "1", Min: 0, Max: 10000, Whole: true, Why: "a count"},
		{Letter: "n", Name: "all", Meaning: "set-ups that want one", Unit: "1", Min: 1, Max: 10000, Whole: true, Why: "a count"},
	},
	Sources:  []cite.Source{{Text: "a set-up is proved in an offcut before it is made in the part; another blade, bit or sheet is another set-up", Label: cite.Practice}},
	Assumes:  []string{"days in the shop file are right: what was measured after the test makes it stale"},
	Accuracy: "a count",
	Remedies: []string{"Cut the test piece that the book draws, and write down what it measures."},
	Example: cite.Example{
		In:   map[string]float64{"fresh": 2, "all": 5},
		Out:  map[string]float64{"tested": 0.4},
		From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "tested", Unit: "1", Value: in["fresh"] / in["all"]}}
	},
}
