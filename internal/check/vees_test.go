package check

import (
	"math"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// notchedBoard is an upright board of 600 × 600 with a notch of a depth and an
// opening in its upper edge, its lower one, or as a cut-out that stands on its
// point.
func notchedBoard(where string, deep, open float64) Input {
	box := []r2.Vec{{}, {X: 600}, {X: 600, Y: 600}, {Y: 600}}
	tip := []r2.Vec{{X: 300 + open/2, Y: 600}, {X: 300, Y: 600 - deep}, {X: 300 - open/2, Y: 600}}
	s := planar.Shape{Outer: loopOf(box...)}
	switch where {
	case "above":
		s.Outer = loopOf(box[0], box[1], box[2], tip[0], tip[1], tip[2], box[3])
	case "below":
		s.Outer = loopOf(box[0], r2.Vec{X: 300 - open/2}, r2.Vec{X: 300, Y: deep}, r2.Vec{X: 300 + open/2}, box[1], box[2], box[3])
	case "inside":
		s.Holes = []planar.Loop{loopOf(r2.Vec{X: 300, Y: 100}, r2.Vec{X: 300 + open/2, Y: 100 + deep}, r2.Vec{X: 300 - open/2, Y: 100 + deep})}
	}
	q := &piece.Part{ID: "board", Name: "board", Length: n(600), Width: n(600), Thick: n(18), Outline: planar.Region{s}, Pose: r3.Identity()}
	return Input{Piece: &piece.Piece{Parts: []*piece.Part{q}}}
}

func loopOf(ps ...r2.Vec) planar.Loop {
	var l planar.Loop
	for _, p := range ps {
		l = append(l, planar.Vertex{P: p})
	}
	return l
}

func TestNarrowNotches(t *testing.T) {
	for _, c := range []struct {
		where      string
		deep, open float64
		found      bool
	}{
		{"none", 0, 0, false},
		{"above", 200, 200, true},  // 53.1°
		{"above", 200, 212, false}, // 55.8°
		{"above", 40, 20, false},   // its edges are too short
		{"below", 200, 100, false}, // opens downwards
		{"inside", 300, 250, true}, // 45.2° at its point
		{"inside", 200, 300, false},
	} {
		in := notchedBoard(c.where, c.deep, c.open)
		fs := vees(in)
		if (len(fs) == 1) != c.found {
			t.Errorf("%s, %g deep, %g wide: %d findings", c.where, c.deep, c.open, len(fs))
			continue
		}
		if want := 2 * math.Atan(c.open/2/c.deep); c.found && math.Abs(fs[0].Value.V-want) > 1e-9 {
			t.Errorf("%s: %.4f rad, want %.4f", c.where, fs[0].Value.V, want)
		}
		q := in.Piece.Parts[0]
		for i := range q.Outline { // the way round makes no difference
			q.Outline[i].Outer = q.Outline[i].Outer.Reverse()
			for k := range q.Outline[i].Holes {
				q.Outline[i].Holes[k] = q.Outline[i].Holes[k].Reverse()
			}
		}
		if got := vees(in); len(got) != len(fs) {
			t.Errorf("%s the other way round: %d findings", c.where, len(got))
		}
	}
}
