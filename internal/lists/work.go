package lists

import (
	"slices"
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/template"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// fittings has one row for each bought thing on a part.
func (m *maker) fittings() table.Table {
	t := table.Table{Key: "fittings", Caption: "Fittings", Columns: []table.Column{table.Names("fitting"), table.Words("kind"),
		table.Numbers("on no.", units.Count), table.Words("on"), count("needed"), count("in hand, of all")}}
	for _, f := range m.p.Piece.Fittings {
		t.Rows = append(t.Rows, row("", table.T(f.What), table.T(f.Kind), m.number(f.On), table.T(m.name(f.On)), table.Count(f.Count), table.Count(f.InHand)))
	}
	return t
}

// screws has one row for each joint that is screwed.
func (m *maker) screws() table.Table {
	t := table.Table{Key: "screws", Caption: "Screws", Columns: []table.Column{table.Names("joint"), table.Words("head in"), table.Words("thread in"),
		count("count"), length("diameter"), length("length"), length("clearance hole"), length("pilot hole"), length("apart")}}
	for _, s := range m.p.Screws {
		t.Rows = append(t.Rows, row(s.Joint, table.T(s.Joint), table.T(m.name(s.Through)), table.T(m.name(s.In)), table.Count(s.Count),
			num(s.Size), num(s.Length), num(s.Clear), num(s.Pilot), some(s.Every)))
	}
	return t
}

// buying has one row for each thing to buy or to have, and their sum.
func (m *maker) buying() table.Table {
	currency := ""
	if m.p.Design != nil {
		currency = m.p.Design.Currency
	}
	sum := func(head string) table.Column {
		return table.Column{Head: head, Dim: units.Money, Unit: currency, Align: table.Right}
	}
	t := table.Table{Key: "buy", Caption: "To buy", Columns: slices.Concat([]table.Column{table.Names("what")}, words("size", "for"),
		[]table.Column{table.Numbers("needed", units.None), count("in hand"), table.Words("by the"), sum("one costs"), sum("what is missing costs")})}
	if len(m.p.Unpriced) > 0 {
		t.Note = "Without a price, and so not in the sum: " + strings.Join(m.p.Unpriced, ", ") + "."
	}
	for _, b := range m.p.Buying {
		needed := say.Num(b.Count.V, 2)
		if b.Count.V == float64(int(b.Count.V)) {
			needed.Decimals = 0
		}
		t.Rows = append(t.Rows, row("", table.T(b.What), table.S(b.Sized()), table.S(b.Purpose()), table.Q(needed), table.Count(b.InHand),
			table.T(b.Unit), money(b.Price), money(b.Cost)))
	}
	if len(t.Rows) > 0 {
		cells := make([]table.Cell, len(t.Columns))
		cells[0], cells[len(cells)-1] = table.T("together"), money(m.p.Cost)
		t.Rows = append(t.Rows, table.Row{Cells: cells, Total: true})
	}
	return t
}

// blanks has one row for each blank on a sheet or a stick.
func (m *maker) blanks() table.Table {
	t := table.Table{Key: "layout", Caption: "Blanks on sheets and sticks", Columns: []table.Column{table.Words("stock"), count("sheet or stick"),
		length("x"), length("y"), length("along the sheet"), length("across it"), table.Numbers("part no.", units.Count), partColumn, table.Words("turned")},
		Note: "Places of the blank's nearest corner, from the datum corner of the sheet or the end of the stick."}
	for _, l := range m.p.Layouts {
		for _, s := range l.Sheets {
			for _, b := range s.Placements {
				t.Rows = append(t.Rows, row("", table.T(l.Stock), table.Count(s.Number), mm(b.X), mm(b.Y), mm(b.Length), mm(b.Width),
					m.number(b.Part), table.T(m.name(b.Part)), yes(b.Turned)))
			}
		}
		for _, s := range l.Sticks {
			for _, b := range s.Lengths {
				t.Rows = append(t.Rows, row("", table.T(l.Stock), table.Count(s.Number), mm(b.X), table.Cell{}, mm(b.Length), table.Cell{},
					m.number(b.Part), table.T(m.name(b.Part)), table.Cell{}))
			}
		}
	}
	return t
}

// sawCuts has one row for each cut that breaks a sheet down.
func (m *maker) sawCuts() table.Table {
	t := table.Table{Key: "saw cuts", Caption: "Saw cuts of sheets", Columns: []table.Column{table.Words("stock"), count("sheet"), count("cut"),
		length("fence"), length("x from"), length("y from"), length("x to"), length("y to"), length("kerf"), table.Words("what it does")}}
	for _, l := range m.p.Layouts {
		for _, s := range l.Sheets {
			for _, c := range s.Cuts {
				t.Rows = append(t.Rows, row("", table.T(l.Stock), table.Count(s.Number), table.Count(c.Number), mm(c.Fence),
					mm(c.X0), mm(c.Y0), mm(c.X1), mm(c.Y1), mm(s.Kerf), table.T(c.Note)))
			}
		}
	}
	return t
}

// offcuts has one row for each remainder that is kept.
func (m *maker) offcuts() table.Table {
	t := table.Table{Key: "offcuts", Caption: "Offcuts that are kept", Columns: []table.Column{table.Words("stock"), count("sheet or stick"),
		length("long"), length("wide"), length("x"), length("y")}}
	for _, l := range m.p.Layouts {
		for _, s := range l.Sheets {
			for _, o := range s.Offcuts {
				t.Rows = append(t.Rows, row("", table.T(l.Stock), table.Count(s.Number), mm(o.Length), mm(o.Width), mm(o.X), mm(o.Y)))
			}
		}
		for _, s := range l.Sticks {
			if s.Left > 0 {
				t.Rows = append(t.Rows, row("", table.T(l.Stock), table.Count(s.Number), mm(s.Left), table.Cell{}, mm(s.Length-s.Left), table.Cell{}))
			}
		}
	}
	return t
}

// setUps has one row for each cut of each set-up.
func (m *maker) setUps() table.Table {
	t := table.Table{Key: "set-ups", Caption: "Set-ups, with their cuts", Columns: slices.Concat([]table.Column{count("set-up")}, words("kind", "tool", "with"),
		[]table.Column{length("cutter"), length("stop"), table.Words("stop from"), length("deep"), table.Words("through"), table.Numbers("part no.", units.Count),
			partColumn, table.Words("face"), length("from"), length("to"), count("count"), length("step"), table.Words("for"), table.Words("late"),
			table.Numbers("blade tilt", units.Angle), table.Numbers("gauge turned", units.Angle)})}
	for _, s := range m.p.SetUps {
		tilt, mitre := table.Cell{}, table.Cell{}
		if s.Kind == "bevel" {
			tilt, mitre = table.Q(say.Angle(s.Tilt.V, 2)), table.Q(say.Angle(s.Mitre.V, 2))
		}
		for _, c := range s.Cuts {
			n := table.Cell{}
			if c.Count > 0 {
				n = table.Count(c.Count)
			}
			t.Rows = append(t.Rows, row("", table.Count(s.Number), table.T(s.Kind), table.T(string(s.Tool)), table.T(s.With), some(s.Cutter),
				num(s.Stop), table.T(s.From), some(s.Depth), yes(s.Through), m.number(c.Part), table.T(m.name(c.Part)), table.T(c.Face),
				num(c.From), num(c.To), n, some(c.Step), table.T(c.For), yes(c.Late), tilt, mitre))
		}
	}
	return t
}

// steps has one row for each step of the assembly.
func (m *maker) steps() table.Table {
	t := table.Table{Key: "steps", Caption: "Going together", Columns: []table.Column{count("step"), count("glue-up"), table.Numbers("part no.", units.Count),
		partColumn, table.Words("move"), table.Words("meets"), table.Words("closes"), table.Words("in words")},
		Note: "Steps of one glue-up share its number; those without one are done dry or after."}
	for _, s := range m.p.Order {
		glue := table.Cell{}
		if s.Group > 0 {
			glue = table.Count(s.Group)
		}
		var into []string
		for _, id := range s.Into {
			into = append(into, m.name(id))
		}
		t.Rows = append(t.Rows, row("", table.Count(s.Number), glue, m.number(s.Part), table.T(m.name(s.Part)), table.T(s.Move),
			table.T(strings.Join(into, "; ")), table.T(strings.Join(s.Joints, "; ")), table.S(s.Text)))
	}
	return t
}

// findings has one row for each finding, the gravest first.
func (m *maker) findings() table.Table {
	t := table.Table{Key: "findings", Caption: "Findings", Columns: slices.Concat(words("says", "what", "found", "mends", "rule"),
		[]table.Column{table.Numbers("part no.", units.Count)}, words("id"))}
	grave := map[work.Verdict]int{work.Stop: 0, work.Look: 1, work.NotCovered: 2, work.Fine: 3}
	all := slices.Clone(m.p.Findings)
	if m.p.Piece != nil {
		all = append(all, template.Findings(template.Make(m.p, template.Options{}))...)
	}
	slices.SortStableFunc(all, func(a, b work.Finding) int { return grave[a.Verdict] - grave[b.Verdict] })
	for _, f := range all {
		var mends say.Sentence
		for i, x := range f.Mends {
			if i > 0 {
				mends = append(mends, say.Span{Text: "; "})
			}
			mends = append(mends, x.Text...)
		}
		t.Rows = append(t.Rows, row(f.ID, table.T(string(f.Verdict)), table.T(f.Title), table.S(f.Text), table.S(mends), table.T(f.Rule),
			m.number(f.Part), table.T(f.ID)))
	}
	return t
}
