package stability

import "rodwork/internal/cite"

// WallPull returns the level force, N, with which a piece that hangs on a rail
// pulls at it, and how hard it hangs on it, N: its mass (kg) with its centre so
// far before the wall (mm), the rail so high over where it rests below (mm)
// (STAND-09).
func WallPull(kg, before, high float64) (pull, hang float64) {
	if high <= 0 {
		return 0, kg * Gravity
	}
	return kg * Gravity * before / high, kg * Gravity
}

var ruleWall = &cite.Rule{
	ID: "STAND-09", Title: "What a hanging rail pulls",
	Question: "With what force do the screws of a hanging rail pull out of the wall, and across?",
	Formula:  "F = m·g·z/h; V = m·g",
	Symbols: []cite.Symbol{mass("m", "mass", "the piece with all that is in and on it"), length("z", "before", "its centre before the wall"),
		length("h", "high", "from where it rests against the wall below, up to the screws")},
	Sources: []cite.Source{statics,
		{Text: "A. Kasal and others, Effect of material properties and anchorage location on load-bearing capacity of screw-connected and hung cabinets, Wood and Fiber Science 46(1), 2014", Locator: "abstract: cabinets hung by their sides bore more than those hung by their tops", Label: cite.Read}},
	Assumes:  []string{"the lower edge rests against the wall and does not slide", "the screws share evenly: reckon with half of them", cautions},
	Accuracy: "exact for the model; what the wall bears is not in it",
	Remedies: []string{"more screws, into studs or masonry", "a lower edge that stands on a ledger", "a shallower piece"},
	Example: cite.Example{In: map[string]float64{"mass": 40, "before": 130, "high": 600}, Out: map[string]float64{"pull": 84.9910, "hang": 392.266},
		From: "by hand: 392.27·130/600"},
	Eval: func(in map[string]float64) []cite.Result {
		p, v := WallPull(in["mass"], in["before"], in["high"])
		return []cite.Result{{Name: "pull", Unit: "N", Value: p}, {Name: "hang", Unit: "N", Value: v}}
	},
}
