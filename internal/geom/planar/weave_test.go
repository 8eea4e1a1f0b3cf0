package planar_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// tight checks that triangles fill the difference of two woven regions: they
// run anticlockwise, hold its area, and each side is shared by two of them or
// bounds the whole.
func tight(t interface{ Fatalf(string, ...any) }, w planar.Weave, a, b int) float64 {
	tris, err := w.Difference(a, b)
	if err != nil {
		t.Fatalf("%v", err)
	}
	sum := 0.0
	open := map[[2]int]int{}
	for _, f := range tris {
		p, q, r := w.Points[f[0]], w.Points[f[1]], w.Points[f[2]]
		area := q.Sub(p).Cross(r.Sub(p)) / 2
		if area < -1e-6 {
			t.Fatalf("a triangle of %g mm²: %v %v %v", area, p, q, r)
		}
		sum += area
		for i := range 3 {
			open[[2]int{f[i], f[(i+1)%3]}]++
		}
	}
	for e, n := range open {
		if n > 1 {
			t.Fatalf("the side %v %d times", e, n)
		}
		if open[[2]int{e[1], e[0]}] == 0 {
			if !bounds(w, a, b, e) {
				t.Fatalf("the side %v %v bounds nothing", w.Points[e[0]], w.Points[e[1]])
			}
		}
	}
	return sum
}

// bounds tells whether a side is one of region a's, or one of b's backwards.
func bounds(w planar.Weave, a, b int, e [2]int) bool {
	for _, s := range w.Regions[a] {
		if s.From == e[0] && s.To == e[1] {
			return true
		}
	}
	if b >= 0 {
		for _, s := range w.Regions[b] {
			if s.From == e[1] && s.To == e[0] {
				return true
			}
		}
	}
	return false
}

func TestWoven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const chord = 0.05
		a, b := region.Draw(t, "a"), region.Draw(t, "b")
		if rapid.Bool().Draw(t, "kin") {
			k, err := planar.Difference(a, b)
			if err != nil {
				t.Fatal(err)
			}
			b = k
		}
		turn := rapid.SampledFrom([]float64{0, 0.4}).Draw(t, "turn")
		a, b = a.Turned(r2.Vec{}, turn), b.Turned(r2.Vec{}, turn)
		w, err := planar.Woven(chord, a, b)
		if err != nil {
			t.Fatal(err)
		}
		slack := chord*(a.Perimeter()+b.Perimeter()) + 1e-3
		for i, r := range []planar.Region{a, b} {
			if got := tight(t, w, i, -1); math.Abs(got-r.Area()) > slack {
				t.Fatalf("region %d: %g mm² in triangles, %g in all\n%v", i, got, r.Area(), r)
			}
		}
		d, err := planar.Difference(a, b)
		if err != nil {
			t.Fatal(err)
		}
		if got := tight(t, w, 0, 1); math.Abs(got-d.Area()) > slack {
			t.Fatalf("%g mm² in triangles, %g in all\n%v\nless\n%v", got, d.Area(), a, b)
		}
	})
}

// A panel's face full of holes.
func perforated(n int) planar.Region {
	r := planar.Rect(0, 0, 2000, 400)
	for i := range n {
		r[0].Holes = append(r[0].Holes, planar.Circle(r2.Vec{X: 20 + 32*float64(i/2), Y: 37 + 300*float64(i%2)}, 2.5).Reverse())
	}
	return r
}

func TestTrianglesOfAPerforatedFace(t *testing.T) {
	r := perforated(120)
	w, err := planar.Woven(0.1, r)
	if err != nil {
		t.Fatal(err)
	}
	if got := tight(t, w, 0, -1); math.Abs(got-r.Area()) > 0.1*r.Perimeter() {
		t.Errorf("%g mm², want %g", got, r.Area())
	}
}

func BenchmarkWoven(b *testing.B) {
	r := perforated(120)
	for b.Loop() {
		w, err := planar.Woven(0.1, r, r)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := w.Difference(0, -1); err != nil {
			b.Fatal(err)
		}
	}
}
