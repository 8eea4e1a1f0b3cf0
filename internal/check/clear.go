package check

import (
	"fmt"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// clear finds cuts of a strip that lie nearer to a bend than they may, by
// rule BEND-11. What runs through the bend from end to end (the rabbet for a back)
// is cut before it and bends with it.
func clear(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		for i := range q.Bends {
			b := &q.Bends[i]
			near, cut := nearest(q, b)
			if cut == nil {
				continue
			}
			out = append(out, clearFinding(in, q, b, near, cut))
		}
	}
	return out
}

// nearest is the least distance of a cut from the bend; negative where it
// reaches into it.
func nearest(q *piece.Part, b *piece.Bend) (near trace.Num, cut *piece.Cut) {
	for i := range q.Cuts {
		c := &q.Cuts[i]
		x0, x1 := cutReach(*c)
		end := b.Start.Add(b.Length)
		if x0.V <= b.Start.V && x1.V >= end.V {
			continue
		}
		gap := b.Start.Sub(x1)
		if x0.V+x1.V > b.Start.V+end.V {
			gap = x0.Sub(end)
		}
		if cut == nil || gap.V < near.V {
			near, cut = gap, c
		}
	}
	return near, cut
}

// cutReach is how far a cut reaches along the part.
func cutReach(c piece.Cut) (x0, x1 trace.Num) {
	if c.Kind != piece.Hole && c.Kind != piece.HoleRow {
		return c.X0, c.X1
	}
	r := c.Diameter.Scale(0.5)
	a, b := c.X0, c.X0.Add(c.StepX.Scale(float64(max(c.Count, 1)-1)))
	if b.V < a.V {
		a, b = b, a
	}
	return a.Sub(r), b.Add(r)
}

func clearFinding(in Input, q *piece.Part, b *piece.Bend, near trace.Num, cut *piece.Cut) work.Finding {
	where := fmt.Sprintf("%s (%s)", cut.Kind, cut.For)
	f := work.Finding{
		ID: fmt.Sprintf("clear/%s/%s", q.ID, b.Corner), Rule: "BEND-11", Verdict: work.Fine,
		Title: "clear of the bend, " + b.Corner, Value: near, Limit: b.Clear, Unit: "mm",
		Part: q.ID, Path: b.Path, Chapter: "shell",
		Text: say.F("The nearest cut, {}, lies {} from the bend; {} is wanted.", where, say.LenN(near, 1), say.LenN(b.Clear, 1)),
	}
	switch short := b.Clear.V - near.V; {
	case near.V < 0:
		f.Verdict = work.Stop
		f.Text = say.F("The {} reaches {} into the bend: it would break there.", where, say.Len(-near.V, 1))
		fallthrough
	case short > 1e-9:
		if f.Verdict == work.Fine {
			f.Verdict = work.Look
		}
		f.Mends = []work.Mend{{Text: say.F("move it {} away from the bend", say.Len(short, 1))}}
		if m, ok := clearMend(in, b, cut, short); ok {
			f.Mends[0] = m
		}
	}
	return f
}
