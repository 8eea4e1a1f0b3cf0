package book

import (
	"fmt"
	"strings"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// machining says where each part is worked: housings, rabbets, grooves, notches
// and holes, with the figure of the part.
func (w *writer) machining() {
	worked := partsWhere(w.pc.Parts, func(q *piece.Part) bool { return len(q.Cuts) > 0 || len(q.Notes) > 0 })
	if len(worked) == 0 {
		return
	}
	w.head("work on parts", "Work on each part")
	for _, q := range worked {
		w.say("faces "+q.ID, w.faceSentence(q), q.ID, q.Path)
		if len(q.Bends) == 0 { // a strip is drawn where it is told of
			w.leaves(w.partLeaves(q), q.ID)
		}
		w.table(w.cutTable(q), q.ID)
		w.table(w.holeTable(q), q.ID)
	}
}

func (w *writer) faceSentence(q *piece.Part) say.Sentence {
	s := say.F("{}, {} by {} by {}", w.partRef(q), w.length(q.Length, q.ID), w.bare(q.Width, q.ID), w.bare(q.Thick, q.ID))
	if q.NameA != "" {
		s = say.F("{}. Face A is the {}, face B the {}", s, q.NameA, q.NameB)
	}
	if q.Show != "" && !strings.Contains(q.NameA+q.NameB, "show face") {
		s = say.F("{}; {} is the show face", s, string(q.Show))
	}
	s = say.F("{}.", capital(s))
	for _, n := range q.Notes {
		s = join(s, n)
	}
	return s
}

// cutTable lists what is cut with straight edges.
func (w *writer) cutTable(q *piece.Part) table.Table {
	t := table.Table{Key: "cuts " + q.ID, Caption: fmt.Sprintf("Cuts on %s (%d)", q.Name, q.Number),
		Columns: []table.Column{table.Names("cut"), table.Words("face"), table.Numbers("x from", units.Length),
			table.Numbers("x to", units.Length), table.Numbers("y from", units.Length), table.Numbers("y to", units.Length),
			table.Numbers("deep", units.Length), table.Words("for")}}
	for _, c := range q.Cuts {
		if isHole(c) {
			continue
		}
		mm := func(n trace.Num) table.Cell { return table.Q(w.computed(n, units.Length, onWood, c.ID).Plain()) }
		deep := table.Q(w.computed(c.Depth, units.Length, onSteel, c.ID).Plain())
		if c.Through {
			deep = table.T("through")
		}
		t.Rows = append(t.Rows, table.Row{ID: c.ID, Cells: []table.Cell{table.T(string(c.Kind)), table.T(string(c.Face)),
			mm(c.X0), mm(c.X1), mm(c.Y0), mm(c.Y1), deep, table.T(c.For)}})
	}
	return t
}

// holeTable lists single holes and rows of them.
func (w *writer) holeTable(q *piece.Part) table.Table {
	t := table.Table{Key: "holes " + q.ID, Caption: fmt.Sprintf("Holes in %s (%d)", q.Name, q.Number),
		Columns: []table.Column{table.Names("hole"), table.Words("face"), table.Numbers("ø", units.Length),
			table.Numbers("deep", units.Length), table.Numbers("first at x", units.Length), table.Numbers("y", units.Length),
			table.Numbers("holes", units.Count), table.Numbers("every, in x", units.Length), table.Numbers("in y", units.Length),
			table.Words("for")}}
	for _, c := range q.Cuts {
		if !isHole(c) {
			continue
		}
		mm := func(n trace.Num) table.Cell { return table.Q(w.computed(n, units.Length, onWood, c.ID).Plain()) }
		deep, count := mm(c.Depth), max(1, c.Count)
		if c.Through {
			deep = table.T("through")
		}
		every := [2]table.Cell{}
		if count > 1 {
			every = [2]table.Cell{mm(c.StepX), mm(c.StepY)}
		}
		t.Rows = append(t.Rows, table.Row{ID: c.ID, Cells: []table.Cell{table.T(string(c.Kind)), table.T(string(c.Face)),
			mm(c.Diameter), deep, mm(c.X0), mm(c.Y0), table.Count(count), every[0], every[1], table.T(c.For)}})
	}
	return t
}

func isHole(c piece.Cut) bool { return c.Kind == piece.Hole || c.Kind == piece.HoleRow }

// kerfTable places every kerf from the strip's one datum end.
func (w *writer) kerfTable(q *piece.Part, b piece.Bend) table.Table {
	t := table.Table{Key: "kerfs " + q.ID + " " + b.Corner, Caption: "Kerfs of the " + b.Corner + " bend, from the datum end of " + q.Name,
		Columns: []table.Column{table.Numbers("kerf", units.Count), table.Numbers("near side", units.Length),
			table.Numbers("centre", units.Length), table.Numbers("far side", units.Length)},
		Note: "To a hundredth so that what you set is rounded by you, not added up from rounded steps."}
	t.Columns[0].Names = true
	half := b.Plan.Spec.Kerf / 2
	for i, k := range b.Kerfs {
		mm := func(n trace.Num) table.Cell {
			return table.Q(say.LenN(n, onSteel).Plain().As(w.idOf(n, q.ID)))
		}
		t.Add(table.Count(i+1), mm(k.Plus(-half)), mm(k), mm(k.Plus(half)))
	}
	return t
}
