package bend

import (
	"math"

	"rodwork/internal/cite"
)

var magazine1991 = cite.Source{Text: "a workshop magazine, no. 77, October 1991", Locator: "kerf bending, as reproduced on a web archive", Label: cite.Read}

var ruleFacet = &cite.Rule{
	ID: "BEND-06", Title: "Facets of the show face",
	Question: "Will the flats between the kerfs be seen, and can they be sanded away?",
	Formula:  "e = (s − w)/2·tan(α/4), about s·(s − w)/(8·R_n): the peaks stand over the kerfs; e + sanding ≤ a third of the face veneer",
	Symbols: []cite.Symbol{symPitch, symKerf,
		{Letter: "α", Name: "turn", Meaning: "turn at one kerf", Unit: "deg", Min: 0.05, Max: 60, Why: "one kerf of a bend"}, symRadius},
	Sources: []cite.Source{chainSource, magazine1991,
		{Text: "a third of the face veneer is left alone", Label: cite.Practice}},
	Assumes: []string{
		"the skin turns evenly over the kerf; a sharp crease would give the full s²/(8R), shown beside it",
		"print knows two spacings only: 'could hardly be seen' (0.008 mm by this formula; 0.017 by the full one) and 'noticeable flats' (0.050; 0.066); kerf and skin of the report are taken",
	},
	Accuracy: "exact for the chain; what an eye sees hangs on light and gloss",
	Remedies: []string{"More kerfs.", "A matt finish.", "A face veneer glued on after bending."},
	Example: cite.Example{
		In:   map[string]float64{"pitch": 26.0635, "kerf": 3.2, "turn": 10, "radius": 150},
		Out:  map[string]float64{"facet": 0.49909, "full": 0.5661},
		From: "worked by hand: 11.43175·tan 2.5°; 26.0635²/1200",
	},
	Eval: func(in map[string]float64) []cite.Result {
		rib := in["pitch"] - in["kerf"]
		if rib <= 0 {
			rib = math.NaN()
		}
		return []cite.Result{mm("facet", rib/2*math.Tan(rad(in["turn"])/4)), mm("full", in["pitch"]*in["pitch"]/(8*in["radius"])),
			mm("unseen", FacetUnseen), mm("seen", FacetSeen)}
	},
}

var ruleRib = &cite.Rule{
	ID: "BEND-08", Title: "Least rib",
	Question: "Are the ribs between the kerfs wide enough to stand the saw and the clamps?",
	Formula:  "s − w ≥ max(3 mm, w): under that look, under half of it stop",
	Symbols:  []cite.Symbol{symPitch, symKerf},
	Sources:  []cite.Source{{Text: "ribs of 3 mm or of the kerf's width stand; narrower ones of plywood lose chips between the veneers", Label: cite.Practice}},
	Assumes:  []string{"plywood with sound glue lines, a sharp blade; knots and gaps break wider ribs too"},
	Accuracy: "a habit, not a measured limit",
	Remedies: []string{"Fewer kerfs, if strain and mouth allow.", "A narrower blade.", "A larger radius."},
	Example: cite.Example{
		In: map[string]float64{"pitch": 6.5, "kerf": 2.2}, Out: map[string]float64{"rib": 4.3, "least": 3},
		From: "worked by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{mm("rib", in["pitch"]-in["kerf"]), mm("least", math.Max(DefaultRib, in["kerf"]))}
	},
}

var ruleRail = &cite.Rule{
	ID: "BEND-09", Title: "Meeting a rail",
	Question: "What round rail fits inside the bend, and how far do the ribs' edges stand off it?",
	Formula:  "a = (s − w)/(2·tan(α/2)) + w/α − (t − y_n), with the exact pitch a = R_o − t; gap = √(a² + ((s − w)/2)²) − a",
	Symbols: []cite.Symbol{symPitch, symKerf,
		{Letter: "α", Name: "turn", Meaning: "turn at one kerf", Unit: "deg", Min: 0.05, Max: 60, Why: "one kerf of a bend"},
		symThick, symSkin, symNeutral},
	Sources:  []cite.Source{chainSource},
	Assumes:  []string{"rib tips are flat and square; the rail touches each at its middle, so glue holds on lines, not on an area"},
	Accuracy: "exact for the chain",
	Remedies: []string{"Plane flats on the rail to meet the ribs.", "A gap-filling glue.", "More kerfs."},
	Example: cite.Example{
		In:   map[string]float64{"pitch": 26.0635, "kerf": 3.2, "turn": 10, "thick": 18, "skin": 2},
		Out:  map[string]float64{"rail": 132, "gap": 0.49406},
		From: "worked by hand: 11.43175/0.0874887 + 18.3346 − 17 = 132.00 = 150 − 18; 11.43175²/264 less a hair",
	},
	Eval: func(in map[string]float64) []cite.Result {
		half, alpha := (in["pitch"]-in["kerf"])/2, rad(in["turn"])
		a := half/math.Tan(alpha/2) + in["kerf"]/alpha - (in["thick"] - neutralOf(in))
		if half <= 0 || a <= 0 {
			a = math.NaN()
		}
		return []cite.Result{mm("rail", a), mm("gap", math.Hypot(a, half)-a)}
	},
}

var ruleClear = &cite.Rule{
	ID: "BEND-11", Title: "Clear of a bend",
	Question: "How near to a bend may a hole, a housing, a hinge plate or a seam be?",
	Formula:  "c = (s − w)/2 + 12 mm from the tangent point",
	Symbols:  []cite.Symbol{symPitch, symKerf},
	Sources:  []cite.Source{{Text: "half a rib and 12 mm stay untouched beyond a tangent point", Label: cite.Practice}},
	Assumes:  []string{"a hole or housing nearer by weakens the first rib, which takes the end of the bend's moment"},
	Accuracy: "a habit, not a measured limit",
	Remedies: []string{"Move the hole or the plate along the flat.", "A smaller radius, or a longer flat."},
	Example: cite.Example{
		In: map[string]float64{"pitch": 6.5, "kerf": 2.2}, Out: map[string]float64{"clear": 14.15}, From: "worked by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{mm("clear", (in["pitch"]-in["kerf"])/2+TangentMargin)}
	},
}

var ruleFilling = &cite.Rule{
	ID: "BEND-13", Title: "Glue to fill the kerfs",
	Question: "How much filled glue would it take to lock the bend by filling its kerfs?",
	Formula:  "V = b·N·d·(w + g)/2, with d = t − h and g the mouth by BEND-03",
	Symbols:  []cite.Symbol{symWidth, symThick, symSkin, symKerf, symAngle, symCount, symNeutral},
	Sources:  []cite.Source{{Text: "volume of tapered slots", Label: cite.Derived}},
	Assumes:  []string{"slots filled to the brim; water in the glue swells the ribs and prints through a thin skin, which is why kerfs are left empty unless you say otherwise"},
	Accuracy: "a tenth, as slots are never filled evenly",
	Remedies: []string{"Hold the bend by rails and an inner ply instead."},
	Example: cite.Example{
		In:   map[string]float64{"width": 400, "thick": 18, "skin": 2, "kerf": 3.2, "angle": 90, "count": 24},
		Out:  map[string]float64{"volume": 406053, "litres": 0.406053},
		From: "worked by hand: g = 3.2 − 0.0654498·17 = 2.08735; 400·24·16·2.643675",
	},
	Eval: func(in map[string]float64) []cite.Result {
		arm := in["thick"] - neutralOf(in)
		g := in["kerf"] - rad(in["angle"])/in["count"]*arm
		if g < 0 || in["thick"] <= in["skin"] {
			g = math.NaN()
		}
		v := in["width"] * in["count"] * (in["thick"] - in["skin"]) * (in["kerf"] + g) / 2
		return []cite.Result{{Name: "volume", Unit: "mm³", Value: v}, {Name: "litres", Unit: "l", Value: v * 1e-6}}
	},
}

var ruleLift = &cite.Rule{
	ID: "BEND-14", Title: "The lift test",
	Question: "Where does one kerf shut, tried on an offcut: how far does the free end lift?",
	Formula:  "lift = R·sin(α_c), with α_c = w/(t − y_n), at the distance R from the kerf; closing pitch R_n·α_c",
	Symbols:  []cite.Symbol{symRadius, symThick, symSkin, symKerf, symNeutral},
	Sources:  []cite.Source{{Text: "D. J. Culhane, 'A Measured Approach to Kerfing', in Technical Design Solutions for Theatre, Focal Press", Locator: "ch. 78", Label: cite.Read}},
	Assumes:  []string{"the pivot is the neutral line of the skin; one taken at the root of the kerf gives 6 % more for 2 mm of skin in 18"},
	Accuracy: "the lift and the closing pitch agree to h/(2R) and the chord, well under 1 %",
	Remedies: []string{"Try it: it measures your blade and sheet together."},
	Example: cite.Example{
		In:   map[string]float64{"radius": 150, "thick": 18, "skin": 2, "kerf": 3.2},
		Out:  map[string]float64{"lift": 28.0687, "closingPitch": 28.047},
		From: "worked by hand: 150·sin(3.2/17); 149·3.2/17",
	},
	Eval: func(in map[string]float64) []cite.Result {
		y := neutralOf(in)
		a := in["kerf"] / (in["thick"] - y)
		if a <= 0 || a > 1 {
			a = math.NaN()
		}
		return []cite.Result{mm("lift", in["radius"]*math.Sin(a)), mm("closingPitch", (in["radius"]-y)*a)}
	},
}

var ruleFormer = &cite.Rule{
	ID: "BEND-15", Title: "Former of a laminated bend",
	Question: "To what radius and angle must the former be made, so that the lamination springs back to the drawn one?",
	Formula:  "R_f = R·(1 − 1/n²), θ_f = θ/(1 − 1/n²), at mid-thickness",
	Symbols: []cite.Symbol{
		{Letter: "R", Name: "radius", Meaning: "radius at mid-thickness that is wanted", Unit: "mm", Min: 10, Max: 20000, Why: "furniture"},
		symAngle,
		{Letter: "n", Name: "plies", Meaning: "number of equal plies", Unit: "1", Min: 2, Max: 50, Whole: true, Why: "one ply alone springs back wholly"},
	},
	Sources: []cite.Source{{Text: "elastic plies bent without shear and then bonded: the stack keeps 1 − 1/n² of its curvature", Label: cite.Derived},
		{Text: "a boat builders' discussion of laminated deck beams", Locator: "y = x/n²", Label: cite.Read},
		{Text: "Forests 2020, 11(7):725, springback of laminated beech stacks molded within the elastic range", Locator: "abstract: stacks of 2 to 16 plies; the die's radius hardly matters", Label: cite.Read}},
	Assumes:  []string{"equal elastic plies and a glue line that does not creep; PVA creeps, so a little more is given back in the first weeks"},
	Accuracy: "a tenth of the spring-back",
	Remedies: []string{"More, thinner plies.", "A glue that does not creep."},
	Example: cite.Example{
		In:   map[string]float64{"radius": 200, "angle": 90, "plies": 3},
		Out:  map[string]float64{"former": 177.778, "formerAngle": 101.25, "lost": 0.111111},
		From: "worked by hand: 1 − 1/9",
	},
	Eval: func(in map[string]float64) []cite.Result {
		lost := 1 / (in["plies"] * in["plies"])
		return []cite.Result{mm("former", in["radius"]*(1-lost)),
			{Name: "formerAngle", Unit: "deg", Value: in["angle"] / (1 - lost)}, plain("lost", lost)}
	},
}

var ruleShut = &cite.Rule{
	ID: "BEND-16", Title: "Angle of a shut bend",
	Question: "If the bend is made with shut kerfs, how far off is its angle when the blade is a little wide?",
	Formula:  "θ = N·w/(t − y_n); dθ = N·δw/(t − y_n)",
	Symbols: []cite.Symbol{symThick, symSkin, symKerf, symCount, symNeutral,
		{Letter: "δw", Name: "error", Meaning: "error of the kerf's width", Unit: "mm", Min: 0, Max: 2, Why: "blades"}},
	Sources:  []cite.Source{chainSource},
	Assumes:  []string{"one blade's error is the same in every kerf of a strip, so it adds N times; errors of single kerfs add as √N only"},
	Accuracy: "exact for the chain",
	Remedies: []string{"Leave the kerfs open and let the former set the angle: then the blade moves no outside measure."},
	Example: cite.Example{
		In:   map[string]float64{"thick": 18, "skin": 2, "kerf": 3.2, "count": 9, "error": 0.05},
		Out:  map[string]float64{"angle": 97.066, "off": 1.51666},
		From: "worked by hand: 9·3.2/17 rad; 9·0.05/17 rad",
	},
	Eval: func(in map[string]float64) []cite.Result {
		arm := in["thick"] - neutralOf(in)
		if arm <= 0 {
			arm = math.NaN()
		}
		return []cite.Result{{Name: "angle", Unit: "deg", Value: deg(in["count"] * in["kerf"] / arm)},
			{Name: "off", Unit: "deg", Value: deg(in["count"] * in["error"] / arm)}}
	},
}
