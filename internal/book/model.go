package book

import (
	"math"
	"strings"

	"rodwork/internal/model"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// wholeKey is the key of the leaf that a model of the piece stands for where
// there can be one.
const wholeKey = "picture"

// model is the data of the model, with the place in the book of each part.
func (w *writer) model() *model.Scene {
	s := model.Of(w.p, w.sys)
	if s == nil {
		return nil
	}
	for i := range s.Parts {
		if n := s.Parts[i].Number; n > 0 {
			s.Parts[i].Place = "#" + PartAnchor(n)
		}
	}
	return s
}

// Model is the model of a plan's piece as the book that was made of it with the
// same options has it; nil where there is none.
func Model(p *plan.Plan, opt Options) *model.Scene { return newWriter(p, opt).model() }

// modelTable tells in words what the model shows.
func (w *writer) modelTable() table.Table {
	ground := "from the floor"
	if hung(w) {
		ground = "from the lowest edge"
	}
	t := table.Table{Key: "model", Caption: "Where each part stands, and how far it reaches",
		Columns: []table.Column{table.Numbers("no.", units.Count), table.Names("part"),
			table.Numbers("from the left", units.Length), table.Numbers(ground, units.Length), table.Numbers("from the back", units.Length),
			table.Numbers("across", units.Length), table.Numbers("up", units.Length), table.Numbers("deep", units.Length), table.Words("opens")},
		Note: "Measured along the three ways of the piece, closed, to the corner of the part that is nearest to its left, lower, rear corner."}
	mm := func(v float64) table.Cell { return table.Q(say.Len(math.Round(v*10)/10, onWood).Plain()) }
	told := model.TableOf(w.pc)
	low := 0.0
	if hung(w) {
		low = math.Inf(1)
		for _, r := range told {
			low = min(low, r.Box.Min.Y)
		}
	}
	for _, r := range told {
		size := r.Box.Size()
		t.Rows = append(t.Rows, table.Row{ID: "model/" + r.Part.ID, Cells: []table.Cell{table.Count(r.Part.Number), table.T(r.Part.Name),
			mm(r.Box.Min.X), mm(r.Box.Min.Y - low), mm(r.Box.Min.Z), mm(size.X), mm(size.Y), mm(size.Z), table.T(opens(r.Move))}})
	}
	return t
}

// opens says how a part opens.
func opens(m *model.Move) string {
	switch {
	case m == nil:
		return ""
	case m.Kind == model.Slides:
		return "slides " + m.Words
	}
	return strings.TrimSpace("turns " + m.Words)
}
