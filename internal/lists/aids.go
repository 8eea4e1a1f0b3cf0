package lists

import (
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// aids has one row for each kind of thing that is cut to bend on.
func (m *maker) aids() table.Table {
	t := table.Table{Key: "aids", Caption: "Formers, blocks and cauls", Columns: []table.Column{table.Names("what"), table.Words("kind"), count("count"),
		length("long"), length("wide"), length("thick"), length("radius"), table.Numbers("angle", units.Angle), table.Words("stock"), table.Words("from"), count("sheet")},
		Note: "Of a stock that the piece file names, they lie on its layouts; else they come from a kept offcut of the sheet that is named."}
	for _, a := range m.p.Aids {
		from, sheet, angle := "", table.Cell{}, table.Cell{}
		switch {
		case a.Chosen:
			from = "layout"
		case a.At != nil:
			from, sheet = "offcut", table.Count(a.Sheet)
		}
		if a.Radius.V > 0 {
			angle = degrees(a.Angle.V)
		}
		t.Rows = append(t.Rows, row(a.ID, table.T(a.Name), table.T(a.Kind), table.Count(a.Count), num(a.Length), num(a.Width), num(a.Thick), some(a.Radius), angle,
			table.T(a.Stock), table.T(from), sheet))
	}
	return t
}
