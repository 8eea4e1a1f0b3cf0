package replay_test

import (
	"math"
	"testing"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/replay"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// elbow is a shell of one bend: up the left side, over the top.
func elbow() *piece.Part {
	at := trace.Const
	s := &piece.Part{ID: "shell", Name: "shell", Role: piece.Strip, Length: at(300 + 50*math.Pi + 500), Width: at(300), Thick: at(18), Pose: r3.Identity()}
	s.Origin[2] = at(300)
	bend := 300 + 50*math.Pi
	s.Run = []piece.Stretch{
		{X0: 0, X1: 300, From: r2.Vec{}, Dir: r2.Vec{Y: 1}},
		{X0: 300, X1: bend, From: r2.Vec{Y: 300}, Dir: r2.Vec{Y: 1}, Radius: 100, Angle: math.Pi / 2},
		{X0: bend, X1: bend + 500, From: r2.Vec{X: 100, Y: 400}, Dir: r2.Vec{X: 1}},
	}
	return s
}

// A shell is closed round what stands inside it. A post beside it bars it, whether
// it is laid on from the left or its side swings down there; so does one above.
func TestAWrapSweepsRoom(t *testing.T) {
	floor := block("floor", r3.Vec{X: 18, Y: 0}, r3.Vec{X: 590, Y: 18, Z: 300})
	inside := block("inside", r3.Vec{X: 200, Y: 18}, r3.Vec{X: 220, Y: 370, Z: 300})
	beside := block("beside", r3.Vec{X: -200, Y: 0}, r3.Vec{X: -180, Y: 100, Z: 300})
	above := block("above", r3.Vec{X: 400, Y: 500}, r3.Vec{X: 420, Y: 700, Z: 300})
	for _, c := range []struct {
		name   string
		stands []*piece.Part
		faults int
	}{
		{"free", []*piece.Part{floor, inside}, 0},
		{"one beside", []*piece.Part{floor, inside, beside}, 1},
		{"one above", []*piece.Part{floor, inside, above}, 1},
	} {
		p := &piece.Piece{Parts: append([]*piece.Part{elbow()}, c.stands...)}
		steps := []work.Step{{Number: 1, Part: "floor"}}
		for i, q := range c.stands[1:] {
			j := joined("floor", q.ID, r3.Vec{Y: -1})
			p.Joints = append(p.Joints, j)
			steps = append(steps, work.Step{Number: i + 2, Part: q.ID, Joints: []string{j.ID}, Dir: [3]float64{0, -1, 0}, Group: 1})
		}
		j := joined("shell", "floor", r3.Vec{X: -1})
		p.Joints = append(p.Joints, j)
		steps = append(steps, work.Step{Number: 9, Part: "shell", Move: "wrapped round", Joints: []string{j.ID}, Group: 2})
		if faults, _ := replay.Solids(p, steps); len(faults) != c.faults {
			t.Errorf("%s: %v", c.name, faults)
		}
	}
}

// Closed, a strip is as it was; flat, it is as long as before; and each stretch
// goes on where the one before ends.
func TestOpened(t *testing.T) {
	run := elbow().Run
	for k := range run {
		for _, share := range []float64{0, 0.3, 1} {
			got := replay.Opened(run, k, share)
			for i := 1; i < len(got); i++ {
				s := got[i-1]
				if s.Radius == 0 && got[i].From.Sub(s.From.Add(s.Dir.Mul(s.X1-s.X0))).Len() > 1e-9 {
					t.Errorf("stretch %d of %v at %v does not go on", i, got, share)
				}
			}
			if share == 1 && got[0].From.Sub(run[0].From).Len()+got[2].From.Sub(run[2].From).Len() > 1e-9 {
				t.Errorf("closed about %d: %v", k, got)
			}
		}
	}
}
