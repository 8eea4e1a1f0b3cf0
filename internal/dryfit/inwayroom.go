package dryfit

import (
	"math"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// facing is a frame at a place whose z looks along out.
func facing(at, out r3.Vec) r3.Pose {
	x := r3.Vec{X: 1}
	if math.Abs(out.X) > 0.9 {
		x = r3.Vec{Y: 1}
	}
	y := out.Cross(x).Unit()
	return r3.Pose{O: at, X: y.Cross(out), Y: y, Z: out}
}

// nearestAlong is how far along out from a place an upright box begins, mm.
func nearestAlong(b r3.Box, at, out r3.Vec) float64 {
	near := math.Inf(1)
	for i := range 8 {
		c := b.Min
		if i&1 != 0 {
			c.X = b.Max.X
		}
		if i&2 != 0 {
			c.Y = b.Max.Y
		}
		if i&4 != 0 {
			c.Z = b.Max.Z
		}
		near = min(near, c.Sub(at).Dot(out))
	}
	return max(0, near)
}

// hinges finds the parts that lie where a hinge's plate and arm are.
func (w *ways) hinges() []work.Finding {
	var out []work.Finding
	for _, q := range w.p.Parts {
		if len(q.Run) > 0 {
			continue // a plate on a bend's flat: told by its holes
		}
		seen := map[string]bool{}
		for i := range q.Cuts {
			door, ok := plateOf(&q.Cuts[i])
			if !ok {
				continue
			}
			room, err := plateRoom(q, &q.Cuts[i])
			if err != nil {
				continue
			}
			for _, o := range w.p.Parts {
				if o == q || o.ID == door || w.joinedHinge(q.ID, o.ID) || seen[o.ID+"/"+door] {
					continue
				}
				if deep := w.inside(room, o.ID); deep > 0.5 {
					seen[o.ID+"/"+door] = true
					out = append(out, w.hinge(q, o, door, deep))
				}
			}
		}
	}
	return out
}

// hinge tells of a part that lies where a hinge is.
func (w *ways) hinge(on, what *piece.Part, door string, deep float64) work.Finding {
	f := partFinding("hinge of "+door+" and "+what.ID, HingeRule.ID, what, deep, 0)
	f.Title = "a hinge and what lies beside it"
	f.Text = say.F("{} lies where a hinge of {} has its plate and arm on {}: {} of it.", w.name(what.ID), w.name(door), w.name(on.ID), say.Len(deep, 0))
	f.Mends = []work.Mend{{Text: say.F("put {} higher or lower, or set it back behind the hinge", w.name(what.ID))}}
	return f
}

// joinedHinge tells a part that hangs on the same upright by hinges.
func (w *ways) joinedHinge(a, b string) bool {
	for i := range w.p.Joints {
		if j := &w.p.Joints[i]; j.Kind == "hinges" && (j.A == a && j.B == b || j.A == b && j.B == a) {
			return true
		}
	}
	return false
}

// inside is how far a part reaches into a room, mm: the least side of the box of
// what they share.
func (w *ways) inside(room *solid.Ready, id string) float64 {
	b := w.solid(id)
	if b == nil {
		return 0
	}
	s, err := room.Overlap(b)
	if err != nil || s.Volume < 1 {
		return 0
	}
	side := s.Box.Size()
	return min(side.X, side.Y, side.Z)
}

// plateRoom is the room of a hinge's plate and arm: round its two holes, on the
// face that they are bored in, to the front by as much as behind.
func plateRoom(q *piece.Part, c *piece.Cut) (*solid.Ready, error) {
	hs := holes(q, c)
	a, b := hs[0], hs[len(hs)-1]
	out := q.Pose.Dir(c.Face.Normal())
	mid := a.Add(b).Mul(0.5)
	along := r3.Vec{Y: 1}
	if b.Sub(a).Len() > 1 {
		along = b.Sub(a).Unit()
	}
	pose := r3.Pose{O: mid.Add(out.Mul(0.5)), X: along, Y: out.Cross(along), Z: out}
	body, err := solid.Panel(pose, planar.Rect(-plateHigh/2, -plateBehind, plateHigh/2, plateBehind), plateOff, nil)
	if err != nil {
		return nil, err
	}
	return solid.Prepare(body), nil
}

// slides finds the pin holes and hinge plates that a drawer's slide covers.
func (w *ways) slides() []work.Finding {
	var out []work.Finding
	for i := range w.p.Joints {
		j := &w.p.Joints[i]
		q, side := w.p.Part(j.A), w.solid(j.B)
		if j.Kind != "slides" || q == nil || side == nil {
			continue
		}
		box := side.Box()
		pins, plates := 0, 0
		for k := range q.Cuts {
			c := &q.Cuts[k]
			_, plate := plateOf(c)
			if !plate && !strings.HasPrefix(c.For, "shelf pins") || !w.faces(q, c, box) {
				continue
			}
			for _, at := range holes(q, c) {
				if at.Y < box.Min.Y || at.Y > box.Max.Y || at.Z < box.Min.Z || at.Z > box.Max.Z {
					continue
				}
				if plate {
					plates++
				} else {
					pins++
				}
			}
		}
		out = append(out, w.slide(j, q, pins, plates)...)
	}
	return out
}

// faces tells whether a cut is made from the side on which the box lies.
func (w *ways) faces(q *piece.Part, c *piece.Cut, box r3.Box) bool {
	mid := box.Min.Add(box.Max).Mul(0.5)
	at := holes(q, c)[0]
	out := q.Pose.Dir(c.Face.Normal())
	if len(q.Run) > 0 {
		return math.Abs(mid.X-at.X) < box.Size().X+100
	}
	return mid.Sub(at).Dot(out) > 0
}

// slide tells of the holes that a drawer covers.
func (w *ways) slide(j *piece.Joint, q *piece.Part, pins, plates int) []work.Finding {
	var out []work.Finding
	if pins > 0 {
		f := partFinding("slide "+j.ID+" and pins", SlideRule.ID, q, float64(pins), 0)
		f.Title, f.Unit = "a slide and a row of pins", "1"
		f.Text = say.F("{} of {} for shelf pins lie behind {} and its slide: no pin goes in there, and the slide’s screws may meet one.",
			count(pins, "hole"), w.name(q.ID), w.name(j.B))
		f.Mends = []work.Mend{{Text: say.F("begin the row of pins above the drawer")}}
		out = append(out, f)
	}
	if plates > 0 {
		f := partFinding("slide "+j.ID+" and hinge", SlideRule.ID, q, float64(plates), 0)
		f.Title, f.Unit, f.Verdict = "a slide and a hinge", "1", work.Stop
		f.Text = say.F("A hinge’s plate on {} lies where {} runs on its slide.", w.name(q.ID), w.name(j.B))
		f.Mends = []work.Mend{{Text: say.F("move the hinge, or the drawer")}}
		out = append(out, f)
	}
	return out
}
