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

func TestSection(t *testing.T) {
	housed, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 600, 300), 18, []solid.Pocket{{Region: planar.Rect(200, -1, 218, 301), Face: solid.A, Depth: 6}})
	if err != nil {
		t.Fatal(err)
	}
	pipe, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(planar.Circle(r2.Vec{}, 20), planar.Circle(r2.Vec{}, 15)), Z0: 0, Z1: 100})
	level := r3.Identity()
	front := r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}}
	at := func(p r3.Pose, x, y, z float64) r3.Pose { return p.Moved(r3.Vec{X: x, Y: y, Z: z}) }
	slant := func(tan float64) r3.Pose { // rises along x
		n := math.Hypot(1, tan)
		return r3.Pose{O: r3.Vec{Z: 50}, X: r3.Vec{X: 1 / n, Z: tan / n}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: -tan / n, Z: 1 / n}}
	}
	for _, c := range []struct {
		name  string
		b     solid.Body
		plane r3.Pose
		want  string
		area  float64
	}{
		{"panel across its housing", housed, at(front, 0, 150, 0), "M 0 0 L 600 0 L 600 18 L 218 18 L 218 12 L 200 12 L 200 18 L 0 18 Z", 600*18 - 108},
		{"panel along it, through the housing", housed, at(level, 0, 0, 15), "M 0 0 L 200 0 L 200 300 L 0 300 Z M 218 0 L 600 0 L 600 300 L 218 300 Z", 582 * 300},
		{"panel along it, at the housing's floor: what is behind", housed, at(level, 0, 0, 12), "M 0 0 L 600 0 L 600 300 L 0 300 Z", 600 * 300},
		{"panel on its face: the face", housed, at(level, 0, 0, 18), "M 0 0 L 200 0 L 200 300 L 0 300 Z M 218 0 L 600 0 L 600 300 L 218 300 Z", 582 * 300},
		{"panel on its back: nothing behind", housed, level, "", 0},
		{"panel beyond its end", housed, at(front, 0, 301, 0), "", 0},
		{"pipe across", pipe, at(level, 0, 0, 50), "M -20 0 A 20 20 0 A 20 -20 0 Z M -15 0 A 15 15 0 A 15 -15 0 Z", math.Pi * 175},
		{"pipe along", pipe, front, "M -20 0 L -15 0 L -15 100 L -20 100 Z M 15 0 L 20 0 L 20 100 L 15 100 Z", 1000},
		{"pipe slanting", pipe, slant(1), "", math.Pi * 175 * math.Sqrt2},
		{"pipe slanting out at both ends", pipe, slant(5), "", math.Sqrt(26) * 2 * (band(20, 10) - band(15, 10))},
	} {
		got, err := c.b.Section(c.plane)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.want != "" || c.area == 0 {
			want := planar.MustParse(c.want)
			for _, p := range [][2]planar.Region{{got, want}, {want, got}} {
				d, err := planar.Difference(p[0], p[1])
				if err != nil || d.Area() > 0.02 {
					t.Errorf("%s: %v\n got %v\nwant %v", c.name, err, got, want)
				}
			}
		}
		if c.area > 0 && !near(got.Area(), c.area, 1e-3) {
			t.Errorf("%s: %g mm², want %g", c.name, got.Area(), c.area)
		}
	}
}

// band is the area over a diameter of a disc, as far as h to both sides.
func band(r, h float64) float64 { return h*math.Sqrt(r*r-h*h) + r*r*math.Asin(h/r) }

// A point of any plane lies in the section exactly if it lies in the body, as a
// ray through it tells.
func TestSectionAgainstRays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := panel.Draw(t, "body")
		pose := tilted(solid.Body{Pose: r3.Identity()}, r3.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "x"), Y: rapid.Float64Range(-1, 1).Draw(t, "y"), Z: 1},
			rapid.SampledFrom([]float64{0, 0.4, 1.5, 2.5}).Draw(t, "turn"), b.Centroid()).Pose
		if rapid.Bool().Draw(t, "square") { // to the body
			pose = r3.Pose{O: b.Centroid(), X: b.Pose.Y, Y: b.Pose.Z, Z: b.Pose.X}
		}
		s, err := b.Section(pose)
		if err != nil {
			t.Fatal(err)
		}
		for range 20 {
			p := r2.Vec{X: rapid.Float64Range(-50, 50).Draw(t, "px"), Y: rapid.Float64Range(-50, 50).Draw(t, "py")}
			if s.OnEdge(p, 0.05) {
				continue
			}
			at := pose.At(r3.Vec{X: p.X, Y: p.Y, Z: -1e-5})
			in := false
			for _, w := range b.Ray(at, b.Pose.Y) {
				in = in || w.T0 < 0 && w.T1 > 0
			}
			if in != s.Contains(p) {
				t.Fatalf("%v: in the body %v, in the section %v\n%v", p, in, !in, s)
			}
		}
	})
}

func TestRay(t *testing.T) {
	pipe, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(planar.Circle(r2.Vec{}, 20), planar.Circle(r2.Vec{}, 15)), Z0: 0, Z1: 100})
	along, across, up := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	for _, c := range []struct {
		name string
		o, d r3.Vec
		want []planar.Span
	}{
		{"across the middle", r3.Vec{X: -30, Z: 50}, along, []planar.Span{{T0: 10, T1: 15}, {T0: 45, T1: 50}}},
		{"from the middle", r3.Vec{Z: 50}, across, []planar.Span{{T0: -20, T1: -15}, {T0: 15, T1: 20}}},
		{"along the wall", r3.Vec{X: 17, Z: -10}, up, []planar.Span{{T0: 10, T1: 110}}},
		{"along the hole", r3.Vec{Z: -10}, up, nil},
		{"beside it", r3.Vec{X: 30}, up, nil},
		{"over it", r3.Vec{X: -30, Z: 101}, along, nil},
		{"slanting in at the top", r3.Vec{X: 17, Z: 90}, r3.Vec{Y: 0.6, Z: 0.8}, []planar.Span{{T0: -math.Sqrt(400-289) / 0.6, T1: 12.5}}},
	} {
		got := pipe.Ray(c.o, c.d)
		ok := len(got) == len(c.want)
		for i := range got {
			ok = ok && near(got[i].T0, c.want[i].T0, 1e-9) && near(got[i].T1, c.want[i].T1, 1e-9)
		}
		if !ok {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
