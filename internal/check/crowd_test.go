package check

import (
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// plated is an upright of 600 with the plate of a door's lower hinge at so much
// over its foot, and something beside it.
func plated(at float64, other piece.Cut) Input {
	hole := piece.Cut{ID: "side/cut 1", Kind: piece.HoleRow, Face: piece.FaceA, X0: n(at - 16), Y0: n(37), Diameter: n(5), Depth: n(12), Count: 2, StepX: n(32), For: "hinge plate of door"}
	up := hole
	up.ID, up.X0 = "side/cut 2", n(600-80-16)
	other.ID = "side/cut 3"
	side := &piece.Part{ID: "side", Name: "side", Thick: n(18), Length: n(600), Path: "body", Cuts: []piece.Cut{hole, up, other}}
	leaf := &piece.Part{ID: "door", Name: "door", Role: piece.Door, Thick: n(18), Length: n(600), Width: n(400), Path: "fronts.0"}
	d := &design.Design{Fronts: []design.Front{{Name: "door", As: "door", HingeAt: []trace.Num{n(at), n(-80)}, Path: "fronts.0"}}}
	joint := piece.Joint{Kind: "hinges", A: "side", B: "door", Enter: r3.Vec{X: -1}}
	return Input{Piece: &piece.Piece{Parts: []*piece.Part{side, leaf}, Joints: []piece.Joint{joint}}, Design: d}
}

func slot(x0, x1 float64) piece.Cut {
	return piece.Cut{Kind: piece.Housing, Face: piece.FaceA, X0: n(x0), X1: n(x1), Y0: n(10), Y1: n(300), Depth: n(6), For: "shelf"}
}

func bore(x, dia float64) piece.Cut {
	return piece.Cut{Kind: piece.Hole, Face: piece.FaceA, X0: n(x), Y0: n(37), Diameter: n(dia), Depth: n(9), Count: 1, For: "shelf pins in inside"}
}

func TestHolesSideBySide(t *testing.T) {
	back, narrow := slot(110, 128), bore(110, 6)
	back.Face, narrow.Face = piece.FaceB, piece.EdgeLow
	through := bore(110, 30)
	through.Face, through.Through = piece.FaceB, true
	for _, c := range []struct {
		name  string
		other piece.Cut
		want  work.Verdict
	}{
		{"in a slot", slot(110, 128), work.Stop}, // holes at 84 and 116
		{"beside a slot", slot(120, 138), work.Look},
		{"3 mm from a slot", slot(121.6, 140), ""},
		{"over a hole", bore(112, 6), work.Stop},
		{"beside a hole", bore(124, 6), work.Look},
		{"the same hole", bore(116, 5), ""},
		{"at one place, wider", bore(116, 8), work.Stop},
		{"on the other face", back, ""},
		{"through from the other face", through, work.Stop},
		{"into an edge", narrow, ""},
	} {
		fs := crowded(plated(100, c.other))
		switch {
		case c.want == "" && len(fs) > 0:
			t.Errorf("%s: %s", c.name, fs[0].Verdict)
		case c.want != "" && (len(fs) != 1 || fs[0].Verdict != c.want):
			t.Errorf("%s: %+v, want %s", c.name, fs, c.want)
		}
	}
}

// The place that the mend writes leaves nothing to say.
func TestCrowdMendHolds(t *testing.T) {
	f := crowded(plated(100, slot(110, 128)))[0]
	if m := f.Mends[0]; m.Path != "fronts.0.at" || m.New != "[85 mm, -80 mm]" {
		t.Fatalf("the mend is %+v", m)
	}
	if fs := crowded(plated(85, slot(110, 128))); len(fs) != 0 {
		t.Errorf("and then: %+v", fs[0].Text)
	}
}

// drawer is a box of 400 × 300 × 100 with its front, on slides of 350.
func drawer(in Input) Input {
	part := func(id string, role piece.Role, l, w, th float64, at [3]float64) {
		in.Piece.Parts = append(in.Piece.Parts, &piece.Part{ID: id, Name: id, Role: role, Length: n(l), Width: n(w), Thick: n(th), Path: "drawers.0",
			Origin: [3]trace.Num{n(at[0]), n(at[1]), n(at[2])}})
		in.Masses = append(in.Masses, work.MassLine{Part: id, Mass: n(1), X: n(at[0]), Y: n(at[1]), Z: n(at[2] - 150)})
	}
	part("side of box", piece.DrawerSide, 300, 100, 12, [3]float64{100, 500, 330})
	part("floor of box", piece.DrawerFloor, 400, 300, 6, [3]float64{100, 510, 330})
	part("front of drawer", piece.DrawerFront, 420, 120, 18, [3]float64{90, 490, 332})
	in.Piece.Parts[len(in.Piece.Parts)-1].Path = "fronts.9"
	in.Piece.Joints = append(in.Piece.Joints, piece.Joint{Kind: "screwed", A: "side of box", B: "front of drawer"})
	in.Design.Drawers = []design.Drawer{{Slide: &design.Slide{Length: n(350)}, Path: "drawers.0"}}
	return in
}

// A drawer comes out by its slide's length with all its parts, and holds what
// clothes of 136.2 kg/m³ weigh in 400 × 300 × 84.
func TestDrawersComeOut(t *testing.T) {
	in := drawer(cabinet(800, 1200, 350, 40, 25, 4, 0))
	ds := drawersOf(in)
	if len(ds) != 1 || ds[0].id != "front of drawer" || ds[0].travel.V != 350 || len(ds[0].parts) != 3 {
		t.Fatalf("the drawers are %+v", ds)
	}
	if got, want := ds[0].clothes().kg.V, 400*300*84*136.2e-9; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("it holds %.4f kg, want %.4f", got, want)
	}
	if _, z := ds[0].edge(); z.V != 332+18+350 {
		t.Errorf("open its front is at %.0f", z.V)
	}
	ms := partMasses(in, ds)
	out := ds[0].opened(ms)
	moved := 0
	for i := range ms {
		if d := out[i].at[2].V - ms[i].at[2].V; d == 350 {
			moved++
		} else if d != 0 {
			t.Errorf("%s moves by %.0f", ms[i].name, d)
		}
	}
	if moved != 3 {
		t.Errorf("%d parts come out", moved)
	}
	without := find(stands(cabinet(800, 1200, 350, 40, 25, 4, 0)), "stand/alone").Value.V
	if with := find(stands(in), "stand/alone").Value.V; with <= without {
		t.Errorf("with its drawer out %.3f, without one %.3f", with, without)
	}
}
