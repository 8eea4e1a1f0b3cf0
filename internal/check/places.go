package check

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/mech/hang"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// clearMend moves what lies too near to a bend at the head of a side: the upper
// hinge down, or the end of a row of pin holes. Short is by how much it is too
// near.
func clearMend(in Input, b *piece.Bend, cut *piece.Cut, short float64) (work.Mend, bool) {
	if b.Corner != design.TopLeft && b.Corner != design.TopRight {
		return work.Mend{}, false
	}
	if id, ok := strings.CutPrefix(cut.For, "hinge plate of "); ok {
		q := in.Piece.Part(id)
		fr := frontAt(in.Design, pathOf(q))
		if q == nil || fr == nil || len(fr.HingeAt) == 0 {
			return work.Mend{}, false
		}
		return hingeMend(q, fr, headOf(q, fr)+short), true
	}
	if name, ok := strings.CutPrefix(cut.For, "shelf pins in "); ok {
		for i := range in.Design.Shelves {
			s := &in.Design.Shelves[i]
			if s.In != name || s.Pitch.V <= 0 || cut.Count < 2 {
				continue
			}
			drop := int(math.Ceil(short/s.Pitch.V - 1e-9))
			if drop >= cut.Count {
				return work.Mend{}, false
			}
			last := s.FirstHole.V + s.Pitch.V*float64(cut.Count-1-drop)
			return work.Mend{Text: say.F("end the row of holes at {}", say.Len(last, 0)), Path: s.Path + ".to", New: fmt.Sprintf("%.0f mm", math.Floor(last))}, true
		}
	}
	return work.Mend{}, false
}

func pathOf(q *piece.Part) string {
	if q == nil {
		return ""
	}
	return q.Path
}

func frontAt(d *design.Design, path string) *design.Front {
	for i := range d.Fronts {
		if d.Fronts[i].Path == path {
			return &d.Fronts[i]
		}
	}
	return nil
}

// headOf is how far under the door's head its highest hinge sits.
func headOf(q *piece.Part, f *design.Front) float64 {
	return q.Length.V - placeAt(q, f, highest(q, f))
}

func placeAt(q *piece.Part, f *design.Front, i int) float64 {
	if y := f.HingeAt[i].V; y >= 0 {
		return y
	}
	return q.Length.V + f.HingeAt[i].V
}

func highest(q *piece.Part, f *design.Front) int {
	best := 0
	for i := range f.HingeAt {
		if placeAt(q, f, i) > placeAt(q, f, best) {
			best = i
		}
	}
	return best
}

// hingeMend writes the front's hinge places with the highest moved to so far
// under the head, in whole mm on the safe side.
func hingeMend(q *piece.Part, f *design.Front, head float64) work.Mend {
	head = math.Ceil(head - 1e-6)
	var at []string
	for i, y := range f.HingeAt {
		v := y.V
		if i == highest(q, f) {
			v = -head
		}
		at = append(at, fmt.Sprintf("%g mm", math.Round(v*10)/10))
	}
	return work.Mend{Text: say.F("set the upper hinge {} from the head", say.Len(head, 0)), Path: f.Path + ".at", New: "[" + strings.Join(at, ", ") + "]"}
}

// raise offers to move a front's upper hinges nearer to the head, as near as the
// bends beside all its leaves allow, where that is nearer than now.
func raise(in Input, q *piece.Part) (work.Mend, bool) {
	f := frontAt(in.Design, q.Path)
	if f == nil || len(f.HingeAt) == 0 {
		return work.Mend{}, false
	}
	now := headOf(q, f)
	want := (hang.NearestEnd + hang.FarthestEnd) / 2
	for _, leaf := range in.Piece.Parts {
		if leaf.Path == q.Path && leaf.Role == piece.Door {
			want = math.Max(want, now-room(in, leaf))
		}
	}
	if math.Ceil(want-1e-6) >= now-0.5 {
		return work.Mend{}, false
	}
	return hingeMend(q, f, want), true
}

// room is how far the highest plate of a leaf may go up before it comes too
// near to a bend.
func room(in Input, leaf *piece.Part) float64 {
	free := math.Inf(1)
	for _, a := range in.Piece.Parts {
		for i := range a.Bends {
			b := &a.Bends[i]
			for _, c := range a.Cuts {
				if c.For != "hinge plate of "+leaf.ID {
					continue
				}
				x0, x1 := cutReach(c)
				switch b.Corner {
				case design.TopLeft:
					free = math.Min(free, b.Start.V-b.Clear.V-x1.V)
				case design.TopRight:
					free = math.Min(free, x0.V-b.Start.V-b.Length.V-b.Clear.V)
				}
			}
		}
	}
	return free
}

// shiftMend moves a row of pin holes by half its pitch, where that takes it
// clear of everything on both faces of the panel.
func shiftMend(in Input, q *piece.Part, cuts ...*piece.Cut) (work.Mend, bool) {
	for _, c := range cuts {
		name, ok := strings.CutPrefix(c.For, "shelf pins in ")
		if !ok {
			continue
		}
		for i := range in.Design.Shelves {
			s := &in.Design.Shelves[i]
			if s.In != name {
				continue
			}
			moved := *q
			moved.Cuts = append([]piece.Cut(nil), q.Cuts...)
			for k := range moved.Cuts {
				if m := &moved.Cuts[k]; m.For == c.For {
					m.X0, m.Y0 = m.X0.Add(m.StepX.Scale(0.5)), m.Y0.Add(m.StepY.Scale(0.5))
				}
			}
			if sound(&moved) {
				first := s.FirstHole.V + s.Pitch.V/2
				return work.Mend{Text: say.F("start the row in {} at {}, half a pitch higher", say.Name(name), say.Len(first, 0)),
					Path: s.Path + ".above floor", New: fmt.Sprintf("%g mm", first)}, true
			}
		}
	}
	return work.Mend{}, false
}

// hingeShift looks for the least move of the hinge that a plate's holes belong
// to, in steps of 5 mm up to 60, that takes the holes of both leaves of a pair
// clear of all else, and keeps them clear of a bend.
func hingeShift(in Input, q *piece.Part, cuts ...*piece.Cut) (work.Mend, bool) {
	for _, c := range cuts {
		id, ok := strings.CutPrefix(c.For, "hinge plate of ")
		leaf := in.Piece.Part(id)
		if !ok || leaf == nil {
			continue
		}
		f := frontAt(in.Design, leaf.Path)
		which := plateOf(q, c)
		if f == nil || which >= len(f.HingeAt) {
			continue
		}
		at := placeAt(leaf, f, which)
		for k := 1; k <= 24; k++ {
			by := 5 * float64((k+1)/2)
			if k%2 == 0 {
				by = -by
			}
			place := at + by
			if place < hang.NearestEnd || place > leaf.Length.V-hang.NearestEnd || !apart(leaf, f, which, place) {
				continue
			}
			if platesFit(in, f.Path, which, by) {
				return hingeAt(leaf, f, which, place), true
			}
		}
	}
	return work.Mend{}, false
}

// plateOf is the number of a plate's holes among those of its leaf: hinges are
// drilled in the order in which the front tells them.
func plateOf(q *piece.Part, c *piece.Cut) int {
	n := 0
	for i := range q.Cuts {
		if q.Cuts[i].ID == c.ID {
			break
		}
		if q.Cuts[i].For == c.For {
			n++
		}
	}
	return n
}

// apart tells whether a hinge moved to a place keeps a plate's length from the
// others of its leaf.
func apart(leaf *piece.Part, f *design.Front, which int, place float64) bool {
	for i := range f.HingeAt {
		if i != which && math.Abs(placeAt(leaf, f, i)-place) < 2*hang.NearestEnd {
			return false
		}
	}
	return true
}

// platesFit tells whether every part that carries a plate of the front is sound
// with the plates of one hinge so much higher. A part on which x runs down from
// the head (the far side of a bent strip) has a negative step.
func platesFit(in Input, front string, which int, by float64) bool {
	for _, q := range in.Piece.Parts {
		moved := *q
		moved.Cuts = append([]piece.Cut(nil), q.Cuts...)
		touched := false
		for i := range q.Cuts {
			id, ok := strings.CutPrefix(q.Cuts[i].For, "hinge plate of ")
			if !ok || pathOf(in.Piece.Part(id)) != front || plateOf(q, &q.Cuts[i]) != which {
				continue
			}
			m := &moved.Cuts[i]
			m.X0 = m.X0.Plus(math.Copysign(by, by*m.StepX.V))
			touched = true
		}
		if touched && !sound(&moved) {
			return false
		}
	}
	return true
}

// hingeAt writes the front's hinge places with one of them moved, told from the
// foot or from the head as before.
func hingeAt(leaf *piece.Part, f *design.Front, which int, place float64) work.Mend {
	var at []string
	for i, y := range f.HingeAt {
		v := y.V
		if i == which {
			if v = place; y.V < 0 {
				v = place - leaf.Length.V
			}
		}
		at = append(at, fmt.Sprintf("%g mm", math.Round(v*10)/10))
	}
	return work.Mend{Text: say.F("set that hinge {} from the door's foot", say.Len(place, 0)), Path: f.Path + ".at", New: "[" + strings.Join(at, ", ") + "]"}
}
