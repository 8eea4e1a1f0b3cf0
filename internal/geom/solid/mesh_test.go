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

// pocket draws a cut of a panel 60 × 60 × 18 on a coarse grid, so that cuts
// often run along each other.
var pocket = rapid.Custom(func(t *rapid.T) solid.Pocket {
	at := func(name string) float64 { return 5 * float64(rapid.IntRange(-2, 13).Draw(t, name)) }
	p := solid.Pocket{
		Face:    rapid.SampledFrom([]solid.Side{solid.A, solid.B}).Draw(t, "face"),
		Depth:   rapid.SampledFrom([]float64{4, 6, 9, 14}).Draw(t, "depth"),
		Through: rapid.IntRange(0, 5).Draw(t, "through") == 0,
	}
	x, y := at("x"), at("y")
	switch rapid.IntRange(0, 2).Draw(t, "shape") {
	case 0:
		p.Region = planar.Disc(r2.Vec{X: x, Y: y}, rapid.SampledFrom([]float64{2.5, 5, 17.5}).Draw(t, "radius"))
	case 1:
		p.Region = planar.Rect(x, y, x+20, y+10)
	default:
		p.Region = planar.Rect(x, -5, x+10, 65)
	}
	return p
})

// panel draws a cut panel in some pose.
var panel = rapid.Custom(func(t *rapid.T) solid.Body {
	outline := planar.MustParse("M 0 0 L 60 0 L 60 40 A 20 40 60 L 0 60 Z")
	b, err := solid.Panel(r3.Identity(), outline, 18, rapid.SliceOfN(pocket, 0, 4).Draw(t, "pockets"))
	if err != nil {
		t.Fatal(err)
	}
	axis := r3.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "ax"), Y: rapid.Float64Range(-1, 1).Draw(t, "ay"), Z: 1}
	angle := rapid.SampledFrom([]float64{0, 0.5, 2}).Draw(t, "angle")
	by := r3.Vec{X: rapid.Float64Range(-30, 30).Draw(t, "bx"), Y: rapid.Float64Range(-30, 30).Draw(t, "by"), Z: rapid.Float64Range(-15, 15).Draw(t, "bz")}
	return tilted(sawn(t, b), axis, angle, by)
})

// sawn cuts a panel by up to two planes, some of them along its faces.
func sawn(t *rapid.T, b solid.Body) solid.Body {
	for range rapid.SampledFrom([]int{0, 0, 0, 0, 0, 1, 2}).Draw(t, "saws") {
		at := r3.Vec{X: float64(rapid.IntRange(1, 11).Draw(t, "sx")) * 5, Y: 30, Z: rapid.SampledFrom([]float64{0, 9, 18}).Draw(t, "sz")}
		part := func(name string) float64 { return float64(rapid.IntRange(-5, 5).Draw(t, name)) }
		n := r3.Vec{X: part("nx"), Y: part("ny"), Z: part("nz")}
		if rapid.IntRange(0, 3).Draw(t, "square") == 0 || n.Len() < 0.1 {
			n = rapid.SampledFrom([]r3.Vec{{X: 1}, {Y: -1}, {X: 3, Y: 4}, {X: 1, Z: 1}}).Draw(t, "n")
		}
		b = b.CutBy(at, n)
	}
	return b
}

func TestMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const chord = 0.05
		b := panel.Draw(t, "body")
		m, err := b.Mesh(chord)
		if err != nil {
			t.Fatal(err)
		}
		sides := map[[2]int]int{}
		area := 0.0
		for _, f := range m.Triangles {
			for i := range 3 {
				sides[[2]int{f.P[i], f.P[(i+1)%3]}]++
			}
			n := m.Points[f.P[1]].Sub(m.Points[f.P[0]]).Cross(m.Points[f.P[2]].Sub(m.Points[f.P[0]]))
			area += n.Len() / 2
			long := 0.0
			for i := range 3 {
				long = max(long, m.Points[f.P[(i+1)%3]].Sub(m.Points[f.P[i]]).Len())
			}
			// A sliver as thin as what counts as one place looks anywhere.
			if n.Len() > 1e-5*max(long, 0.1) && n.Unit().Dot(f.N[0]) < 0.9 {
				t.Fatalf("a normal looks away: %v, by the corners %v", f.N[0], n.Unit())
			}
		}
		for s, n := range sides {
			if sides[[2]int{s[1], s[0]}] != n {
				t.Fatalf("the side %v to %v is open", m.Points[s[0]], m.Points[s[1]])
			}
		}
		if v := m.Volume(); math.Abs(v-b.Volume()) > chord*area+1e-3 {
			t.Fatalf("the mesh holds %g mm³, the body %g", v, b.Volume())
		}
	})
}

func TestMeshIsExactWithoutArcs(t *testing.T) {
	b, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 600, 300), 17.7, []solid.Pocket{
		{Region: planar.Rect(200, -5, 217.7, 305), Face: solid.A, Depth: 5.9},
		{Region: planar.Rect(-5, 0, 605, 8.85), Face: solid.B, Depth: 8.85},
		{Region: planar.Rect(100, 100, 150, 160), Through: true},
	})
	if err != nil {
		t.Fatal(err)
	}
	m, err := b.Mesh(0.1)
	if err != nil {
		t.Fatal(err)
	}
	if !near(m.Volume(), b.Volume(), 1e-12) {
		t.Errorf("%v mm³, want %v", m.Volume(), b.Volume())
	}
}
