package layout

import (
	"rodwork/internal/say"
	"rodwork/internal/sheet"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// reach finds cuts that are longer than the saw can make in one go. The search
// keeps out of their way where it finds a layout of as few sheets that does; the
// cuts that trim a sheet's edges are there on every one.
func (m *maker) reach(sheets []sheet.Layout) {
	limit := micro(m.saw.Longest.V)
	if limit < 1 {
		return // not known
	}
	n, worst, worstSheet, worstCut := 0, int64(0), 0, 0
	for i, l := range sheets {
		for _, c := range l.Cuts {
			run := c.To - c.From
			if run <= limit {
				continue
			}
			if n++; run > worst {
				worst, worstSheet, worstCut = run, i+1, c.Number
			}
		}
	}
	if n == 0 {
		return
	}
	f := work.Finding{ID: "layout/" + m.stock.Name + "/reach", Rule: RuleFits, Verdict: work.Look, Title: "cuts longer than the saw's",
		Value: trace.Step(milli(worst), m.sources()...), Limit: m.saw.Longest, Unit: "mm", Path: m.stock.Path, Chapter: "cut"}
	f.Text = say.F("{} of {} run further than the {} that {} cuts in one go; the longest is cut {} of sheet {}, {}", plural(n, "cut"), say.Choice(m.stock.Name, m.stock.Path),
		say.Len(m.saw.Longest.V, 1), m.saw.Name, worstCut, worstSheet, say.Len(milli(worst), 1).Plain())
	f.Mends = []work.Mend{{Text: say.F("have the first cuts made where the sheet is bought, or guide the saw along a straight edge as long as the cut"), Path: m.stock.Path}}
	m.findings = append(m.findings, f)
}
