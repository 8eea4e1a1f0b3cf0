package layout

import (
	"cmp"
	"context"
	"fmt"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
	"rodwork/internal/work"
)

func (m *maker) sheets(ctx context.Context) {
	p := m.problem()
	a, err := pack.Solve(ctx, p, m.effort)
	if err != nil {
		m.findings = append(m.findings, m.failed(err))
		return
	}
	if err := verify.Sheets(p, a); err != nil {
		m.findings = append(m.findings, m.failed(fmt.Errorf("the checker refuses the layout: %w", err)))
		return
	}
	m.layout = &work.Layout{Stock: m.stock.Name, Checked: true}
	for i, l := range a.Sheets {
		m.layout.Sheets = append(m.layout.Sheets, m.sheet(p, l, i+1))
	}
	m.counted(a.Full, a.Proof.Least, a.Proven, proofOf(a))
	m.reach(a.Sheets)
}

// problem is the batch in whole micrometres, one part a line.
func (m *maker) problem() sheet.Problem {
	s := m.stock
	p := sheet.Problem{
		Stocks: []sheet.Stock{{
			Name: s.Name, Length: micro(s.Length.V), Width: micro(s.Width.V), Trim: micro(s.Trim.V),
			Price: cents(s.Price), Available: sheet.Unlimited,
		}},
		Kerf:     micro(m.saw.Kerf.Mean.V),
		KeptSide: micro(m.habits.KeptOffcut.V),
		Reach:    min(micro(m.saw.Longest.V), sheet.MaxSide),
	}
	for _, q := range m.parts {
		p.Parts = append(p.Parts, sheet.Part{
			ID: q.ID, Length: micro(q.BlankLength.V), Width: micro(q.BlankWidth.V),
			Grain: grain(q, s), Copies: max(1, q.Plies),
		})
	}
	return p
}

func (m *maker) sheet(p sheet.Problem, l sheet.Layout, number int) work.SheetLayout {
	s := p.Stocks[l.Stock]
	out := work.SheetLayout{
		Number: number, Stock: m.stock.Name, GrainAlong: m.stock.GrainAlong,
		Length: milli(s.Length), Width: milli(s.Width), Trim: milli(s.Trim), Kerf: milli(p.Kerf),
	}
	used := int64(0)
	for _, q := range l.Placements {
		used += q.DX * q.DY
		out.Placements = append(out.Placements, work.Placement{
			Part: m.parts[q.Part].ID, X: milli(q.X), Y: milli(q.Y),
			Length: milli(q.DX), Width: milli(q.DY), Turned: q.Turned,
		})
	}
	out.Used = float64(used) / float64(s.Length*s.Width)
	for _, c := range l.Cuts {
		out.Cuts = append(out.Cuts, cut(c))
	}
	for _, r := range l.Offcuts {
		out.Offcuts = append(out.Offcuts, work.Offcut{X: milli(r.X), Y: milli(r.Y), Length: milli(r.DX), Width: milli(r.DY)})
	}
	return out
}

func cut(c sheet.Cut) work.SheetCut {
	out := work.SheetCut{Number: c.Number, Fence: milli(c.Fence)}
	along := "rip"
	if c.Axis == sheet.X {
		along = "cross cut"
		out.X0, out.X1, out.Y0, out.Y1 = milli(c.At), milli(c.At), milli(c.From), milli(c.To)
	} else {
		out.X0, out.X1, out.Y0, out.Y1 = milli(c.From), milli(c.To), milli(c.At), milli(c.At)
	}
	out.Note = along
	if c.Trim {
		out.Note = "trim the long edge"
		if c.Axis == sheet.X {
			out.Note = "trim the end, square to it: the corner is the datum"
		}
	}
	return out
}

// proofOf says the certificate in words.
func proofOf(a sheet.Answer) string {
	c := a.Proof
	if c.Least == 0 {
		return "No least number is proved."
	}
	if c.Least == 1 {
		return "One sheet is the least there is."
	}
	plain := sheet.Func{Family: sheet.Identity}
	if c.F == plain && c.G == plain && !c.Mean && len(c.Lifts) == 0 {
		return fmt.Sprintf("The blanks with their kerfs take %.3f of one sheet's area inside the trim: fewer than %s cannot hold them.",
			c.Sum-c.Less, plural(c.Least, "sheet"))
	}
	lifted := ""
	if len(c.Lifts) > 0 {
		lifted = "Taken for as long and as wide as they may be where nothing fits beside them, and weighed"
	}
	return fmt.Sprintf(cmp.Or(lifted, "Weighed")+" by their length (%s) and their width (%s), with no sheet able to carry more than 1, the blanks weigh %.3f: fewer than %s cannot hold them.",
		weighing(c.F), weighing(c.G), c.Sum-c.Less, plural(c.Least, "sheet"))
}

// weighing names a dual feasible function for people.
func weighing(f sheet.Func) string {
	if f.Floor > 0 {
		least := milli(f.Floor)
		f.Floor = 0
		return fmt.Sprintf("%s, under %.1f mm as nothing", weighing(f), least)
	}
	switch f.Family {
	case sheet.Identity:
		return "as it is"
	case sheet.Rounding:
		return fmt.Sprintf("rounded by parts of %d", f.Param+1)
	case sheet.Threshold:
		return fmt.Sprintf("under %.1f mm as nothing", milli(f.Param))
	case sheet.Division:
		return fmt.Sprintf("in steps of %.1f mm", milli(f.Param))
	case sheet.Slope:
		return fmt.Sprintf("in slanting steps of %.1f mm", milli(f.Param))
	case sheet.Counting:
		return fmt.Sprintf("by the number of those from %.1f mm", milli(f.Param))
	}
	return string(f.Family)
}
