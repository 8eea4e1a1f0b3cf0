package bend

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{
	rulePitch, ruleNeutral, ruleClosing, ruleTrade, ruleStrain, ruleFacet, rulePlywood,
	ruleRib, ruleRail, ruleSkin, ruleClear, ruleMoment, ruleFilling, ruleLift, ruleFormer, ruleShut,
	ruleOutside, ruleForce, ruleGivenBack, ruleFloor, ruleSeam, ruleSpan, ruleStack, ruleCold,
}

// The symbols that several rules share, with the range in which the chain of
// ribs and hinges is a fair picture.
var (
	symThick = cite.Symbol{Letter: "t", Name: "thick", Meaning: "thickness of the sheet, as measured", Unit: "mm",
		Min: 3, Max: 60, Why: "sheets that are sawn part through by hand-held and bench saws"}
	symSkin = cite.Symbol{Letter: "h", Name: "skin", Meaning: "skin left under a kerf", Unit: "mm",
		Min: 0.3, Max: 12, Why: "the printed rules leave 1/64 to 1/4 in"}
	symKerf = cite.Symbol{Letter: "w", Name: "kerf", Meaning: "width of the slot, as measured", Unit: "mm",
		Min: 0.5, Max: 12, Why: "saw blades and narrow cutters"}
	symRadius = cite.Symbol{Letter: "R_o", Name: "radius", Meaning: "radius of the uncut outer face", Unit: "mm",
		Min: 10, Max: 20000, Why: "furniture"}
	symAngle = cite.Symbol{Letter: "θ", Name: "angle", Meaning: "total angle of the bend", Unit: "deg",
		Min: 1, Max: 360, Why: "up to a closed ring"}
	symCount = cite.Symbol{Letter: "N", Name: "count", Meaning: "number of kerfs", Unit: "1",
		Min: 1, Max: 2000, Whole: true, Why: "at least one"}
	symNeutral = cite.Symbol{Letter: "y_n", Name: "neutral", Meaning: "neutral line of the skin from the outer face", Unit: "mm",
		Min: 0.05, Max: 12, Why: "inside the skin", Optional: true, Else: "half the skin, as in a skin of one veneer"}
	symPitch = cite.Symbol{Letter: "s", Name: "pitch", Meaning: "spacing of the kerfs, centre to centre", Unit: "mm",
		Min: 1, Max: 500, Why: "a rib must be left between two kerfs"}
	symWidth = cite.Symbol{Letter: "b", Name: "width", Meaning: "width of the strip, along the kerfs", Unit: "mm",
		Min: 1, Max: 5000, Why: "what a sheet gives"}
	symAlong = cite.Symbol{Letter: "a", Name: "along", Meaning: "1: the face grain runs round the bend; 0: along the kerfs", Unit: "1",
		Min: 0, Max: 1, Whole: true, Why: "one of the two"}
	symSoaked = cite.Symbol{Letter: "u", Name: "soaked", Meaning: "1: bent soaked in hot water; 0: dry", Unit: "1",
		Min: 0, Max: 1, Whole: true, Why: "one of the two", Optional: true, Else: "dry"}
)

// chainSource is what the geometry of the chain rests on.
var chainSource = cite.Source{Text: "elementary geometry of straight ribs and arcs tangent to each other", Label: cite.Derived}

func rad(deg float64) float64 { return deg * math.Pi / 180 }
func deg(rad float64) float64 { return rad * 180 / math.Pi }

// neutralOf returns the neutral line given, or half the skin.
func neutralOf(in map[string]float64) float64 {
	if y, ok := in["neutral"]; ok {
		return y
	}
	return in["skin"] / 2
}

func mm(name string, v float64) cite.Result    { return cite.Result{Name: name, Unit: "mm", Value: v} }
func plain(name string, v float64) cite.Result { return cite.Result{Name: name, Unit: "1", Value: v} }

var rulePitch = &cite.Rule{
	ID: "BEND-01", Title: "Pitch of the kerfs",
	Question: "How far apart must the kerfs be for the outside to come out at the radius that was drawn?",
	Formula:  "s = w + 2·(R_n − w/α)·tan(α/2), with α = θ/N and R_n = R_o − y_n; flat length N·s; first kerf s/2 past the tangent point",
	Symbols:  []cite.Symbol{symRadius, symAngle, symCount, symSkin, symKerf, symNeutral},
	Sources:  []cite.Source{chainSource},
	Assumes: []string{
		"ribs stay straight and skins turn evenly over the width of the kerf; a hinge that reaches into the ribs moves no outside measure, as long as it is the same on both sides",
		"the skin keeps its length at the neutral line; if its inner fibres crush, the line moves out and the bend comes out large by that much",
	},
	Accuracy: "exact for the chain; an independent routine that folds the list of kerfs finds the outside within 0.001 mm",
	Remedies: []string{"Measure the kerf of this blade in this sheet before you trust the pitch.", "Set the pitch by a stop from one datum, not by a pin in the last kerf: its errors add up."},
	Example: cite.Example{
		In:   map[string]float64{"radius": 150, "angle": 90, "count": 9, "skin": 2, "kerf": 3.2},
		Out:  map[string]float64{"pitch": 26.0635, "flat": 234.572, "shared": 26.0054},
		From: "worked by hand: α 10°, R_n 149, w/α 18.335, tan 5° 0.0874887; the shared-out pitch θ·R_n/N is 0.058 mm short for each kerf",
	},
	Eval: func(in map[string]float64) []cite.Result {
		alpha := rad(in["angle"]) / in["count"]
		rn := in["radius"] - neutralOf(in)
		s := Pitch(rn, in["kerf"], alpha)
		if s <= in["kerf"] || alpha >= math.Pi/2 {
			s = math.NaN() // no rib is left: no number
		}
		return []cite.Result{mm("pitch", s), mm("flat", s*in["count"]), mm("first", s/2),
			mm("rib", s-in["kerf"]), {Name: "turn", Unit: "deg", Value: deg(alpha)},
			mm("shared", alpha*rn), mm("developed", rad(in["angle"])*rn)}
	},
}

var ruleNeutral = &cite.Rule{
	ID: "BEND-02", Title: "Neutral line of the skin",
	Question: "Which line of the skin keeps its length when the bend is pulled?",
	Formula:  "y_n = ΣE_i·h_i·y_i / ΣE_i·h_i over the layers that the saw leaves",
	Symbols: []cite.Symbol{
		{Letter: "h_1", Name: "face", Meaning: "face veneer", Unit: "mm", Min: 0.1, Max: 5, Why: "veneers"},
		{Letter: "h_2", Name: "cross", Meaning: "what is left of the first crossband", Unit: "mm", Min: 0, Max: 5, Why: "veneers"},
		{Letter: "E_1", Name: "facemodulus", Meaning: "modulus of the face along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood, across to along the grain"},
		{Letter: "E_2", Name: "crossmodulus", Meaning: "modulus of the crossband along the bend", Unit: "MPa", Min: 50, Max: 30000, Why: "wood, across to along the grain"},
	},
	Sources:  []cite.Source{{Text: "bending of a layered bar, plane sections staying plane", Label: cite.Derived}},
	Assumes:  []string{"elastic layers of equal modulus in tension and compression; wood that crushes on the inside moves the line outwards, which lessens the outer strain"},
	Accuracy: "as good as the two moduli: their ratio is known to perhaps a third",
	Remedies: []string{"Let the face grain run round the bend, with the kerfs across it: the line then lies near the face."},
	Example: cite.Example{
		In:   map[string]float64{"face": 1.1, "cross": 0.9, "facemodulus": 17500, "crossmodulus": 600},
		Out:  map[string]float64{"neutral": 0.57729},
		From: "worked by hand: (17500·1.1·0.55 + 600·0.9·1.55)/(17500·1.1 + 600·0.9) = 11424.5/19790",
	},
	Eval: func(in map[string]float64) []cite.Result {
		layers := []Layer{{in["face"], in["facemodulus"]}, {in["cross"], in["crossmodulus"]}}
		h := in["face"] + in["cross"]
		return []cite.Result{mm("neutral", Neutral(layers, h)), mm("skin", h),
			{Name: "stiffness", Unit: "N·mm²/mm", Value: SkinEI(layers, h)}}
	},
}

var ruleClosing = &cite.Rule{
	ID: "BEND-03", Title: "Closing of the kerfs",
	Question: "Do the kerfs stay open at the full angle, and by how much?",
	Formula:  "α_c = w/(t − y_n); mouth g = w − α·(t − y_n); N ≥ θ·(t − y_n)/w",
	Symbols:  []cite.Symbol{symThick, symSkin, symKerf, symAngle, symCount, symNeutral},
	Sources: []cite.Source{chainSource,
		{Text: "least mouth of 0.2 mm and three standard deviations of the kerf, for fuzz and glue", Label: cite.Practice}},
	Assumes: []string{
		"the mouth is told along its arc; the chord is smaller by under 0.001 mm",
		"fuzz and glue in the mouth are not reckoned: they shut it sooner",
	},
	Accuracy: "as good as the measured kerf: 0.05 mm on a kerf of 3 mm is 0.05 mm of mouth",
	Remedies: []string{"More kerfs: each then turns less.", "A wider blade.", "A bend that shuts is no stop for the angle: hold it on a former."},
	Example: cite.Example{
		In:   map[string]float64{"thick": 18, "skin": 2, "kerf": 3.2, "angle": 90, "count": 9},
		Out:  map[string]float64{"closesAt": 10.785, "mouth": 0.23295, "least": 9, "exactLeast": 8.3449},
		From: "worked by hand: 3.2/17 rad = 10.785°; 3.2 − 0.174533·17; 1.570796·17/3.2 = 8.345, so 9",
	},
	Eval: func(in map[string]float64) []cite.Result {
		arm := in["thick"] - neutralOf(in)
		theta := rad(in["angle"])
		if arm <= 0 {
			arm = math.NaN()
		}
		n := theta * arm / in["kerf"]
		return []cite.Result{{Name: "closesAt", Unit: "deg", Value: deg(in["kerf"] / arm)},
			mm("mouth", in["kerf"]-theta/in["count"]*arm),
			plain("least", math.Ceil(n-1e-9)), plain("exactLeast", n)}
	},
}

var ruleTrade = &cite.Rule{
	ID: "BEND-04", Title: "The trade's count of kerfs",
	Question: "What number does the old rule give: the outer arc less the inner one, over the blade?",
	Formula:  "N = θ·t/w; pitch = θ·R_o/N",
	Symbols:  []cite.Symbol{symThick, symKerf, symAngle, symRadius},
	Sources:  []cite.Source{{Text: "a woodworkers' web page on bending panels by kerfs", Locator: "panel kerf formula", Label: cite.Read}},
	Assumes:  []string{"shut kerfs, and a skin that keeps its length at the very face: one kerf too many rather than too few", "its pitch is of the outer arc, so the bend comes out a little large"},
	Accuracy: "high by t/(t − y_n), 3 to 6 %; it is shown beside BEND-03, not used",
	Remedies: []string{"Use BEND-01 and BEND-03."},
	Example: cite.Example{
		In:   map[string]float64{"thick": 18, "kerf": 3, "angle": 360, "radius": 300},
		Out:  map[string]float64{"exact": 37.699, "count": 38, "pitch": 49.604},
		From: "worked by hand: 2π·18/3 = 37.7, so 38; 2π·300/38 = 49.6",
	},
	Eval: func(in map[string]float64) []cite.Result {
		n := rad(in["angle"]) * in["thick"] / in["kerf"]
		whole := math.Ceil(n - 1e-9)
		return []cite.Result{plain("exact", n), plain("count", whole), mm("pitch", rad(in["angle"])*in["radius"]/whole)}
	},
}
