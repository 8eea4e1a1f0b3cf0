package solid_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// A square stick 40 × 40 that leans by a slope of 0.2 to the right and 0.1 to
// the front, sawn off level at 0 and 300: by Cavalieri's principle it holds what
// lies between the levels of its level section.
func leaningStick() solid.Body {
	up := r3.Vec{X: 0.2, Y: 1, Z: 0.1}.Unit()
	x := r3.Vec{Z: 1}.Cross(up).Unit()
	pose := r3.Pose{O: r3.Vec{X: 7}, X: up, Y: up.Cross(x).Mul(-1), Z: x.Mul(-1)}
	pose.Z = pose.X.Cross(pose.Y)
	b, _ := solid.Extrude(pose, solid.Slab{Region: planar.Rect(-60, -20, 380, 20), Z0: -20, Z1: 20})
	return b.CutBy(r3.Vec{}, r3.Vec{Y: -1}).CutBy(r3.Vec{Y: 300}, r3.Vec{Y: 1})
}

func TestLeaningStick(t *testing.T) {
	b := leaningStick()
	level := 1600 * math.Sqrt(1+0.2*0.2+0.1*0.1) // square section over the lean's cosine
	if !near(b.Volume(), 300*level, 1e-12) {
		t.Errorf("%v mm³, want %v", b.Volume(), 300*level)
	}
	// Its centre lies on the axis, half way up.
	if c := b.Centroid(); c.Sub(r3.Vec{X: 7 + 0.2*150, Y: 150, Z: 0.1 * 150}).Len() > 1e-9 {
		t.Errorf("centre %v", c)
	}
	if box := b.Box(); math.Abs(box.Min.Y) > 1e-9 || math.Abs(box.Max.Y-300) > 1e-9 {
		t.Errorf("box %v", box)
	}
	// It stands on the floor with its whole foot, and carries a top.
	for _, other := range []solid.Body{block(-100, -18, -100, 200, 0, 100), block(-100, 300, -100, 200, 318, 200)} {
		area, patches, err := solid.Contact(b, other, 0.05)
		if err != nil || len(patches) != 1 || !near(area, level, 1e-9) {
			t.Errorf("%v: %v mm² touch, want %v: %v", err, area, level, patches)
		}
		if v, err := solid.Overlap(b, other); err != nil || v != 0 {
			t.Errorf("%v: %v mm³ shared with what it stands on", err, v)
		}
		if d := solid.Distance(b, other); d > 1e-9 {
			t.Errorf("%v away from what it touches", d)
		}
	}
	// A level section anywhere has the same area.
	s, err := b.Section(r3.Pose{O: r3.Vec{Y: 120}, X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}})
	if err != nil || !near(s.Area(), level, 1e-9) {
		t.Errorf("%v: a level section of %v mm², want %v", err, s.Area(), level)
	}
	skin, err := b.Skin(0.1)
	if err != nil || len(skin.Faces) != 6 || len(skin.Edges) != 12 {
		t.Errorf("%v: %d faces and %d edges, want 6 and 12", err, len(skin.Faces), len(skin.Edges))
	}
	m, err := b.Mesh(0.1)
	if err != nil || !near(m.Volume(), b.Volume(), 1e-9) {
		t.Errorf("%v: the mesh holds %v mm³ of %v", err, m.Volume(), b.Volume())
	}
}

// A cylinder cut off aslant through its middle holds half of what it did; an
// oblique saw leaves an ellipse.
func TestSawnCylinder(t *testing.T) {
	b := disc(20, 100).CutBy(r3.Vec{Z: 50}, r3.Vec{X: 1, Z: 1})
	if !near(b.Volume(), math.Pi*400*50, 5e-4) {
		t.Errorf("%v mm³", b.Volume())
	}
	closed(t, b)
	skin, err := b.Skin(0.01)
	if err != nil {
		t.Fatal(err)
	}
	lid := skin.Faces[len(skin.Faces)-1]
	area := r3.Vec{}
	for i, p := range lid.Loops[0] {
		area = area.Add(p.Cross(lid.Loops[0][(i+1)%len(lid.Loops[0])]))
	}
	if !near(area.Len()/2, math.Pi*400*math.Sqrt2, 1e-3) {
		t.Errorf("an ellipse of %v mm²", area.Len()/2)
	}
	// Where it is whole all round it still fills a sleeve: from 0 to 30.
	sleeve, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(planar.Circle(r2.Vec{}, 30), planar.Circle(r2.Vec{}, 20)), Z0: 10, Z1: 90})
	if a, _, err := solid.Contact(b, sleeve, 0.01); err != nil || !near(a, 2*math.Pi*20*20, 1e-6) {
		t.Errorf("%v: %v mm² fill the sleeve", err, a)
	}
}

// Two halves of a body hold all of it and meet at the saw's plane.
func TestHalves(t *testing.T) {
	lots := rand.New(rand.NewPCG(3, 5))
	for seed := range 25 {
		b := panel.Example(seed)
		at := b.Centroid().Add(r3.Vec{X: 20*lots.Float64() - 10})
		n := r3.Vec{X: 2*lots.Float64() - 1, Y: 2*lots.Float64() - 1, Z: 0.3}
		low, high := b.CutBy(at, n), b.CutBy(at, n.Mul(-1))
		if v := low.Volume() + high.Volume(); !near(v, b.Volume(), 1e-3) {
			t.Fatalf("the halves hold %g mm³, the whole %g", v, b.Volume())
		}
		if v, err := solid.Overlap(low, high); err != nil || v > 1e-6 {
			t.Fatalf("%v: the halves share %g mm³", err, v)
		}
		s, err := b.Section(facing(at, n.Unit()))
		if err != nil {
			t.Fatal(err)
		}
		area, _, err := solid.Contact(low, high, 1e-4)
		if err != nil || area < s.Area()-0.02*(1+s.Perimeter()) {
			t.Fatalf("%v: the halves touch on %g mm² of a section of %g", err, area, s.Area())
		}
		closed(t, low)
	}
}

// facing returns a frame whose Z looks along n.
func facing(at, n r3.Vec) r3.Pose {
	x := r3.Vec{X: 1}.Cross(n).Unit()
	return r3.Pose{O: at, X: x, Y: n.Cross(x), Z: n}
}
