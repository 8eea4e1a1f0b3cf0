package planar_test

import (
	"math"
	"strings"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*(1+math.Abs(b)) }

func TestMeasures(t *testing.T) {
	halfDisc := "M -10 0 A 10 10 0 Z" // below the diameter
	for _, c := range []struct {
		name, text       string
		area, length     float64
		center, min, max r2.Vec
	}{
		{"square", "M 0 0 L 10 0 L 10 10 L 0 10 Z", 100, 40, r2.Vec{X: 5, Y: 5}, r2.Vec{}, r2.Vec{X: 10, Y: 10}},
		{"the sense does not matter", "M 0 0 L 0 10 L 10 10 L 10 0 Z", 100, 40, r2.Vec{X: 5, Y: 5}, r2.Vec{}, r2.Vec{X: 10, Y: 10}},
		{"disc", "M 0 5 A 5 10 5 A 5 0 5 Z", 25 * math.Pi, 10 * math.Pi, r2.Vec{X: 5, Y: 5}, r2.Vec{}, r2.Vec{X: 10, Y: 10}},
		// The centroid of a half disc lies 4r/3π from its diameter.
		{"half disc", halfDisc, 50 * math.Pi, 10*math.Pi + 20, r2.Vec{Y: -40 / (3 * math.Pi)}, r2.Vec{X: -10, Y: -10}, r2.Vec{X: 10}},
		// That of a quarter disc 4r/3π from both radii.
		{"quarter disc", "M 0 0 L 10 0 A 10 0 10 Z", 25 * math.Pi, 20 + 5*math.Pi, r2.Vec{X: 40 / (3 * math.Pi), Y: 40 / (3 * math.Pi)}, r2.Vec{}, r2.Vec{X: 10, Y: 10}},
		// A square less a quarter disc: the hollow corner of a moulding.
		{"spandrel", "M 10 0 L 10 10 L 0 10 A -10 10 0 Z", 100 - 25*math.Pi, 20 + 5*math.Pi,
			r2.Vec{X: spandrel(10), Y: spandrel(10)}, r2.Vec{}, r2.Vec{X: 10, Y: 10}},
		{"ring", "M -10 0 A 10 10 0 A 10 -10 0 Z M -5 0 A 5 5 0 A 5 -5 0 Z", 75 * math.Pi, 30 * math.Pi, r2.Vec{}, r2.Vec{X: -10, Y: -10}, r2.Vec{X: 10, Y: 10}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := planar.MustParse(c.text)
			if !near(r.Area(), c.area, 1e-12) {
				t.Errorf("area %v, want %v", r.Area(), c.area)
			}
			if !near(r.Perimeter(), c.length, 1e-12) {
				t.Errorf("perimeter %v, want %v", r.Perimeter(), c.length)
			}
			if d := r.Centroid().Sub(c.center).Len(); d > 1e-12 {
				t.Errorf("centroid %v, want %v", r.Centroid(), c.center)
			}
			b := r.Box()
			if b.Min.Sub(c.min).Len() > 1e-12 || b.Max.Sub(c.max).Len() > 1e-12 {
				t.Errorf("box %v, want %v %v", b, c.min, c.max)
			}
		})
	}
}

// spandrel returns where the centroid lies of the square 0..r less the quarter
// disc with its centre at the origin... seen from the arc's centre: the square's
// moment r³/2 less the disc's r³/3, over r²(1 − π/4).
func spandrel(r float64) float64 { return (r/2 - r/3) / (1 - math.Pi/4) }

func TestContains(t *testing.T) {
	r := planar.MustParse("M -10 0 A 10 10 0 A 10 -10 0 Z M -5 0 A 5 5 0 A 5 -5 0 Z M -1 -1 L 1 -1 L 1 1 L -1 1 Z")
	for _, c := range []struct {
		p    r2.Vec
		want bool
	}{
		{r2.Vec{}, true},            // the island, on the level of the arcs' ends
		{r2.Vec{X: 3}, false},       // the hollow, on the diameter
		{r2.Vec{X: -3}, false},      //
		{r2.Vec{X: 7}, true},        // the ring, on the diameter
		{r2.Vec{X: -7}, true},       //
		{r2.Vec{Y: 7}, true},        //
		{r2.Vec{Y: -7.5}, true},     //
		{r2.Vec{X: 11}, false},      // outside, on the diameter
		{r2.Vec{X: -11}, false},     //
		{r2.Vec{X: 8, Y: 8}, false}, // outside, within the box
	} {
		if got := r.Contains(c.p); got != c.want {
			t.Errorf("%v: %v", c.p, got)
		}
	}
	if !r.OnEdge(r2.Vec{Y: 10}, 1e-9) || r.OnEdge(r2.Vec{Y: 9}, 0.5) {
		t.Error("OnEdge")
	}
}

func TestRounded(t *testing.T) {
	c := func(x, y, r float64) planar.Corner { return planar.Corner{P: r2.Vec{X: x, Y: y}, Round: r} }
	l, err := planar.Rounded(c(0, 0, 0), c(100, 0, 0), c(100, 100, 20), c(0, 100, 0))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := l.String(), "M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	// Both ends of one side rounded until they meet: no edge is left between.
	l, err = planar.Rounded(c(0, 0, 0), c(40, 0, 20), c(40, 40, 20), c(0, 40, 0))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := l.String(), "M 0 0 L 20 0 A 20 20 40 L 0 40 Z"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if _, err = planar.Rounded(c(0, 0, 0), c(40, 0, 20), c(40, 40, 21), c(0, 40, 0)); err == nil {
		t.Error("roundings that don't fit were taken")
	}
	// A hollow corner turns right.
	l, err = planar.Rounded(c(0, 0, 0), c(100, 0, 0), c(100, 50, 0), c(50, 50, 10), c(50, 100, 0), c(0, 100, 0))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := l.Area(), 7500+(100-25*math.Pi); !near(got, want, 1e-12) {
		t.Errorf("area %v, want %v", got, want)
	}
}

func TestFlatten(t *testing.T) {
	for _, e := range []float64{1, 0.1, 0.01, 0.001} {
		d := planar.Disc(r2.Vec{X: 3, Y: 4}, 140)
		l := d.Flatten(e)[0].Outer
		for i := range l {
			if off := math.Abs(l[i].P.Sub(r2.Vec{X: 3, Y: 4}).Len() - 140); off > 1e-9 {
				t.Fatalf("a corner %g off the arc", off)
			}
			if sag := 140 - l.Edge(i).At(0.5).Sub(r2.Vec{X: 3, Y: 4}).Len(); sag > e || sag < 0 {
				t.Fatalf("chord error %g, asked %g", sag, e)
			}
		}
		if l.Area() > d.Area() {
			t.Error("the polygon of a disc must be the smaller")
		}
	}
}

// Worked cases of the three operations. Each is tried with the operands moved
// and turned as well, so that no luck of the axes hides a fault.
func TestOperations(t *testing.T) {
	for _, c := range []struct {
		name, a, b          string
		union, inter, aLess string
	}{
		{
			"housing across a panel",
			"M 0 0 L 100 0 L 100 50 L 0 50 Z", "M 40 0 L 58 0 L 58 50 L 40 50 Z",
			"M 0 0 L 100 0 L 100 50 L 0 50 Z", "M 40 0 L 58 0 L 58 50 L 40 50 Z",
			"M 0 0 L 40 0 L 40 50 L 0 50 Z M 58 0 L 100 0 L 100 50 L 58 50 Z",
		}, {
			"two panels edge to edge",
			"M 0 0 L 10 0 L 10 10 L 0 10 Z", "M 10 0 L 20 0 L 20 10 L 10 10 Z",
			"M 0 0 L 20 0 L 20 10 L 0 10 Z", "", "M 0 0 L 10 0 L 10 10 L 0 10 Z",
		}, {
			"corner to corner",
			"M 0 0 L 10 0 L 10 10 L 0 10 Z", "M 10 10 L 20 10 L 20 20 L 10 20 Z",
			"M 0 0 L 10 0 L 10 10 L 0 10 Z M 10 10 L 20 10 L 20 20 L 10 20 Z", "", "M 0 0 L 10 0 L 10 10 L 0 10 Z",
		}, {
			"the same",
			"M -10 0 A 10 10 0 A 10 -10 0 Z", "M 0 -10 A 10 0 10 A 10 0 -10 Z",
			"M -10 0 A 10 10 0 A 10 -10 0 Z", "M -10 0 A 10 10 0 A 10 -10 0 Z", "",
		}, {
			"two discs",
			"M -10 0 A 10 10 0 A 10 -10 0 Z", "M 2 0 A 10 22 0 A 10 2 0 Z",
			"M -10 0 A 10 6 -8 A 10 22 0 A 10 6 8 A 10 -10 0 Z", "M 6 -8 A 10 6 8 A 10 6 -8 Z",
			"M -10 0 A 10 6 -8 A -10 2 0 A -10 6 8 A 10 -10 0 Z",
		}, {
			"a disc that touches an edge from inside",
			"M 0 0 L 20 0 L 20 20 L 0 20 Z", "M 0 10 A 5 10 10 A 5 0 10 Z",
			"M 0 0 L 20 0 L 20 20 L 0 20 Z", "M 0 10 A 5 10 10 A 5 0 10 Z",
			"M 0 0 L 20 0 L 20 20 L 0 20 L 0 10 Z M 0 10 A -5 10 10 A -5 0 10 Z",
		}, {
			"a notch out of a rounded corner",
			"M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z", "M 80 80 L 120 80 L 120 120 L 80 120 Z",
			"M 0 0 L 100 0 L 100 80 L 120 80 L 120 120 L 80 120 L 80 100 L 0 100 Z", "M 80 80 L 100 80 A 20 80 100 Z",
			"M 0 0 L 100 0 L 100 80 L 80 80 L 80 100 L 0 100 Z",
		}, {
			"a slot through a ring",
			"M -10 0 A 10 10 0 A 10 -10 0 Z M -6 0 A 6 6 0 A 6 -6 0 Z", "M -20 -8 L 20 -8 L 20 8 L -20 8 Z",
			"M -20 -8 L -6 -8 A 10 6 -8 L 20 -8 L 20 8 L 6 8 A 10 -6 8 L -20 8 Z",
			"M -10 0 A 10 -6 -8 L 6 -8 A 10 6 8 L -6 8 A 10 -10 0 Z M -6 0 A 6 6 0 A 6 -6 0 Z",
			"M -6 -8 A 10 6 -8 Z M 6 8 A 10 -6 8 Z",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b := planar.MustParse(c.a), planar.MustParse(c.b)
			for k := range 8 {
				move := func(r planar.Region) planar.Region {
					return r.Turned(r2.Vec{X: 1, Y: 2}, float64(k)).Moved(r2.Vec{X: 1e3 * float64(k)})
				}
				sameAs(t, planar.Union, move(a), move(b), move(planar.MustParse(c.union)))
				sameAs(t, planar.Union, move(b), move(a), move(planar.MustParse(c.union)))
				sameAs(t, planar.Intersection, move(a), move(b), move(planar.MustParse(c.inter)))
				sameAs(t, planar.Intersection, move(b), move(a), move(planar.MustParse(c.inter)))
				sameAs(t, planar.Difference, move(a), move(b), move(planar.MustParse(c.aLess)))
			}
		})
	}
}

// sameAs holds a result to what makes a region what it is: count of loops, area,
// perimeter, centroid, box.
func sameAs(t *testing.T, op func(a, b planar.Region) (planar.Region, error), a, b, want planar.Region) {
	t.Helper()
	got, err := op(a, b)
	if err != nil {
		t.Fatal(err)
	}
	ok := len(got) == len(want) && len(got.Loops()) == len(want.Loops()) &&
		near(got.Area(), want.Area(), 1e-6) && near(got.Perimeter(), want.Perimeter(), 1e-6) &&
		got.Centroid().Sub(want.Centroid()).Len() < 1e-6
	if g, w := got.Box(), want.Box(); len(want) > 0 {
		ok = ok && g.Min.Sub(w.Min).Len() < 1e-6 && g.Max.Sub(w.Max).Len() < 1e-6
	}
	if !ok {
		t.Errorf("got\n%v\nwant\n%v", got, want)
	}
}

func TestCorners(t *testing.T) {
	// Results carry no corner that is none.
	a, _ := planar.Difference(planar.Rect(0, 0, 100, 50), planar.Rect(40, -5, 60, 10))
	b, _ := planar.Union(a, planar.Rect(40, 0, 60, 10))
	if got, want := b.String(), "M 0 0 L 100 0 L 100 50 L 0 50 Z"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	d := planar.Disc(r2.Vec{}, 10)
	bite, _ := planar.Difference(d, planar.Rect(0, 0, 20, 20))
	whole, err := planar.Union(bite, planar.MustParse("M 0 0 L 10 0 A 10 0 10 Z"))
	if err != nil || len(whole) != 1 || len(whole[0].Outer) > 3 || !near(whole.Area(), 100*math.Pi, 1e-9) {
		t.Errorf("a disc put together again: %v %v", whole, err)
	}
}

func TestParseErrors(t *testing.T) {
	for _, text := range []string{
		"L 0 0", "M 0", "M 0 0 L 1 1", "M 0 0 L 10 0 Z", "M 0 0 A 1 10 0 Z", "M 0 0 X", "M a b Z",
		"M 0 0 L 10 0 M 5 5 Z", "Z", "M 0 0 L NaN 0 L 1 1 Z", strings.Repeat("M ", 1<<16),
	} {
		if r, err := planar.Parse(text); err == nil {
			t.Errorf("%.30q was read as %v", text, r)
		}
	}
}

func TestTooMuch(t *testing.T) {
	inf := planar.Rect(0, 0, math.Inf(1), 1)
	if _, err := planar.Union(inf, planar.Rect(0, 0, 1, 2)); err == nil {
		t.Error("an endless rectangle was taken")
	}
	if r := planar.Rect(0, 0, math.NaN(), 1); r != nil {
		t.Error("a rectangle of no number")
	}
}

func FuzzParse(f *testing.F) {
	f.Add("M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z M 30 30 A -5 40 30 A -5 30 30 Z")
	f.Add("M 0 0 L 10 10 L 10 0 L 0 10 Z")
	f.Add("M 0 0 A 1e8 1 0 A 0.5 0 0 Z")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		r, err := planar.Parse(text)
		if err != nil {
			return
		}
		// What is read can be written, measured and cut without a panic.
		_ = r.String()
		_ = r.Centroid()
		for _, op := range []func(a, b planar.Region) (planar.Region, error){planar.Union, planar.Intersection, planar.Difference} {
			if out, err := op(r, planar.Rect(-3, -3, 50, 7)); err == nil {
				_ = out.String()
			}
		}
	})
}

func BenchmarkHousing(b *testing.B) {
	panel, housing := planar.Rect(0, 0, 800, 400), planar.Rect(300, -1, 317.7, 401)
	for b.Loop() {
		if _, err := planar.Difference(panel, housing); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDrilledPanel(b *testing.B) {
	for b.Loop() {
		panel := planar.Rect(0, 0, 800, 400)
		for i := range 30 {
			panel, _ = planar.Difference(panel, planar.Disc(r2.Vec{X: 50 + 20*float64(i), Y: 37}, 2.5))
		}
	}
}

func TestCommonHoles(t *testing.T) {
	// Two slabs of a drilled panel: what they have in common, a hole and an
	// island in it, does not show in their difference.
	drilled := planar.MustParse("M 0 0 L 100 0 L 100 50 L 0 50 Z M 10 10 A 5 20 10 A 5 10 10 Z M 13 8 L 17 8 L 17 12 L 13 12 Z")
	housed, err := planar.Difference(drilled, planar.Rect(40, 0, 58, 50))
	if err != nil {
		t.Fatal(err)
	}
	sameAs(t, planar.Difference, drilled, housed, planar.Rect(40, 0, 58, 50))
	sameAs(t, planar.Difference, housed, drilled, nil)
	// An island that only one of them has does show.
	bare := planar.MustParse("M 0 0 L 100 0 L 100 50 L 0 50 Z M 10 10 A 5 20 10 A 5 10 10 Z")
	sameAs(t, planar.Difference, drilled, bare, planar.Rect(13, 8, 17, 12))
	sameAs(t, planar.Difference, bare, drilled, nil)
}

// A round hole that touches the outline on its left and, once a notch is cut,
// on its right too: the middles of both its arcs lie on the outline.
func TestAHoleThatTouchesOnBothSides(t *testing.T) {
	l := planar.Loop{
		{P: r2.Vec{X: -30, Y: -10}}, {P: r2.Vec{Y: -10}}, {}, {P: r2.Vec{X: 10}},
		{P: r2.Vec{X: 10, Y: 10}}, {P: r2.Vec{Y: 10}}, {P: r2.Vec{Y: 30}}, {P: r2.Vec{X: -30, Y: 30}},
	}
	round := planar.Loop{{P: r2.Vec{X: -20}, Bulge: -1}, {P: r2.Vec{X: -20, Y: 20}, Bulge: -1}}
	plate := planar.Region{{Outer: l, Holes: []planar.Loop{round}}}
	got, err := planar.Difference(plate, planar.Rect(-10, 0, 0, 10))
	if err != nil {
		t.Fatal(err)
	}
	if want := 30*40 + 10*10 - 100*math.Pi - 10*10; math.Abs(got.Area()-want) > 1e-6 {
		t.Errorf("area %g, want %g", got.Area(), want)
	}
}
