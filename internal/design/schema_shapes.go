package design

import "rodwork/internal/units"

// point is a field of two lengths.
func point(key, doc string) field {
	return field{key: key, kind: amountList, dim: units.Length, min: -6000, max: 6000, doc: doc}
}

var outlineObject = &object{
	name: "outline", doc: "A flat shape, x to the right and y up: `corners` with roundings, or the paths of an SVG drawing.",
	fields: []field{
		list("corners", outlineCornerObject, "Corners in order round the shape, three or more."),
		list("cut-outs", cutOutObject, "Holes in it."),
		text("path", "An SVG drawing beside the piece file, by its name: `leg.svg`. Its paths are taken at their size in mm, y up."),
	},
}

var outlineCornerObject = &object{
	name: "outline corner", doc: "One corner of an outline.",
	fields: []field{
		point("at", "Where it is: [x, y].").required(),
		length("round", 0, 3000, "Radius of its rounding.").orElse(0, "a corner is sharp where the file does not round it"),
	},
}

var cutOutObject = &object{
	name: "cut out", doc: "A hole in an outline: `corners`, or a round one with `at` and `diameter`.",
	fields: []field{
		list("corners", outlineCornerObject, "Corners in order round the hole."),
		point("at", "Centre of a round hole: [x, y]."),
		length("diameter", 1, 2000, "Diameter of a round hole."),
	},
}

var partObject = &object{
	name: "part", item: "name", doc: "A part that is placed by itself. It is joined to what it touches.",
	fields: []field{
		text("name", "What it is called.").required(),
		named("stock", "role or stock", "Role or stock, if not that of `panels`."),
		text("outline", "The name of an outline, or `\"rect(width, height)\"`.").required(),
		{key: "at", kind: amountList, dim: units.Length, min: -6000, max: 6000, need: true,
			doc: "Where its box begins: [from the left, from the floor, from the back]."},
		word("turn", "The way that it lies: `facing` the front; `upright`, its outline seen from the right end with the front at the left; `level`, seen from above with the front at the foot.",
			"facing", "upright", "level").required().except("none", "write 'facing'"),
		amount("angle", units.Angle, -3.2, 3.2, "Turns the outline anticlockwise in its plane; a bare number is in degrees.").
			orElse(0, "an outline is not turned where the file does not say it"),
		word("grain", "The way of its grain: along the outline's x or across it.", "along", "across").
			orWord("along", "the grain runs along the outline's x where the file does not say it"),
		word("fix", "How it is held where it touches other parts.", "glued", "screwed", "loose").
			orWord("glued", "parts that touch are glued where the file does not say it"),
	},
}

var windowObject = &object{
	name: "window", doc: "The opening in the front of a shell that bends in plan.",
	fields: []field{
		length("above", 10, 3000, "What is left of the strip above it.").required(),
		length("below", 10, 3000, "What is left of the strip below it.").required(),
		length("sides", 10, 2000, "What is left of the strip's straight runs beside it, from the back.").required(),
		length("round", 0, 500, "Radius of its corners.").orElse(20, "the corners of a window are rounded by 20 mm, so that they do not tear: common practice, no source"),
	},
}

var frameObject = &object{
	name: "frame", doc: "Four posts and the rails between them.",
	fields: []field{
		named("posts", "role or stock", "Role or stock of the posts, if not `posts`."),
		length("post width", 15, 200, "Width of a post from left to right; its depth is its stock's thickness.").required(),
		word("joint", "How rails are joined to posts: on the same line, or with half of each cut away where the rail lies over the post.", "dowel", "loose tenon", "lap").orWord("dowel", "rails are dowelled to posts where the file does not say it").
			except("tenon", "write 'loose tenon'"),
		list("rails", frameRailObject, "Rails; those at the ends come in pairs."),
		inner("top", frameTopObject),
		inner("splay", splayObject),
	},
}

var frameRailObject = &object{
	name: "frame rail", doc: "A rail of a frame.",
	fields: []field{
		word("at", "Where it runs; `ends` is one at each end.", "top front", "top back", "top ends", "bottom front", "bottom back", "bottom ends").required(),
		length("height", 15, 600, "How high it is.").required(),
		length("up", 0, 2000, "Lower edge of a bottom rail over the floor.").orElse(80, "a low rail runs 80 mm over the floor, clear of feet and brooms: common practice, no source"),
		length("set back", 0, 200, "Of its outer face behind that of the posts.").orElse(3, "rails stand 3 mm behind the posts, which hides that neither is quite flat: common practice, no source"),
		named("stock", "role or stock", "Role or stock, if not that of `rails`."),
	},
}

var frameTopObject = &object{
	name: "frame top", short: "stock", doc: "The panel on a frame.",
	fields: []field{
		named("stock", "role or stock", "Role or stock, if not that of `panels`."),
		word("joint", "How it is held on posts and rails.", "dowel", "loose tenon", "screw").orWord("dowel", "a top is dowelled to its frame where the file does not say it, as screws would show"),
		length("over", 0, 400, "How far it stands out over the posts.").orElse(0, "a top ends with the posts where the file does not say it"),
	},
}

var legRailObject = &object{
	name: "leg rail", short: "height", doc: "The rail under the body that a pair of legs is lapped to.",
	fields: []field{
		length("height", 20, 300, "How high it is.").required(),
		length("inset", 0, 1000, "Of its ends from the body's edges.").orElse(0, "a leg rail is as long as the body where the file does not say it"),
	},
}

var splayObject = &object{
	name: "splay", doc: "How far legs lean out, as an angle: a bare number is in degrees.",
	fields: []field{
		amount("across", units.Angle, 0, 0.6, "As seen from the front.").orElse(0, "legs stand plumb where the file does not splay them"),
		amount("along", units.Angle, 0, 0.6, "As seen from the end.").orElse(0, "legs stand plumb where the file does not splay them"),
	},
}

// legFields are what a base of legs has beyond others.
var legFields = []field{
	text("outline", "Legs: the name of an outline, x inwards from the body's edge, y up from the floor; none: plain posts."),
	length("width", 15, 300, "Legs: width of a plain post.").orElse(45, "a plain post is 45 mm wide where the file does not say it"),
	word("plane", "Legs: pairs stand in planes from front to back (`end`) or from left to right (`front`).", "end", "front").
		orWord("end", "pairs of legs stand one behind the other where the file does not say it"),
	{key: "at", kind: amountList, dim: units.Length, min: -6000, max: 6000,
		doc: "Legs: where each pair stands: from the body's left (or from its front, in the plane `front`); negative from the other side."},
	length("inset", 0, 2000, "Legs: how far the outline's x = 0 lies in from the body's edge.").orElse(0, "legs stand at the body's edge where the file does not say it"),
	word("mirrored", "Legs: whether a second leg stands mirrored at the other edge.", "yes", "no").orWord("yes", "legs come in pairs where the file does not say otherwise"),
	inner("splay", splayObject),
	word("joint", "Legs: half lapped to their rail or to each other, or screwed to the body's floor.", "lap", "screwed").
		orWord("screwed", "legs are screwed to the floor above them where the file names no joint").except("dowel", "write 'screwed'"),
	inner("rail", legRailObject),
}
