package planar_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// coordinate draws from a coarse grid, so that edges often lie on each other.
var coordinate = rapid.Custom(func(t *rapid.T) float64 { return 10 * float64(rapid.IntRange(-6, 6).Draw(t, "grid")) })

// simple draws a rectangle, a disc, a rounded rectangle, or a slanted quarter disc.
var simple = rapid.Custom(func(t *rapid.T) planar.Region {
	x, y := coordinate.Draw(t, "x"), coordinate.Draw(t, "y")
	w, h := 10*float64(rapid.IntRange(1, 6).Draw(t, "w")), 10*float64(rapid.IntRange(1, 6).Draw(t, "h"))
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		return planar.Rect(x, y, x+w, y+h)
	case 1:
		return planar.Disc(r2.Vec{X: x, Y: y}, w/2)
	case 2:
		round := min(w, h) / 2 * rapid.SampledFrom([]float64{0.25, 0.5, 1}).Draw(t, "round")
		c := func(x, y float64) planar.Corner { return planar.Corner{P: r2.Vec{X: x, Y: y}, Round: round} }
		l, err := planar.Rounded(c(x, y), c(x+w, y), c(x+w, y+h), c(x, y+h))
		if err != nil {
			t.Fatal(err)
		}
		return planar.Region{{Outer: l}}
	}
	q := planar.MustParse(fmt.Sprintf("M 0 0 L %g 0 A %g 0 %g Z", w, w, w))
	return q.Turned(r2.Vec{}, rapid.Float64Range(0, 6).Draw(t, "turn")).Moved(r2.Vec{X: x, Y: y})
})

// region draws a few simple shapes put together.
var region = rapid.Custom(func(t *rapid.T) planar.Region {
	r := simple.Draw(t, "first")
	for range rapid.IntRange(0, 4).Draw(t, "more") {
		op := rapid.SampledFrom([]func(a, b planar.Region) (planar.Region, error){planar.Union, planar.Difference}).Draw(t, "how")
		s := simple.Draw(t, "next")
		next, err := op(r, s)
		if err != nil {
			t.Fatalf("%v\n%#v\n%#v", err, r, s)
		}
		r = next
	}
	return r
})

// The laws of areas, of points, and the independent flat routine must agree.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := region.Draw(t, "a"), region.Draw(t, "b")
		if rapid.Bool().Draw(t, "kin") { // b is a with something done to it
			k, err := planar.Difference(a, b)
			if err != nil {
				t.Fatal(err)
			}
			b = k
		}
		u, i, d, e := results(t, a, b)
		slack := 1e-4 * (1 + a.Perimeter() + b.Perimeter())
		if x := u.Area() + i.Area() - a.Area() - b.Area(); math.Abs(x) > slack {
			t.Fatalf("union and intersection are off by %g mm²\na %v\nb %v", x, a, b)
		}
		if x := d.Area() + i.Area() - a.Area(); math.Abs(x) > slack {
			t.Fatalf("difference and intersection are off by %g mm²\na %v\nb %v", x, a, b)
		}
		if x := e.Area() + i.Area() - b.Area(); math.Abs(x) > slack {
			t.Fatalf("the other difference is off by %g mm²\na %v\nb %v", x, a, b)
		}
		for range 20 {
			p := r2.Vec{X: rapid.Float64Range(-130, 130).Draw(t, "px"), Y: rapid.Float64Range(-130, 130).Draw(t, "py")}
			if a.OnEdge(p, 1e-3) || b.OnEdge(p, 1e-3) {
				continue
			}
			ina, inb := a.Contains(p), b.Contains(p)
			if u.Contains(p) != (ina || inb) || i.Contains(p) != (ina && inb) || d.Contains(p) != (ina && !inb) {
				t.Fatalf("%v is on the wrong side\na %v\nb %v", p, a, b)
			}
		}
		for _, r := range []planar.Region{u, i, d} {
			wellFormed(t, r)
		}
	})
}

func results(t *rapid.T, a, b planar.Region) (u, i, d, e planar.Region) {
	out := make([]planar.Region, 4)
	for k, f := range []func() (planar.Region, error){
		func() (planar.Region, error) { return planar.Union(a, b) },
		func() (planar.Region, error) { return planar.Intersection(a, b) },
		func() (planar.Region, error) { return planar.Difference(a, b) },
		func() (planar.Region, error) { return planar.Difference(b, a) },
	} {
		r, err := f()
		if err != nil {
			t.Fatalf("operation %d: %v\na %v\nb %v", k, err, a, b)
		}
		out[k] = r
	}
	return out[0], out[1], out[2], out[3]
}

// wellFormed checks the promises about a region: outer loops anticlockwise,
// holes clockwise and inside, no corner twice in a row.
func wellFormed(t *rapid.T, r planar.Region) {
	for _, s := range r {
		if s.Outer.Area() <= 0 {
			t.Fatalf("an outer loop runs clockwise: %v", s.Outer)
		}
		for _, h := range s.Holes {
			if h.Area() >= 0 {
				t.Fatalf("a hole runs anticlockwise: %v", h)
			}
		}
	}
	for _, l := range r.Loops() {
		for i := range l {
			if l.Edge(i).Len() < planar.Near {
				t.Fatalf("an edge without length: %v", l)
			}
		}
	}
}

// An independent library puts the flattened shapes together; areas must agree
// within what the chords leave out.
func TestAgainstFlat(t *testing.T) {
	const chord = 0.002
	rapid.Check(t, func(t *rapid.T) {
		a, b := region.Draw(t, "a"), region.Draw(t, "b")
		u, i, d, _ := results(t, a, b)
		ga, gb := flat(t, a, chord), flat(t, b, chord)
		slack := chord*(a.Perimeter()+b.Perimeter()) + 1e-3
		for k, f := range []func(a, b geom.Geometry) (geom.Geometry, error){geom.Union, geom.Intersection, geom.Difference} {
			g, err := f(ga, gb)
			if err != nil {
				t.Skip("the flat routine gave up")
			}
			ours := []planar.Region{u, i, d}[k].Area()
			if math.Abs(g.Area()-ours) > slack {
				t.Fatalf("operation %d: flat %g, ours %g\na %v\nb %v", k, g.Area(), ours, a, b)
			}
		}
	})
}

func flat(t *rapid.T, r planar.Region, chord float64) geom.Geometry {
	var ps []geom.Polygon
	for _, s := range r {
		var rings []geom.LineString
		for _, l := range append([]planar.Loop{s.Outer}, s.Holes...) {
			var xy []float64
			pts := l.Flatten(chord)
			for _, p := range append(pts, pts[0]) {
				xy = append(xy, p.X, p.Y)
			}
			rings = append(rings, geom.NewLineString(geom.NewSequence(xy, geom.DimXY)))
		}
		ps = append(ps, geom.NewPolygon(rings))
	}
	g := geom.NewMultiPolygon(ps).AsGeometry()
	if err := g.Validate(); err != nil {
		t.Skip("chords cross where arcs only touch")
	}
	return g
}

func TestMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r")
		if len(r) == 0 {
			t.Skip("nothing left")
		}
		angle := rapid.Float64Range(-7, 7).Draw(t, "angle")
		by := r2.Vec{X: rapid.Float64Range(-1e3, 1e3).Draw(t, "dx"), Y: rapid.Float64Range(-1e3, 1e3).Draw(t, "dy")}
		m := r.Turned(by, angle).Moved(by)
		if !near(m.Area(), r.Area(), 1e-9) || !near(m.Perimeter(), r.Perimeter(), 1e-9) {
			t.Fatalf("moved: %g %g, was %g %g", m.Area(), m.Perimeter(), r.Area(), r.Perimeter())
		}
		x, y := r.MirroredX(by.X), r.MirroredY(by.Y)
		if !near(x.Area(), r.Area(), 1e-9) || !near(y.Area(), r.Area(), 1e-9) {
			t.Fatalf("mirrored: %g %g, was %g", x.Area(), y.Area(), r.Area())
		}
		if c := r.Centroid(); math.Abs(x.Centroid().X-(2*by.X-c.X)) > 1e-6 || math.Abs(x.Centroid().Y-c.Y) > 1e-6 {
			t.Fatalf("mirrored centroid %v of %v at %g", x.Centroid(), c, by.X)
		}
	})
}

func TestTextForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r")
		q, err := planar.Parse(r.String())
		if err != nil {
			t.Fatalf("%v\n%v", err, r)
		}
		if math.Abs(q.Area()-r.Area()) > 1e-4*(1+r.Perimeter()) || len(q.Loops()) != len(r.Loops()) {
			t.Fatalf("read %v\nwritten %v", q, r)
		}
	})
}
