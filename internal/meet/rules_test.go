package meet_test

import (
	"math"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/meet"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// bench gathers a small piece by hand.
type bench struct{ piece.Piece }

// block adds a part between two corners of the piece.
func (b *bench) block(id string, x0, y0, z0, x1, y1, z1 float64) *piece.Part {
	n := trace.Const
	q := &piece.Part{ID: id, Length: n(x1 - x0), Width: n(y1 - y0), Thick: n(z1 - z0), Pose: r3.Identity(), Outline: planar.Rect(0, 0, x1-x0, y1-y0)}
	q.Pose.O = r3.Vec{X: x0, Y: y0, Z: z0}
	b.Parts = append(b.Parts, q)
	return q
}

func (b *bench) joint(kind, in, into string, enter r3.Vec, clearance float64) {
	b.Joints = append(b.Joints, piece.Joint{ID: in + " / " + into, Kind: kind, A: into, B: in, Enter: enter, Clearance: trace.Const(clearance)})
}

// verdicts returns the findings by id.
func (b *bench) verdicts() map[string]work.Finding {
	out := map[string]work.Finding{}
	for _, f := range meet.Make(&b.Piece).Findings {
		out[f.ID] = f
	}
	return out
}

// table has a top of 600 × 300 at height 400 on two legs.
func table() *bench {
	var b bench
	b.block("top", 0, 400, 0, 600, 418, 300)
	b.block("left leg", 20, 0, 20, 60, 400, 280)
	b.block("right leg", 540, 0, 20, 580, 400, 280)
	b.joint("butt", "left leg", "top", r3.Vec{Y: 1}, 0)
	b.joint("butt", "right leg", "top", r3.Vec{Y: 1}, 0)
	return &b
}

func TestTableIsFine(t *testing.T) {
	r := meet.Make(&table().Piece)
	for _, f := range r.Findings {
		if f.Verdict != work.Fine {
			t.Errorf("%s: %v", f.ID, f.Text)
		}
	}
	for _, m := range r.Meetings {
		if m.Area != 40*260 || m.Gap != 0 || !m.Rests || len(m.Patches) != 1 {
			t.Errorf("%+v", m)
		}
	}
}

// For each rule a piece that breaks it, and one that just passes.
func TestBothSidesOfEachRule(t *testing.T) {
	for _, c := range []struct {
		name    string
		spoil   func(b *bench)
		id      string
		verdict work.Verdict // "" where nothing may be said
		value   float64
	}{
		{"a leg 0.019 too high", func(b *bench) { b.Parts[1].Pose.O.Y = 0.019 }, "meet/top and left leg", "", 0},
		{"a leg 0.03 too high", func(b *bench) { b.Parts[1].Pose.O.Y = 0.03 }, "meet/top and left leg", work.Stop, 0.03},
		{"a leg 0.049 too low", func(b *bench) { b.Parts[1].Pose.O.Y = -0.049 }, "meet/left leg / top", "", 0},
		{"a leg 0.06 too low", func(b *bench) { b.Parts[1].Pose.O.Y = -0.06 }, "meet/left leg / top", work.Look, 0.06},
		{"a leg 0.6 too low", func(b *bench) { b.Parts[1].Pose.O.Y = -0.6 }, "meet/left leg / top", work.Stop, 0.6},
		{"a leg 5 too low", func(b *bench) { b.Parts[1].Pose.O.Y = -5 }, "meet/left leg / top", work.Stop, 0},
		{"a leg beside the top", func(b *bench) { b.Parts[1].Pose.O.X = -60 }, "meet/left leg / top", work.Stop, 0},
		{"a press fit of 0.1, pressed by 0.1", func(b *bench) {
			b.Parts[1].Pose.O.Y = 0.1
			b.Joints[0].Clearance = trace.Const(-0.1)
		}, "meet/top and left leg", "", 0},
		{"a press fit of 0.1, pressed by 0.15", func(b *bench) {
			b.Parts[1].Pose.O.Y = 0.15
			b.Joints[0].Clearance = trace.Const(-0.1)
		}, "meet/top and left leg", work.Stop, 0.15},
		{"a tray on the top", func(b *bench) { b.block("tray", 100, 418, 50, 300, 430, 200) }, "meet/loose tray", "", 0},
		{"a tray over the top", func(b *bench) { b.block("tray", 100, 419, 50, 300, 430, 200) }, "meet/loose tray", work.Stop, 1},
		{"a board that leans on the top's edge", func(b *bench) { b.block("board", 600, 405, 50, 618, 450, 200) }, "meet/loose board", work.Stop, 1},
		{"a board that leans there, on the floor", func(b *bench) { b.block("board", 600, 0, 50, 618, 450, 200) }, "meet/loose board", "", 0},
		{"a shelf on pins", func(b *bench) {
			b.block("shelf", 61, 200, 20, 539, 218, 280)
			b.joint("pins", "shelf", "left leg", r3.Vec{Y: -1}, 0)
		}, "meet/loose shelf", "", 0},
		{"the shelf without them, and a cup on it", func(b *bench) {
			b.block("shelf", 61, 200, 20, 539, 218, 280)
			b.block("cup", 100, 218, 100, 150, 250, 150)
			b.joint("butt", "cup", "shelf", r3.Vec{Y: -1}, 0)
		}, "meet/loose shelf", work.Stop, 2},
		{"a part that is no solid", func(b *bench) {
			b.Parts[1].Cuts = []piece.Cut{{Kind: piece.Housing, Face: piece.FaceA, X1: trace.Const(10), Y1: trace.Const(10)}}
		}, "meet/unasked 1", work.NotCovered, 0},
	} {
		b := table()
		c.spoil(b)
		f, said := b.verdicts()[c.id]
		switch {
		case said != (c.verdict != ""):
			t.Errorf("%s: %s said: %v", c.name, c.id, said)
		case said && (f.Verdict != c.verdict || math.Abs(f.Value.V-c.value) > 1e-6):
			t.Errorf("%s: %s %g, want %s %g", c.name, f.Verdict, f.Value.V, c.verdict, c.value)
		}
	}
}

// The rules' own functions say what the stage says.
func TestRulesSayWhatTheStageSays(t *testing.T) {
	over := meet.ClashRule.Eval(map[string]float64{"reach": 0.019})[0].Value
	more := meet.ClashRule.Eval(map[string]float64{"reach": 0.03})[0].Value
	if over != 0 || math.Abs(more-0.01) > 1e-12 {
		t.Errorf("over by %g and %g", over, more)
	}
	if open := meet.GapRule.Eval(map[string]float64{"gap": 0.049})[0].Value; open != 0 {
		t.Errorf("open by %g", open)
	}
}
