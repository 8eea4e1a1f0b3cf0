package path

import (
	"fmt"
	"math"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// sheet wraps path data in a drawing of 200 × 100 mm whose unit is half a mm.
func sheet(d string) []byte {
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 400 200"><g><path d="%s"/></g></svg>`, d)
}

func TestShapesByTheirArea(t *testing.T) {
	// A quadratic from (0, 200) over (200, -200) to (400, 200) encloses, with its
	// chord, two thirds of the triangle's half: 2/3·(1/2)·400·400 units².
	const parabola = 2.0 / 3 * 0.5 * 400 * 400 / 4
	for _, c := range []struct {
		name, d string
		area    float64 // mm²
		edges   int     // 0: of no matter
	}{
		{"square", "M0 0 L200 0 200 200 0 200Z", 1e4, 4},
		{"relative, run together", "m10-10h100v100h-100z", 2500, 4},
		{"absolute H and V", "M 10,10 H 110 V 110 H 10 Z", 2500, 4},
		{"circle of two arcs", "M0 100A100 100 0 0 1 200 100 100 100 0 0 1 0 100Z", math.Pi * 2500, 4},
		{"flags run together", "M0 100a100 100 0 01200 0 100 100 0 01-200 0z", math.Pi * 2500, 4},
		{"ellipse", "M0 100A200 100 0 0 1 400 100A200 100 0 0 1 0 100Z", math.Pi * 100 * 50, 0},
		{"tilted ellipse", "M200 50 A100 50 30 1 1 200.1 50Z", math.Pi * 50 * 25, 0},
		{"parabola", "M0 200 Q200 -200 400 200Z", parabola, 0},
		{"the same as a cubic", "M0 200 C133.333333 -66.666667 266.666667 -66.666667 400 200Z", parabola, 0},
		{"closed without Z", "M0 0 H200 V200 H0 V0", 1e4, 4},
		{"hole", "M0 0 H200 V200 H0Z M50 50 H150 V150 H50Z", 7500, 8},
		{"smooth", "M0 100 Q50 0 100 100 T200 100 L200 200 0 200Z", 5000, 0},
	} {
		got, err := Read(sheet(c.d))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if off := math.Abs(got.Area() - c.area); off > 1e-4*c.area+0.5 {
			t.Errorf("%s: area %.3f, want %.3f", c.name, got.Area(), c.area)
		}
		n := 0
		for l := range got.All {
			n += len(l)
		}
		if c.edges > 0 && n != c.edges {
			t.Errorf("%s: %d edges, want %d", c.name, n, c.edges)
		}
	}
}

// y runs up from the foot of the drawing.
func TestTheFootOfTheDrawingIsTheOrigin(t *testing.T) {
	got, err := Read(sheet("M20 180 h100 v-100 h-100z"))
	if err != nil {
		t.Fatal(err)
	}
	if b := got.Box(); b.Min.Sub(r2.Vec{X: 10, Y: 10}).Len() > 1e-9 || b.Max.Sub(r2.Vec{X: 60, Y: 60}).Len() > 1e-9 {
		t.Errorf("it lies at %v", b)
	}
}

// Arcs keep within 0.02 mm of the curve, everywhere and both ways.
func TestArcsKeepToTheCurve(t *testing.T) {
	for _, b := range []bezier{
		{{}, {X: 50, Y: 80}, {X: 100, Y: -80}, {X: 150}},
		{{}, {X: 200, Y: 0}, {X: 0, Y: 100}, {X: 60, Y: 100}},
		{{}, {}, {X: 30, Y: 90}, {X: 120, Y: 10}},
		{{}, {X: 100, Y: 100}, {X: 0, Y: 100}, {X: 100}},
	} {
		r := &reader{d: &drawing{}, room: maxEdges}
		r.curve(b)
		r.edge(b[3], 0)
		for i := range 4001 {
			p := b.at(float64(i) / 4000)
			d := math.Inf(1)
			for k := range len(r.loop) - 1 {
				d = min(d, apart(planar.Edge{A: r.loop[k].P, B: r.loop[k+1].P, Bulge: r.loop[k].Bulge}, p))
			}
			if d > Within {
				t.Fatalf("%v: %.4f mm off at %d/4000", b, d, i)
			}
		}
		if len(r.loop) > 80 {
			t.Errorf("%v: %d edges", b, len(r.loop))
		}
	}
}

func TestWhatIsNotRead(t *testing.T) {
	for name, src := range map[string]string{
		"no size":       `<svg viewBox="0 0 10 10"><path d="M0 0h5v5z"/></svg>`,
		"pixels":        `<svg width="100px" height="100px" viewBox="0 0 10 10"><path d="M0 0h5v5z"/></svg>`,
		"no viewBox":    `<svg width="10mm" height="10mm"><path d="M0 0h5v5z"/></svg>`,
		"skewed":        `<svg width="10mm" height="20mm" viewBox="0 0 10 10"><path d="M0 0h5v5z"/></svg>`,
		"a transform":   `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><g transform="scale(2)"><path d="M0 0h5v5z"/></g></svg>`,
		"a circle":      `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><circle r="3"/></svg>`,
		"open":          `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 0h5v5"/></svg>`,
		"two shapes":    `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 0h4v4h-4z M5 5h4v4h-4z"/></svg>`,
		"no path":       `<svg width="10mm" height="10mm" viewBox="0 0 10 10"/>`,
		"no drawing":    `<html/>`,
		"no beginning":  `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="L5 5z"/></svg>`,
		"no numbers":    `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 0 L x"/></svg>`,
		"a wrong flag":  `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 0A5 5 0 2 0 5 5z"/></svg>`,
		"not a number":  `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path d="M0 0Lnan 5z"/></svg>`,
		"broken markup": `<svg width="10mm" height="10mm" viewBox="0 0 10 10"><path`,
	} {
		if r, err := Read([]byte(src)); err == nil {
			t.Errorf("%s: read as %v", name, r)
		}
	}
	if _, err := Read(make([]byte, maxBytes+1)); err == nil {
		t.Error("too large a drawing is read")
	}
}

func FuzzRead(f *testing.F) {
	f.Add("M0 0 L200 0 200 200 0 200Z")
	f.Add("M0 100a100 100 0 01200 0 100 100 0 01-200 0z")
	f.Add("M0 200 C133 -66 266 -66 400 200S1e3.5-.5 2 3T1 1Z")
	f.Fuzz(func(t *testing.T, d string) {
		r, err := Read(sheet(d))
		if err != nil {
			return
		}
		if a := r.Area(); math.IsNaN(a) || a <= 0 {
			t.Errorf("an area of %g", a)
		}
		n := 0
		for l := range r.All {
			n += len(l)
		}
		if n > 4*maxEdges {
			t.Errorf("%d edges", n)
		}
	})
}
