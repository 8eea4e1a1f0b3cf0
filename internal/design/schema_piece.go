package design

import "rodwork/internal/units"

// pieceSchema describes the piece file.
var pieceSchema = &object{
	name: "piece file",
	doc:  "A piece, as a maker would tell it: what it is for, how large, of what, and how it goes together.",
	fields: []field{
		word("rodwork", "Version of this form of file.", "1").required(),
		text("id", "Ties the file to its trials and notes; `rodwork new` gives one."),
		text("piece", "What the piece is called.").required(),
		text("shop", "The shop file, by its place relative to this file."),
		word("units", "What a bare number means where a length is expected.", "mm", "cm", "m", "in", "ft").
			orWord("mm", "a bare length is in millimetres where the file does not say 'units'"),
		word("price in", "Currency, by its ISO 4217 code.", units.Currencies()...),
		inner("brief", briefObject),
		{key: "sizes", kind: sizeTable, min: -1e6, max: 1e6, doc: "Names for sizes that the rest of the file speaks of. Each is a quantity or a formula of others, in any order; a bare number is a length, a count is written `3 x`."},
		{key: "stock", kind: nameTable, of: "stock of the shop", need: true, doc: "Roles, and the stock of the shop file that plays each. `shell` is needed. `panels` stands for every role that is not named: `dividers`, `boards`, `shelves`, `doors`, `drawers`, `drawer floors`, `rails`, `plinth`, `back`, `front panel`, `lids`, `tongues`."},
		inner("body", bodyObject).required(),
		inner("inside", insideObject),
		list("shelves", shelfObject, "Shelves, or numbers of like shelves."),
		list("fronts", frontObject, "Doors and drawer fronts."),
		list("drawers", drawerObject, "Drawers' boxes, each behind a front."),
		inner("back", backObject),
		list("rails", railObject, "Boards that tie the body."),
		inner("base", baseObject),
		table("outlines", outlineObject, "Flat shapes by their names, for parts and legs."),
		list("parts", partObject, "Parts that the above does not say, each placed by itself."),
		list("strips", stripObject, "Bent strips that are placed by themselves; the body's `bend` says how they are bent."),
		table("joints", jointObject, "Joints by their two partners, `divider / top`: parts or roles, in either order. What is not said here follows the shop's habits."),
		inner("edges", edgesObject),
		inner("finish", finishObject),
	},
}

var briefObject = &object{
	name: "brief", doc: "What the piece is for: where it stands, who uses it, what it must hold.",
	fields: []field{
		inner("place", placeObject), inner("people", peopleObject), inner("air", airObject),
		list("holds", thingObject, "What it must hold, the most important first: things are given room in this order."),
	},
}

var placeObject = &object{
	name: "place", doc: "Where it is to stand: the room that there is, clear.",
	fields: []field{
		length("width", 50, longest, "Clear width."), length("height", 50, longest, "Clear height."),
		length("depth", 50, longest, "How far it may come forward from the wall."),
		word("floor", "What it stands on. The tip-over check tries a carpet's edge under the rear in any case.", "boards", "parquet", "tiles", "stone", "concrete", "carpet"),
		word("wall", "What a tip restraint would be fixed to.", "stud", "brick", "block", "concrete", "stone", "none"),
		inner("skirting", skirtingObject),
	},
}

var skirtingObject = &object{
	name: "skirting", doc: "The board at the foot of the wall.",
	fields: []field{length("height", 0, 600, "Height over the floor.").required(), length("depth", 0, 100, "How far it stands out from the wall.").required()},
}

var peopleObject = &object{
	name: "people", doc: "Who uses it or plays near it.",
	fields: []field{
		amount("youngest", units.Time, 0, 120*units.SecondsPerYear, "Age of the youngest; a bare number is in years.").bareIn("years"),
		word("also", "Who else.", "adults", "children", "elders", "everyone"),
	},
}

var thingObject = &object{
	name: "thing", item: "what", doc: "A sort of thing that the piece must hold. It stands upright: its thickness runs along the shelf, its depth goes into it.",
	fields: []field{
		text("what", "What it is.").required(),
		count("count", 1, 5000, "How many.").required(),
		length("height", 1, 3000, "Height as it stands.").required(),
		length("depth", 1, 3000, "Depth, into the shelf.").required(),
		length("thickness", 0.1, 3000, "Along the shelf.").required(),
		amount("mass", units.Mass, 0.001, 500, "Of one; a bare number is in kg.").required(),
	},
}

var bodyObject = &object{
	name: "body", doc: "The carcase. Its sizes are outside: width, height without the base, depth without fronts that stand before it.",
	fields: []field{
		word("kind", "What the carcase is: one strip bent round corners, flat panels, posts and rails, or `none`: free parts alone.", "bent shell", "box", "frame", "none").required(),
		word("bends in", "In which view the bend is seen.", "front view", "plan").orWord("front view", "a shell bends as seen from the front where the file does not say it"),
		length("width", 60, 6000, "Outside width.").required(), length("height", 60, 4000, "Outside height, without the base.").required(),
		length("depth", 40, 2000, "Outside depth, the back included.").required(),
		inner("corners", cornersObject), inner("bend", bendObject),
		word("top", "Of a shell that bends in plan: the top lies `on` the strip's edge or `in` the strip.", "on", "in").
			orWord("on", "a top on the strip hides the ends of the kerfs: common practice, no source"),
		inner("window", windowObject), inner("frame", frameObject),
		{key: "open", kind: nameList, words: []string{"front", "top"}, doc: "The sides that stay open: the front where nothing else is said. A body that is open at the top only has a panel at its front, and wants a lid."},
		list("seams", seamObject, "Where a strip round four bent corners is parted; two seams make it two strips."),
	},
	later: map[string]string{"lid": "write it under 'fronts', with 'as: lid'"},
}

var cornersObject = &object{
	name: "corners", doc: "Each corner by its name, as seen from the front; `front left` and `front right` of a shell that bends in plan. One that is not named is square, by the shop's habit.",
	fields: []field{inner("front left", cornerObject), inner("front right", cornerObject), inner("top left", cornerObject), inner("top right", cornerObject), inner("bottom left", cornerObject), inner("bottom right", cornerObject)},
}

var seamObject = &object{
	name: "seam", doc: "A seam in the shell, on a straight stretch of its bottom or top.",
	fields: []field{
		word("on", "Where it lies.", "bottom", "top").required(),
		word("from", "The side that it is measured from.", "left", "right").orWord("left", "measured from the left where the file does not say"),
		length("at", 20, 6000, "From the body's outside at that side.").required(),
		word("joint", "What holds it: a tongue let into both ends, or plain ends glued.", "loose tongue", "butt").
			orWord("loose tongue", "ends of plywood hold little by themselves: common practice"),
	},
}

var cornerObject = &object{
	name: "corner", doc: "Bent, with a `radius`, or `square`, with a joint and the part that runs through.",
	fields: []field{
		length("radius", 20, 2000, "Outside radius of a bent corner."),
		word("square", "Joint of a square corner; dowels, loose tenons and screws hold a plain butt.", "rabbet", "butt", "dowel", "loose tenon", "screw").fromHabit("corner joint").
			except("mitre", "write 'rabbet' or 'butt'").except("finger", "write 'rabbet' or 'butt'").
			except("loose tongue", "write 'loose tenon'").except("lap", "write 'rabbet'"),
		word("runs through", "The part that runs through at a square corner: `top` or `bottom`, or `side`.", "top", "bottom", "side").
			orWord("side", "a side that runs through hides the end of the top: common practice"),
	},
}

var insideObject = &object{
	name: "inside", doc: "Bays from left to right, levels in them from the floor up.",
	fields: []field{
		word("uprights", "What parts two bays.", "divider").orWord("divider", "the only upright that is built").
			except("rail", "write 'divider'").except("web frame", "write 'divider'").except("nothing", "leave the bays away and have one"),
		list("bays", bayObject, "The bays; none: the whole inside is one bay called `inside`."),
	},
}

var bayObject = &object{
	name: "bay", item: "name", doc: "A space between two uprights.",
	fields: []field{
		text("name", "What the rest of the file calls it.").required(),
		length("width", 20, 6000, "Clear width; `equal` shares what is left evenly with the other bays that say so, `rest` takes it.").
			orSay("equal", "rest").orWord("equal", "bays share the width evenly where the file does not say it"),
		list("levels", levelObject, "Levels from the floor up; none: the bay is one space."),
	},
}

var levelObject = &object{
	name: "level", item: "name", doc: "A space between two horizontals in a bay. Between two levels lies a fixed board.",
	fields: []field{
		text("name", "What the rest of the file calls it.").required(),
		length("height", 20, 4000, "Clear height; `equal` or `rest` as with bays.").
			orSay("equal", "rest").orWord("equal", "levels share the height evenly where the file does not say it"),
		word("follow", "The ends of the board over it are cut to the shell's bend.", "shell"),
	},
	later: map[string]string{"levels": "a level is not divided again", "bays": "a level is not divided again"},
}

var shelfObject = &object{
	name: "shelf", doc: "A shelf, or a number of like ones, in a bay or level: `on: pins`, or `fixed at` a height.",
	fields: []field{
		named("in", "bay or level", "The bay or level.").required(),
		word("on", "What it lies on, if it is not fixed.", "pins").except("cleats", "write 'pins', or 'fixed at'"),
		length("fixed at", 1, 4000, "Height of the underside over the space's floor; `evenly` parts the space into equal heights.").orSay("evenly"),
		count("count", 1, 40, "How many.").orElse(1, "one shelf where the file does not count"),
		length("above floor", 5, 4000, "Lowest hole for pins, over the space's floor.").fromHabit("first hole"),
		length("pitch", 10, 500, "From hole to hole.").fromHabit("hole pitch"),
		length("to", 5, 4000, "Highest hole; `auto`: as high as there is room.").orSay("auto").orWord("auto", "holes go as high as there is room"),
		length("set back", 0, 500, "Front edge behind the body's front, or behind an inset door's back.").fromHabit("shelf set back"),
		named("stock", "role or stock", "Role or stock, if not that of `shelves` or `panels`."),
		word("follow", "Its ends are cut to the shell's bend: for a fixed shelf that lies in one.", "shell"),
		inner("edging", edgingObject),
	},
}

var edgingObject = &object{
	name: "edging", doc: "A strip before the shelf's front edge; a deep one stiffens it.",
	fields: []field{
		named("stock", "role or stock", "Role or stock of the strip.").required(),
		length("height", 3, 200, "How deep it stands; its upper edge is flush.").required(),
	},
}

var frontObject = &object{
	name: "front", item: "name", doc: "A door, a pair of doors, a drawer's front, or a lid. It covers one or more bays or levels.",
	fields: []field{
		text("name", "What it is called.").required(),
		{key: "covers", kind: nameList, of: "bay or level", need: true, doc: "The bays or levels that it covers."},
		word("as", "What it is; a lid closes a body that is open at the top.", "door", "pair", "drawer", "lid").required().except("flap", "write 'door'").except("sliding doors", "write 'pair'"),
		word("set", "How it sits to the body: between its members, before the whole of their edges, or before half of them; `full overlay` is `overlay`.", "inset", "overlay", "half overlay", "full overlay").
			orWord("inset", "between the members where the file does not say"),
		length("gap", 0.3, 20, "Reveal round it; of an overlay front, to the next one beside it.").fromHabit("gap"),
		named("stock", "role or stock", "Role or stock, if not that of `doors` or `panels`."),
		word("follow", "Its corners follow the shell's bend.", "shell"),
		named("hinge", "hinge of the shop", "Hinge, by its name in the shop file; a lid's stands under `hardware` there."),
		{key: "hang on", kind: nameList, words: []string{"side", "divider", "left", "right"}, doc: "What each leaf hangs on, left then right: `side` or `divider`; for one door `left` or `right`."},
		{key: "at", kind: amountList, dim: units.Length, min: -4000, max: 4000, doc: "Hinge places, from the door's foot; negative from its head."},
		text("pull", "`finger hole 30`: a hole of that diameter; or `none`.").orWord("none", "no pull where the file names none"),
		word("late", "When it is cut: `after carcase`, to the opening as measured.", "after carcase"),
		length("overhang", 0, 200, "How far a lid stands out over the front and the sides.").orElse(0, "a lid is flush with the body where the file does not say"),
		named("stay", "hardware of the shop", "What holds a lid up."),
		inner("vents", ventsObject),
	},
}

var ventsObject = &object{
	name: "vents", doc: "Openings for air under a lid: round holes through the sides or the front, where no wall and no floor closes them.",
	fields: []field{
		word("in", "Where they are.", "sides", "front").orWord("sides", "half of them in each side where the file does not say"),
		count("count", 2, 60, "How many in all.").orElse(2, "two openings, as a standard for toys asks (EN 71-1)"),
		length("diameter", 5, 80, "Of one.").orElse(30, "30 mm has 707 mm2; 650 mm2 each is asked for in a standard for toys (EN 71-1)"),
		length("below", 20, 600, "Their centres under the rim.").orElse(60, "60 mm under the rim"),
	},
}

var drawerObject = &object{
	name: "drawer", doc: "A drawer's box, in a level (or bay) that has a drawer front.",
	fields: []field{
		named("in", "bay or level", "The level or bay.").required(),
		inner("box", boxObject), named("run", "slide of the shop", "Slides, by their name in the shop file.").required().
			except("wood runner", "name a side slide of the shop file"),
		length("stop", 0, 100, "How far behind its closed place the box stops.").orElse(3, "3 mm of room behind a drawer: common practice"),
	},
	later: map[string]string{"front": "the front is written under 'fronts'"},
}

var boxObject = &object{
	name: "box", doc: "How the box is made.",
	fields: []field{
		named("stock", "role or stock", "Role or stock of the box, if not that of `drawers` or `panels`."),
		word("joint", "At its corners: the ends in rabbets of the sides, or fingers.", "rabbet", "finger").orWord("rabbet", "a drawer's ends sit in rabbets where the file does not say it").
			except("dovetail", "write 'finger'").except("butt", "write 'rabbet'").except("dowel", "write 'rabbet'"),
		word("bottom", "How the floor is held.", "groove").orWord("groove", "the only way that is built").except("on", "write 'groove'").except("rabbet", "write 'groove'"),
	},
}

var backObject = &object{
	name: "back", short: "set", doc: "What closes the body behind; `back: none` leaves it open, and so does leaving the key away.",
	fields: []field{
		word("set", "In a rabbet all round, or on the rear edges.", "rabbet", "on", "none").required().except("groove", "write 'rabbet'"),
		length("depth", 1, 60, "How far the rabbet reaches in from the inside of the body.").fromHabit("back rabbet"),
		named("stock", "role or stock", "Role or stock, if not that of `back`."),
	},
	later: map[string]string{"in": "a back in a groove is not built; write {set: rabbet}"},
}

var railObject = &object{
	name: "rail", doc: "A board that ties the body.",
	fields: []field{
		word("at", "Where it lies.", "top back", "bottom back", "top front").required(),
		length("height", 20, 600, "How high it is.").required(),
		word("follow", "Its ends follow the shell's bend.", "shell"),
		named("stock", "role or stock", "Role or stock, if not that of `rails` or `panels`."),
	},
}

var baseObject = &object{
	name: "base", short: "kind", doc: "What the body stands on.",
	fields: append([]field{
		word("kind", "A plinth, legs, bought feet, the body's own sides run on to the floor, a rail that hangs it on a wall, or nothing.", "plinth", "legs", "feet", "sides", "wall", "none").required(),
		length("height", 20, 1200, "Height of a plinth, of legs, of the sides under the body's bottom; of a hanging rail. Feet have their own."),
		length("set back", 0, 500, "Of the plinth's faces, the kick board's or the feet's centres behind the body's.").fromHabit("plinth set back"),
		named("stock", "role or stock", "Role or stock, if not that of `plinth`, `legs` or `panels`; of a hanging rail, if not that of `rails`."),
		named("use", "hardware of the shop", "The feet, or the screws of a hanging rail."),
		count("count", 2, 40, "How many feet or screws.").orElse(4, "four where the file does not count"),
		word("kick", "The board before the room for toes under sides that run on.", "board", "none").orWord("board", "sides that run on have a board between them where the file does not say"),
	}, legFields...),
}

var jointObject = &object{
	name: "joint", short: "kind", doc: "A wish for one joint.",
	fields: []field{
		word("kind", "What it is. A `butt` has plain faces; `dowel`, `loose tenon` and `screw` hold one.", "housing", "rabbet", "butt", "notch", "dowel", "loose tenon", "screw").
			except("groove", "write 'housing'").except("lap", "write 'notch'").
			except("mitre", "write 'butt'").except("loose tongue", "write 'loose tenon'").except("finger", "write 'butt'"),
		length("depth", 0.5, 100, "How deep one goes into the other."),
		word("fit", "Clearance that it is cut to.", "press", "snug", "sliding", "loose").fromHabit("fit"),
		named("tool", "saw or bit of the shop", "What it is cut with."),
		count("count", 1, 60, "How many dowels, tenons or screws; none said: by the length of the joint."),
		length("diameter", 2, 30, "Of a dowel, or the thickness of a tenon; none said: by the thickness of the wood."),
	},
}

// partners are the words that a joint may name.
var partners = []string{"side", "top", "bottom", "divider", "board", "shelf", "rail", "back", "plinth", "shell", "edging", "post", "leg"}

var finishObject = &object{
	name: "finish", short: "kind", doc: "What goes on the wood.",
	fields: []field{
		text("kind", "What it is: hardwax oil, varnish, soap …").required(),
		count("coats", 1, 20, "How many coats.").orElse(2, "two coats: common practice"),
		word("before", "The stage that it comes before.", "glue-up", "fronts").orWord("glue-up", "inside faces are easier to finish before glue-up: common practice"),
	},
}
