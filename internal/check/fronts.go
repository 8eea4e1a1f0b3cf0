package check

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/mech/hang"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// doors judges how each door hangs: how many hinges, where, and whether its
// leading edge swings clear of the next.
func doors(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Door {
			continue
		}
		out = append(out, hingeCount(in, q), swing(in, q))
		if f, ok := hingePlaces(in, q); ok {
			out = append(out, f)
		}
		if q.Width.V > q.Length.V {
			out = append(out, wideDoor(q))
		}
	}
	return out
}

func massOf(in Input, id string) trace.Num {
	for _, m := range in.Masses {
		if m.Part == id {
			return m.Mass
		}
	}
	return trace.Num{}
}

func hingesOn(p *piece.Piece, id string) int {
	n := 0
	for _, f := range p.Fittings {
		if f.Kind == "hinge" && f.On == id {
			n += f.Count
		}
	}
	return n
}

func hingeCount(in Input, q *piece.Part) work.Finding {
	has, kg := hingesOn(in.Piece, q.ID), massOf(in, q.ID)
	f := work.Finding{
		ID: "hinges/" + q.ID, Rule: "HANG-01", Verdict: work.Fine, Title: "hinges of " + q.Name,
		Value: trace.Const(float64(has)), Unit: "1", Part: q.ID, Path: q.Path, Chapter: "fronts",
	}
	c, err := hang.Hinges(q.Length.V, q.Width.V, kg.V)
	if err != nil {
		f.Verdict = work.NotCovered
		f.Text = say.F("No table of hinges covers {}, {} high and {}.", say.Name(q.Name), say.LenN(q.Length, 0), say.Kg(kg.V, 1))
		return f
	}
	f.Limit = trace.Step(float64(c.Hinges), q.Length, q.Width, kg)
	f.Text = say.F("It hangs on {} hinges; for {} of height and {} the tables ask for {}.", has, say.LenN(q.Length, 0), say.Kg(kg.V, 1), c.Hinges)
	if has < c.Hinges {
		f.Verdict = work.Stop
		if has >= 2 && has+1 == c.Hinges {
			f.Verdict = work.Look
		}
		f.Mends = []work.Mend{{Text: say.F("hang it on {} hinges", c.Hinges), Path: q.Path + ".at", New: spread(in, q, c.Hinges)}}
	}
	return f
}

// spread writes evenly spread hinge places, the outer ones where they are.
func spread(in Input, q *piece.Part, n int) string {
	end := in.Design.Shop.Habits.HingeFromEnd.V
	if end < hang.NearestEnd || end > hang.FarthestEnd {
		end = (hang.NearestEnd + hang.FarthestEnd) / 2
	}
	var at []string
	for i := range n {
		y := end + (q.Length.V-2*end)*float64(i)/float64(n-1)
		at = append(at, fmt.Sprintf("%.0f mm", y))
	}
	return "[" + strings.Join(at, ", ") + "]"
}

// hingePlaces judges where hinges sit, by the cups that are cut.
func hingePlaces(in Input, q *piece.Part) (work.Finding, bool) {
	var at []float64
	var first, last trace.Num
	for _, c := range q.Cuts {
		if c.Kind == piece.Hole && c.For == "hinge cup" {
			at = append(at, c.X0.V)
			if len(at) == 1 || c.X0.V < first.V {
				first = c.X0
			}
			if len(at) == 1 || c.X0.V > last.V {
				last = c.X0
			}
		}
	}
	if len(at) < 2 {
		return work.Finding{}, false
	}
	p := hang.Place(q.Length.V, q.Width.V, at)
	f := work.Finding{
		ID: "hinge places/" + q.ID, Rule: "HANG-03", Verdict: work.Fine, Title: "places of the hinges of " + q.Name,
		Value: last.Sub(first), Limit: q.Width, Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "fronts",
		Text: say.F("The outer hinges sit {} from the foot and {} from the head, {} apart; the door is {} wide.",
			say.Len(p.First, 0), say.Len(p.Last, 0), say.Len(p.Apart, 0), say.LenN(q.Width, 0)),
	}
	if !p.EndsFine {
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" Makers ask for {} to {} from each end.", say.Len(hang.NearestEnd, 0), say.Len(hang.FarthestEnd, 0))...)
		f.Text = append(f.Text, bendNote(in, q)...)
	}
	if !p.ApartFine {
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" They should be further apart than the door is wide.")...)
	}
	if f.Verdict == work.Look {
		if m, ok := raise(in, q); ok {
			f.Mends = append(f.Mends, m)
		}
	}
	return f, true
}

// bendNote says why a hinge may have to sit further in: the bend beside it.
func bendNote(in Input, q *piece.Part) say.Sentence {
	for _, j := range in.Piece.Joints {
		if j.B != q.ID || j.Kind != "hinges" {
			continue
		}
		if a := in.Piece.Part(j.A); a != nil && len(a.Bends) > 0 {
			return say.F(" Here the bend of {} keeps a plate away from the corner; a third hinge between them helps.", say.Name(a.Name))
		}
	}
	return nil
}

// swing holds the gap at the leading edge against the room that the door's
// inner corner needs.
func swing(in Input, q *piece.Part) work.Finding {
	gap := gapOf(in.Design, q)
	need := trace.Lift(func(x []float64) float64 { return hang.LeadingEdge(x[0], x[1]) }, q.Width, q.Thick)
	f := work.Finding{
		ID: "swing/" + q.ID, Rule: "HANG-02", Verdict: work.Fine, Title: "leading edge of " + q.Name,
		Value: gap, Limit: need, Unit: "mm", Part: q.ID, Path: q.Path + ".gap", Chapter: "fronts",
		Text: say.F("To swing clear its leading edge needs {}; the gap is {}.", say.Len(need.V, 2), say.LenN(gap, 1)),
	}
	if gap.V < need.V {
		want := math.Ceil(need.V*2+0.2) / 2
		f.Verdict = work.Look
		f.Mends = []work.Mend{
			{Text: say.F("leave a gap of {}", say.Len(want, 1)), Path: q.Path + ".gap", New: fmt.Sprintf("%.1f mm", want)},
			{Text: say.F("plane the inner corner of the edge away by {}", say.Len(need.V-gap.V+0.5, 1))},
		}
	}
	return f
}

func gapOf(d *design.Design, q *piece.Part) trace.Num {
	for i := range d.Fronts {
		if d.Fronts[i].Path == q.Path {
			return d.Fronts[i].Gap
		}
	}
	return d.Shop.Habits.Gap
}

func wideDoor(q *piece.Part) work.Finding {
	return work.Finding{
		ID: "wide/" + q.ID, Rule: "HANG-01", Verdict: work.Look, Title: q.Name + " is wider than high",
		Value: q.Width, Limit: q.Length, Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "fronts",
		Text: say.F("It is {} wide and {} high: it pulls harder on its upper hinge than the tables reckon with.", say.LenN(q.Width, 0), say.LenN(q.Length, 0)),
		Mends: []work.Mend{{Text: say.F("make it a pair"), Path: q.Path + ".as", New: "pair"},
			{Text: say.F("hang it from above or below, as a flap with stays")}},
	}
}
