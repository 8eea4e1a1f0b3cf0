package design

import "rodwork/internal/units"

// airObject describes the room's air over the year.
var airObject = &object{
	name: "air", doc: "The room's relative humidity over the year: what its solid wood must have room for.",
	fields: []field{
		amount("dry", units.None, 0.05, 0.9, "At its driest, `30 %`.").orElse(0.30, "30 % in a heated room in winter: common practice"),
		amount("damp", units.None, 0.1, 0.95, "At its dampest, `65 %`.").orElse(0.65, "65 % in a damp summer: common practice"),
	},
}

// edgesObject describes how the edges that can be reached are broken.
var edgesObject = &object{
	name: "edges", short: "round", doc: "How the edges that a hand can reach are made, once it is glued up: rounded or chamfered, before the finish.",
	fields: []field{
		length("round", 0.2, 30, "Radius of the rounding."),
		length("chamfer", 0.2, 30, "Width of a chamfer's legs, in place of a rounding."),
		{key: "sharp", kind: nameList, words: edgeRoles, doc: "Roles of parts that keep their edges as they are sawn."},
	},
}

// edgeRoles are the words that 'sharp' takes.
var edgeRoles = []string{"shell", "side", "top", "bottom", "divider", "board", "shelf", "edging", "back", "rail", "plinth", "leg", "post",
	"door", "drawer front", "drawer", "lid", "front panel", "free"}
