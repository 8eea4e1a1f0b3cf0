package check

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/child"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// vees finds notches of outlines, and corners of cut-outs, that are so narrow
// that a child's neck is wedged in them.
func vees(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		worst, at := math.Inf(1), r2.Vec{}
		for _, s := range q.Outline {
			for i, l := range append([]planar.Loop{s.Outer}, s.Holes...) {
				for _, v := range narrow(q, l, i > 0) {
					if v.angle < worst {
						worst, at = v.angle, v.at
					}
				}
			}
		}
		if math.IsInf(worst, 1) {
			continue
		}
		out = append(out, work.Finding{ID: "notch/" + q.ID, Rule: "CHILD-08", Verdict: work.Look, Title: "narrow notch in " + q.Name, Part: q.ID, Path: q.Path, Chapter: "check",
			Value: trace.Step(worst, q.Length, q.Width), Limit: trace.Const(child.VeeLeast), Unit: "rad",
			Text: say.F("In {} two edges meet at {}, {} along and {} across: a child’s neck can be wedged in a notch under {}.", say.Name(q.Name), say.Angle(worst, 0),
				say.Len(at.X, 0), say.Len(at.Y, 0), say.Angle(child.VeeLeast, 0)),
			Mends: []work.Mend{{Text: say.F("open it to {} or more", say.Angle(child.VeeLeast, 0))}, {Text: say.F("round it out, or fill it")}}})
	}
	return out
}

type vee struct {
	angle float64
	at    r2.Vec
}

// narrow are the corners of a loop whose open side is too narrow: of an outer
// loop those that go in, of a hole those that go out. One that opens downwards
// holds nobody.
func narrow(q *piece.Part, l planar.Loop, hole bool) []vee {
	es := l.Edges()
	side := -1.0 // the open lies to the right of an outer loop that runs anticlockwise
	if hole == (l.Area() > 0) {
		side = 1
	}
	var out []vee
	for i, b := range es {
		a := es[(i+len(es)-1)%len(es)]
		if math.Abs(a.Bulge) > 1e-9 || math.Abs(b.Bulge) > 1e-9 {
			continue
		}
		d, e := a.B.Sub(a.A), b.B.Sub(b.A)
		if d.Len() < 1e-9 || e.Len() < 1e-9 {
			continue
		}
		turn := math.Atan2(d.X*e.Y-d.Y*e.X, d.X*e.X+d.Y*e.Y)
		if turn*side <= 0 || child.Vee(math.Pi-math.Abs(turn), math.Min(d.Len(), e.Len())) == child.Fine {
			continue
		}
		mid := e.Mul(1 / e.Len()).Sub(d.Mul(1 / d.Len()))
		if up := q.Pose.X.Mul(mid.X).Add(q.Pose.Y.Mul(mid.Y)).Y; up < -0.1 {
			continue
		}
		out = append(out, vee{math.Pi - math.Abs(turn), b.A})
	}
	return out
}
