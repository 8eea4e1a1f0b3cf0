package book

import (
	"slices"

	"rodwork/internal/piece"
)

// gap is one thing that the program does not compute yet, in the chapter where
// a maker would look for it. When tells whether this piece needs it at all.
type gap struct {
	chapter, text string
	when          func(w *writer) bool
}

func always(*writer) bool { return true }

func has(role piece.Role) func(*writer) bool {
	return func(w *writer) bool {
		return len(partsWhere(w.pc.Parts, func(q *piece.Part) bool { return q.Role == role })) > 0
	}
}

func finished(w *writer) bool { return w.d.Finish.Kind != "" }

func tested(w *writer) bool { return len(w.p.Tests) > 0 }

func hung(w *writer) bool { return w.d.Base.Kind == "wall" }

func baseless(w *writer) bool { return w.d.Base.Kind == "none" || w.d.Base.Kind == "" }

func inPlan(w *writer) bool {
	return len(partsWhere(w.pc.Parts, (*piece.Part).InPlan)) > 0
}

func windowed(w *writer) bool {
	return len(partsWhere(w.pc.Parts, func(q *piece.Part) bool {
		return slices.ContainsFunc(q.Cuts, func(c piece.Cut) bool { return c.Kind == piece.Window })
	})) > 0
}

// leaning tells whether a part has ends that are sawn obliquely.
func leaning(w *writer) bool {
	return len(partsWhere(w.pc.Parts, func(q *piece.Part) bool { return len(q.Bevels) > 0 })) > 0
}

// gaps are said where they are met, so that nobody takes silence for 'fine'.
var gaps = []gap{
	{"piece", "what the wall and the screws of the hanging rail bear", hung},
	{"piece", "what it stands or hangs on, as the file names no base", baseless},
	{"piece", "corners of the ground: what it stands on is taken as the rectangle round it", has(piece.Leg)},
	{"shell", "the strength of the strip beside its window while it is bent", windowed},
	{"inside", "the room in front of where the sides begin to bend: things are placed behind that", inPlan},
	{"inside", "strength of the housings, and of the pins themselves", has(piece.Shelf)},
	{"fronts", "what a door meets in its swing", has(piece.Door)},
	{"fronts", "sag of drawer bottoms, and the strength of slides", has(piece.DrawerFloor)},
	{"cut", "templates for the router, and the time that the work takes", always},
	{"join", "places of dowels and tenons in what leans both ways: bore them square to the sawn ends", leaning},
	{"join", "strength of the joints, but for a push sideways at the top", always},
	{"assemble", "open time by temperature; straps and formers of what is wrapped among the clamps; ways that " +
		"need a turn and not only a straight move", always},
	{"test", "places of the test pieces on the sheets’ figures", tested},
	{"finish", "how much of it is needed, and the time that it takes", finished},
	{"hang", "what a screw holds in this wall", always},
	{"check", "how findings change with the spread of what was measured", always},
}

// notYet adds the chapter's gaps, if the piece meets any.
func (w *writer) notYet(key string) {
	var items []string
	for _, g := range gaps {
		if g.chapter == key && len(w.pc.Parts) > 0 && g.when(w) {
			items = append(items, g.text)
		}
	}
	if len(items) > 0 {
		w.add(NotYet{ID: ID(key + "/not yet"), Items: items})
	}
}
