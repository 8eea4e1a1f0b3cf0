package solid_test

import (
	"math"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// tilted turns a body about an axis through the origin and shifts it.
func tilted(b solid.Body, axis r3.Vec, angle float64, by r3.Vec) solid.Body {
	u := axis.Unit()
	s, c := math.Sincos(angle)
	turn := func(v r3.Vec) r3.Vec {
		return v.Mul(c).Add(u.Cross(v).Mul(s)).Add(u.Mul(u.Dot(v) * (1 - c)))
	}
	p := b.Pose
	b.Pose = r3.Pose{O: turn(p.O).Add(by), X: turn(p.X), Y: turn(p.Y), Z: turn(p.Z)}
	return b
}

func block(x0, y0, z0, x1, y1, z1 float64) solid.Body {
	return solid.Block(r3.Vec{X: x0, Y: y0, Z: z0}, r3.Vec{X: x1, Y: y1, Z: z1})
}

// upright poses a panel so that its thickness runs along x.
var upright = r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}}

func disc(radius, height float64) solid.Body {
	b, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Disc(r2.Vec{}, radius), Z0: 0, Z1: height})
	return b
}

func TestOverlap(t *testing.T) {
	wide := planar.Rect(0, 0, 600, 300)
	housed, err := solid.Panel(r3.Identity(), wide, 18, []solid.Pocket{{Region: planar.Rect(200, -1, 218.1, 301), Face: solid.A, Depth: 6}})
	if err != nil {
		t.Fatal(err)
	}
	divider := func(x, z float64) solid.Body { return block(x, 0, z, x+18, 300, 400) }
	standing := func(x float64) solid.Body { // the same with its thickness along x
		b, err := solid.Panel(upright, planar.Rect(0, 12, 300, 400), 18, nil)
		if err != nil {
			t.Fatal(err)
		}
		b.Pose.O.X = x
		return b
	}
	bar := solid.Block(r3.Vec{X: -50, Y: -50, Z: -50}, r3.Vec{X: 50, Y: 50, Z: 50})
	for _, c := range []struct {
		name          string
		a, b          solid.Body
		volume, reach float64
	}{
		{"apart", block(0, 0, 0, 1, 1, 1), block(2, 0, 0, 3, 1, 1), 0, 0},
		{"touching", block(0, 0, 0, 1, 1, 1), block(1, 0, 0, 3, 1, 1), 0, 0},
		{"crossing", block(0, 0, 0, 10, 10, 10), block(9, 8, 7, 20, 20, 20), 6, 1},
		{"housed with room at both cheeks", housed, divider(200.05, 12), 0, 0},
		{"housed, a hair too deep", housed, divider(200.05, 11.95), 0.05 * 18 * 300, 0.05},
		{"housed, pushed 0.02 into a cheek", housed, divider(199.98, 12), 0.02 * 6 * 300, 0.02},
		{"the same standing", housed, standing(199.98), 0.02 * 6 * 300, 0.02},
		{"standing, with room", housed, standing(200.05), 0, 0},
		{"disc through a cube", disc(10, 500), bar, math.Pi * 100 * 50, 20},
		{"disc through a turned cube", disc(10, 500), tilted(bar, r3.Vec{X: 1}, math.Pi/2, r3.Vec{}), math.Pi * 100 * 50, 20},
		{"cube in itself, an eighth turned", bar, tilted(bar, r3.Vec{Z: 1}, math.Pi/4, r3.Vec{}), 100 * 100 * 100 * (2*math.Sqrt2 - 2), 100},
	} {
		for _, turn := range []float64{0, 0.7} {
			a, b := tilted(c.a, r3.Vec{X: 1, Y: 2, Z: 3}, turn, r3.Vec{X: 30}), tilted(c.b, r3.Vec{X: 1, Y: 2, Z: 3}, turn, r3.Vec{X: 30})
			got, err := solid.Prepare(a).Overlap(solid.Prepare(b))
			if err != nil {
				t.Fatal(err)
			}
			back, err := solid.Overlap(b, a)
			if err != nil {
				t.Fatal(err)
			}
			if !near(got.Volume, c.volume, 7e-4) || !near(back, c.volume, 7e-4) {
				t.Errorf("%s, turned %g: %g and %g mm³, want %g", c.name, turn, got.Volume, back, c.volume)
			}
			if math.Abs(got.Reach-c.reach) > 2*solid.Chord {
				t.Errorf("%s, turned %g: reach %g, want %g", c.name, turn, got.Reach, c.reach)
			}
		}
	}
}

// Two cylinders of one radius that cross square: 16r³/3 (Archimedes).
func TestOverlapOfCylinders(t *testing.T) {
	a := tilted(disc(20, 100), r3.Vec{X: 1}, 0, r3.Vec{Z: -50})
	b := tilted(a, r3.Vec{X: 1}, math.Pi/2, r3.Vec{})
	v, err := solid.Overlap(a, b)
	if err != nil {
		t.Fatal(err)
	}
	if want := 16.0 / 3 * 8000; v > want || v < want*(1-1e-3) {
		t.Errorf("%g mm³, want a little less than %g", v, want)
	}
}

func TestContact(t *testing.T) {
	sleeve, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(planar.Circle(r2.Vec{}, 30), planar.Circle(r2.Vec{}, 20.02)), Z0: -10, Z1: 40})
	for _, c := range []struct {
		name      string
		a, b      solid.Body
		area, gap float64
		patches   int
	}{
		{"apart by 0.2", block(0, 0, 0, 10, 10, 10), block(10.2, 0, 0, 20, 10, 10), 0, 0, 0},
		{"apart by 0.04", block(0, 0, 0, 10, 10, 10), block(10.04, 5, 0, 20, 20, 10), 50, 0.04, 1},
		{"within by 0.04", block(0, 0, 0, 10, 10, 10), block(9.96, 5, 0, 20, 20, 10), 50, -0.04, 1},
		{"edge on edge", block(0, 0, 0, 10, 10, 10), block(10, 10, 0, 20, 20, 10), 0, 0, 0},
		{"flush, not facing", block(0, 0, 0, 10, 10, 10), block(10, 0, 0, 20, 10, 10), 100, 0, 1},
		{"disc on a block", block(-5, -50, -10, 50, 50, 0), disc(20, 30), math.Pi*400 - (400*math.Acos(0.25) - 5*math.Sqrt(375)), 0, 1},
		{"pin in a sleeve", disc(20, 30), sleeve, 2 * math.Pi * 20 * 30, 0.02, 2},
		{"sleeve on a pin", sleeve, disc(20, 30), 2 * math.Pi * 20 * 30, 0.02, 2},
		{"pin in a sleeve, turned over", disc(20, 30), tilted(sleeve, r3.Vec{X: 1}, math.Pi, r3.Vec{Z: 10}), 2 * math.Pi * 20 * 20, 0.02, 2},
	} {
		for _, turn := range []float64{0, 0.7} {
			a, b := tilted(c.a, r3.Vec{X: 1, Y: 2, Z: 3}, turn, r3.Vec{X: 30}), tilted(c.b, r3.Vec{X: 1, Y: 2, Z: 3}, turn, r3.Vec{X: 30})
			area, patches, err := solid.Contact(a, b, 0.05)
			if err != nil {
				t.Fatal(err)
			}
			if !near(area, c.area, 1e-6) {
				t.Errorf("%s, turned %g: %g mm², want %g: %v", c.name, turn, area, c.area, patches)
			}
			for _, p := range patches {
				if math.Abs(p.Gap-c.gap) > 1e-9 {
					t.Errorf("%s, turned %g: a gap of %g, want %g", c.name, turn, p.Gap, c.gap)
				}
			}
		}
	}
}

func TestDistance(t *testing.T) {
	frame, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(planar.Polygon(r2.Vec{X: -50, Y: -50}, r2.Vec{X: 50, Y: -50}, r2.Vec{X: 50, Y: 50}, r2.Vec{X: -50, Y: 50}), planar.Circle(r2.Vec{}, 30)), Z0: 0, Z1: 10})
	for _, c := range []struct {
		name string
		a, b solid.Body
		want float64
	}{
		{"faces", block(0, 0, 0, 10, 10, 10), block(10.05, 2, 2, 20, 8, 8), 0.05},
		{"edges", block(0, 0, 0, 10, 10, 10), block(13, 14, 2, 20, 20, 8), 5},
		{"corners", block(0, 0, 0, 10, 10, 10), block(12, 13, 16, 20, 20, 20), 7},
		{"touching", block(0, 0, 0, 10, 10, 10), block(10, 2, 2, 20, 8, 8), 0},
		{"within", block(0, 0, 0, 10, 10, 10), block(4, 4, 4, 5, 5, 5), 0},
		{"pin in a hole", frame, disc(29.95, 10), 0.05},
		{"pin over a hole", frame, tilted(disc(29.95, 10), r3.Vec{X: 1}, 0, r3.Vec{Z: 10.1}), math.Hypot(0.05, 0.1)},
	} {
		a, b := tilted(c.a, r3.Vec{X: 1, Y: 2, Z: 3}, 0.7, r3.Vec{X: 30}), tilted(c.b, r3.Vec{X: 1, Y: 2, Z: 3}, 0.7, r3.Vec{X: 30})
		g := solid.Prepare(a).Distance(solid.Prepare(b))
		if d := g.Distance; d < c.want-1e-9 || d > c.want+2*solid.Chord {
			t.Errorf("%s: %g, want %g", c.name, d, c.want)
		}
		if math.Abs(g.A.Sub(g.B).Len()-g.Distance) > 1e-9 {
			t.Errorf("%s: places %v and %v are not %g apart", c.name, g.A, g.B, g.Distance)
		}
	}
	if d := solid.Distance(solid.Body{Pose: r3.Identity()}, disc(1, 1)); !math.IsInf(d, 1) {
		t.Errorf("nothing is %g away", d)
	}
}
