package check

import (
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/mech/child"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// edges judges how round the edges are made, where the file says it.
func edges(in Input) work.Finding {
	f := work.Finding{ID: "edges", Rule: "CHILD-03", Verdict: work.NotCovered, Title: "edges and corners", Value: trace.Const(child.EdgeRadius), Limit: trace.Const(child.EdgeRadius), Unit: "mm",
		Path: "edges", Chapter: "finish"}
	e := in.Design.Edges
	if e == nil {
		f.Value = trace.Const(0)
		f.Text = say.F("The piece file does not say how its edges are made. Where children are, edges and corners up to {} high are rounded by {} or more, or chamfered as much, before the finish.",
			say.Len(child.EdgeHigh, 0), say.Len(child.EdgeRadius, 0))
		f.Mends = []work.Mend{{Text: say.F("round them to {}", say.Len(3, 0)), Path: "edges", New: "{round: 3 mm}"}}
		return f
	}
	word, key := "rounded to", "round"
	if e.Round == nil {
		word, key = "chamfered by", "chamfer"
	}
	f.Value, f.Verdict, f.Path = e.Size(), work.Fine, "edges."+key
	f.Text = say.F("The edges that can be reached are {} {}; {} or more is wanted up to {} high, where children are.", word, say.LenN(e.Size(), 1),
		say.Len(child.EdgeRadius, 0), say.Len(child.EdgeHigh, 0))
	if e.Size().V < child.EdgeRadius-1e-9 {
		f.Verdict = work.Look
		f.Mends = append(f.Mends, work.Mend{Text: say.F("make it {}", say.Len(3, 0)), Path: f.Path, New: "3 mm"})
	}
	if q := sharpest(in, e); q != nil {
		f.Verdict, f.Part = work.Look, q.ID
		f.Text = append(f.Text, say.F(" Those of {} stay as they are sawn, where a child can run into them.", say.Name(q.Name))...)
		f.Mends = append(f.Mends, work.Mend{Text: say.F("round them too, by taking {} out of what stays sharp", say.Choice(q.EdgeRole(), "edges.sharp"))})
	}
	return f
}

// sharpest is the first part that keeps edges that a child can reach.
func sharpest(in Input, e *design.Edges) *piece.Part {
	for _, q := range in.Piece.Parts {
		if low, _ := reachOf(q); slices.Contains(e.Sharp, q.EdgeRole()) && !hidden(in.Design, q) && (len(q.Run) > 0 || low[1] < child.EdgeHigh) {
			return q
		}
	}
	return nil
}

// hidden tells whether all edges of a part lie in joints.
func hidden(d *design.Design, q *piece.Part) bool {
	switch q.Role {
	case piece.Tongue, piece.DrawerFloor:
		return true
	case piece.BackPanel:
		return d.Back != nil && d.Back.Set == "rabbet"
	}
	return false
}
