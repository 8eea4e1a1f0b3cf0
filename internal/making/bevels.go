package making

import (
	"fmt"
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// bevels books the oblique ends of a part: cuts of one tilt and one mitre are one
// set-up, and what of them are mirror images is told by the side to which the
// gauge turns. Parallel ends are cut by sliding the stick along; of others the
// second is cut with the stick rolled over on its other face.
func (g *gatherer) bevels(q *piece.Part) {
	saw := g.breakingSaw()
	for i, v := range q.Bevels {
		up := work.SetUp{Tool: work.Saw, Kind: "bevel", Through: true, From: "long point", Stop: q.Length, Across: 1, Deep: 1, Tilt: v.Tilt, Mitre: v.Mitre}
		if saw != nil {
			up.With, up.Cutter = saw.Name, saw.Kerf.Mean
		}
		face := piece.FaceB
		if v.LongA {
			face = piece.FaceA
		}
		why := fmt.Sprintf("the %s, longer on face %s", v.At, face)
		if math.Abs(v.N.Z) < 1e-9 {
			why = fmt.Sprintf("the %s, square to the faces", v.At)
		} else {
			why += "; gauge to " + hand(v)
		}
		if i > 0 && v.N.Add(q.Bevels[i-1].N).Len() < 1e-6 {
			why += ", parallel to the first: slide the stick, do not turn it"
		} else if i > 0 {
			why += ": roll the stick over on its other face"
		}
		g.add(rankTrim, up, work.SetUpCut{Part: q.ID, Count: 1, For: why})
	}
}

// hand tells apart cuts that are mirror images of each other: sliding the work, or
// rolling it over, makes none of the other, only the gauge does.
func hand(v piece.Bevel) string {
	if v.N.Y*v.N.Z > 0 {
		return "one side"
	}
	return "the other side"
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
