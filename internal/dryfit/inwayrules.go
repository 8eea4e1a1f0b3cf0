package dryfit

import "rodwork/internal/cite"

// DriverRule tells whether a screw can be driven.
var DriverRule = &cite.Rule{
	ID:       "WAY-01",
	Title:    "A way for the driver",
	Question: "Is there a straight way to each screw when it is driven?",
	Formula:  "short = max(0, n − r)",
	Symbols: []cite.Symbol{
		{Letter: "r", Name: "room", Meaning: "how far the way in line with the screw is open, from its head", Unit: "mm", Min: 0, Max: 10000, Why: "a room"},
		{Letter: "n", Name: "need", Meaning: "length of the bit in its holder", Unit: "mm", Min: 0, Max: 1000, Why: "a hand tool", Optional: true, Else: "200 mm straight, 70 mm angled"},
	},
	Sources: []cite.Source{{Text: "a long bit in its holder, 200 mm, and the bit of an angled driver, 70 mm, both 12 mm thick", Label: cite.Practice}},
	Assumes: []string{
		"the way is that of the order of assembly: what comes in later is not in the way",
		"the bit stands in line with the screw, and the body of the driver, which is thicker, is past what stands near: a screw may be hard to reach that is said to be free",
		"screws in bent parts are not looked at",
	},
	Accuracy: "exact on the solids; the driver's own size is a rough one",
	Remedies: []string{"drive them before the part in the way comes in", "from the other side", "dowels"},
	Example:  cite.Example{In: map[string]float64{"room": 120, "need": 200}, Out: map[string]float64{"short": 80}, From: "by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		need, ok := in["need"]
		if !ok {
			need = driverRoom
		}
		return []cite.Result{{Name: "short", Unit: "mm", Value: max(0, need-in["room"])}}
	},
}

// HingeRule tells whether a hinge's plate has its room.
var HingeRule = &cite.Rule{
	ID:       "WAY-02",
	Title:    "Room for a hinge's plate",
	Question: "Does a shelf or another part lie where a hinge's plate and arm are?",
	Formula:  "into = r",
	Symbols: []cite.Symbol{
		{Letter: "r", Name: "reach", Meaning: "least side of what a part has of the plate's room", Unit: "mm", Min: 0, Max: 1000, Why: "a plate"},
	},
	Sources: []cite.Source{{Text: "a plate with its arm: 56 mm high, 32 mm before and behind its holes, 18 mm off the upright", Label: cite.Practice}},
	Assumes: []string{
		"hinges of all makes are taken to need the same room: measure yours",
		"the hinge is looked at with its door shut; plates on bent parts are not looked at",
	},
	Accuracy: "a few millimetres",
	Remedies: []string{"move the shelf by a hole of its row", "set it back", "move the hinge"},
	Example:  cite.Example{In: map[string]float64{"reach": 18}, Out: map[string]float64{"into": 18}, From: "by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "into", Unit: "mm", Value: in["reach"]}}
	},
}

// SlideRule tells whether a slide is clear of other hardware's holes.
var SlideRule = &cite.Rule{
	ID:       "WAY-03",
	Title:    "A slide and other holes",
	Question: "Are there holes for pins or hinges where a drawer runs on its slide?",
	Formula:  "covered = n",
	Symbols: []cite.Symbol{
		{Letter: "n", Name: "holes", Meaning: "holes of the upright that lie beside the drawer's side", Unit: "1", Min: 0, Max: 1000, Why: "a row", Whole: true},
	},
	Sources:  []cite.Source{{Text: "two things can't be in one place; seen square to the upright", Label: cite.Derived}},
	Assumes:  []string{"the slide is taken to lie anywhere beside the drawer's side, as its height is not told: errs on the side of a warning"},
	Accuracy: "exact for the holes' places",
	Remedies: []string{"begin the row of pins above the drawer", "move the hinge"},
	Example:  cite.Example{In: map[string]float64{"holes": 3}, Out: map[string]float64{"covered": 3}, From: "by hand"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "covered", Unit: "1", Value: in["holes"]}}
	},
}
