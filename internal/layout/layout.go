// Package layout is the stage that puts the parts of a piece on the stock: it
// takes each part's blank to the pure problem of package sheet, has it solved
// and checked, and brings the answer back to millimetres and part names.
//
// Stock of sheets is laid out edge to edge, stock of sticks by length. The
// kerf is that of the saw, as measured; trim and grain are those of the stock.
// Nothing is laid out that the independent checker has not passed.
package layout

import (
	"context"
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/sheet"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// batch is the parts that come from one stock.
type batch struct {
	stock *design.Stock
	parts []*piece.Part
}

// Make lays out all parts with a blank, stock by stock, in the order in which
// the stocks first come up among the parts. What fits on no sheet or stick is
// left off, with a finding each that names the part and the size it would need.
// Effort is in units of sheet.Effort for each stock, 0 for a first layout.
func Make(ctx context.Context, p *piece.Piece, saw *design.Saw, habits design.Habits, effort int) ([]work.Layout, []work.Finding) {
	var layouts []work.Layout
	var findings []work.Finding
	for _, b := range batches(p) {
		if saw == nil {
			findings = append(findings, noSaw(b.stock))
			continue
		}
		m := maker{batch: b, saw: saw, habits: habits, effort: effort}
		m.weed()
		if len(m.parts) > 0 {
			if b.stock.Stick {
				m.sticks(ctx)
			} else {
				m.sheets(ctx)
			}
		}
		if m.layout != nil {
			layouts = append(layouts, *m.layout)
		}
		findings = append(findings, m.findings...)
	}
	return layouts, findings
}

func batches(p *piece.Piece) []batch {
	var out []batch
	at := map[*design.Stock]int{}
	for _, q := range p.Parts {
		if q.Stock == nil {
			continue
		}
		i, ok := at[q.Stock]
		if !ok {
			i = len(out)
			at[q.Stock] = i
			out = append(out, batch{stock: q.Stock})
		}
		out[i].parts = append(out[i].parts, q)
	}
	return out
}

// maker lays out one batch.
type maker struct {
	batch
	saw      *design.Saw
	habits   design.Habits
	effort   int
	layout   *work.Layout
	findings []work.Finding
}

// micro brings millimetres to whole micrometres. What is no length that sheet
// takes comes out as one that it refuses.
func micro(mm float64) int64 {
	um := math.Round(mm * 1000)
	if !(um > 0) {
		return 0
	}
	return int64(math.Min(um, 10*sheet.MaxSide))
}

func milli(um int64) float64 { return float64(um) / 1000 }

// cents brings money to whole cents.
func cents(n trace.Num) int64 {
	c := math.Round(n.V * 100)
	if !(c > 0) {
		return 0
	}
	return int64(math.Min(c, sheet.MaxPrice))
}

// grain says how the part lies so that its face grain runs with the stock's.
func grain(q *piece.Part, s *design.Stock) sheet.Grain {
	if q.Grain != piece.AlongLength && q.Grain != piece.AlongWidth {
		return sheet.Free
	}
	if s.GrainAlong != "length" && s.GrainAlong != "width" {
		return sheet.Free
	}
	if (q.Grain == piece.AlongLength) == (s.GrainAlong == "length") {
		return sheet.Along
	}
	return sheet.Across
}

// weed takes off the parts that no sheet or stick holds, with a finding each,
// and those whose blank has no size: their trouble was found before.
func (m *maker) weed() {
	var kept []*piece.Part
	for _, q := range m.parts {
		if micro(q.BlankLength.V) < 1 || micro(q.BlankWidth.V) < 1 {
			m.findings = append(m.findings, m.noSize(q))
			continue
		}
		if f, bad := m.misfit(q); bad {
			m.findings = append(m.findings, f)
			continue
		}
		kept = append(kept, q)
	}
	m.parts = kept
}

// sources are the numbers that decide the count: all blanks, stock and kerf.
func (m *maker) sources() []trace.Num {
	s := m.stock
	ns := []trace.Num{s.Length, s.Width, s.Trim, m.saw.Kerf.Mean}
	for _, q := range m.parts {
		ns = append(ns, q.BlankLength, q.BlankWidth)
	}
	return ns
}

// counted sets what a layout says of its number.
func (m *maker) counted(n, least int, proven bool, proof string) {
	m.layout.Count = trace.Step(float64(n), m.sources()...)
	m.layout.Least, m.layout.Proven, m.layout.Proof = least, proven, proof
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
