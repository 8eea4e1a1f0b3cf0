package making

import (
	"fmt"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// bevels books the oblique ends of a part: cuts of one tilt and one mitre are one
// set-up, and what of them are mirrored is told by the way that the gauge turns.
func (g *gatherer) bevels(q *piece.Part) {
	saw := g.breakingSaw()
	for _, v := range q.Bevels {
		up := work.SetUp{Tool: work.Saw, Kind: "bevel", Through: true, From: "long point", Stop: q.Length, Across: 1, Deep: 1, Tilt: v.Tilt, Mitre: v.Mitre}
		if saw != nil {
			up.With, up.Cutter = saw.Name, saw.Kerf.Mean
		}
		face := piece.FaceB
		if v.LongA {
			face = piece.FaceA
		}
		g.add(rankTrim, up, work.SetUpCut{Part: q.ID, Count: 1, For: fmt.Sprintf("the %s, longer on face %s; gauge turned the %s way", v.At, face, hand(v))})
	}
}

// hand tells apart cuts that are mirror images of each other: no turning of the
// work makes one of the other, only the gauge does.
func hand(v piece.Bevel) string {
	if v.N.Y*v.N.Z*v.N.X > 0 {
		return "one"
	}
	return "other"
}

// straightRough tells whether a part with bevels is a rectangle before them.
func straightRough(q *piece.Part) bool {
	return len(q.Rough) == 1 && len(q.Rough[0].Holes) == 0 && len(q.Rough[0].Outer) == 4 && len(radii(q)) == 0
}

// sawnBody is the body of a part with bevels, less no cuts.
func sawnBody(q *piece.Part) body {
	var b body
	plain := *q
	plain.Cuts = nil
	s, err := piece.Solid(&plain, 0)
	if err != nil {
		return b
	}
	at := q.Pose.Local(s.Centroid())
	of := func(v float64) trace.Num { return trace.Step(v, q.Length, q.Width, q.Thick) }
	b.add(1, of(s.Volume()), [3]trace.Num{of(at.X), of(at.Y), of(at.Z)})
	return b
}
