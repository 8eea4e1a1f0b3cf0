package check

import (
	"fmt"
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// leastApart is the wood that should stand between a hole and the next hole or
// slot on its face, mm (common practice); sameHole the distance up to which two
// holes of one diameter are one hole, bored for both.
const (
	leastApart = 3.0
	sameHole   = 0.2
)

// crowded finds the holes of each part that stand too near to another hole or to
// a slot on the same face, and tells of the nearest.
func crowded(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		near, n := tightest(q)
		if near.hole == nil || near.gap.V >= leastApart {
			continue
		}
		out = append(out, near.finding(in, q, n))
	}
	return out
}

// neighbours are a hole and what stands nearest to it.
type neighbours struct {
	gap         trace.Num // edge to edge; below nought where they overlap
	hole, other *piece.Cut
}

// tightest finds the two cuts of a part with the least wood between them, one of
// them a hole, and counts the pairs that have too little.
func tightest(q *piece.Part) (near neighbours, n int) {
	for i := range q.Cuts {
		for k := i + 1; k < len(q.Cuts); k++ {
			c, d := &q.Cuts[i], &q.Cuts[k]
			if !isHole(c) {
				c, d = d, c
			}
			if !isHole(c) || c.Face.Narrow() || d.Face.Narrow() || c.Face != d.Face && !c.Through && !d.Through {
				continue
			}
			gap, ok := between(c, d)
			if ok && gap < leastApart {
				n++
			}
			if ok && (near.hole == nil || gap < near.gap.V-1e-9) {
				near = neighbours{trace.Step(gap, c.X0, c.Y0, c.StepX, c.StepY, d.X0, d.Y0, d.X1, d.Y1, d.StepX, d.StepY), c, d}
			}
		}
	}
	return near, n
}

func isHole(c *piece.Cut) bool { return c.Kind == piece.Hole || c.Kind == piece.HoleRow }

// between is the least distance between two cuts, edge to edge, of which the
// first is a hole or a row of them; ok is false where they are one and the same.
func between(c, d *piece.Cut) (gap float64, ok bool) {
	gap = math.Inf(1)
	for _, p := range spots(c) {
		for _, r := range spots(d) {
			dx := math.Max(0, math.Max(p.x0-r.x1, r.x0-p.x1))
			dy := math.Max(0, math.Max(p.y0-r.y1, r.y0-p.y1))
			if isHole(d) && p.r == r.r && math.Hypot(dx, dy) < sameHole {
				continue
			}
			gap = math.Min(gap, math.Hypot(dx, dy)-p.r-r.r)
		}
	}
	return gap, !math.IsInf(gap, 1)
}

func (m neighbours) finding(in Input, q *piece.Part, n int) work.Finding {
	f := work.Finding{
		ID: "crowd/" + q.ID, Rule: CrowdRule.ID, Verdict: work.Look, Title: "holes of " + q.Name + " side by side",
		Value: m.gap, Limit: trace.Const(leastApart), Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "join",
		Text: say.F("In {} a hole ({}) stands {} from a {} ({}), edge to edge; {} should stand between them.", say.Name(q.Name),
			m.hole.For, say.LenN(m.gap, 1), cutWord(m.other), m.other.For, say.Len(leastApart, 0)),
	}
	if m.gap.V <= 0 {
		f.Verdict = work.Stop
		f.Text = say.F("In {} a hole ({}) runs into a {} ({}) on the same face: what goes into it finds no wood to hold in.", say.Name(q.Name),
			m.hole.For, cutWord(m.other), m.other.For)
	}
	if n > 1 {
		f.Text = append(f.Text, say.F(" {} places of this part are so.", n)...)
	}
	f.Mends = []work.Mend{{Text: say.F("move one of them by {}", say.Len(math.Ceil(leastApart-m.gap.V), 0))}}
	if x, ok := hingeShift(in, q, m.hole, m.other); ok {
		f.Mends[0] = x
	} else if x, ok := shiftMend(in, q, m.hole, m.other); ok {
		f.Mends[0] = x
	}
	return f
}

func cutWord(c *piece.Cut) string {
	if isHole(c) {
		return "hole"
	}
	return fmt.Sprint(c.Kind)
}

// sound tells whether a part's cuts leave each other the wood that they should,
// and keep clear of its bends.
func sound(q *piece.Part) bool {
	if web, a, _ := thinnest(q); a != nil && web.V < leastWeb {
		return false
	}
	if near, _ := tightest(q); near.hole != nil && near.gap.V < leastApart {
		return false
	}
	for i := range q.Bends {
		if near, c := nearest(q, &q.Bends[i]); c != nil && near.V < q.Bends[i].Clear.V-1e-9 {
			return false
		}
	}
	return true
}
