package design

import "rodwork/internal/units"

// shopSchema describes the shop file.
var shopSchema = &object{
	name: "shop file", doc: "What is in the shop, as measured.",
	fields: []field{
		word("rodwork", "Version of this form of file.", "1").required(),
		text("shop", "What the shop is called.").required(),
		word("units", "What a bare number means where a length is expected.", "mm", "cm", "m", "in", "ft").
			orWord("mm", "a bare length is in millimetres where the file does not say 'units'"),
		word("price in", "Currency, by its ISO 4217 code.", units.Currencies()...),
		count("hands", 1, 20, "How many people there are to help at a glue-up, yourself included.").orElse(1, "one pair of hands where the file does not count"),
		table("saws", sawObject, "Saws by name, each with the blade that is in it."),
		table("bits", bitObject, "Router bits by name."),
		table("bushes", bushObject, "Guide bushes by name; templates are drawn for the first."),
		table("stock", stockObject, "Sheets and sticks by name, as measured.").required(),
		table("hinges", hingeObject, "Hinges by name."), table("slides", slideObject, "Drawer slides by name."),
		table("pins", pinObject, "Shelf pins by name; the first is used."),
		table("hardware", hardwareObject, "Feet, stays, lid hinges and wall screws by name."), table("clamps", clampObject, "Clamps by name."),
		table("glues", glueObject, "Glues by name."), inner("habits", habitsObject), inner("rates", ratesObject),
		inner("spreads", spreadsObject), table("tests", testObject, "The register of test pieces, by names of your own."),
	},
	later: map[string]string{
		"offcuts": "write the sheets that are whole under 'stock', with 'in hand'",
	},
}

var spreadObject = &object{
	name: "measured length", short: "mean", doc: "A measured length. `kerf: 3.2 mm` is short for `kerf: {mean: 3.2 mm}`; a list of `readings` gives mean and spread.",
	fields: []field{
		length("mean", 0, longest, "Mean of the readings."),
		length("spread", 0, 50, "Standard deviation of one reading."),
		{key: "readings", kind: amountList, dim: units.Length, min: 0.01, max: longest, whole: true, doc: "The readings themselves, instead of mean and spread."},
		count("count", 1, 10000, "How many readings the mean comes from."),
		text("measured", "When: a date."),
	},
}

var sawObject = &object{
	name: "saw", doc: "A saw with one blade in it.",
	fields: []field{
		word("kind", "What it is.", "track saw", "table saw", "jigsaw", "bandsaw").required(),
		inner("kerf", spreadObject).required().bounded(0.3, 12),
		text("blade", "What the blade is called, so that tests with another one are stale."),
		length("deepest cut", 1, 400, "How deep it can cut.").required(),
		length("depth spread", 0, 3, "Standard deviation of a set depth.").orElse(0.1, "a set depth repeats within 0.1 mm: common practice"),
		word("depth from", "The face that the depth is taken from: the saw rides on the kerfed face, or the show face lies on the bed.", "kerfed face", "show face").required(),
		word("grind", "Tips of the teeth.", "flat", "bevel").orWord("flat", "a flat grind where the file does not say"),
		amount("bevel", units.Angle, 0, 45*degree, "Of bevel-ground teeth.").orElse(0, "a flat grind has no bevel"),
		word("index", "How one cut is placed after the other: each from a stop at the datum, or a pin in the last cut.", "stop", "pin").orWord("stop", "cuts are placed from a stop at the datum: errors do not add up"),
		length("index spread", 0, 3, "Standard deviation of one placing.").orElse(0.1, "a stop repeats within 0.1 mm: common practice"),
		length("longest cut", 50, longest, "Longest cut.").required(),
	},
}

// bounded narrows the bounds of a measured length.
func (f field) bounded(lo, hi float64) field { f.min, f.max = lo, hi; return f }

var bitObject = &object{
	name: "bit", doc: "A router bit.",
	fields: []field{length("diameter", 0.5, 100, "Diameter, as it cuts.").required(), length("length", 1, 150, "Cutting length.").required()},
}

var bushObject = &object{
	name: "bush", doc: "A guide bush.",
	fields: []field{
		length("diameter", 4, 80, "Outside diameter, that runs along the template.").required(),
		length("length", 1, 40, "How far it stands out below the router's base.").required(),
	},
}

var stockObject = &object{
	name: "stock", doc: "Material as bought, as measured.",
	fields: []field{
		word("kind", "What it is made of.", "plywood", "solid", "fibreboard", "particleboard").required(),
		word("form", "Sheet or stick.", "sheet", "stick").orWord("sheet", "a sheet where the file does not say"),
		length("nominal", 0.5, 200, "Thickness on the label."),
		inner("thickness", spreadObject).required().bounded(0.4, 200),
		text("batch", "What the batch is called, so that tests in another one are stale."),
		count("layers", 1, 99, "Plies of plywood."),
		length("face veneer", 0.05, 20, "Thickness of the sanded face, plywood."),
		length("inner veneer", 0.1, 20, "Thickness of the plies between, plywood."),
		text("species", "Wood."),
		amount("density", units.Density, 50e-9, 2000e-9, "Mass per volume.").required(),
		length("length", 50, longest, "Of a sheet along its length; of a stick.").required(),
		length("width", 5, longest, "Of a sheet or stick.").required(),
		word("grain along", "Way of the face grain.", "length", "width", "none").required(),
		amount("price", units.Money, 0, 1e6, "Of one sheet or stick.").orElse(0, "no price is known"),
		length("trim", 0, 200, "Cut off each edge before use, kerf included.").fromHabit("trim"),
		count("in hand", 0, 10000, "How many there are.").orElse(0, "none in hand where the file does not count"),
	},
}

var hingeObject = &object{
	name: "hinge", doc: "A hinge by its geometry.",
	fields: []field{
		word("kind", "What it is.", "cup").required().except("butt", "describe a cup hinge").except("knife", "describe a cup hinge"),
		{key: "sets", kind: nameList, words: []string{"inset", "half overlay", "full overlay"}, need: true, doc: "Fronts that it suits."},
		length("cup", 10, 60, "Diameter of the cup.").required(), length("cup depth", 3, 30, "Depth of the cup's hole.").required(),
		length("cup edge", 1, 20, "From the door's edge to the rim of the cup.").required(),
		length("plate line", 5, 100, "The plate's holes, behind an inset door's inner face, or behind the body's front edge under an overlay door.").required(),
		length("plate pitch", 5, 100, "Between the plate's two holes.").required(),
		length("overlay at zero", -40, 40, "How far the door laps over its upright with the cup's rim at the door's edge and a plate of no height; negative for an inset hinge. With it the cup's edge is reckoned: overlay = this + cup edge - plate height."),
		length("plate height", -20, 60, "Height of the plate; wanted with `overlay at zero`."),
		length("least cup edge", 0, 20, "Least distance of the cup's rim from the door's edge.").orElse(3, "3 mm: planning pages of makers of hinges"),
		length("most cup edge", 0, 30, "Greatest distance of the cup's rim from the door's edge.").orElse(8, "8 mm: planning pages of makers of hinges"),
		amount("price", units.Money, 0, 1e5, "Of one.").orElse(0, "no price is known"),
		count("in hand", 0, 10000, "How many there are.").orElse(0, "none in hand where the file does not count"),
	},
}

var hardwareObject = &object{
	name: "hardware", doc: "Another bought thing. A foot has a height and a width; a wall screw a diameter and a length.",
	fields: []field{
		word("kind", "What it is.", "foot", "stay", "lid hinge", "wall screw", "dowel").required(),
		length("height", 1, 600, "Height of a foot, as it is set."),
		length("width", 5, 300, "Width of a foot, or its diameter.").orElse(40, "a bought foot is drawn 40 mm wide where the shop file does not say it; what stands is reckoned on its centre"),
		length("diameter", 1, 30, "Of a dowel, or a screw's shank."), length("length", 10, 400, "Of a dowel or a screw."),
		amount("price", units.Money, 0, 1e5, "Of one.").orElse(0, "no price is known"),
		count("in hand", 0, 100000, "How many there are.").orElse(0, "none in hand where the file does not count"),
	},
}

var slideObject = &object{
	name: "slide", doc: "A pair of drawer slides by its geometry.",
	fields: []field{
		length("length", 100, 1500, "Closed length.").required(), length("side", 1, 60, "Room that it takes on each side.").required(),
		amount("price", units.Money, 0, 1e5, "Of a pair.").orElse(0, "no price is known"),
		count("in hand", 0, 10000, "How many pairs there are.").orElse(0, "none in hand where the file does not count"),
	},
}

var pinObject = &object{
	name: "pin", doc: "A shelf pin.",
	fields: []field{
		length("diameter", 2, 20, "Of its hole.").required(), length("depth", 3, 60, "Of its hole.").required(),
		length("line", 5, 200, "How far the row stands behind the front edge of what it is in.").required(),
		amount("price", units.Money, 0, 1e4, "Of one.").orElse(0, "no price is known"),
		count("in hand", 0, 100000, "How many there are.").orElse(0, "none in hand where the file does not count"),
	},
}

var clampObject = &object{
	name: "clamp", doc: "A number of like clamps.",
	fields: []field{
		length("reach", 10, 5000, "Between the jaws.").required(), amount("force", units.Force, 10, 1e5, "That one gives.").required(),
		count("count", 1, 1000, "How many.").required(),
	},
}

var glueObject = &object{
	name: "glue", doc: "A glue by its clock.",
	fields: []field{
		amount("open time", units.Time, 10, 7*86400, "From the first spread to the last clamp.").required(),
		amount("clamp time", units.Time, 10, 30*86400, "In clamps.").required(),
		amount("spread", units.Spread, 10e-9, 2000e-9, "On a glue line.").required(),
		amount("price", units.MoneyPerMass, 0, 1e5, "By mass.").orElse(0, "no price is known"),
	},
}

// habitsObject has what fills in what a piece file leaves out. Each has a value
// of the program's own too, so that a shop need not have thought of all.
var habitsObject = &object{
	name: "habits", doc: "What fills in what a piece file leaves out.",
	fields: []field{
		length("gap", 0.3, 20, "Reveal round inset fronts.").orElse(2.5, "2.5 mm round an inset front: within the common 1.5 to 3 mm, common practice"),
		word("corner joint", "Of square corners.", "rabbet", "butt").orWord("rabbet", "a rabbet locates the panels: common practice"),
		amount("housing share", units.None, 0.05, 0.6, "Depth of a housing over the thickness that it is cut into.").orElse(1.0/3, "a third of the thickness: common practice"),
		amount("rabbet share", units.None, 0.05, 0.9, "Depth of a rabbet over the thickness that it is cut into.").orElse(0.5, "half of the thickness: common practice"),
		length("back rabbet", 1, 60, "How far the rabbet for the back reaches in from the inside.").orElse(8, "8 mm of bearing for a back: common practice"),
		word("fit", "Of joints.", "press", "snug", "sliding", "loose").orWord("snug", "goes together by hand and holds without glue: common practice"),
		inner("fits", fitsObject),
		named("kerf saw", "saw of the shop", "Saw that cuts kerfs for bends."),
		length("skin", 0, 10, "Left under a kerf, over the face veneer.").orElse(0.5, "just into the crossband under the face veneer: a workshop magazine's practice, not measured"),
		length("least rib", 0.5, 30, "Least width between two kerfs.").orElse(3, "a rib of 3 mm stands handling: common practice"),
		length("least mouth", 0, 5, "Least gap that a kerf keeps when it is bent.").orElse(0.2, "room for fuzz and glue: common practice"),
		length("oversize", 0, 50, "Blank over the finished part, on each edge.").orElse(0, "parts are cut to size at once"),
		length("door set back", 0, 100, "Uprights' and shelves' edges behind the back of an inset door.").orElse(2, "2 mm, so that a door shuts on its stops and not on a shelf: common practice"),
		length("shelf clearance", 0, 20, "Play of a pinned shelf in its length, whole.").orElse(1.5, "so that a shelf drops in without marking the sides: common practice"),
		length("shelf set back", 0, 500, "Of shelves behind the front, or behind an inset door's back.").orElse(5, "5 mm: common practice"),
		length("first hole", 5, 2000, "Lowest pin hole over the floor.").orElse(96, "three pitches of 32 mm: common practice"),
		length("hole pitch", 10, 500, "From pin hole to pin hole.").orElse(32, "the 32 mm row: common practice"),
		length("plinth set back", 0, 500, "Of a plinth's faces behind the body's.").orElse(50, "room for toes: common practice"),
		length("hinge from end", 20, 500, "Hinge's centre from a door's end.").orElse(80, "80 mm: within the usual 60 to 100, common practice"),
		length("trim", 0, 200, "Cut off each edge of a sheet or stick before use, kerf included.").orElse(5, "factory edges are knocked and not quite straight: common practice"),
		length("kept offcut", 10, 3000, "Least side of an offcut that is kept.").orElse(150, "smaller ones are not worth a place: common practice"),
	},
}

var fitsObject = &object{
	name: "fits", doc: "Clearance of each fit over the measured thickness; negative is interference.",
	fields: []field{
		length("press", -1, 1, "Driven home with a mallet.").orElse(0, "as thick as the panel: common practice"),
		length("snug", -1, 2, "Pushed together by hand.").orElse(0.1, "0.1 mm: common practice"),
		length("sliding", -1, 3, "Moves under a push.").orElse(0.3, "0.3 mm: common practice"),
		length("loose", -1, 5, "Drops in.").orElse(0.8, "0.8 mm: common practice"),
	},
}

var ratesObject = &object{
	name: "rates", doc: "How long work takes in this shop.",
	fields: []field{
		amount("cut", units.TimePerLength, 0, 60, "Sawing, by length.").orElse(2*minute/1000, "2 min to a metre, set-up apart: a guess, not measured"),
		amount("hole", units.Time, 0, 3600, "A drilled hole.").orElse(20, "20 s: a guess, not measured"),
		amount("glue", units.TimePerArea, 0, 10, "Spreading glue on a joint, by its area: edges and housings are narrow, so it takes long for an area.").orElse(20*minute/1e6, "20 min to a square metre, 20 s for a panel's edge of 1 m: a guess, not measured"),
		amount("part", units.Time, 0, 3600, "Bringing a part that is spread into its place.").orElse(20, "20 s: a guess, not measured"),
		amount("clamp", units.Time, 0, 3600, "Putting on a clamp and drawing it tight.").orElse(15, "15 s: a guess, not measured"),
		amount("finish", units.TimePerArea, 0, 1, "One coat, by area.").orElse(6*minute/1e6, "6 min to a square metre: a guess, not measured"),
	},
}
