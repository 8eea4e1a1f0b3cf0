package step_test

import (
	"math"
	"testing"

	"rodwork/internal/format/step"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// oblique has bodies that are sawn off aslant and bored into from their edges,
// with the volume that is to be found and the number of faces.
func oblique(t testing.TB) []exam {
	stick := panel(t, planar.Rect(-50, 0, 500, 45), 40)
	leg := stick.CutBy(r3.Vec{}, r3.Vec{X: -1, Y: 0.1, Z: 0.2}).CutBy(r3.Vec{X: 400}, r3.Vec{X: 1, Y: -0.1, Z: -0.2})
	curved := planar.Region{{Outer: planar.Loop{{P: r2.Vec{X: -50}}, {P: r2.Vec{X: 150}, Bulge: -0.3}, {P: r2.Vec{X: 300}}, {P: r2.Vec{X: 500}},
		{P: r2.Vec{X: 500, Y: 90}}, {P: r2.Vec{X: -50, Y: 90}}}}}
	cut := func(b solid.Body) solid.Body {
		return b.CutBy(r3.Vec{}, r3.Vec{X: -1, Y: 0.3, Z: 0.2}).CutBy(r3.Vec{X: 420}, r3.Vec{X: 1, Y: 0.3, Z: 0.1})
	}
	window := solid.Pocket{Region: planar.Rect(180, 40, 270, 70), Through: true}
	forked := solid.Pocket{Region: planar.Rect(350, 15, 600, 30), Through: true} // the saw leaves two prongs
	plate := panel(t, planar.Rect(0, 0, 300, 100), 18, solid.Pocket{Region: planar.Rect(100, -1, 118, 101), Face: solid.A, Depth: 6})
	along, across, down := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: -1}
	round := func(r, deep float64) float64 { return math.Pi * r * r * deep }
	var out []exam
	for _, c := range []struct {
		name  string
		body  solid.Body
		bores []solid.Bore
		lost  float64
		faces int
	}{
		{"a leg that leans both ways", leg, nil, 0, 6},
		{"a curved leg with a window", cut(panel(t, curved, 30, window)), nil, 0, 12},
		{"a fork", leg.CutBy(r3.Vec{X: 450}, r3.Vec{X: 1, Y: 0.2}), nil, 0, 6},
		{"two prongs", cut(panel(t, planar.Rect(-50, 0, 500, 45), 40, forked)), nil, 0, 10},
		{"dowel holes in an end", plate, []solid.Bore{{At: r3.Vec{Y: 30, Z: 9}, Into: along, Radius: 4, Depth: 25}, {At: r3.Vec{Y: 70, Z: 9}, Into: along, Radius: 4, Depth: 25}}, 2 * round(4, 25), 16},
		{"a hole through from edge to edge", plate, []solid.Bore{{At: r3.Vec{X: 50, Z: 9}, Into: across, Radius: 3, Through: true}}, round(3, 100), 12},
		{"a hole in the face of a sawn leg", leg, []solid.Bore{{At: r3.Vec{X: 200, Y: 20, Z: 40}, Into: down, Radius: 5, Depth: 12}}, round(5, 12), 9},
	} {
		file, err := step.Part(step.Product{ID: c.name, Name: c.name, Body: c.body, Bores: c.bores})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		out = append(out, exam{c.name, file, func(t *testing.T, j judged) {
			volume, faces, open := 0.0, 0, 0
			for _, s := range j.Solids {
				volume, faces, open = volume+s.Volume, faces+s.Faces, open+s.Open
			}
			want := c.body.Volume() - c.lost
			if slack := 1e-6*want + 0.02*(arcArea(c.body)+40*c.lost/4); math.Abs(volume-want) > slack {
				t.Errorf("volume %.3f, want %.3f (±%.3f)", volume, want, slack)
			}
			if faces != c.faces || open > 0 {
				t.Errorf("%d faces, want %d; %d open edges", faces, c.faces, open)
			}
		}})
	}
	return out
}

// What the standard's faces can't be, or what is not worked out, is refused.
func TestObliqueRefused(t *testing.T) {
	disc, _ := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Disc(r2.Vec{}, 20), Z0: 0, Z1: 100})
	plate := panel(t, planar.Rect(0, 0, 300, 100), 18)
	for name, p := range map[string]step.Product{
		"through a cylinder":      {Body: disc.CutBy(r3.Vec{Z: 50}, r3.Vec{X: 1, Z: 1})},
		"through a corner":        {Body: plate.CutBy(r3.Vec{}, r3.Vec{X: -1, Y: 1})},
		"over an edge":            {Body: plate, Bores: []solid.Bore{{At: r3.Vec{Y: 50, Z: 3}, Into: r3.Vec{X: 1}, Radius: 4, Depth: 20}}},
		"beside the body":         {Body: plate, Bores: []solid.Bore{{At: r3.Vec{Y: 150, Z: 9}, Into: r3.Vec{X: 1}, Radius: 4, Depth: 20}}},
		"one hole over the other": {Body: plate, Bores: []solid.Bore{{At: r3.Vec{Y: 50, Z: 9}, Into: r3.Vec{X: 1}, Radius: 4, Depth: 20}, {At: r3.Vec{Y: 53, Z: 9}, Into: r3.Vec{X: 1}, Radius: 4, Depth: 20}}},
	} {
		if _, err := step.Part(p); err == nil {
			t.Errorf("%s: written", name)
		}
	}
}
