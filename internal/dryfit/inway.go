package dryfit

import (
	"fmt"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Room that tools and hardware take, mm: common practice, no source.
const (
	// driverRoom is how far a long bit in its holder reaches out from a screw's
	// head, angledRoom how far the bit of a driver does that drives round a corner,
	// driverWide how thick the holder is.
	driverRoom, angledRoom, driverWide = 200.0, 70.0, 12.0
	// plateHigh is the height of a hinge's plate and arm, plateBehind how far both
	// reach behind the plate's holes, plateOff how far they stand off the upright.
	plateHigh, plateBehind, plateOff = 56.0, 32.0, 18.0
)

// line is a screw in its place: from its head to its tip.
type line struct {
	joint     *piece.Joint
	head, tip r3.Vec
}

// inWay asks what hardware and tools meet: drivers the parts that stand by then,
// hinges and slides what lies beside them. Screws that run into each other, and
// heads in a show face, are told by the checks of pegs; parts in the air by the
// look at the solids.
func inWay(p *piece.Piece, steps []work.Step) []work.Finding {
	w := ways{p: p, solids: map[string]*solid.Ready{}}
	out := append(w.drivers(w.screws(), steps), w.hinges()...)
	return append(out, w.slides()...)
}

// ways holds the piece and the solids that were asked for.
type ways struct {
	p      *piece.Piece
	solids map[string]*solid.Ready
}

// leastWay is the least hole, mm across, that a driver or a drill could pass.
const leastWay = 30

// solid returns a part as a body; nil where it can't be made one, which the look
// at the solids tells by itself.
func (w *ways) solid(id string) *solid.Ready {
	if s, ok := w.solids[id]; ok {
		return s
	}
	w.solids[id] = nil
	if q := w.p.Part(id); q != nil {
		if b, err := piece.Solid(q, leastWay); err == nil {
			w.solids[id] = solid.Prepare(b)
		}
	}
	return w.solids[id]
}

// name is what a part is called.
func (w *ways) name(id string) say.Span {
	if q := w.p.Part(id); q != nil && q.Name != "" {
		return say.Name(q.Name)
	}
	return say.Name(id)
}

// mostHoles bounds how many holes of one row are looked at.
const mostHoles = 500

// holes returns where the holes of a cut begin, in the piece.
func holes(q *piece.Part, c *piece.Cut) []r3.Vec {
	var out []r3.Vec
	for i := range min(max(1, c.Count), mostHoles) {
		x, y := c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V
		if len(q.Run) > 0 {
			h := 0.0
			if c.Face == piece.FaceA {
				h = q.Thick.V
			}
			out = append(out, piece.Place(q, x, y, h))
			continue
		}
		out = append(out, q.Pose.At(q.OnFace(c.Face, x, y)))
	}
	return out
}

// screws lists the screws of all joints whose places are known.
func (w *ways) screws() []line {
	var out []line
	for i := range w.p.Joints {
		j := &w.p.Joints[i]
		if j.Pegs == nil || j.Pegs.Kind != "screw" {
			continue
		}
		q := w.p.Part(j.Pegs.Head)
		if q == nil || len(q.Run) > 0 {
			continue
		}
		for k := range q.Cuts {
			c := &q.Cuts[k]
			if c.Kind != piece.Hole && c.Kind != piece.HoleRow || c.For != "screws of "+j.ID || c.Sink.V <= 0 {
				continue
			}
			in := q.Pose.Dir(c.Face.Normal()).Mul(-1)
			for _, at := range holes(q, c) {
				out = append(out, line{j, at, at.Add(in.Mul(j.Pegs.Length.V))})
			}
		}
	}
	return out
}

// drivers finds the screws that no straight way leads to, when they are driven:
// one finding for a joint, by the worst of its screws.
func (w *ways) drivers(lines []line, steps []work.Step) []work.Finding {
	var out []work.Finding
	for i := 0; i < len(lines); {
		j, room, by := lines[i].joint, driverRoom, ""
		there := stands(w.p, steps, j.ID)
		n, barred := 0, 0
		for ; i < len(lines) && lines[i].joint == j; i++ {
			n++
			if r, id := w.free(lines[i], there); id != "" {
				barred++
				if r < room {
					room, by = r, id
				}
			}
		}
		if barred == 0 {
			continue
		}
		out = append(out, w.driver(j, room, by, barred, n))
	}
	return out
}

// driver tells of a joint whose screws are hard to reach.
func (w *ways) driver(j *piece.Joint, room float64, by string, barred, n int) work.Finding {
	f := work.Finding{ID: "way/driver " + j.ID, Rule: DriverRule.ID, Verdict: work.Look, Title: "a screw that is hard to reach",
		Value: trace.Const(room), Limit: trace.Const(driverRoom), Unit: "mm", Path: j.Path, Part: j.Pegs.Head, Chapter: "assemble",
		Text: say.F("{} of the {} screws of {} have {} in line with them, {} from their heads: an angled driver gets in, a straight one does not.",
			say.Num(float64(barred), 0), say.Num(float64(n), 0), say.Name(j.ID), w.name(by), say.Len(room, 0)),
		Mends: []work.Mend{{Text: say.F("drive them before {} comes in, from the other side, or hold the joint by dowels", w.name(by))}}}
	if room < angledRoom {
		f.Verdict, f.Title, f.Limit = work.Stop, "a screw that no driver reaches", trace.Const(angledRoom)
		f.Text = say.F("{} of the {} screws of {} can't be driven: {} stands {} from their heads, in line with them.",
			say.Num(float64(barred), 0), say.Num(float64(n), 0), say.Name(j.ID), w.name(by), say.Len(room, 0))
	}
	return f
}

// free is how far a driver's way is open, mm, and which part ends it.
func (w *ways) free(s line, there []string) (room float64, by string) {
	room = driverRoom
	out := s.head.Sub(s.tip).Unit()
	rod, err := solid.Panel(facing(s.head.Add(out.Mul(0.5)), out), planar.Disc(r2.Vec{}, driverWide/2), driverRoom, nil)
	if err != nil {
		return room, ""
	}
	way := solid.Prepare(rod)
	for _, id := range there {
		b := w.solid(id)
		if b == nil || id == s.joint.Pegs.Head {
			continue
		}
		shared, err := way.Overlap(b)
		if err != nil || shared.Volume < 1 {
			continue
		}
		lo := nearestAlong(shared.Box, s.head, out)
		if lo < room {
			room, by = lo, id
		}
	}
	return room, by
}

// stands lists the parts that are on the carcase when a joint is closed, with the
// step that closes it.
func stands(p *piece.Piece, steps []work.Step, joint string) []string {
	lot := map[string]int{}
	for n, s := range steps {
		if lot[s.Part] == 0 {
			lot[s.Part] = n + 1
		}
		closes := false
		for _, id := range s.Joints {
			closes = closes || id == joint
		}
		for _, o := range s.Into {
			if from := lot[o]; from != 0 && from != lot[s.Part] {
				for id, l := range lot {
					if l == from {
						lot[id] = lot[s.Part]
					}
				}
			}
		}
		if closes {
			var out []string
			for _, q := range p.Parts {
				if lot[q.ID] == lot[s.Part] {
					out = append(out, q.ID)
				}
			}
			return out
		}
	}
	return nil
}

// plateOf is the door that a cut is the hinge plate of.
func plateOf(c *piece.Cut) (string, bool) { return strings.CutPrefix(c.For, "hinge plate of ") }

func partFinding(id string, rule string, part *piece.Part, gap, limit float64) work.Finding {
	return work.Finding{ID: "way/" + id, Rule: rule, Verdict: work.Look, Value: trace.Const(gap), Limit: trace.Const(limit), Unit: "mm",
		Part: part.ID, Path: part.Path, Chapter: "inside"}
}

func count(n int, one string) string {
	if n == 1 {
		return "one " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
