package stability

import (
	"math"

	"rodwork/internal/cite"
)

var ruleMoments = &cite.Rule{
	ID: "STAND-04", Title: "The moments of the American rule of 2022",
	Question: "What tip-over moment would the piece have had to bear by the federal rule that was published and then replaced?",
	Formula:  "M_1 = 55.3·X + 26.6; M_2 = 51.2·Y − 12.8; M_3 = 17.2·min(Z, 4.12) (lbf·ft, with X, Y, Z in ft); the largest counts",
	Symbols: []cite.Symbol{
		optional(length("X", "drawer", "longest drawer's reach before the front feet"), "no drawer"),
		optional(length("Y", "door", "longest door's reach before the front feet"), "no door"),
		length("Z", "hold", "highest hand-hold over the floor"),
	},
	Sources: []cite.Source{{Text: "16 CFR 1261.4(d), 87 FR 72598 (November 2022), stayed by 88 FR 28403 and replaced by ASTM F2057-23", Locator: "1261.4(d)", Label: cite.FromMemory},
		{Text: "the coefficients are those of a child of 51.2 lb: 1.08 and 0.52 of its weight at a drawer, its centre 3 in inside a door's edge", Label: cite.Derived}},
	Assumes:  []string{"the rule never took effect: a conservative screen, no law", cautions},
	Accuracy: "coefficients from memory, consistent with each other; the cap on Z from memory",
	Remedies: []string{"See STAND-01."},
	Example: cite.Example{
		In:   map[string]float64{"drawer": 304.8, "door": 457.2, "hold": 1524},
		Out:  map[string]float64{"drawers": 81.9, "doors": 64.0, "pull": 70.864, "moment": 111.04},
		From: "worked by hand: 55.3 + 26.6; 51.2·1.5 − 12.8; 17.2·4.12; 81.9·1.35582 N·m",
	},
	Eval: func(in map[string]float64) []cite.Result {
		m1, m2 := 0.0, 0.0
		if x, ok := in["drawer"]; ok {
			m1 = 55.3*x/foot + 26.6
		}
		if y, ok := in["door"]; ok {
			m2 = math.Max(0, 51.2*y/foot-12.8)
		}
		m3 := 17.2 * math.Min(in["hold"]/foot, 4.12)
		return []cite.Result{{Name: "drawers", Unit: "lbf·ft", Value: m1}, {Name: "doors", Unit: "lbf·ft", Value: m2},
			{Name: "pull", Unit: "lbf·ft", Value: m3}, {Name: "moment", Unit: "N·m", Value: lbfFt * math.Max(m1, math.Max(m2, m3))}}
	},
}

// Scope of ASTM F2057-23, clause 1.1: at least so high (mm), heavy (kg) and
// large inside (dm³) as printed in SI beside the inch values.
const (
	ScopeHigh   = 686.0
	ScopeMass   = 13.6
	ScopeVolume = 90.6
)

// InScope tells whether a clothing storage unit is of the size that ASTM
// F2057-23 speaks of (STAND-05). Bookcases, shelving, benches and chests for
// toys are outside it whatever their size: the caller must know.
func InScope(high, mass, volume float64) bool {
	return high >= ScopeHigh && mass >= ScopeMass && volume >= ScopeVolume
}

var ruleScope = &cite.Rule{
	ID: "STAND-05", Title: "Scope of the American tip-over standard",
	Question: "Is a clothing storage unit of a size that the standard speaks of?",
	Formula:  "height ≥ 686 mm (27 in), mass ≥ 13.6 kg (30 lb), enclosed volume ≥ 90.6 dm³ (3.2 ft³); behind doors half of height·width·depth counts, a drawer's width·depth·clear height",
	Symbols: []cite.Symbol{length("H", "high", "height of the piece"), mass("m", "mass", "mass of the piece, empty"),
		optional(cite.Symbol{Letter: "w", Name: "width", Meaning: "width inside", Unit: "mm", Min: 0, Max: 10000, Why: "furniture"}, "0"),
		optional(cite.Symbol{Letter: "h", Name: "inner", Meaning: "height inside", Unit: "mm", Min: 0, Max: 5000, Why: "furniture"}, "0"),
		optional(cite.Symbol{Letter: "d", Name: "depth", Meaning: "depth inside", Unit: "mm", Min: 0, Max: 5000, Why: "furniture"}, "0"),
		cite.Symbol{Letter: "k", Name: "drawers", Meaning: "1: the sizes are of a drawer; 0: of a space behind doors", Unit: "1", Min: 0, Max: 1, Whole: true, Why: "one of the two"},
	},
	Sources: []cite.Source{{Text: "ASTM F2057-23", Locator: "clauses 1.1 and 1.2, catalogue page", Label: cite.Read},
		{Text: "CPSC Business Guidance, Clothing Storage Units", Locator: "volume of extendible and other enclosed storage", Label: cite.Read}},
	Assumes:  []string{"the piece stores clothing: bookcases, shelving, benches, built-ins are outside at any size", cautions},
	Accuracy: "exact",
	Remedies: []string{"A piece outside the scope can tip too: see STAND-01."},
	Example: cite.Example{
		In:   map[string]float64{"high": 914.4, "mass": 30, "width": 914.4, "inner": 762, "depth": 381, "drawers": 0},
		Out:  map[string]float64{"inScope": 1, "volume": 132.733, "cubicFeet": 4.6875},
		From: "worked by hand: half of 36·30·15 in³ = 4.69 ft³",
	},
	Eval: func(in map[string]float64) []cite.Result {
		v := in["width"] * in["inner"] * in["depth"]
		if in["drawers"] == 0 {
			v /= 2
		}
		yes := 0.0
		if InScope(in["high"], in["mass"], v*1e-6) {
			yes = 1
		}
		ft3 := v / (foot * foot * foot)
		return []cite.Result{{Name: "inScope", Unit: "1", Value: yes}, {Name: "volume", Unit: "dm³", Value: v * 1e-6},
			{Name: "cubicFeet", Unit: "ft³", Value: ft3},
			// A drawer's load in the test with simulated clothing: 8.5 lb/ft³.
			{Name: "clothing", Unit: "kg", Value: 8.5 * pound * ft3}}
	},
}

var ruleSeat = &cite.Rule{
	ID: "STAND-06", Title: "A bench that is sat on at its edge",
	Question: "Does a bench stand when someone sits on its front edge and leans?",
	Formula:  "M = m·g·(D/2 − i) + 600·(60 − i) − 20·H, moments about the front feet, i behind the front edge",
	Symbols: []cite.Symbol{mass("m", "mass", "mass of the bench"), length("D", "depth", "depth of the seat"),
		length("H", "high", "height of the seat"), length("i", "inset", "front feet behind the front edge"), symGravity},
	Sources:  []cite.Source{{Text: "EN 1022:2018, as an explainer quotes it", Locator: "forward: 600 N at 60 mm behind the front edge with 20 N outwards", Label: cite.Quoted}, statics},
	Assumes:  []string{"an adult of up to 110 kg; centre of the bench at mid-depth", cautions},
	Accuracy: "exact for the model",
	Remedies: []string{"Feet nearer the front edge.", "A heavier or deeper bench."},
	Example: cite.Example{
		In:   map[string]float64{"mass": 12, "depth": 350, "high": 300, "inset": 30, "gravity": 9.81},
		Out:  map[string]float64{"net": 29.0694},
		From: "worked by hand: 117.72·0.145 + 600·0.030 − 20·0.300",
	},
	Eval: func(in map[string]float64) []cite.Result {
		g := in["gravity"]
		if g == 0 {
			g = Gravity
		}
		i := in["inset"]
		m := in["mass"]*g*(in["depth"]/2-i) + 600*(60-i) - 20*in["high"]
		return []cite.Result{{Name: "net", Unit: "N·m", Value: m / 1000}}
	},
}

// heaviest is the 95th percentile of weight, kg, of the heavier sex at the
// half-month after each birthday from 2 to 8: CDC growth charts, 2000,
// wtage.csv.
var heaviest = []float64{15.2, 17.5, 20.4, 23.8, 27.4, 31.5, 36.2}

// ChildMass returns the mass, kg, of a heavy child (95 of 100 are lighter) of
// an age in years, from 2 to 8, straight between birthdays (STAND-07). The child
// may grow: take the oldest that will be near the piece. ok is false outside.
func ChildMass(years float64) (kg float64, ok bool) {
	if !(years >= 2 && years <= 8) {
		return 0, false
	}
	i := min(int(years-2), len(heaviest)-2)
	share := years - 2 - float64(i)
	return heaviest[i] + share*(heaviest[i+1]-heaviest[i]), true
}

var ruleChild = &cite.Rule{
	ID: "STAND-07", Title: "Mass of a heavy child",
	Question: "How heavy is a heavy child of this age, the one that may hang on a door?",
	Formula:  "95th percentile of the heavier sex, straight between birthdays",
	Symbols:  []cite.Symbol{{Letter: "a", Name: "years", Meaning: "age", Unit: "years", Min: 2, Max: 8, Why: "the rows that were read"}},
	Sources:  []cite.Source{{Text: "CDC growth charts, 2000", Locator: "wtage.csv, P95, rows just after each birthday", Label: cite.Read}},
	Assumes:  []string{"children of the United States about 1963 to 1994: today's are heavier, and one in twenty was heavier then", cautions},
	Accuracy: "0.1 kg at the birthdays",
	Remedies: []string{"Reckon with the test's 60 lb (27.2 kg) where the child is lighter."},
	Example:  cite.Example{In: map[string]float64{"years": 6}, Out: map[string]float64{"mass": 27.4}, From: "the data file: 27.39 kg, girls of 72.5 months"},
	Eval: func(in map[string]float64) []cite.Result {
		kg, ok := ChildMass(in["years"])
		if !ok {
			kg = math.NaN()
		}
		return []cite.Result{{Name: "mass", Unit: "kg", Value: kg}}
	},
}
