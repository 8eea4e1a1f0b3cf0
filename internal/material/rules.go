package material

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{rulePlate, ruleTolerance, ruleCreep, ruleStrength, ruleMovement, ruleSection, ruleSheetMass, RuleScatter}

func out(name, unit string, v float64) cite.Result {
	return cite.Result{Name: name, Unit: unit, Value: v}
}

var symSheet = cite.Symbol{Letter: "t", Name: "thick", Meaning: "thickness", Unit: "mm", Min: 0.5, Max: 100, Why: "sheets"}

var rulePlate = &cite.Rule{
	ID: "MAT-01", Title: "Plywood as a stack of veneers",
	Question: "How stiff and strong is a plywood along and across its face grain?",
	Formula:  "E_m = ΣE_i·(h_i³/12 + h_i·d_i²)/(t³/12); f_m = f_v·(EI/E_L)/(z·W), z to the far side of the outermost veneer that runs with the span",
	Symbols: []cite.Symbol{
		{Letter: "n", Name: "plies", Meaning: "number of veneers, odd", Unit: "1", Min: 3, Max: 51, Whole: true, Why: "sheets"},
		{Letter: "h_f", Name: "face", Meaning: "face veneer as sanded", Unit: "mm", Min: 0.1, Max: 5, Why: "veneers"},
		{Letter: "h_i", Name: "inner", Meaning: "inner veneers", Unit: "mm", Min: 0.1, Max: 10, Why: "veneers"},
		{Letter: "E_L", Name: "modulus", Meaning: "modulus of the veneer along its grain", Unit: "MPa", Min: 1000, Max: 30000, Why: "wood",
			Optional: true, Else: "17 500, birch"},
		{Letter: "E_T", Name: "crossmodulus", Meaning: "modulus across", Unit: "MPa", Min: 0, Max: 3000, Why: "wood", Optional: true, Else: "0, as the published table has it"},
		{Letter: "f_v", Name: "strength", Meaning: "characteristic bending strength of the veneer", Unit: "MPa", Min: 1, Max: 300, Why: "wood", Optional: true, Else: "70, birch"},
	},
	Sources:  []cite.Source{finnish, {Text: "bending of a layered plate, plane sections staying plane, no width effect", Label: cite.Derived}},
	Assumes:  []string{"veneers of even thickness and sound glue lines; shear between them is left out, which matters under a span of 20 thicknesses", "even n is made odd upwards"},
	Accuracy: "reproduces the published table to its last digit, which checks the arithmetic; real sheets differ by a fifth",
	Remedies: []string{"Turn the face grain along the span.", "Load an offcut and measure."},
	Example: cite.Example{
		In:   map[string]float64{"plies": 13, "face": 1.1, "inner": 1.4},
		Out:  map[string]float64{"along": 10048.3, "across": 7451.69, "strengthAlong": 40.193, "strengthAcross": 34.065, "thick": 17.6},
		From: "Handbook of Finnish Plywood, birch 18 mm: 10048, 7452, 40.2, 34.1, 17.6",
	},
	Eval: func(in map[string]float64) []cite.Result {
		or := func(name string, v float64) float64 {
			if x, ok := in[name]; ok {
				return x
			}
			return v
		}
		p := Stack(int(in["plies"]), in["face"], in["inner"], or("modulus", BirchEL), or("crossmodulus", 0), or("strength", BirchVeneerStrength)).Plate()
		return []cite.Result{out("along", "MPa", p.EAlong), out("across", "MPa", p.EAcross),
			out("strengthAlong", "MPa", p.FAlong), out("strengthAcross", "MPa", p.FAcross),
			out("thick", "mm", p.Thick), out("W", "mm³/mm", p.W), out("I", "mm⁴/mm", p.I),
			out("tensionAlong", "MPa", p.EAAlong), out("tensionAcross", "MPa", p.EAAcross)}
	},
}

var ruleTolerance = &cite.Rule{
	ID: "MAT-02", Title: "Thickness of a sanded plywood",
	Question: "How far may a sheet's thickness be from the label?",
	Formula:  "+(0.2 + 0.03·t), −(0.4 + 0.03·t); 0.6 mm within a sheet",
	Symbols:  []cite.Symbol{{Letter: "t", Name: "thick", Meaning: "nominal thickness", Unit: "mm", Min: 12, Max: 25, Why: "the clause as it was read covers 12 to 25 mm"}},
	Sources:  []cite.Source{{Text: "EN 315:2000, as a merchant prints it (the same formula in GB/T 9846)", Locator: "sanded plywood", Label: cite.Quoted}},
	Assumes:  []string{"10 ± 2 % of moisture; a damp sheet is thicker"},
	Accuracy: "mills keep closer: two print +0.7/−0.9 at 18 mm",
	Remedies: []string{"Measure the sheet at eight places, 50 mm in from its edges, and cut grooves to that."},
	Example:  cite.Example{In: map[string]float64{"thick": 18}, Out: map[string]float64{"over": 0.74, "under": 0.94, "least": 17.06, "most": 18.74}, From: "worked by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		over, under, ok := EN315(in["thick"])
		if !ok {
			over = math.NaN()
		}
		return []cite.Result{out("over", "mm", over), out("under", "mm", under),
			out("least", "mm", in["thick"]-under), out("most", "mm", in["thick"]+over), out("within", "mm", WithinSheet)}
	},
}

// creepClasses are the numbers by which the rules take a class.
var creepClasses = []CreepClass{SolidCreep, PlywoodCreep, ParticleboardCreep, FibreboardCreep}

var symClass = cite.Symbol{Letter: "c", Name: "class", Meaning: "1 solid wood, 2 plywood, 3 particleboard, 4 fibreboard", Unit: "1",
	Min: 1, Max: 4, Whole: true, Why: "the classes of the table"}

var ruleCreep = &cite.Rule{
	ID: "MAT-03", Title: "Creep factors",
	Question: "By how much does the sag of this material grow over the years?",
	Formula:  "k_def from a table; the larger of the published values is used, the other is shown",
	Symbols: []cite.Symbol{symClass,
		{Letter: "s", Name: "service", Meaning: "1: heated rooms; 2: covered, unheated", Unit: "1", Min: 1, Max: 2, Whole: true, Why: "furniture stands indoors"}},
	Sources:  []cite.Source{lvl, ec5, nds, ndsPly, mdf},
	Assumes:  []string{"plywood as LVL with crossbands; loads that last for years"},
	Accuracy: "the sources differ: fibreboard 0.5 (its trade) and 2.25 (Eurocode)",
	Remedies: []string{"See SHELF-02."},
	Example:  cite.Example{In: map[string]float64{"class": 4, "service": 1}, Out: map[string]float64{"creep": 2.25, "other": 0.5}, From: "the two sources"},
	Eval: func(in map[string]float64) []cite.Result {
		c, ok := CreepOf(creepClasses[int(in["class"])-1], int(in["service"]))
		if !ok {
			c.K = math.NaN()
		}
		return []cite.Result{out("creep", "1", c.K), out("other", "1", c.Other)}
	},
}

var ruleStrength = &cite.Rule{
	ID: "MAT-04", Title: "Strength over the years",
	Question: "What bending stress may a shelf bear for years?",
	Formula:  "f·k_mod/γ_M: 0.6/1.3 solid wood, 0.6/1.2 plywood, 0.3/1.3 particleboard, 0.2/1.3 fibreboard; a mean strength first times 2/3",
	Symbols: []cite.Symbol{symClass,
		{Letter: "f", Name: "strength", Meaning: "bending strength", Unit: "MPa", Min: 1, Max: 300, Why: "wood and boards"},
		{Letter: "k", Name: "characteristic", Meaning: "1: a characteristic value (5 % are weaker); 0: a mean", Unit: "1", Min: 0, Max: 1, Whole: true, Why: "one of the two"}},
	Sources: []cite.Source{{Text: "EN 1995-1-1 (Eurocode 5)", Locator: "Tables 2.3 and 3.1, permanent load, service class 1", Label: cite.FromMemory},
		{Text: "LVL Handbook Europe, 2025", Locator: "Table 4.2: k_mod 0.60 permanent, plywood", Label: cite.Read},
		{Text: "two thirds of a mean for clear wood that varies by 16 to 20 %", Label: cite.Practice}},
	Assumes:  []string{"clear wood: a knot in the lower edge of a narrow shelf may halve it"},
	Accuracy: "meant for buildings: cautious for a shelf",
	Remedies: []string{"See SHELF-06."},
	Example:  cite.Example{In: map[string]float64{"class": 2, "strength": 40.2, "characteristic": 1}, Out: map[string]float64{"usable": 20.1}, From: "worked by hand: 40.2·0.6/1.2"},
	Eval: func(in map[string]float64) []cite.Result {
		m := Material{Strength: Value{V: in["strength"]}, Characteristic: in["characteristic"] == 1, Creep: creepClasses[int(in["class"])-1]}
		return []cite.Result{out("usable", "MPa", m.LongTermStrength())}
	},
}

var ruleMovement = &cite.Rule{
	ID: "MAT-05", Title: "Movement of solid wood",
	Question: "How much wider or narrower does a board become between two seasons?",
	Formula:  "ΔD = D·C·(M_f − M_i)",
	Symbols: []cite.Symbol{
		{Letter: "D", Name: "size", Meaning: "size across the grain", Unit: "mm", Min: 1, Max: 5000, Why: "boards"},
		{Letter: "C", Name: "coefficient", Meaning: "movement for each 1 % of moisture, radial or tangential", Unit: "1", Min: 0.0001, Max: 0.01, Why: "the table's woods"},
		{Letter: "M_i", Name: "from", Meaning: "moisture at first", Unit: "%", Min: 6, Max: 14, Why: "the linear form holds from 6 to 14 %"},
		{Letter: "M_f", Name: "to", Meaning: "moisture later", Unit: "%", Min: 6, Max: 14, Why: "the linear form holds from 6 to 14 %"}},
	Sources:  []cite.Source{movement, {Text: "a university extension's page on wood movement, citing the same table", Locator: "example: 0.00129, 5 in, 6 to 9 %: 0.019 in", Label: cite.Read}},
	Assumes:  []string{"free movement of a plain-sawn (tangential) or quarter-sawn (radial) board"},
	Accuracy: "a fifth, as woods vary",
	Remedies: []string{"Leave room in grooves; fasten in slots."},
	Example:  cite.Example{In: map[string]float64{"size": 127, "coefficient": 0.00129, "from": 6, "to": 9}, Out: map[string]float64{"change": 0.49149, "inches": 0.01935}, From: "the page's example, 0.019 in"},
	Eval: func(in map[string]float64) []cite.Result {
		d := Movement(in["size"], in["coefficient"], in["from"], in["to"])
		return []cite.Result{out("change", "mm", d), out("inches", "in", d/25.4)}
	},
}

var ruleSection = &cite.Rule{
	ID: "MAT-06", Title: "Section of a sheet",
	Question: "What are area, section modulus and second moment of a sheet a metre wide?",
	Formula:  "A = b·t; W = b·t²/6; I = b·t³/12",
	Symbols: []cite.Symbol{symSheet,
		{Letter: "b", Name: "width", Meaning: "width", Unit: "mm", Min: 1, Max: 10000, Why: "sheets"}},
	Sources:  []cite.Source{{Text: "BS 5268-2, Finnish birch-faced plywood, minimum thicknesses, as an engineering table prints it", Locator: "section properties for a width of 1 m", Label: cite.Quoted}},
	Assumes:  []string{"the thinnest sheet that the tolerance allows, where it carries: that is what the standard does"},
	Accuracy: "exact",
	Remedies: []string{"Put in the thickness as measured."},
	Example:  cite.Example{In: map[string]float64{"thick": 17.1, "width": 1000}, Out: map[string]float64{"A": 17100, "W": 48735, "I": 416684}, From: "the standard prints 17.1, 48.7 and 417 thousand"},
	Eval: func(in map[string]float64) []cite.Result {
		b, t := in["width"], in["thick"]
		return []cite.Result{out("A", "mm²", b*t), out("W", "mm³", b*t*t/6), out("I", "mm⁴", b*t*t*t/12)}
	},
}

var ruleSheetMass = &cite.Rule{
	ID: "MAT-07", Title: "Mass of a panel",
	Question: "How heavy is a panel?",
	Formula:  "m = ρ·L·W·t",
	Symbols: []cite.Symbol{
		{Letter: "ρ", Name: "density", Meaning: "density", Unit: "kg/m³", Min: 50, Max: 2000, Why: "wood and boards"},
		{Letter: "L", Name: "length", Meaning: "length", Unit: "mm", Min: 1, Max: 20000, Why: "sheets"},
		{Letter: "W", Name: "width", Meaning: "width", Unit: "mm", Min: 1, Max: 20000, Why: "sheets"}, symSheet},
	Sources:  []cite.Source{birchSheet},
	Assumes:  []string{"an even sheet at room moisture"},
	Accuracy: "5 %, as sheets vary",
	Remedies: []string{"Weigh one."},
	Example: cite.Example{In: map[string]float64{"density": 685, "length": 2440, "width": 1220, "thick": 17.7}, Out: map[string]float64{"mass": 36.0922, "perArea": 12.1245},
		From: "worked by hand; the sheet itself prints 36.7 kg, which is 18.0 mm at that density"},
	Eval: func(in map[string]float64) []cite.Result {
		area := in["density"] * in["thick"] / 1000
		return []cite.Result{out("mass", "kg", area*in["length"]*in["width"]*1e-6), out("perArea", "kg/m²", area)}
	},
}
