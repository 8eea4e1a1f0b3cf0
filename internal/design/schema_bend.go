package design

import "rodwork/internal/units"

var bendObject = &object{
	name: "bend", short: "way", doc: "How bends are made. `bend: kerfed` is short for `bend: {way: kerfed}`.",
	fields: []field{
		word("way", "The way of bending: sawn nearly through, many times; thin plies, glued to each other on a former; or one thin sheet, bent cold and held.",
			"kerfed", "laminated", "cold").orWord("kerfed", "a bend is kerfed where the file does not say it"),
		named("saw", "saw of the shop", "The saw that cuts the kerfs.").fromHabit("kerf saw"),
		count("kerfs", 0, 400, "How many kerfs in each bend; 0 or absent: the fewest that satisfy all limits.").
			orElse(0, "the program chooses the number of kerfs"),
		length("skin", 0.3, 20, "What is left uncut under a kerf.").fromHabit("skin"),
		word("kerfs on", "The face that the kerfs are sawn into: the inside of the bend, where they close, or the outside, where they open and show.", "inside", "outside").
			orWord("inside", "kerfs are cut on the inside where the file does not say it: they close there, out of sight"),
		word("face grain", "How the face grain lies: round the bend, with the kerfs across it, or along the kerfs, where the skin splits easily.", "round the bend", "along the kerfs").
			orWord("round the bend", "a skin bears most along its grain: kerfs are cut across the face grain"),
		word("bent", "How the wood is bent: as it is, or soaked in hot water.", "dry", "soaked").
			orWord("dry", "wood is bent as it is where the file does not say it"),
		word("fill", "What the kerfs are filled with once the strip is on its former.", "nothing", "glue").
			orWord("nothing", "kerfs stay empty: water in a filling swells the ribs and prints through the skin"),
		named("inner ply", "role or stock", "A thin ply that is glued over the rib tips, inside the bend, while the strip is on its former; none where the file names none."),
		count("plies", 2, 40, "Of a laminated bend: how many plies of the shell's stock are glued to each other."),
	},
}

var stripObject = &object{
	name: "strip", item: "name", doc: "A bent strip that is placed by itself: straight and bent stretches in a row. It is joined to what it touches.",
	fields: []field{
		text("name", "What it is called.").required(),
		named("stock", "role or stock", "Role or stock, if not that of `shell`."),
		length("width", 10, 3000, "Across the strip.").required(),
		{key: "at", kind: amountList, dim: units.Length, min: -6000, max: 6000, need: true,
			doc: "Where its outer face begins, on its rear edge: [from the left, from the floor, from the back]. Bent in plan: on its lower edge."},
		word("turn", "The view in which its bends are seen: `facing` the front, or `level`, seen from above.", "facing", "level").
			orWord("facing", "a strip bends as seen from the front where the file does not say it"),
		amount("heading", units.Angle, -6.3, 6.3, "The way that it starts, anticlockwise from a run to the right; seen from above, with the front at the foot. A bare number is in degrees.").
			orElse(0, "a strip runs to the right where the file does not say it"),
		list("run", stretchObject, "Its stretches in order, flat and bent."),
		word("fix", "How it is held where it touches other parts.", "glued", "screwed", "loose").
			orWord("glued", "parts that touch are glued where the file does not say it"),
	},
}

var stretchObject = &object{
	name: "stretch", doc: "A stretch of a strip: `flat`, with its length, or a `turn` with its radius.",
	fields: []field{
		length("flat", 1, 6000, "Length of a straight stretch."),
		word("turn", "The side that it turns to, for who walks along the strip with its outer face on the left: a turn to the right has the inner face inside, one to the left the outer face.", "right", "left"),
		length("radius", 20, 6000, "Outside radius of a bent stretch: of its convex face."),
		amount("angle", units.Angle, 0.05, 6.2, "Angle of a bent stretch; a bare number is in degrees.").
			orElse(90*degree, "a bend is a quarter turn where the file does not say it"),
		word("kerfs on", "The face that this bend's kerfs are sawn into: the inside of the bend, or the outside.", "inside", "outside").
			orWord("inside", "kerfs are cut on the inside where the file does not say it: they close there, out of sight"),
	},
}
