package book

import (
	"strings"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// cut lists the parts, shows how they lie on their stock, and where each is
// worked, always from its one datum corner.
func (w *writer) cut() {
	if len(w.pc.Parts) == 0 {
		return
	}
	w.say("how", say.F("Thickness is what the calliper says, never the label. First cut the blank, then the part; every "+
		"place on a part is measured from its datum corner, along its length (x) and across it (y)."))
	w.say("labels", w.labelNote())
	w.caution(sawCaution)
	w.caution(dustCaution)
	for _, g := range byStock(w.pc.Parts) {
		w.table(w.partTable(g), ids(g.parts)...)
	}
	w.layouts()
	w.setups()
	w.machining()
}

// PartAnchor names the line of a part in the parts list, which the code on the
// part's label leads to: '#part-4' in the book's page.
func PartAnchor(number int) string { return "part-" + digits(number) }

// labelNote says where the code on a label leads.
func (w *writer) labelNote() say.Sentence {
	if w.d.ID == "" || len(w.pc.Parts) == 0 {
		return nil
	}
	n := w.pc.Parts[0].Number
	return say.F("The code on a part’s label names its line in the lists below: {} is the place {} of this book’s page.",
		"rodwork:"+w.d.ID+"/part/"+digits(n), "#"+PartAnchor(n))
}

func ids(parts []*piece.Part) []string {
	out := make([]string, len(parts))
	for i, q := range parts {
		out[i] = q.ID
	}
	return out
}

// partTable is the parts list of one stock.
func (w *writer) partTable(g stockGroup) table.Table {
	t := table.Table{Key: "parts " + g.stock.Name, Caption: "Parts of " + g.stock.Name,
		Columns: []table.Column{table.Numbers("no.", units.Count), table.Names("part"), table.Numbers("length", units.Length),
			table.Numbers("width", units.Length), table.Numbers("thick", units.Length), table.Numbers("blank, long", units.Length),
			table.Numbers("blank, wide", units.Length), table.Words("grain"), table.Numbers("mass", units.Mass), table.Words("note")}}
	for _, q := range g.parts {
		mm := func(n trace.Num) table.Cell { return table.Q(w.computed(n, units.Length, onWood, q.ID).Plain()) }
		t.Rows = append(t.Rows, table.Row{ID: q.ID, Anchor: PartAnchor(q.Number), Cells: []table.Cell{table.Count(q.Number), table.T(q.Name), mm(q.Length),
			mm(q.Width), mm(q.Thick), mm(q.BlankLength), mm(q.BlankWidth), table.T(grainWord(q.Grain)),
			table.Q(w.quantity(w.mass(q), units.Mass, 2, q.ID).Plain()), table.T(partNote(q))}})
	}
	return t
}

func grainWord(g piece.Grain) string {
	switch g {
	case piece.AlongLength:
		return "along"
	case piece.AlongWidth:
		return "across"
	}
	return "none"
}

func partNote(q *piece.Part) string {
	var n []string
	if q.Late {
		n = append(n, "late, provisional")
	}
	if len(q.Bends) > 0 {
		n = append(n, "bent, sizes laid flat")
	}
	if q.Loose {
		n = append(n, "loose")
	}
	return strings.Join(n, "; ")
}

// layouts shows how the blanks lie on sheets and sticks.
func (w *writer) layouts() {
	if len(w.p.Layouts) == 0 {
		return
	}
	w.head("layouts", "Layouts")
	w.say("checked", join(w.checkedSentence(), w.settingsSentence()))
	leaves := w.sheetLeaves()
	next := func() {
		if len(leaves) > 0 {
			w.leaves(leaves[:1])
			leaves = leaves[1:]
		}
	}
	note := sawNote // once is enough
	for _, l := range w.p.Layouts {
		w.say("layout "+l.Stock, w.layoutSentence(l))
		for _, s := range l.Sheets {
			next()
			t := w.sawTable(l, s)
			t.Note, note = note, ""
			w.table(t)
		}
		if len(l.Sticks) > 0 {
			next()
		}
		for _, s := range l.Sticks {
			w.table(w.stickTable(l, s))
		}
	}
	w.leaves(leaves)
}

// checkedSentence tells what the separate checker said.
func (w *writer) checkedSentence() say.Sentence {
	var bad []string
	for _, l := range w.p.Layouts {
		if !l.Checked {
			bad = append(bad, l.Stock)
		}
	}
	if len(bad) > 0 {
		return say.F("The layouts of {} have not passed the separate checker: don’t cut by them.", names(bad))
	}
	return say.F("A separate checker has gone over the layouts: every blank is on its stock, inside the trim, apart by the " +
		"kerf, with its grain right, and freed by the cuts in their order.")
}

// settingsSentence counts the settings of the fence: cuts that follow each other
// at one distance the same way share one.
func (w *writer) settingsSentence() say.Sentence {
	cuts, settings := 0, 0
	for _, l := range w.p.Layouts {
		for _, s := range l.Sheets {
			for i, c := range s.Cuts {
				cuts++
				if i == 0 || c.Fence != s.Cuts[i-1].Fence || (c.X0 == c.X1) != (s.Cuts[i-1].X0 == s.Cuts[i-1].X1) {
					settings++
				}
			}
		}
	}
	if cuts == 0 {
		return nil
	}
	return say.F("{} at {} of the fence: like ones follow each other.", plural(cuts, "saw cut", "saw cuts"), plural(settings, "setting", "settings"))
}

// mass is a part's mass as the buying stage weighed it.
func (w *writer) mass(q *piece.Part) trace.Num {
	for _, m := range w.p.Masses {
		if m.Part == q.ID {
			return m.Mass
		}
	}
	return q.Mass
}

func (w *writer) layoutSentence(l work.Layout) say.Sentence {
	n, one, many := len(l.Sheets), "sheet", "sheets"
	if len(l.Sticks) > 0 {
		n, one, many = len(l.Sticks), "stick", "sticks"
	}
	s := say.F("The parts of {} lie on {}", say.Name(l.Stock), plural(n, one, many))
	switch {
	case l.Proven:
		s = say.F("{}, and no fewer will do", s)
	case l.Least > 0:
		s = say.F("{}; at least {} must be had, whether {} is enough is open", s, number(l.Least), plural(l.Least, one, many))
	}
	s = say.F("{}.", s)
	if l.Proof != "" {
		s = join(s, say.F("{}", l.Proof))
	}
	return s
}

const sawNote = "Set is the distance from the datum edge of the piece in hand to the near side of the kerf; of a trim it is what " +
	"the sheet loses, kerf included. x runs along the sheet’s length and y along its width, from its corner, to the edge that is kept."

// sawTable is the order of the saw cuts of one sheet.
func (w *writer) sawTable(l work.Layout, s work.SheetLayout) table.Table {
	t := table.Table{Key: "saw " + l.Stock + " " + digits(s.Number), Caption: "Saw cuts, " + l.Stock + ", sheet " + digits(s.Number),
		Columns: []table.Column{table.Numbers("cut", units.Count), table.Numbers("set", units.Length), table.Words("along"),
			table.Numbers("from x", units.Length), table.Numbers("from y", units.Length), table.Numbers("to x", units.Length),
			table.Numbers("to y", units.Length), table.Words("note")}}
	t.Columns[0].Names = true
	for _, c := range s.Cuts {
		way := "length"
		if c.X0 == c.X1 {
			way = "width"
		}
		mm := func(v float64) table.Cell { return table.Q(say.Len(v, onWood).Plain()) }
		t.Add(table.Count(c.Number), mm(c.Fence), table.T(way), mm(c.X0), mm(c.Y0), mm(c.X1), mm(c.Y1), table.T(c.Note))
	}
	return t
}

func (w *writer) stickTable(l work.Layout, s work.StickLayout) table.Table {
	t := table.Table{Key: "stick " + l.Stock + " " + digits(s.Number), Caption: "Lengths, " + l.Stock + ", stick " + digits(s.Number),
		Columns: []table.Column{table.Names("part"), table.Numbers("from", units.Length), table.Numbers("length", units.Length)}}
	for _, c := range s.Lengths {
		t.Add(table.T(w.partName(c.Part)), table.Q(say.Len(c.X, onWood).Plain()), table.Q(say.Len(c.Length, onWood).Plain()))
	}
	return t
}
