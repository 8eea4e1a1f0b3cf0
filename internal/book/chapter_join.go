package book

import (
	"math"
	"slices"
	"strings"

	"rodwork/internal/design"
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
	w.acts("measures", "What each must measure", w.measureActs())
	w.acts("pegs", "Dowels and loose tenons", w.pegActs())
	w.table(w.jointTable(), "joints")
	w.leaves(w.jointLeaves())
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

// measureActs are the slots of the piece, each width and depth once, with the
// set-ups that cut them.
func (w *writer) measureActs() []act {
	var out []act
	for i, u := range w.p.SetUps {
		if u.Kind != "housing" && u.Kind != "rabbet" && u.Kind != "groove" {
			continue
		}
		same := func(o work.SetUp) bool {
			return o.Kind == u.Kind && near(o.Width.V, u.Width.V) && near(o.Depth.V, u.Depth.V)
		}
		if slices.ContainsFunc(w.p.SetUps[:i], same) {
			continue
		}
		n, last := 0, u.Number
		for _, o := range w.p.SetUps[i:] {
			if same(o) {
				n, last = n+len(o.Cuts), o.Number
			}
		}
		ups := say.F("set-up {}", number(u.Number))
		if last > u.Number {
			ups = say.F("set-ups {} to {}", number(u.Number), number(last))
		}
		out = append(out, do("{} {} wide, {} deep ({}).", plural(n, u.Kind, u.Kind+"s"), say.LenN(u.Width, onSteel).Plain(), say.LenN(u.Depth, onSteel), ups))
	}
	if len(out) > 0 {
		out = append(out, habit("Put every joint together dry and number both sides. What is forced dry does not go with glue."))
	}
	return out
}

// near tells whether two settings are the same to what can be set.
func near(a, b float64) bool { return math.Abs(a-b) < 1e-3 }

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
		return
	}
	w.say("how", say.F("This order was searched, not taken from a recipe, and replayed: no joint is closed by a move across "+
		"its own entry. Put it together dry first, in the same order."))
	w.leaves(w.apartLeaves())
	w.say("glues", w.glueSentence())
	w.caution(glueCaution)
	w.caution(liftCaution)
	w.acts("ready", "Before the glue", w.readyActs())
	if len(w.p.GlueUps) > 0 {
		w.table(w.clockTable())
	}
	for _, g := range groups(w.p.Order) {
		w.add(w.groupSteps(g))
		if up, ok := w.glueUp(g[0].Group); ok {
			w.table(w.rehearsal(up, g))
		}
	}
}

// readyActs are what to lay out and what to measure while the clamps are on.
func (w *writer) readyActs() []act {
	var out []act
	if w.d.Shop != nil && len(w.d.Shop.Clamps) > 0 {
		var each []say.Sentence
		reach := 0.0
		for _, c := range w.d.Shop.Clamps {
			each = append(each, say.F("{} × {}", number(c.Count), say.Name(c.Name)))
			reach = math.Max(reach, c.Reach.V)
		}
		a := do("Lay out the clamps: {}.", list(each))
		if wide := w.d.Body.Width.V; reach > 0 && reach < wide {
			a.text = join(a.text, say.F("The longest reaches {} and the body is {} wide: hook two together, or use a strap.", say.Len(reach, 0), say.Len(wide, 0)))
		}
		out = append(out, a)
	}
	out = append(out, habit("Go through each glue-up once dry, by the clock, clamps and all. Who holds what is agreed before the glue."))
	if a, ok := w.squareAct(); ok {
		out = append(out, a)
	}
	return out
}

// squareAct checks the carcase by its diagonals; one that ends in a bend can't
// be measured.
func (w *writer) squareAct() (act, bool) {
	b := w.d.Body
	if b.Width.V <= 0 || b.Height.V <= 0 {
		return act{}, false
	}
	bent := func(name string) bool { return b.Corners[name].Bent }
	long := say.Len(math.Hypot(b.Width.V, b.Height.V), 1)
	up, down := bent(design.BottomLeft) || bent(design.TopRight), bent(design.TopLeft) || bent(design.BottomRight)
	switch {
	case up && down:
		return do("No diagonal runs from corner to corner here: square it by a large square, at the inside, before the glue grabs."), true
	case up:
		return do("Square: from top left to bottom right, outside, it must measure {}.", long), true
	case down:
		return do("Square: from bottom left to top right, outside, it must measure {}. The other diagonal ends in the bend.", long), true
	}
	return do("Square: both diagonals, outside, must measure {}.", long), true
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
		if m := mindNote(s.Mind...); len(m) > 0 {
			step.Notes = append(step.Notes, m)
		}
		st.Steps = append(st.Steps, step)
	}
	return st
}
