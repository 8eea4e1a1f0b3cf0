package material

import "rodwork/internal/cite"

// Scatter is by what share of its mean the stiffness of one board differs from
// the next of the same kind (one standard deviation). Results that rest on a
// mean are told with it, and judged at the soft end.
type Scatter struct {
	Share  float64
	Source cite.Source
}

var (
	clearWood = Scatter{0.22, handbook("Table 5-6, coefficient of variation of the modulus of elasticity", cite.FromMemory)}
	panel     = Scatter{0.10, cite.Source{Text: "boards of one mill differ by some 10 %; other mills' by more", Label: cite.Practice}}
)

// ScatterOf returns the scatter of a material (MAT-08).
func ScatterOf(m *Material) Scatter {
	if m.Creep == SolidCreep {
		return clearWood
	}
	return panel
}

// RuleScatter tells the soft end of a stiffness.
var RuleScatter = &cite.Rule{
	ID: "MAT-08", Title: "Scatter of stiffness",
	Question: "Between which stiffnesses does a board lie, of which only the mean is known?",
	Formula:  "E₋ = E·(1 − v), E₊ = E·(1 + v)",
	Symbols: []cite.Symbol{
		{Letter: "E", Name: "modulus", Meaning: "mean modulus", Unit: "MPa", Min: 100, Max: 30000, Why: "wood and boards"},
		{Letter: "v", Name: "scatter", Meaning: "coefficient of variation: 0.22 for clear solid wood, 0.10 for boards", Unit: "1", Min: 0, Max: 0.5, Why: "wood and boards"},
	},
	Sources:  []cite.Source{clearWood.Source, panel.Source},
	Assumes:  []string{"one standard deviation: one board in six is softer still"},
	Accuracy: "the scatter itself is known to a third",
	Remedies: []string{"Load an offcut, measure its sag and write its own modulus down."},
	Example:  cite.Example{In: map[string]float64{"modulus": 12000, "scatter": 0.22}, Out: map[string]float64{"soft": 9360, "stiff": 14640}, From: "by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "soft", Unit: "MPa", Value: in["modulus"] * (1 - in["scatter"])}, {Name: "stiff", Unit: "MPa", Value: in["modulus"] * (1 + in["scatter"])}}
	},
}
