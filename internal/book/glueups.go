package book

import (
	"fmt"

	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// clockTime is a stretch of time as a kitchen clock shows it.
func clockTime(s float64) string {
	n := int(s + 0.5)
	return fmt.Sprintf("%d:%02d", n/60, n%60)
}

// clockTable is the glue-ups at a glance, by the clock.
func (w *writer) clockTable() table.Table {
	t := table.Table{Key: "glue-ups", Caption: "Glue-ups by the clock, minutes and seconds",
		Columns: []table.Column{table.Numbers("no.", units.Count), table.Numbers("acts", units.Count), table.Numbers("clamps", units.Count),
			table.Words("glue"), table.Words("spread"), table.Words("close"), table.Words("clamp"), table.Words("last clamp on"), table.Words("no later than"),
			table.Words("stays in clamps"), table.Numbers("people", units.Count)},
		Note: "No later than: four fifths of the open time. Rates are those of the shop file; one pair of hands. What comes in a later glue-up stays dry till then."}
	for _, g := range w.p.GlueUps {
		clamps := 0
		for _, r := range g.Rows {
			clamps += r.Count
		}
		late := "not known"
		if g.Limit.V > 0 {
			late = clockTime(g.Limit.V)
		}
		t.Rows = append(t.Rows, table.Row{ID: "glue-up " + digits(g.Number), Cells: []table.Cell{table.Count(g.Number), table.Count(len(g.Parts)), table.Count(clamps),
			table.T(fmt.Sprintf("%.0f g", g.Glue.V*1000)), table.T(clockTime(g.Spread.V)), table.T(clockTime(g.Close.V)), table.T(clockTime(g.Clamp.V)),
			table.T(clockTime(g.Total.V)), table.T(late), table.T(clockTime(g.Dry.V)), table.Count(g.Hands)}})
	}
	return t
}

// framed is from how many parts on a glue-up is taken to make a frame or a box,
// whose diagonals are measured.
const framed = 4

// rehearsal is the sheet for the dry run of one glue-up: what is due by when,
// with a column to write what it took.
func (w *writer) rehearsal(g work.GlueUp, steps []work.Step) table.Table {
	t := table.Table{Key: "rehearsal " + digits(g.Number), Caption: "Rehearsal of glue-up " + digits(g.Number),
		Columns: []table.Column{table.Words("from"), table.Words("act"), table.Words("dry, it took")}}
	row := func(at float64, what say.Sentence) {
		t.Rows = append(t.Rows, table.Row{ID: fmt.Sprintf("rehearsal %d/%d", g.Number, len(t.Rows)+1),
			Cells: []table.Cell{table.T(clockTime(at)), table.S(what), {}}})
	}
	now := 0.0
	row(now, say.F("spread all glue lines, {} cm² in all", say.Num(g.Area.V/100, 0)))
	now += g.Spread.V
	brought := 0
	for _, s := range steps {
		if len(s.Joints) > 0 {
			brought++
		}
	}
	for _, s := range steps {
		if len(s.Joints) == 0 {
			continue
		}
		row(now, say.F("{}: {}", say.Name(w.partName(s.Part)), s.Move))
		now += g.Close.V / float64(brought)
	}
	all := 0
	for _, r := range g.Rows {
		all += r.Count
	}
	for _, r := range g.Rows {
		row(now, w.clampRow(r))
		now += g.Clamp.V * float64(r.Count) / float64(all)
	}
	end := say.F("the last clamp is on")
	if len(g.Parts) >= framed {
		end = say.F("the last clamp is on; measure the diagonals")
	}
	row(now, end)
	return t
}

// clampWays tell along which axis a row of clamps draws.
var clampWays = [3]string{"across", "upright", "front to back"}

// clampRow tells one row of clamps.
func (w *writer) clampRow(r work.ClampRow) say.Sentence {
	with := r.Clamp
	if with == "" {
		with = "clamps that the shop lacks"
	}
	j := r.Joints[0]
	s := say.F("{} × {}, {}, spanning {}, on {}", say.Num(float64(r.Count), 0), say.Name(with), clampWays[r.Axis], say.Len(r.Reach, 0), say.Name(j))
	if n := len(r.Joints) - 1; n > 0 {
		s = join(s, say.F("and what lies in line with it"))
	}
	return s
}

// glueUp is a glue-up by its number; ok is false where the clock knows none.
func (w *writer) glueUp(number int) (work.GlueUp, bool) {
	for _, g := range w.p.GlueUps {
		if g.Number == number {
			return g, true
		}
	}
	return work.GlueUp{}, false
}
