package check

import (
	"math"
	"strings"

	"rodwork/internal/mech/beam"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// pinned judges the pins of each loaded shelf, and says all that is fine in one
// finding.
func pinned(in Input) []work.Finding {
	var out []work.Finding
	fine, most := 0, trace.Num{}
	path := ""
	for _, q := range in.Piece.Parts {
		load, ok := in.Loads[q.ID]
		if !ok || q.Role != piece.Shelf || !q.Loose || q.Stock == nil {
			continue
		}
		hole, panel := pinHole(in.Piece, q)
		if hole == nil || panel.Stock == nil {
			continue
		}
		kg := load.Mul(q.Length).Scale(1e-3).Add(massOf(in, q.ID))
		rho := panel.Stock.Density.V * 1e9
		if rho <= 0 {
			continue
		}
		used := trace.Lift(func(x []float64) float64 {
			_, p, may := beam.FourPins{Load: x[0], Dia: x[1], Deep: x[2], Rho: rho}.Bearing()
			return p / may
		}, kg, hole.Diameter, hole.Depth)
		if used.V <= 1 {
			if fine++; used.V > most.V {
				most, path = used, q.Path
			}
			continue
		}
		f := work.Finding{ID: "pins/" + q.ID, Rule: "SHELF-09", Verdict: work.Look, Title: "pins of " + q.Name, Value: used, Limit: trace.Const(1), Unit: "1",
			Part: q.ID, Path: q.Path, Chapter: "inside",
			Text: say.F("With {} on it the front pins of {} press their holes {} times as hard as they may for years.", say.Kg(kg.V, 0), say.Name(q.Name), say.Num(used.V, 1)),
			Mends: []work.Mend{{Text: say.F("holes {} deep instead of {}, where the panel allows", say.Len(math.Ceil(hole.Depth.V*used.V), 0), say.LenN(hole.Depth, 1))},
				{Text: say.F("a fixed shelf in housings")}, {Text: say.F("a divider under it")}}}
		if used.V > 2 {
			f.Verdict = work.Stop
		}
		out = append(out, f)
	}
	if fine > 0 {
		out = append(out, work.Finding{ID: "pins", Rule: "SHELF-09", Verdict: work.Fine, Title: "pins of the shelves", Value: most, Limit: trace.Const(1), Unit: "1",
			Path: path, Chapter: "inside",
			Text: say.F("The holes of the pins of {} loaded shelves are pressed to no more than {} of what they may for years. The pins themselves hold what their maker says.", fine, share(most.V))})
	}
	return out
}

// pinHole is the hole that a shelf's pins sit in, and its panel.
func pinHole(p *piece.Piece, q *piece.Part) (*piece.Cut, *piece.Part) {
	for i := range p.Joints {
		j := &p.Joints[i]
		if j.Kind != "pins" || j.B != q.ID {
			continue
		}
		a := p.Part(j.A)
		if a == nil {
			continue
		}
		for k := range a.Cuts {
			if c := &a.Cuts[k]; isHole(c) && strings.HasPrefix(c.For, "shelf pins in ") && c.Depth.V > 1 && c.Diameter.V > 1 {
				return c, a
			}
		}
	}
	return nil, nil
}

// A seat is no higher than this, mm: what is higher is sat on too, now and then.
const (
	seatHigh = 600.0
	sitHigh  = 1000.0
)

// sat judges the tops and lids that a person can sit down on.
func sat(in Input) []work.Finding {
	var out []work.Finding
	c, ok := carcaseOf(in, sideways)
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Top && q.Role != piece.Lid || q.Stock == nil || len(q.Run) > 0 {
			continue
		}
		_, hi := reachOf(q)
		if hi[1] < 200 || hi[1] > sitHigh || in.Design.Base.Kind == "wall" {
			continue
		}
		span := q.Length
		if q.Role == piece.Lid {
			span = in.Piece.Width
		} else if ok {
			if s, found := c.widest(q); found {
				span = trace.Step(s, append(c.parts, q.Length)...)
			}
		}
		if f, ok := satOn(q, span, hi[1]); ok {
			out = append(out, f)
		}
	}
	return out
}

// widest is the widest field of a level between two uprights.
func (c *carcase) widest(q *piece.Part) (float64, bool) {
	most := 0.0
	for i, b := range c.bars {
		if b.stick.part == q {
			bar := c.frame.Bars[i]
			most = math.Max(most, c.frame.Nodes[bar.B].At.Sub(c.frame.Nodes[bar.A].At).Len())
		}
	}
	return most, most > 0
}

func satOn(q *piece.Part, span trace.Num, high float64) (work.Finding, bool) {
	m := substanceOf(q.Stock, q.Stock.FaceVeneer.V, q.Stock.InnerVeneer.V, q.Grain == piece.AlongWidth)
	if !m.known || span.V < 100 {
		return work.Finding{}, false
	}
	short := 1.5 * m.strength // minutes, not years: k_mod 0.9 for 0.6
	sag := func(x []float64) float64 {
		s, _ := beam.Midload(beam.Sitting, x[0], x[1], x[2], m.e*(1-m.scatter))
		return s
	}
	value := trace.Lift(sag, span, q.Width, q.Thick)
	_, stress := beam.Midload(beam.Sitting, span.V, q.Width.V, q.Thick.V, m.e)
	f := work.Finding{ID: "sat/" + q.ID, Rule: "SHELF-10", Verdict: work.Fine, Title: "sitting on " + q.Name, Value: value, Limit: span.Scale(0.02), Unit: "mm",
		Part: q.ID, Path: q.Path, Chapter: "check"}
	f.Text = say.F("A heavy person who sits down in the middle of {}, {} between its supports, bends it {}, and strains it to {} of what it may bear for minutes.",
		say.Name(q.Name), say.LenN(span, 0), say.Len(value.V, 1), share(stress/short))
	switch {
	case stress > short && high <= seatHigh:
		f.Verdict = work.Stop
	case stress > short || value.V > f.Limit.V:
		f.Verdict = work.Look
	}
	if f.Verdict != work.Fine {
		thick := q.Thick.V * math.Max(math.Sqrt(stress/short), math.Cbrt(value.V/f.Limit.V))
		f.Mends = []work.Mend{{Text: say.F("a rail, or a divider, under its middle: it then bends {}", say.Len(value.V/8, 1))}, {Text: say.F("{} thick", say.Len(math.Ceil(thick), 0))}}
	}
	return f, true
}

// bump is by what a climbing child loads more than its weight (common practice).
const bump = 2.0

// climbed judges the fixed surfaces and shelves that a child can step on: its
// weight on the front half of one, in the middle of the span.
func climbed(in Input) []work.Finding {
	kgs := children(in)
	if len(kgs) == 0 || in.Design.Base.Kind == "wall" {
		return nil
	}
	kg := kgs[len(kgs)-1]
	var worst *piece.Part
	var value trace.Num
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Shelf && q.Role != piece.Board && q.Role != piece.Bottom || q.Stock == nil || len(q.Run) > 0 {
			continue
		}
		m := substanceOf(q.Stock, q.Stock.FaceVeneer.V, q.Stock.InnerVeneer.V, q.Grain == piece.AlongWidth)
		span := spanOf(in.Piece, q)
		if lo, _ := reachOf(q); !m.known || span.V < 100 || lo[1] > 1500 {
			continue
		}
		used := trace.Lift(func(x []float64) float64 {
			_, stress := beam.Midload(bump*kg*beam.Gravity, x[0], x[1]/2, x[2], m.e)
			return stress / (1.5 * m.strength)
		}, span, q.Width, q.Thick)
		if worst == nil || used.V > value.V {
			worst, value = q, used
		}
	}
	if worst == nil {
		return nil
	}
	f := work.Finding{ID: "climbed", Rule: "SHELF-10", Verdict: work.Fine, Title: "a child on a shelf", Value: value, Limit: trace.Const(1), Unit: "1", Part: worst.ID, Path: worst.Path, Chapter: "check",
		Text: say.F("A child of {} that steps on the front half of {} strains it, at twice its weight, to {} of what it may bear for minutes: of all surfaces the most.", say.Kg(kg, 1), say.Name(worst.Name), share(value.V))}
	switch {
	case value.V > 2:
		f.Verdict = work.Stop
	case value.V > 1:
		f.Verdict = work.Look
	}
	if f.Verdict != work.Fine {
		f.Mends = []work.Mend{{Text: say.F("{} thick", say.Len(math.Ceil(worst.Thick.V*math.Sqrt(value.V)), 0))}, {Text: say.F("a divider under its middle")}}
	}
	return []work.Finding{f}
}
