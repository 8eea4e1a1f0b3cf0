package solid_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*(1+math.Abs(b)) }

func TestPanel(t *testing.T) {
	outline := planar.Rect(0, 0, 600, 300)
	housing := solid.Pocket{Region: planar.Rect(200, -5, 217.7, 305), Face: solid.A, Depth: 6}
	groove := solid.Pocket{Region: planar.Rect(0, 20, 600, 26), Face: solid.B, Depth: 8}
	deep := solid.Pocket{Region: planar.Rect(0, 20, 600, 26), Face: solid.B, Depth: 14}
	cup := solid.Pocket{Region: planar.Disc(r2.Vec{X: 100, Y: 150}, 17.5), Face: solid.B, Depth: 13}
	pull := solid.Pocket{Region: planar.Disc(r2.Vec{X: 500, Y: 150}, 15), Through: true}
	for _, c := range []struct {
		name    string
		pockets []solid.Pocket
		slabs   int
		lost    float64
	}{
		{"plain", nil, 1, 0},
		{"housing, cut past both edges", []solid.Pocket{housing}, 2, 17.7 * 300 * 6},
		{"housing and groove on the other face", []solid.Pocket{housing, groove}, 3, 17.7*300*6 + 600*6*8},
		// 14 and 6 of 18 meet in the middle: where they cross, 2 mm are cut twice.
		{"housing through the floor of a deep groove", []solid.Pocket{housing, deep}, 3, 17.7*300*6 + 600*6*14 - 17.7*6*2},
		{"hinge cup and finger hole", []solid.Pocket{cup, pull}, 2, math.Pi * (17.5*17.5*13 + 15*15*18)},
		{"the same pocket twice", []solid.Pocket{cup, cup}, 2, math.Pi * 17.5 * 17.5 * 13},
		{"deeper than the panel", []solid.Pocket{{Region: planar.Rect(0, 0, 10, 10), Face: solid.A, Depth: 30}}, 1, 100 * 18},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := solid.Panel(r3.Identity(), outline, 18, c.pockets)
			if err != nil {
				t.Fatal(err)
			}
			if want := 600*300*18 - c.lost; !near(b.Volume(), want, 1e-9) {
				t.Errorf("volume %v, want %v", b.Volume(), want)
			}
			if len(b.Slabs) != c.slabs {
				t.Errorf("%d slabs, want %d", len(b.Slabs), c.slabs)
			}
			closed(t, b)
		})
	}
}

func TestPanelErrors(t *testing.T) {
	r := planar.Rect(0, 0, 10, 10)
	for name, p := range map[string][]solid.Pocket{
		"no depth": {{Region: r, Face: solid.A}},
		"no face":  {{Region: r, Depth: 3}},
		"NaN":      {{Region: r, Face: solid.B, Depth: math.NaN()}},
	} {
		if _, err := solid.Panel(r3.Identity(), r, 18, p); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := solid.Panel(r3.Identity(), r, 0, nil); err == nil {
		t.Error("a panel without thickness was taken")
	}
	if _, err := solid.Extrude(r3.Identity(), solid.Slab{Region: r, Z0: 0, Z1: 5}, solid.Slab{Region: r, Z0: 4, Z1: 9}); err == nil {
		t.Error("sections that overlap were taken")
	}
}

func TestBox(t *testing.T) {
	// A quarter disc of radius 100, 20 thick, turned by 30° about z and lifted:
	// its rightmost place is the end of the arc, its highest on the arc.
	q := planar.MustParse("M 0 0 L 100 0 A 100 0 100 Z")
	s, c := math.Sincos(math.Pi / 6)
	pose := r3.Pose{O: r3.Vec{X: 5, Y: 6, Z: 7}, X: r3.Vec{X: c, Y: s}, Y: r3.Vec{X: -s, Y: c}, Z: r3.Vec{Z: 1}}
	b, err := solid.Extrude(pose, solid.Slab{Region: q, Z0: 0, Z1: 20})
	if err != nil {
		t.Fatal(err)
	}
	box := b.Box()
	want := r3.Box{Min: r3.Vec{X: 5 - 100*s, Y: 6, Z: 7}, Max: r3.Vec{X: 5 + 100*c, Y: 106, Z: 27}}
	if box.Min.Sub(want.Min).Len() > 1e-9 || box.Max.Sub(want.Max).Len() > 1e-9 {
		t.Errorf("box %v, want %v", box, want)
	}
}

// closed checks a body's faces against its volume. Over a closed surface the
// sum of area times normal is nothing, and ∮ p·n dA = 3V (divergence); arcs cost
// what their chords leave out.
func closed(t interface{ Fatalf(string, ...any) }, b solid.Body) {
	const chord = 1e-4
	skin, err := b.Skin(chord)
	if err != nil {
		t.Fatalf("%v", err)
	}
	open, vol, area := r3.Vec{}, 0.0, 0.0
	for _, f := range skin.Faces {
		v := r3.Vec{} // twice the area, along the normal
		for _, l := range f.Loops {
			for i := range l {
				v = v.Add(l[i].Sub(f.Loops[0][0]).Cross(l[(i+1)%len(l)].Sub(f.Loops[0][0])))
			}
		}
		if v.Dot(f.Normal) <= 0 {
			t.Fatalf("a face looks inwards: %v", f)
		}
		if d := v.Unit().Sub(f.Normal).Len(); d > 1e-6 {
			t.Fatalf("a normal is off by %g: %v", d, f)
		}
		open = open.Add(v.Mul(0.5))
		vol += f.Loops[0][0].Dot(v) / 6
		area += v.Len() / 2
	}
	// A saw ends cylinders in ellipses, whose chords are not those of the walls.
	slack, share := 1e-9*area+1e-3, 1e-5
	if len(b.Within) > 0 {
		slack, share = slack+0.5, 2e-4
	}
	if open.Len() > slack {
		t.Fatalf("the surface is open by %v mm²", open)
	}
	if !near(vol, b.Volume(), share) {
		t.Fatalf("the faces hold %g mm³, the body %g", vol, b.Volume())
	}
}

// edges counts edges by kind.
func edges(t *testing.T, b solid.Body) map[solid.EdgeKind]int {
	t.Helper()
	skin, err := b.Skin(0.1)
	if err != nil {
		t.Fatal(err)
	}
	n := map[solid.EdgeKind]int{}
	for _, e := range skin.Edges {
		n[e.Kind]++
	}
	return n
}

func TestEdges(t *testing.T) {
	box := solid.Block(r3.Vec{}, r3.Vec{X: 3, Y: 4, Z: 5})
	if n := edges(t, box); n[solid.Sharp] != 12 || n[solid.Tangent] != 0 {
		t.Errorf("a box has 12 edges, not %v", n)
	}
	// Two equal slabs are one box: no face or edge at the seam but the upright
	// edges, which are in two parts.
	r := planar.Rect(0, 0, 3, 4)
	two, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: r, Z0: 0, Z1: 2}, solid.Slab{Region: r, Z0: 2, Z1: 5})
	if n := edges(t, two); n[solid.Sharp] != 16 {
		t.Errorf("two equal slabs: %v", n)
	}
	// A rounded corner: two tangent edges; a disc: none, and two rims of two arcs.
	round, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.MustParse("M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z"), Z1: 5})
	if n := edges(t, round); n[solid.Sharp] != 13 || n[solid.Tangent] != 2 {
		t.Errorf("a rounded corner: %v", n)
	}
	disc, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Disc(r2.Vec{}, 9), Z1: 5})
	if n := edges(t, disc); n[solid.Sharp] != 4 || n[solid.Tangent] != 0 {
		t.Errorf("a disc: %v", n)
	}
	// A housing from edge to edge. The slab below it: 4 edges round its foot, 4
	// upright corners. The two blocks that stand: 4 round the top of each, 4
	// upright corners each. The housing's floor: 4.
	housed, _ := solid.Panel(r3.Identity(), planar.Rect(0, 0, 100, 50), 18, []solid.Pocket{{Region: planar.Rect(40, 0, 58, 50), Face: solid.A, Depth: 6}})
	if n := edges(t, housed); n[solid.Sharp] != 4+4+2*(4+4)+4 {
		t.Errorf("a housing: %v", n)
	}
}

func TestArcEdge(t *testing.T) {
	disc, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Disc(r2.Vec{X: 1, Y: 2}, 9), Z1: 5})
	skin, err := disc.Skin(0.1)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range skin.Edges {
		if e.At(1).Sub(e.B).Len() > 1e-9 || e.At(0) != e.A {
			t.Errorf("the arc from %v to %v ends at %v", e.A, e.B, e.At(1))
		}
		for _, s := range []float64{0, 0.3, 0.5, 1} {
			out := e.At(s).Sub(e.Center).Unit()
			if e.Normals(s)[1].Sub(out).Len() > 1e-9 {
				t.Errorf("the wall looks %v at %v", e.Normals(s)[1], out)
			}
		}
	}
	if len(skin.Rounds) != 2 || skin.Rounds[0].Hollow {
		t.Errorf("rounds %v", skin.Rounds)
	}
}

// pocketed draws a panel somewhere in space with pockets of all kinds.
var pocketed = rapid.Custom(func(t *rapid.T) solid.Body {
	n := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
	var ps []solid.Pocket
	for range rapid.IntRange(0, 5).Draw(t, "pockets") {
		x, y := 10*n("x", -1, 10), 10*n("y", -1, 8)
		p := solid.Pocket{Face: rapid.SampledFrom([]solid.Side{solid.A, solid.B}).Draw(t, "face"), Depth: n("depth", 1, 20)}
		if rapid.Bool().Draw(t, "round") {
			p.Region = planar.Disc(r2.Vec{X: x, Y: y}, 2*n("r", 1, 6))
		} else {
			p.Region = planar.Rect(x, y, x+10*n("w", 1, 12), y+10*n("h", 1, 10))
		}
		ps = append(ps, p)
	}
	a, b := rapid.Float64Range(0, 6).Draw(t, "turn"), rapid.Float64Range(0, 6).Draw(t, "tilt")
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	x, y := r3.Vec{X: ca, Y: sa}, r3.Vec{X: -sa * cb, Y: ca * cb, Z: sb}
	pose := r3.Pose{O: r3.Vec{X: n("ox", -50, 50), Y: 3, Z: -4}, X: x, Y: y, Z: x.Cross(y)}
	body, err := solid.Panel(pose, planar.MustParse("M 0 0 L 100 0 L 100 60 A 20 80 80 L 0 80 Z"), 18, ps)
	if err != nil {
		t.Fatal(err)
	}
	return body
})

func TestBodiesAreClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { closed(t, pocketed.Draw(t, "body")) })
}

func TestRigidMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := pocketed.Draw(t, "body")
		still := b
		still.Pose = r3.Identity()
		if b.Volume() != still.Volume() {
			t.Fatal("a body's volume changed by moving it")
		}
		if len(b.Slabs) == 0 {
			t.Skip("all of it was cut away")
		}
		if d := b.Centroid().Sub(b.Pose.At(still.Centroid())).Len(); d > 1e-9 {
			t.Fatalf("the centroid is off by %g", d)
		}
		// No point of the boundary lies outside the box, and the box is reached.
		skin, err := b.Skin(0.001)
		if err != nil {
			t.Fatal(err)
		}
		box, top := b.Box(), math.Inf(-1)
		for _, f := range skin.Faces {
			for _, l := range f.Loops {
				for _, p := range l {
					top = max(top, p.Y)
				}
			}
		}
		if top > box.Max.Y+1e-9 || top < box.Max.Y-0.002 {
			t.Fatalf("the box ends at y %g, the faces at %g", box.Max.Y, top)
		}
	})
}

func BenchmarkSkin(b *testing.B) {
	body, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 800, 400), 18, []solid.Pocket{
		{Region: planar.Rect(300, 0, 317.7, 400), Face: solid.A, Depth: 6},
		{Region: planar.Rect(0, 0, 800, 8), Face: solid.B, Depth: 8},
	})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := body.Skin(0.1); err != nil {
			b.Fatal(err)
		}
	}
}
