package planar_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

func TestCellsOfSimpleShapes(t *testing.T) {
	for _, c := range []struct {
		name, text string
		cells      int
	}{
		{"rectangle", "M 0 0 L 100 0 L 100 80 L 0 80 Z", 1},
		{"turned square", "M 10 0 L 20 10 L 10 20 L 0 10 Z", 1},
		{"disc", "M 0 0 A 10 20 0 A 10 0 0 Z", 1},
		{"slot", "M 0 0 L 50 0 A 5 50 10 L 0 10 A 5 0 0 Z", 1},
		{"ell", "M 0 0 L 30 0 L 30 10 L 10 10 L 10 30 L 0 30 Z", 2},
		{"frame", "M 0 0 L 30 0 L 30 30 L 0 30 Z M 10 10 L 20 10 L 20 20 L 10 20 Z", 4},
		{"nothing", "", 0},
	} {
		r := planar.MustParse(c.text)
		cells := r.Cells(0.001)
		if len(cells) != c.cells {
			t.Errorf("%s: %d cells, want %d", c.name, len(cells), c.cells)
		}
		if a := areaOf(cells); math.Abs(a-r.Area()) > 0.001*r.Perimeter() || a > r.Area()+1e-6 {
			t.Errorf("%s: cells hold %g mm², the shape %g", c.name, a, r.Area())
		}
	}
}

func areaOf(cells [][]r2.Vec) float64 {
	a := 0.0
	for _, c := range cells {
		a += planar.Polygon(c...).Area()
	}
	return a
}

// Cells are convex, run anticlockwise, and fill the region to within the chords,
// never more than it; a point of the region clear of its edges lies in one cell.
func TestCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const chord = 0.01
		r := region.Draw(t, "r").Turned(r2.Vec{}, rapid.Float64Range(0, 7).Draw(t, "turn"))
		cells := r.Cells(chord)
		for _, c := range cells {
			for i, p := range c {
				q, s := c[(i+1)%len(c)], c[(i+2)%len(c)]
				if d, e := q.Sub(p), s.Sub(q); d.Cross(e) < -1e-8*(d.Len()+e.Len()) {
					t.Fatalf("a hollow corner at %v of %v", q, c)
				}
			}
		}
		a, slack := areaOf(cells), 1e-6*(1+r.Perimeter())
		if a > r.Area()+slack || a < r.Area()-chord*r.Perimeter()-slack {
			t.Fatalf("the cells hold %g mm², the region %g: %v", a, r.Area(), r)
		}
		for range 10 {
			p := r2.Vec{X: rapid.Float64Range(-130, 130).Draw(t, "x"), Y: rapid.Float64Range(-130, 130).Draw(t, "y")}
			if r.OnEdge(p, 2*chord) {
				continue
			}
			n := 0
			for _, c := range cells {
				if planar.Of(planar.Polygon(c...)).Contains(p) {
					n++
				}
			}
			if in := r.Contains(p); in && n == 0 || !in && n > 0 || n > 1 {
				t.Fatalf("%v lies in %d cells: in the region %v", p, n, in)
			}
		}
	})
}

// The stretches of a line agree with asking points on it.
func TestAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r")
		o := r2.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y")}
		d := r2.Vec{X: 1}.Turn(rapid.Float64Range(0, 7).Draw(t, "turn"))
		spans := r.Along(o, d)
		for range 30 {
			at := rapid.Float64Range(-200, 200).Draw(t, "t")
			p := o.Add(d.Mul(at))
			if r.OnEdge(p, 1e-4) {
				continue
			}
			in := false
			for _, s := range spans {
				in = in || s.T0 < at && at < s.T1
			}
			if in != r.Contains(p) {
				t.Fatalf("at %g: within the spans %v, in the region %v\n%v", at, in, r.Contains(p), spans)
			}
		}
	})
}

func TestNearAndPlaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r")
		b := r2.Box{Min: r2.Vec{X: -25, Y: -37}, Max: r2.Vec{X: 33, Y: 18}}
		got, err := planar.Intersection(r.Near(b), planar.Rect(-25, -37, 33, 18))
		if err != nil {
			t.Fatal(err)
		}
		want, err := planar.Intersection(r, planar.Rect(-25, -37, 33, 18))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Area()-want.Area()) > 1e-4*(1+r.Perimeter()) {
			t.Fatalf("near %v: %g mm², want %g\n%v", b, got.Area(), want.Area(), r)
		}
		x := r2.Vec{X: 1}.Turn(rapid.Float64Range(0, 7).Draw(t, "turn"))
		for _, y := range []r2.Vec{x.Left(), x.Left().Mul(-1)} {
			o := r2.Vec{X: 3, Y: 4}
			m := r.Placed(o, x, y)
			wellFormed(t, m)
			p := r2.Vec{X: rapid.Float64Range(-70, 70).Draw(t, "px"), Y: rapid.Float64Range(-70, 70).Draw(t, "py")}
			if q := o.Add(x.Mul(p.X)).Add(y.Mul(p.Y)); !r.OnEdge(p, 1e-6) && m.Contains(q) != r.Contains(p) {
				t.Fatalf("%v went to %v: %v and %v", p, q, r.Contains(p), m.Contains(q))
			}
		}
	})
}
