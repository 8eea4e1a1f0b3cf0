// Package lists makes of a plan the tables that other programs take: one row
// for one thing, every measure in a column of its own, nothing told in
// sentences that a column could hold. The book has tables too, but those are
// made for reading; these are made for sorting, for sums and for machines.
//
// Each table has a short key (its file's name) and at most one row for a thing:
// "parts" has one for each part, "holes" one for each single hole, "kerfs" one
// for each kerf. Places are measured from the part's datum corner, x along its
// length and y across it, as everywhere. Part numbers are those of the book and
// of the labels. A table that would be empty is left out.
//
// A number is told as it was computed; how many decimals are shown is the
// reader's business. Table.Plain puts it into the unit that was asked for.
package lists

import (
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Make returns all tables of a plan that have a row, in the order of the work.
func Make(p *plan.Plan) []table.Table {
	m := maker{p: p, parts: map[string]*piece.Part{}}
	if p.Piece != nil {
		for _, q := range p.Piece.Parts {
			m.parts[q.ID] = q
		}
		m.add(m.partList(), m.bends(), m.kerfs(), m.cuts(), m.holes(), m.joints(), m.fittings())
	}
	m.add(m.aids(), m.screws(), m.buying(), m.blanks(), m.sawCuts(), m.offcuts(), m.setUps(), m.steps(), m.findings())
	return m.out
}

type maker struct {
	p     *plan.Plan
	parts map[string]*piece.Part
	out   []table.Table
}

// add keeps the tables that have rows.
func (m *maker) add(tables ...table.Table) {
	for _, t := range tables {
		if len(t.Rows) > 0 {
			m.out = append(m.out, t)
		}
	}
}

// name is what a part is called; its id where there is no such part.
func (m *maker) name(id string) string {
	if q := m.parts[id]; q != nil {
		return q.Name
	}
	return id
}

// number is a cell with a part's number, empty where there is no such part.
func (m *maker) number(id string) table.Cell {
	if q := m.parts[id]; q != nil {
		return table.Count(q.Number)
	}
	return table.Cell{}
}

// The columns that many tables have.
var (
	numberColumn = table.Numbers("no.", units.Count)
	partColumn   = table.Names("part")
)

func length(head string) table.Column { return table.Numbers(head, units.Length) }

func count(head string) table.Column { return table.Numbers(head, units.Count) }

func words(heads ...string) []table.Column {
	var out []table.Column
	for _, h := range heads {
		out = append(out, table.Words(h))
	}
	return out
}

// mm is a cell with a length, shown with a hundredth.
func mm(v float64) table.Cell { return table.Q(say.Len(v, 2)) }

func num(n trace.Num) table.Cell { return mm(n.V) }

// some is mm, but empty for nought: a measure that does not apply.
func some(n trace.Num) table.Cell {
	if n.V == 0 {
		return table.Cell{}
	}
	return num(n)
}

func degrees(rad float64) table.Cell { return table.Q(say.Angle(rad, 2)) }

func money(n trace.Num) table.Cell {
	return table.Q(say.Quantity{V: n.V, Dim: units.Money, Decimals: 2, Bare: true})
}

// yes is a cell that says yes, or nothing.
func yes(v bool) table.Cell {
	if v {
		return table.T("yes")
	}
	return table.Cell{}
}

func row(id string, cells ...table.Cell) table.Row { return table.Row{ID: id, Cells: cells} }
