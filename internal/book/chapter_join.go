package book

import (
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// join lists the joints with the fit each is cut to.
func (w *writer) joints() {
	if len(w.pc.Joints) == 0 {
		w.say("none", say.F("No joints were found."))
		return
	}
	w.say("how", say.F("A joint is cut to the measured thickness of what goes in, with the clearance of its fit added. Cut a "+
		"test piece first, of the same stock, with the same tool and set-up, and put what it measures in the log."))
	w.table(w.jointTable(), "joints")
	glued := 0
	area := 0.0
	for _, j := range w.pc.Joints {
		if j.Glued {
			glued++
			area += j.Area.V
		}
	}
	if glued > 0 && area > 0 {
		w.say("glue", say.F("{} glued, over {} in all.", plural(glued, "joint is", "joints are"),
			say.Quantity{V: area, Dim: units.Area, Decimals: 2}))
	}
}

func (w *writer) jointTable() table.Table {
	t := table.Table{Key: "joints", Caption: "Joints", Columns: []table.Column{table.Words("in or on"), table.Names("comes"),
		table.Words("joint"), table.Numbers("deep", units.Length), table.Words("fit"), table.Numbers("clearance", units.Length),
		table.Words("glue")}}
	for _, j := range w.pc.Joints {
		depth, clear := table.T(""), table.T("")
		if j.Depth.V > 0 {
			depth = table.Q(w.fine(j.Depth, "joint "+j.ID))
		}
		if j.Fit != "" {
			clear = table.Q(w.fine(j.Clearance, "joint "+j.ID))
		}
		glue := "dry"
		if j.Glued {
			glue = "glued"
		}
		t.Rows = append(t.Rows, table.Row{ID: j.ID, Cells: []table.Cell{table.T(w.partName(j.A)), table.T(w.partName(j.B)),
			table.T(j.Kind), depth, table.T(j.Fit), clear, table.T(glue)}})
	}
	return t
}

// assemble is the order in which the parts come together.
func (w *writer) assemble() {
	if len(w.p.Order) == 0 {
		w.say("none", say.F("No order of assembly was found, or none is needed."))
		w.caution(anchorCaution)
		return
	}
	w.say("how", say.F("This order was searched, not taken from a recipe, and replayed: no joint is closed by a move across "+
		"its own entry. Put it together dry first, in the same order."))
	w.say("glues", w.glueSentence())
	for _, g := range groups(w.p.Order) {
		w.add(w.groupSteps(g))
	}
	w.caution(anchorCaution)
}

func (w *writer) glueSentence() say.Sentence {
	if w.d.Shop == nil {
		return nil
	}
	var each []say.Sentence
	for _, g := range w.d.Shop.Glues {
		path := "glues." + g.Name
		each = append(each, say.F("{} stays open for {} and wants clamps for {}", say.Name(g.Name),
			w.field(g.Open, units.Time, path+".open time"), w.field(g.ClampTime, units.Time, path+".clamp time")))
	}
	if len(each) == 0 {
		return nil
	}
	return say.F("By the shop file {}. A glue-up must be spread and closed within the open time.", list(each))
}

// groups splits the order into runs of the same glue-up.
func groups(order []work.Step) [][]work.Step {
	var out [][]work.Step
	for i, s := range order {
		if i == 0 || s.Group != order[i-1].Group {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], s)
	}
	return out
}

func (w *writer) groupSteps(g []work.Step) Steps {
	first := digits(g[0].Number)
	title := "Dry or after the glue"
	if g[0].Group > 0 {
		title = "Glue-up " + digits(g[0].Group)
	}
	st := Steps{ID: ID("assemble/steps " + first), Title: title}
	for _, s := range g {
		text := s.Text
		if len(text) == 0 {
			text = say.F("{} comes in {}.", say.Name(w.partName(s.Part)), s.Move)
		}
		step := Step{ID: "assemble/step " + digits(s.Number), Number: s.Number, Text: capital(text)}
		if len(s.Joints) > 0 {
			step.Notes = append(step.Notes, say.F("closes {}", strings.Join(s.Joints, "; ")))
		}
		st.Steps = append(st.Steps, step)
	}
	return st
}
