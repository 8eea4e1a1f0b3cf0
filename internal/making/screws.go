package making

import (
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Screws of one size serve: number 8, of 0.060 + 8·0.013 in. Its clearance
// hole is (8 + 3)/64 in; its pilot nine tenths of the root of 0.112 in, as for
// hardwood, to the next tenth of a millimetre up.
const (
	screwSize  = 4.2
	screwClear = 4.4
	screwPilot = 2.6
)

// Common practice: how far screws keep from the ends, how far apart they stand
// at most, how deep they hold in an edge, and what a blind one leaves.
const (
	screwEnd    = 50.0
	screwEvery  = 200.0
	screwInEdge = 30.0
	screwLeaves = 4.0
)

// screwLengths are lengths that are sold, mm.
var screwLengths = []float64{16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80}

// screws lists the screws of every joint that is screwed. Which part the head
// lies in follows from how they meet: through the part whose face lies on the
// other's edge; face to face from the one that is named first, which hides it.
// Where two edges meet no screw is told of.
func screws(p *piece.Piece) []work.ScrewLine {
	var out []work.ScrewLine
	for i := range p.Joints {
		j := &p.Joints[i]
		a, b := p.Part(j.A), p.Part(j.B)
		if j.Kind != "screwed" || a == nil || b == nil || !facing(a, j) && !facing(b, j) {
			continue
		}
		out = append(out, screwLine(j, a, b))
	}
	return out
}

// facing tells whether a part meets a joint with a face, not with an edge: a
// bent part always does.
func facing(q *piece.Part, j *piece.Joint) bool {
	return len(q.Run) > 0 || math.Abs(q.Pose.Z.Dot(j.Enter)) > 0.9
}

func screwLine(j *piece.Joint, a, b *piece.Part) work.ScrewLine {
	through, in := a, b
	if !facing(a, j) {
		through, in = b, a
	}
	deep, most := trace.Const(screwInEdge), math.Inf(1)
	if facing(in, j) {
		deep = in.Thick.Plus(-screwLeaves)
		most = through.Thick.V + deep.V
	}
	l := work.ScrewLine{Joint: j.ID, Through: through.ID, In: in.ID, Size: trace.Const(screwSize), Clear: trace.Const(screwClear), Pilot: trace.Const(screwPilot)}
	l.Length = trace.Step(screwLength(through.Thick.V+deep.V, most), through.Thick, in.Thick)
	long := in.Length
	if through.Length.V < long.V {
		long = through.Length
	}
	gap := math.Max(0, long.V-2*screwEnd)
	spaces := math.Max(1, math.Ceil(gap/screwEvery-1e-9))
	l.Count, l.Every = int(spaces)+1, trace.Step(gap/spaces, long)
	if most < math.Inf(1) { // a front: two rows
		l.Count *= 2
	}
	return l
}

// screwLength is the shortest that holds as deep as wanted, or the longest that
// does not come through.
func screwLength(want, most float64) float64 {
	best := screwLengths[0]
	for _, l := range screwLengths {
		if l > most {
			break
		}
		best = l
		if l >= want {
			break
		}
	}
	return best
}
