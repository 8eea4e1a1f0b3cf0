package hang

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleCount, ruleEdge, rulePlace}

var (
	symHeight = cite.Symbol{Letter: "H", Name: "height", Meaning: "height of the door", Unit: "mm", Min: 100, Max: HighestDoor, Why: "the tables end at 85 in"}
	symWidth  = cite.Symbol{Letter: "W", Name: "width", Meaning: "width of the door", Unit: "mm", Min: 50, Max: 1200, Why: "cabinet doors"}
)

var ruleCount = &cite.Rule{
	ID: "HANG-01", Title: "Number of hinges",
	Question: "How many cup hinges does a door of this height and mass ask for?",
	Formula:  "the largest of: by height 2 under 40 in, 3 under 60, 4 under 80, 5 to 85; by mass 2 under 15 lb, 3 under 30, 4 under 45, 5 to 60; by a second maker 2 under 6 kg, 3 to 12 (doors to 600 mm wide)",
	Symbols: []cite.Symbol{symHeight, symWidth,
		{Letter: "m", Name: "mass", Meaning: "mass of the door with its pull", Unit: "kg", Min: 0.05, Max: HeaviestDoor, Why: "the tables end at 60 lb"}},
	Sources: []cite.Source{
		{Text: "unnamed trade sheet (cabinet hinges, a guide; year not printed)", Locator: "hinges by door height", Label: cite.Read},
		{Text: "unnamed trade sheet (cup hinges, chart; year not printed)", Locator: "hinges by door weight", Label: cite.Read},
		{Text: "unnamed trade sheet (cup hinges, planning page; year not printed)", Locator: "hinges by door weight, second maker", Label: cite.Read},
	},
	Assumes:  []string{"hinges of usual make, screwed into sound board; at a table's limit the larger number", "a door that is wider than high pulls harder on its upper hinge than the tables reckon with: the result says so"},
	Accuracy: "makers differ by one hinge",
	Remedies: []string{"One more hinge.", "A lighter door.", "Two doors instead of one."},
	Example: cite.Example{
		In:   map[string]float64{"height": 1300, "width": 400, "mass": 4},
		Out:  map[string]float64{"hinges": 3, "byHeight": 3, "byMass": 2},
		From: "the tables: 51 in, 8.8 lb",
	},
	Eval: func(in map[string]float64) []cite.Result {
		c, err := Hinges(in["height"], in["width"], in["mass"])
		n := float64(c.Hinges)
		if err != nil {
			n = math.NaN()
		}
		wide := 0.0
		if c.Wide {
			wide = 1
		}
		return []cite.Result{{Name: "hinges", Unit: "1", Value: n}, {Name: "byHeight", Unit: "1", Value: float64(c.ByHeight)},
			{Name: "byMass", Unit: "1", Value: float64(c.ByMass)}, {Name: "byOther", Unit: "1", Value: float64(c.ByMassOther)},
			{Name: "wide", Unit: "1", Value: wide}}
	},
}

var ruleEdge = &cite.Rule{
	ID: "HANG-02", Title: "Room for the leading edge",
	Question: "How wide must the gap at the leading edge be, so that the door's inner corner swings clear?",
	Formula:  "√(W² + T²) − W",
	Symbols: []cite.Symbol{symWidth,
		{Letter: "T", Name: "thick", Meaning: "thickness of the door", Unit: "mm", Min: 3, Max: 60, Why: "doors"}},
	Sources:  []cite.Source{{Text: "the inner corner's circle about a pin at the front face", Label: cite.Derived}},
	Assumes:  []string{"the pin lies in the plane of the front face, over the hinge edge; a cup hinge throws the door clear of its side and asks for less at this edge"},
	Accuracy: "exact for the model",
	Remedies: []string{"A wider gap.", "A bevelled leading edge."},
	Example:  cite.Example{In: map[string]float64{"width": 400, "thick": 18}, Out: map[string]float64{"gap": 0.404796}, From: "worked by hand: √160324 − 400"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "gap", Unit: "mm", Value: LeadingEdge(in["width"], in["thick"])}}
	},
}

var rulePlace = &cite.Rule{
	ID: "HANG-03", Title: "Places of the hinges",
	Question: "Do the outer hinges sit at a good distance from the door's ends, and far enough apart?",
	Formula:  "60 mm ≤ end to first hinge ≤ 100 mm; outer hinges further apart than the door is wide",
	Symbols: []cite.Symbol{symHeight, symWidth,
		{Letter: "y_1", Name: "low", Meaning: "lowest hinge, from the foot", Unit: "mm", Min: 0, Max: HighestDoor, Why: "on the door"},
		{Letter: "y_n", Name: "top", Meaning: "highest hinge, from the foot", Unit: "mm", Min: 0, Max: HighestDoor, Why: "on the door"}},
	Sources:  []cite.Source{{Text: "unnamed trade sheets (cup hinges, two planning pages; year not printed)", Locator: "one says within 80 mm of the ends, one at least 80 mm: 80 ± 20 is taken", Label: cite.Read}},
	Assumes:  []string{"a flat door of usual stiffness"},
	Accuracy: "a habit of makers",
	Remedies: []string{"Move the hinges along the door, clear of a bend."},
	Example: cite.Example{
		In: map[string]float64{"height": 700, "width": 400, "low": 80, "top": 620}, Out: map[string]float64{"head": 80, "apart": 540, "fine": 1},
		From: "worked by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		p := Place(in["height"], in["width"], []float64{in["low"], in["top"]})
		fine := 0.0
		if p.EndsFine && p.ApartFine {
			fine = 1
		}
		return []cite.Result{{Name: "head", Unit: "mm", Value: p.Last}, {Name: "apart", Unit: "mm", Value: p.Apart}, {Name: "fine", Unit: "1", Value: fine}}
	},
}
