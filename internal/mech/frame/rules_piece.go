package frame

import (
	"math"

	"rodwork/internal/cite"
)

var ruleJoint = &cite.Rule{
	ID: "FRAME-04", Title: "Stiffness and strength of a joint",
	Question: "How stiff is a joint against turning, and what moment may it be given?",
	Formula:  "k = c·b·h², M = s·f·b·h²/6",
	Symbols: []cite.Symbol{
		{Letter: "b", Name: "wide", Meaning: "length of the joint, across the plane in which it turns", Unit: "mm", Min: 1, Max: 5000, Why: "panels and rails"},
		{Letter: "h", Name: "high", Meaning: "thickness of the part that ends there, in that plane", Unit: "mm", Min: 1, Max: 500, Why: "panels and rails"},
		{Letter: "f", Name: "strength", Meaning: "what the part itself may bear in bending", Unit: "MPa", Min: 1, Max: 200, Why: "wood and boards"},
		{Letter: "c", Name: "stiff", Meaning: "stiffness of the kind: 40 lap, 30 dowels and tenons, 10 housing and rabbet, 6 mitre, 5 butt, notch, groove, 4 screws; a third without glue", Unit: "MPa/rad", Min: 0, Max: 100, Why: "kinds of joint"},
		{Letter: "s", Name: "share", Meaning: "share of the part's own moment that the kind bears: 0.5 to 0.1", Unit: "1", Min: 0, Max: 1, Why: "kinds of joint"},
	},
	Sources: []cite.Source{
		{Text: "cautious values of this project; tests of single corners scatter by a factor of three", Label: cite.Practice},
		{Text: "N. Tankut, Effect of various factors on the rigidity of furniture cases, African Journal of Biotechnology", Locator: "abstract: screws with glue made stiffer cases than glued dowels, dry joints softer ones", Label: cite.Read},
		{Text: "M. Atar and A. Özçifçi, The effects of screw and back panels on the strength of corner joints in case furniture, Materials & Design 29, 2008", Locator: "abstract: corners of boards bore 78.7 to 181.7 N·m", Label: cite.Read}},
	Assumes:  []string{"a joint that fits: one with gaps is soft until it bears"},
	Accuracy: "to a factor of two or three: the values are at the low end",
	Remedies: []string{"glue it", "a joint of another kind", "a thicker part"},
	Example: cite.Example{
		In:   map[string]float64{"wide": 400, "high": 18, "strength": 20, "stiff": 10, "share": 0.2},
		Out:  map[string]float64{"spring": 1296000, "moment": 86400},
		From: "by hand: 10·400·18²; 0.2·20·400·18²/6",
	},
	Eval: func(in map[string]float64) []cite.Result {
		bh := in["wide"] * in["high"] * in["high"]
		return []cite.Result{{Name: "spring", Unit: "N·mm/rad", Value: in["stiff"] * bh}, {Name: "moment", Unit: "N·mm", Value: in["share"] * in["strength"] * bh / 6}}
	},
}

// Lean is what a frame's stiffness says of how it stands: the share of its
// height by which it leans under a push, and how many times its stiffness is
// what its own weight would need (under 1 it folds up by itself).
func Lean(push, sway, high, kg float64) (share, reserve float64) {
	share = sway / high
	if weight := kg * gravity; weight > 0 && sway > 0 {
		return share, push / sway * high / weight
	}
	return share, math.Inf(1)
}

const gravity = 9.80665

// Limits of leaning (common practice).
const (
	Push        = 300.0     // N, level, at the top
	LeanSeen    = 1.0 / 200 // of the height: more is felt as a wobble
	LeanStop    = 1.0 / 40  // of the height: doors jam, joints work loose
	ReserveStop = 3.0       // times what its own weight and load would need
)

var ruleLean = &cite.Rule{
	ID: "FRAME-05", Title: "Racking",
	Question: "How far does the piece lean under a push at its top, and is it stiff enough for the weight that it carries?",
	Formula:  "lean = sway/h; reserve = (P/sway)·h/(m·g)",
	Symbols: []cite.Symbol{symPush,
		{Letter: "δ", Name: "sway", Meaning: "how far the top moves under the push", Unit: "mm", Min: 0.0001, Max: 1e4, Why: "a frame that still stands"},
		length("h", "high", "height of what sways", 5000),
		{Letter: "m", Name: "mass", Meaning: "the piece with all that it carries", Unit: "kg", Min: 0.1, Max: 5000, Why: "furniture"}},
	Sources: []cite.Source{{Text: "a push of 300 N at the top; more than 1/200 of the height is felt, more than 1/40 works joints loose; stiffness three times what the weight needs", Label: cite.Practice},
		{Text: "a weight on a leaning spring: it folds where its stiffness is less than m·g/h", Label: cite.Derived}},
	Assumes:  []string{"the whole weight at the top: cautious for shelves", "a floor on which the feet neither slip nor turn away", "doors and contents add no stiffness"},
	Accuracy: "as good as the stiffness of the joints, a factor of two",
	Remedies: []string{"a back, glued or screwed all round", "glued joints, or a rail across", "fix it to the wall by its top"},
	Example: cite.Example{
		In:   map[string]float64{"push": 300, "sway": 6, "high": 900, "mass": 60},
		Out:  map[string]float64{"lean": 0.0066667, "reserve": 76.4787},
		From: "by hand: 6/900; 50·900/588.4",
	},
	Eval: func(in map[string]float64) []cite.Result {
		share, reserve := Lean(in["push"], in["sway"], in["high"], in["mass"])
		return []cite.Result{{Name: "lean", Unit: "1", Value: share}, {Name: "reserve", Unit: "1", Value: reserve}}
	},
}

// Leg is how a leg of the height h (mm) stands that is held at its head by a
// spring (N·mm/rad; Rigid: not at all) and pushed at its foot by a level force
// (N) while it bears a load (N) along it.
type Leg struct {
	High, Wide, Deep float64 // Deep is in the plane in which it is pushed
	E, Spring        float64
	Side, Down       float64 // N
}

// Stand returns how far the foot goes (mm), the moment at the head (N·mm) and
// the stress there (MPa) (FRAME-06).
func (l Leg) Stand() (sway, moment, stress float64) {
	i := l.Wide * l.Deep * l.Deep * l.Deep / 12
	moment = l.Side * l.High
	sway = moment * l.High * l.High / (3 * l.E * i)
	if !math.IsInf(l.Spring, 1) {
		sway += moment * l.High / l.Spring
	}
	return sway, moment, moment*l.Deep/2/i + l.Down/(l.Wide*l.Deep)
}

var ruleLeg = &cite.Rule{
	ID: "FRAME-06", Title: "A leg that is pushed",
	Question: "How far does a leg give, and what do it and its joint bear, when the piece is pushed or shoved along?",
	Formula:  "δ = H·h³/(3·E·I) + H·h²/k; M = H·h; σ = M·d/(2·I) + N/(b·d), I = b·d³/12",
	Symbols: []cite.Symbol{
		{Letter: "H", Name: "side", Meaning: "level force on the leg", Unit: "N", Min: 0, Max: 5000, Why: "people"},
		{Letter: "N", Name: "down", Meaning: "load along the leg", Unit: "N", Min: 0, Max: 20000, Why: "furniture"},
		length("h", "high", "from its joint to the floor", 3000),
		length("b", "wide", "width of the leg, across the push", 1000), length("d", "deep", "its thickness in the way of the push", 1000),
		symE, symSpring},
	Sources: []cite.Source{{Text: "a cantilever with a spring at its root", Label: cite.Derived}},
	Assumes: []string{"the feet share the push evenly: one that catches on a rug takes it all", "a leg of one section: a tapered one bears less at its foot, where the moment is least",
		"limits of habit: a fiftieth of its height is felt, a tenth is too much, and the joints bear no more than FRAME-04 says"},
	Accuracy: "as good as the joint's stiffness",
	Remedies: []string{"a stouter leg", "a rail between the legs", "a joint that holds more"},
	Example: cite.Example{
		In:   map[string]float64{"side": 75, "down": 250, "high": 400, "wide": 40, "deep": 40, "modulus": 12000, "spring": 2e6},
		Out:  map[string]float64{"sway": 6.625, "moment": 30000, "stress": 2.96875},
		From: "by hand: I = 213 333; 75·400³/(3·12000·I) + 75·400²/2·10⁶; 30000·20/I + 250/1600",
	},
	Eval: func(in map[string]float64) []cite.Result {
		k := in["spring"]
		if k <= 0 {
			return []cite.Result{{Name: "sway", Unit: "mm", Value: math.Inf(1)}}
		}
		l := Leg{High: in["high"], Wide: in["wide"], Deep: in["deep"], E: in["modulus"], Spring: k, Side: in["side"], Down: in["down"]}
		sway, moment, stress := l.Stand()
		return []cite.Result{{Name: "sway", Unit: "mm", Value: sway}, {Name: "moment", Unit: "N·mm", Value: moment}, {Name: "stress", Unit: "MPa", Value: stress}}
	},
}

// Pressure is the pressure on the floor, MPa, of a load (kg) on an area (mm²)
// (FRAME-07).
func Pressure(kg, area float64) float64 { return kg * gravity / area }

// FloorMay is what a floor takes without a mark, MPa, by what it is called:
// across the grain soft boards yield at a few MPa, for years at less; carpets
// and cork are marked by far less (common practice). Others are taken as boards.
func FloorMay(floor string) float64 {
	switch floor {
	case "carpet", "cork", "vinyl", "linoleum", "lino":
		return 0.5
	case "concrete", "stone", "tiles", "tile", "screed":
		return 10
	}
	return 2
}

var rulePressure = &cite.Rule{
	ID: "FRAME-07", Title: "Pressure on the floor",
	Question: "Does what the piece stands on mark the floor?",
	Formula:  "p = m·g/A",
	Symbols: []cite.Symbol{{Letter: "m", Name: "mass", Meaning: "what rests on the foot", Unit: "kg", Min: 0, Max: 5000, Why: "furniture"},
		{Letter: "A", Name: "area", Meaning: "what of the foot touches the floor", Unit: "mm²", Min: 1, Max: 1e7, Why: "feet and plinths"}},
	Sources:  []cite.Source{{Text: "0.5 MPa for carpet, cork and vinyl, 2 for boards, 10 for stone", Label: cite.Practice}},
	Assumes:  []string{"a flat floor: on a hollow one the piece stands on its corners, which press harder"},
	Accuracy: "for the mean pressure",
	Remedies: []string{"broader feet, or a glide of felt under each", "a plinth all round"},
	Example:  cite.Example{In: map[string]float64{"mass": 60, "area": 600}, Out: map[string]float64{"pressure": 0.980665}, From: "by hand: 588.4/600"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "pressure", Unit: "MPa", Value: Pressure(in["mass"], in["area"])}}
	},
}
