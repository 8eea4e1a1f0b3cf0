package child

import (
	"math"

	"rodwork/internal/cite"
)

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleOpening, ruleHinge, ruleEdge, ruleSmall, ruleChest, ruleClimb, ruleAir, ruleVee}

var (
	bunk   = cite.Source{Text: "DIN EN 747-1:2015, Bunk beds and high beds", Locator: "4.1.2.1: no holes or gaps over 7 and under 12 mm", Label: cite.Quoted}
	play   = cite.Source{Text: "CPSC Handbook for Public Playground Safety", Locator: "B.2.5: over 3.5 in and under 9 in", Label: cite.Read}
	care   = cite.Source{Text: "Caring for Our Children, standard 6.2.1.9", Locator: "3/8 to 1 in; angles of 55° and more", Label: cite.Read}
	toys   = cite.Source{Text: "EN 71-1, Safety of toys", Locator: "4.10.3: 5 mm and 12 mm; not under 250 g", Label: cite.Read}
	kita   = cite.Source{Text: "DGUV rule 102-602, day-care centres, as digests print it", Locator: "edges rounded by 2 mm up to 2 m", Label: cite.Read}
	defers = "a figure borrowed from rules for other things: local rules and licensed people decide"
)

func mm(letter, name, meaning string, lo, hi float64) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: "mm", Min: lo, Max: hi, Why: "furniture"}
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// grade is 0 for fine, 1 for look, 2 for stop.
func grade(l Level) float64 { return map[Level]float64{Fine: 0, Look: 1, Stop: 2}[l] }

var ruleOpening = &cite.Rule{
	ID: "CHILD-01", Title: "Openings that hold a finger, a hand or a head",
	Question: "Can a child get caught in a hole, a slot or a gap?",
	Formula:  "stop: 7 < a < 12 (10 deep or more), or 88.9 < a < 228.6; look: 9.5 < a < 25.4, or a slot of 25 to 60",
	Symbols:  []cite.Symbol{mm("a", "small", "narrower side, or diameter", 0, 5000), mm("b", "large", "longer side", 0, 5000), mm("d", "deep", "how far it reaches in", 0, 5000)},
	Sources: []cite.Source{bunk, play, care, {Text: "16 CFR 1513.4, bunk beds", Locator: "(a) to (c): a block, then a sphere of 9 in", Label: cite.Read},
		{Text: "EN 716 and EN 747, gaps for limbs", Locator: "about 25 to 60 mm", Label: cite.FromMemory}},
	Assumes:  []string{"an opening that is closed all round; an open compartment is none", "parts that do not give: a springy slat lets more in", defers},
	Accuracy: "the limits as printed; probes are pushed, so that a hair inside counts as in",
	Remedies: []string{"make it smaller than 7 mm, or between 12 and 25 where it is no slot", "make it larger than 229 mm", "close it from behind"},
	Example: cite.Example{In: map[string]float64{"small": 100, "large": 300, "deep": 18}, Out: map[string]float64{"says": 2, "head": 1, "finger": 0},
		From: "between 88.9 and 228.6"},
	Eval: func(in map[string]float64) []cite.Result {
		l, what := Opening(in["small"], in["large"], in["deep"])
		return []cite.Result{{Name: "says", Unit: "1", Value: grade(l)}, {Name: "head", Unit: "1", Value: yes(what == "head")}, {Name: "finger", Unit: "1", Value: yes(what == "finger" && l == Stop)}}
	},
}

var ruleHinge = &cite.Rule{
	ID: "CHILD-02", Title: "The line of the hinges",
	Question: "Can a finger be caught between what turns and what it is hung on?",
	Formula:  "where 5 mm goes in at any angle, 12 mm must; parts under 250 g are left out",
	Symbols: []cite.Symbol{mm("s", "shut", "gap when it is shut", 0, 500), mm("o", "open", "widest gap while it opens", 0, 500),
		{Letter: "m", Name: "mass", Meaning: "mass of what turns", Unit: "kg", Min: 0, Max: 200, Why: "doors and lids"}},
	Sources:  []cite.Source{toys, {Text: "a newspaper's extract from a woodworking book", Locator: "3/16 and 1/2 in", Label: cite.Quoted}},
	Assumes:  []string{"the gap grows steadily: what opens from under 5 to over 12 mm passes through what lies between", defers},
	Accuracy: "the limits as printed",
	Remedies: []string{"a strip that covers the hinge line", "a hinge whose gap stays under 5 mm", "a closer that moves slowly"},
	Example:  cite.Example{In: map[string]float64{"shut": 2, "open": 20, "mass": 4}, Out: map[string]float64{"says": 1}, From: "it passes from 5 to 12"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "says", Unit: "1", Value: grade(HingeLine(in["shut"], in["open"], in["mass"]))}}
	},
}

var ruleEdge = &cite.Rule{
	ID: "CHILD-03", Title: "Edges that children run into",
	Question: "How round must an edge be, and up to what height?",
	Formula:  "r ≥ 2 mm up to 2000 mm",
	Symbols:  []cite.Symbol{mm("r", "radius", "rounding of the edge", 0, 100), mm("y", "high", "height over where children stand", 0, 5000)},
	Sources:  []cite.Source{kita, {Text: "DIN EN 747-1:2015", Locator: "4.1.1: edges rounded or chamfered, no burrs", Label: cite.Read}},
	Assumes:  []string{"a chamfer like it counts as well", defers},
	Accuracy: "as printed",
	Remedies: []string{"round it with a cutter of 3 mm, before the finish", "a chamfer of 2 mm, its own edges broken"},
	Example:  cite.Example{In: map[string]float64{"radius": 1, "high": 800}, Out: map[string]float64{"least": 2, "short": 1}, From: "2 − 1"},
	Eval: func(in map[string]float64) []cite.Result {
		least := EdgeRadius
		if in["high"] > EdgeHigh {
			least = 0
		}
		return []cite.Result{{Name: "least", Unit: "mm", Value: least}, {Name: "short", Unit: "mm", Value: math.Max(0, least-in["radius"])}}
	},
}

var ruleSmall = &cite.Rule{
	ID: "CHILD-04", Title: "Small parts",
	Question: "Is a part that comes off so small that a child under three can choke on it?",
	Formula:  "it goes wholly into a cylinder of 31.7 mm, 25.4 to 57.1 deep",
	Symbols:  []cite.Symbol{mm("a", "long", "length", 0.1, 1000), mm("b", "wide", "width", 0.1, 1000), mm("c", "high", "height", 0.1, 1000)},
	Sources: []cite.Source{{Text: "16 CFR 1501.4, Small parts", Locator: "(a): not wholly, in any orientation", Label: cite.Read},
		{Text: "16 CFR 1501.4, figure 1", Locator: "1.25 in; 1 to 2.25 in", Label: cite.FromMemory},
		{Text: "a newspaper's extract from a woodworking book", Locator: "knobs of 1 3/4 in and more", Label: cite.Quoted}},
	Assumes:  []string{"the part is a box; its slanting floor at mean depth", defers},
	Accuracy: "within some millimetres at the rim",
	Remedies: []string{"fix it so that it does not come off by hand", "one that is larger than 44.5 mm every way"},
	Example:  cite.Example{In: map[string]float64{"long": 16, "wide": 8, "high": 8}, Out: map[string]float64{"small": 1}, From: "a shelf pin"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "small", Unit: "1", Value: yes(Small(in["long"], in["wide"], in["high"]))}}
	},
}

var ruleChest = &cite.Rule{
	ID: "CHILD-05", Title: "A lid over a chest",
	Question: "Is a chest large enough to hold a child, and what must its lid and its openings for air be?",
	Formula:  "V ≥ 1.1 ft³: a lid that stays where it is let go; V > 30 dm³: two openings of 650 mm², 150 mm apart; d = 2·√(A/π)",
	Symbols: []cite.Symbol{{Letter: "V", Name: "volume", Meaning: "inside of the chest", Unit: "dm³", Min: 0, Max: 5000, Why: "chests"},
		{Letter: "A", Name: "area", Meaning: "of one opening", Unit: "mm²", Min: 1, Max: 1e6, Why: "holes"}},
	Sources: []cite.Source{{Text: "ASTM F834, Toy chests", Locator: "scope: 1.1 ft³ and more", Label: cite.Read},
		{Text: "ASTM F2598, clothing storage chests", Locator: "scope", Label: cite.Read},
		{Text: "EN 71-1, Safety of toys, in its Russian adoption", Locator: "over 0.03 m³: two openings of 650 mm², 150 mm apart", Label: cite.Read},
		{Text: "CPSC, advice on toy chests, release of 1 April 1982 and reprint", Locator: "lid supports, no latch", Label: cite.Read}},
	Assumes:  []string{"a stay that holds at any angle without being set; friction stays wear", defers},
	Accuracy: "as printed",
	Remedies: []string{"a stay on each side that holds at any angle", "no hinged lid: one that lifts off", "openings for air that neither wall nor floor closes"},
	Example: cite.Example{In: map[string]float64{"volume": 159.3, "area": 650}, Out: map[string]float64{"support": 1, "air": 1, "hole": 28.7682, "cubicFeet": 5.6256},
		From: "a bench of 30 × 18 × 18 in: 5.63 ft³; a round hole of 28.8 mm"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "support", Unit: "1", Value: yes(in["volume"] >= LidVolume)}, {Name: "air", Unit: "1", Value: yes(in["volume"] > AirVolume)},
			{Name: "hole", Unit: "mm", Value: VentDia(in["area"])}, {Name: "cubicFeet", Unit: "ft³", Value: in["volume"] / 28.316846592}}
	},
}

var ruleClimb = &cite.Rule{
	ID: "CHILD-06", Title: "Ledges to climb by",
	Question: "Do the shelves make a ladder, and how high does it lead?",
	Formula:  "a first step of 600 mm or less, each next within 450 mm, with 100 mm of room for a toe",
	Symbols:  []cite.Symbol{mm("y₁", "first", "height of the lowest ledge", 0, 5000), mm("p", "pitch", "from ledge to ledge", 1, 5000), {Letter: "n", Name: "count", Meaning: "number of ledges", Unit: "1", Min: 1, Max: 30, Why: "shelves", Whole: true}},
	Sources: []cite.Source{{Text: "strides of small children", Label: cite.Practice},
		{Text: "DGUV, safe day-care centres (web page)", Locator: "shelf-like pieces that children can climb are fixed to a wall", Label: cite.Read}},
	Assumes:  []string{"children climb what they can, also doors and drawers: those are in the states of STAND-01", defers},
	Accuracy: "a rule of thumb",
	Remedies: []string{"anchor it to the wall", "doors over the lower shelves", "nothing on top that a child would climb for"},
	Example:  cite.Example{In: map[string]float64{"first": 100, "pitch": 320, "count": 5}, Out: map[string]float64{"high": 1380, "steps": 5}, From: "100 + 4·320"},
	Eval: func(in map[string]float64) []cite.Result {
		var ys []float64
		for i := range int(in["count"]) {
			ys = append(ys, in["first"]+float64(i)*in["pitch"])
		}
		h, n := Climb(ys)
		return []cite.Result{{Name: "high", Unit: "mm", Value: h}, {Name: "steps", Unit: "1", Value: float64(n)}}
	},
}

// MgPerPpm turns formaldehyde in air from ppm to mg/m³ at 20 °C: 30.03 g/mol
// over 24.06 l/mol, as the limits are printed (0.1 ppm for 0.124 mg/m³).
const MgPerPpm = 1.24

// AskFor is the formaldehyde that boards for a child's piece should stay under,
// mg/m³: the limit of (EU) 2023/1464 for furniture (digests, read).
const AskFor = 0.062

var ruleAir = &cite.Rule{
	ID: "CHILD-07", Title: "What boards give off",
	Question: "What formaldehyde limit should the boards keep, and what is a printed class in the other unit?",
	Formula:  "c(mg/m³) = 1.24·c(ppm); ask for 0.062 mg/m³ or less",
	Symbols:  []cite.Symbol{{Letter: "c", Name: "ppm", Meaning: "printed limit", Unit: "ppm", Min: 0, Max: 1, Why: "classes of boards"}},
	Sources: []cite.Source{{Text: "Fraunhofer WKI, on EN 717-1", Locator: "E1: 0.124 mg/m³ = 0.1 ppm", Label: cite.Read},
		{Text: "Regulation (EU) 2023/1464, REACH entry 77, digests", Locator: "0.062 mg/m³ for furniture from 6 August 2026", Label: cite.Read},
		{Text: "Public Law 111-199, 124 Stat. 1363 (TSCA Title VI)", Locator: "hardwood plywood 0.05 ppm, MDF 0.11 ppm", Label: cite.Read}},
	Assumes:  []string{"test chambers differ: a class is no room", defers},
	Accuracy: "as printed",
	Remedies: []string{"boards with a report to that limit", "seal cut edges", "air the room for the first weeks"},
	Example:  cite.Example{In: map[string]float64{"ppm": 0.1}, Out: map[string]float64{"air": 0.124, "times": 2}, From: "E1, twice what is asked for"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "air", Unit: "mg/m³", Value: MgPerPpm * in["ppm"]}, {Name: "times", Unit: "1", Value: MgPerPpm * in["ppm"] / AskFor}}
	},
}
