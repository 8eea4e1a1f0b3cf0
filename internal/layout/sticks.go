package layout

import (
	"context"
	"fmt"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
	"rodwork/internal/work"
)

// sticks lays lengths on sticks. A stick wide enough is ripped into lanes, all
// as wide as the widest blank, and each lane is a stick of its own.
func (m *maker) sticks(ctx context.Context) {
	s := m.stock
	p := sheet.StickProblem{Stick: micro(s.Length.V), EndTrim: micro(s.Trim.V), Kerf: micro(m.saw.Kerf.Mean.V)}
	widest := int64(0)
	for _, q := range m.parts {
		p.Lengths = append(p.Lengths, sheet.Length{ID: q.ID, Length: micro(q.BlankLength.V), Copies: 1})
		widest = max(widest, micro(q.BlankWidth.V))
	}
	a, err := pack.Sticks(ctx, p, m.effort)
	if err != nil {
		m.findings = append(m.findings, m.failed(err))
		return
	}
	if err := verify.Sticks(p, a); err != nil {
		m.findings = append(m.findings, m.failed(fmt.Errorf("the checker refuses the layout: %w", err)))
		return
	}
	lanes := int(max((micro(s.Width.V)+p.Kerf)/(widest+p.Kerf), 1))
	m.layout = &work.Layout{Stock: s.Name, Checked: true}
	for i, st := range a.Sticks {
		if i%lanes == 0 {
			m.layout.Sticks = append(m.layout.Sticks, work.StickLayout{
				Number: i/lanes + 1, Stock: s.Name, Length: milli(p.Stick), Kerf: milli(p.Kerf)})
		}
		out := &m.layout.Sticks[len(m.layout.Sticks)-1]
		y := int64(i%lanes) * (widest + p.Kerf)
		for _, q := range st.Pieces {
			part := m.parts[q.Length]
			out.Lengths = append(out.Lengths, work.Placement{Part: part.ID, X: milli(q.At), Y: milli(y),
				Length: milli(p.Lengths[q.Length].Length), Width: milli(micro(part.BlankWidth.V))})
		}
		out.Left = max(out.Left, milli(st.Left))
	}
	n, least := len(m.layout.Sticks), (a.Least+lanes-1)/lanes
	m.counted(n, least, n <= least, stickProof(a, lanes, n, least))
}

// stickProof says in words why fewer sticks cannot do.
func stickProof(a sheet.StickAnswer, lanes, n, least int) string {
	what := "stick"
	if lanes > 1 {
		what = "lane"
	}
	s := ""
	switch {
	case least == 1:
		return "One stick is the least there is."
	case a.Searched:
		s = fmt.Sprintf("A search through all ways of filling found none with fewer than %s; that is no sum that can be added up again.", plural(a.Least, what))
	case a.Weights != nil:
		s = fmt.Sprintf("Weighed one by one so that no %s can carry more than 1, the lengths weigh %.3f: fewer than %s cannot hold them.", what, a.Sum, plural(a.Least, what))
	case a.F.Family == sheet.Identity:
		s = fmt.Sprintf("The lengths with their kerfs take %.3f of one %s: fewer than %s cannot hold them.", a.Sum, what, plural(a.Least, what))
	default:
		s = fmt.Sprintf("Weighed by their length (%s), with no %s able to carry more than 1, they weigh %.3f: fewer than %s cannot hold them.",
			weighing(a.F), what, a.Sum, plural(a.Least, what))
	}
	if lanes > 1 {
		s += fmt.Sprintf(" A stick gives %d lanes as wide as the widest blank.", lanes)
	}
	return s
}
