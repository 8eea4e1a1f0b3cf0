package brief

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

func fitOf(i int, t design.Thing, s solution, rooms []room) work.Fit {
	f := work.Fit{What: t.What, Wanted: t.Count, Fits: s.best.counts[i], Path: t.Path}
	for r := range rooms {
		place := work.FitPlace{Space: rooms[r].space.Name}
		for _, p := range s.best.puts {
			if p.thing == i && s.levels[p.level].room == r {
				place.Rows += p.rows
				place.Count += p.front + p.back
			}
		}
		if place.Count > 0 {
			f.Where = append(f.Where, place)
		}
	}
	if f.Fits < f.Wanted {
		f.Because = why(i, t, s)
		f.Why = plain(f.Because)
	}
	return f
}

// why names what keeps the rest out: the measure that the best level misses,
// or that the levels it fits are full.
func why(i int, t design.Thing, s solution) say.Sentence {
	if len(s.levels) == 0 {
		return say.F("there is no open space")
	}
	var high, deep float64
	for l, v := range s.levels {
		if s.takes[l][i].row > 0 {
			return say.F("the rows that it fits in are full")
		}
		high = max(high, v.clear.V)
		deep = max(deep, v.front.V-v.back.V)
	}
	switch {
	case t.Height.V+FingerAbove > high:
		return say.F("it needs {} of height with a finger’s room, the highest level has {}", say.Len(t.Height.V+FingerAbove, 0), say.Len(high, 1))
	case t.Depth.V > deep:
		return say.F("it is {} deep, the deepest level has {}", say.LenN(t.Depth, 0), say.Len(deep, 1))
	}
	return say.F("no level has height, depth and width for it at once")
}

// plain prints a sentence in millimetres.
func plain(s say.Sentence) string {
	var b strings.Builder
	for _, sp := range s {
		if sp.Q != nil {
			b.WriteString(units.Format(sp.Q.V, sp.Q.Dim, units.MM, sp.Q.Decimals))
		} else {
			b.WriteString(sp.Text)
		}
	}
	return b.String()
}

// contents are the masses of the allotment, one line for each thing on each
// surface.
func contents(s solution, things []design.Thing) ([]work.MassLine, trace.Num) {
	var out []work.MassLine
	var sum trace.Num
	for _, p := range s.best.puts {
		l, t := s.levels[p.level], things[p.thing]
		n := trace.Step(float64(p.front+p.back), hangsOn(t, s)...)
		m := n.Mul(t.Mass)
		sum = sum.Add(m)
		out = append(out, work.MassLine{
			Part: l.surface,
			Mass: m,
			X:    l.room0.space.Min[0].Add(l.width.Scale(0.5)),
			Y:    l.floor.Add(t.Height.Scale(0.5)),
			Z:    l.front.Sub(t.Depth.Scale(0.5 * float64(p.rows))),
		})
	}
	return out, sum
}

// fitFindings says of each thing whether all of it goes in.
func fitFindings(fits []work.Fit, s solution, d *design.Design) []work.Finding {
	var out []work.Finding
	for i, f := range fits {
		w := work.Finding{
			ID: fmt.Sprintf("fit/%d", i), Rule: FitRule.ID, Verdict: work.Fine, Title: f.What,
			Value: trace.Step(float64(f.Fits), hangsOn(d.Brief.Holds[i], s)...),
			Limit: trace.Const(float64(f.Wanted)), Unit: "1",
			Path: f.Path, At: d.At(f.Path), Chapter: "brief",
			Text: say.F("All {} × {} go in.", f.Wanted, say.Name(f.What)),
		}
		if f.Fits < f.Wanted {
			w.Verdict = work.Look
			w.Text = say.F("{} of {} × {} go in: {}.", f.Fits, f.Wanted, say.Name(f.What), f.Because)
			w.Mends = []work.Mend{{
				Text: say.F("ask for {} of them", f.Fits),
				Path: f.Path + ".count", New: fmt.Sprint(f.Fits),
			}}
		}
		out = append(out, w)
	}
	return out
}

// hangsOn are the numbers that a count of a thing may move with: what the thing
// measures and what the levels have.
func hangsOn(t design.Thing, s solution) []trace.Num {
	out := []trace.Num{t.Height, t.Depth, t.Thickness}
	for _, l := range s.levels {
		out = append(out, l.clear, l.width, l.front.Sub(l.back))
	}
	return out
}
