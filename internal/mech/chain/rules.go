package chain

import (
	"math"

	"rodwork/internal/cite"
	"rodwork/internal/geom/r2"
)

// Rules are the package's rules.
var Rules = []*cite.Rule{ruleEnd}

// Cantilever returns where the free end of a strip comes to rest that is held at
// its start and kerfed n times, evenly: x and y over its length, and the turn of
// its end, rad. The load is P·L²/EI at the end, and leans by the angle (rad)
// from the strip: π/2 is square to it, π pushes along it, back to the start. A
// push along it bends it over past the critical load; it is nudged to begin.
func Cantilever(n int, load, angle float64) (x, y, turn float64, err error) {
	links := Even(1, 1, n)
	start := make([]float64, len(links))
	for i := range start { // half of a circle's quarter: to the side that it will go
		start[i] = 0.8 * float64(i) / float64(n)
	}
	s, err := Solve(Problem{Links: links, HeldStart: true, Start: start,
		Loads: []Load{{Link: n, Along: links[n].Length, Force: r2.Vec{X: load}.Turn(angle)}}})
	if err != nil {
		return 0, 0, 0, err
	}
	end := s.At[len(s.At)-1]
	return end.X, end.Y, s.Turned[n], nil
}

var ruleEnd = &cite.Rule{
	ID: "CHAIN-01", Title: "A kerfed strip pulled at its end",
	Question: "How far does a strip that is kerfed all along bend, if it is held at one end and pulled at the other?",
	Formula:  "least of E = Σ ½·k·(θ_j − θ_{j−1})² − P·y_end, k = N·EI/L",
	Symbols: []cite.Symbol{
		{Letter: "PL²/EI", Name: "load", Meaning: "load at the end, times the length squared, over the strip's stiffness", Unit: "1", Min: 0.01, Max: 12, Why: "tables go to 10; past that only the end is curved"},
		{Letter: "ψ", Name: "lean", Meaning: "angle of the load from the strip: 90 square to it, 180 along it and back", Unit: "deg", Min: 30, Max: 180, Why: "loads that bend"},
		{Letter: "N", Name: "count", Meaning: "number of kerfs", Unit: "1", Min: 2, Max: 200, Whole: true, Why: "two at least; the work grows with the third power", Optional: true, Else: "100"},
	},
	Sources: []cite.Source{
		{Text: "K. E. Bisshopp and D. C. Drucker, 'Large deflection of cantilever beams', Quarterly of Applied Mathematics 3 (1945) 272-275", Locator: "equations and figure 2", Label: cite.FromMemory},
		{Text: "K. Mattiasson, Int. J. Numer. Methods Eng. 17 (1981) 145-153", Locator: "table of the cantilever with an end load", Label: cite.FromMemory},
	},
	Assumes:  []string{"elastic hinges that do not shut; a strip without weight", "pushed along its length under π²/4 it stays straight, and the results are nought"},
	Accuracy: "half a percent of the elastica at 200 kerfs; the error falls with the square of the count",
	Remedies: []string{"More, or nearer, clamps.", "A former that the strip lies on."},
	Example: cite.Example{
		In:   map[string]float64{"load": 1, "lean": 90, "count": 200},
		Out:  map[string]float64{"sag": 0.30172, "in": 0.05643, "turn": 26.4335},
		From: "the table's row for 1 (0.46135 rad), which the rule meets within its accuracy",
	},
	Eval: func(in map[string]float64) []cite.Result {
		n, ok := in["count"]
		if !ok {
			n = 100
		}
		x, y, turn, err := Cantilever(int(n), in["load"], in["lean"]*math.Pi/180)
		if err != nil {
			x, y, turn = math.NaN(), math.NaN(), math.NaN()
		}
		return []cite.Result{{Name: "sag", Unit: "1", Value: y}, {Name: "in", Unit: "1", Value: 1 - x}, {Name: "turn", Unit: "deg", Value: turn * 180 / math.Pi}}
	},
}
