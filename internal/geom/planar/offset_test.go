package planar_test

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

func TestOffsetOfSimpleShapes(t *testing.T) {
	for _, c := range []struct {
		name, text string
		d          float64
		join       planar.Join
		want       string // "" for nothing
	}{
		{"rectangle out", "M 0 0 L 100 0 L 100 80 L 0 80 Z", 10, planar.Round,
			"M 0 -10 L 100 -10 A 10 110 0 L 110 80 A 10 100 90 L 0 90 A 10 -10 80 L -10 0 A 10 0 -10 Z"},
		{"rectangle out, mitred", "M 0 0 L 100 0 L 100 80 L 0 80 Z", 10, planar.Mitre, "M -10 -10 L 110 -10 L 110 90 L -10 90 Z"},
		{"rectangle in", "M 0 0 L 100 0 L 100 80 L 0 80 Z", -10, planar.Round, "M 10 10 L 90 10 L 90 70 L 10 70 Z"},
		{"rectangle in by all of it", "M 0 0 L 100 0 L 100 80 L 0 80 Z", -40, planar.Round, ""},
		{"rectangle in by more", "M 0 0 L 100 0 L 100 80 L 0 80 Z", -60, planar.Round, ""},
		{"disc out", "M 0 0 A 10 20 0 A 10 0 0 Z", 5, planar.Round, "M -5 0 A 15 25 0 A 15 -5 0 Z"},
		{"disc in", "M 0 0 A 10 20 0 A 10 0 0 Z", -4, planar.Round, "M 4 0 A 6 16 0 A 6 4 0 Z"},
		{"disc in by its radius", "M 0 0 A 10 20 0 A 10 0 0 Z", -10, planar.Round, ""},
		{"ell in", "M 0 0 L 60 0 L 60 20 L 20 20 L 20 60 L 0 60 Z", -5, planar.Round,
			"M 5 5 L 55 5 L 55 15 L 20 15 A -5 15 20 L 15 55 L 5 55 Z"},
		{"ell in, mitred", "M 0 0 L 60 0 L 60 20 L 20 20 L 20 60 L 0 60 Z", -5, planar.Mitre,
			"M 5 5 L 55 5 L 55 15 L 15 15 L 15 55 L 5 55 Z"},
		{"dumb-bell in: the neck parts", "M 0 0 L 40 0 L 40 15 L 60 15 L 60 0 L 100 0 L 100 40 L 60 40 L 60 25 L 40 25 L 40 40 L 0 40 Z", -6, planar.Mitre,
			"M 6 6 L 34 6 L 34 34 L 6 34 Z M 66 6 L 94 6 L 94 34 L 66 34 Z"},
		{"frame out closes the hole", "M 0 0 L 30 0 L 30 30 L 0 30 Z M 10 10 L 20 10 L 20 20 L 10 20 Z", 5, planar.Mitre, "M -5 -5 L 35 -5 L 35 35 L -5 35 Z"},
		{"two shapes grow into one", "M 0 0 L 10 0 L 10 10 L 0 10 Z M 14 0 L 24 0 L 24 10 L 14 10 Z", 2, planar.Mitre, "M -2 -2 L 26 -2 L 26 12 L -2 12 Z"},
		{"rounded corner in by its radius", "M 0 0 L 90 0 A 10 100 10 L 100 80 L 0 80 Z", -10, planar.Round, "M 10 10 L 90 10 L 90 70 L 10 70 Z"},
		{"hollow corner out by its radius", "M 0 0 L 40 0 L 40 30 A -10 30 40 L 0 40 Z", 10, planar.Mitre, "M -10 -10 L 50 -10 L 50 40 L 40 40 L 40 50 L -10 50 Z"},
	} {
		got, err := planar.Offset(planar.MustParse(c.text), c.d, c.join)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		want := planar.MustParse(c.want)
		if !sameShape(t, got, want) {
			t.Errorf("%s:\n got %v\nwant %v", c.name, got, want)
		}
	}
}

// sameShape tells whether two regions are the same: as many edges, and nothing in
// one that is not in the other.
func sameShape(t *testing.T, a, b planar.Region) bool {
	t.Helper()
	edges, rest := 0, 0.0
	for l := range a.All {
		edges += len(l)
	}
	for l := range b.All {
		edges -= len(l)
	}
	for _, p := range [][2]planar.Region{{a, b}, {b, a}} {
		d, err := planar.Difference(p[0], p[1])
		if err != nil {
			t.Fatal(err)
		}
		rest += d.Area()
	}
	return edges == 0 && rest < 1e-6
}

// A point lies in the grown region exactly if it lies in the region or no
// further from its edge than the distance; in the shrunk one if it lies in it
// and further from the edge than that.
func TestOffsetPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r").Turned(r2.Vec{}, rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "turn"))
		d := rapid.SampledFrom([]float64{0.1, 3, 5, 10, 17.3, 20, 40}).Draw(t, "d")
		if rapid.Bool().Draw(t, "in") {
			d = -d
		}
		got, err := planar.Offset(r, d, planar.Round)
		if err != nil {
			t.Fatalf("by %g: %v\n%v", d, err, r)
		}
		wellFormed(t, got)
		for range 40 {
			p := r2.Vec{X: rapid.Float64Range(-130, 130).Draw(t, "x"), Y: rapid.Float64Range(-130, 130).Draw(t, "y")}
			if got.OnEdge(p, 1e-3) {
				continue
			}
			want := r.Contains(p) || r.OnEdge(p, d)
			if d < 0 {
				want = r.Contains(p) && !r.OnEdge(p, -d)
			}
			if got.Contains(p) != want {
				t.Fatalf("by %g: %v: in the offset %v, want %v\nof %v\nis %v", d, p, !want, want, r, got)
			}
		}
	})
}

// Mitred corners only add to what is round when a region grows, and only take
// from it when it shrinks; and growing a mitred rectangle back gives it again.
func TestMitre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := region.Draw(t, "r")
		d := rapid.SampledFrom([]float64{3, -3, 11, -11}).Draw(t, "d")
		round, err := planar.Offset(r, d, planar.Round)
		if err != nil {
			t.Fatal(err)
		}
		sharp, err := planar.Offset(r, d, planar.Mitre)
		if err != nil {
			t.Fatalf("by %g: %v\n%v", d, err, r)
		}
		if d > 0 {
			round, sharp = sharp, round
		}
		rest, err := planar.Difference(sharp, round)
		if err != nil || rest.Area() > 1e-4*(1+r.Perimeter()) {
			t.Fatalf("by %g: %v, %g mm² on the wrong side\n%v", d, err, rest.Area(), r)
		}
	})
}

// An independent library puts together the region and one capsule for each of
// its (flattened) edges, pair by pair.
func TestOffsetAgainstCapsules(t *testing.T) {
	for _, text := range []string{
		"M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z M 30 30 A -5 40 30 A -5 30 30 Z",
		"M 0 0 L 60 0 L 60 20 L 20 20 L 20 60 L 0 60 Z",
		"M 0 0 L 40 0 L 40 15 L 60 15 L 60 0 L 100 0 L 100 40 L 60 40 L 60 25 L 40 25 L 40 40 L 0 40 Z",
		"M 0 0 A 30 60 0 A -30 120 0 L 120 40 A 60 0 40 Z",
	} {
		r := planar.MustParse(text)
		for _, d := range []float64{3.175, 8, 20} {
			const chord = 0.01
			body := capsule(t, r, nil, 0, chord)
			rim := body
			for l := range r.All {
				ps := l.Flatten(chord)
				for i := range ps {
					rim = capsule(t, nil, []r2.Vec{ps[i], ps[(i+1)%len(ps)]}, d, chord, rim)
				}
			}
			got, err := planar.Offset(r, d, planar.Round)
			if err != nil {
				t.Fatal(err)
			}
			if diff := math.Abs(got.Area() - rim.Area()); diff > 2*chord*got.Perimeter() {
				t.Errorf("%s by %g: %g mm², capsules %g", text, d, got.Area(), rim.Area())
			}
		}
	}
}

// capsule returns a region, or all places near a line, joined with more.
func capsule(t *testing.T, r planar.Region, line []r2.Vec, d, chord float64, with ...geom.Geometry) geom.Geometry {
	t.Helper()
	if line != nil {
		u := line[1].Sub(line[0]).Unit().Left().Mul(d)
		r = planar.Of(planar.Loop{{P: line[0].Sub(u)}, {P: line[1].Sub(u), Bulge: 1}, {P: line[1].Add(u)}, {P: line[0].Add(u), Bulge: 1}})
	}
	var ps []geom.Polygon
	for _, s := range r {
		var rings []geom.LineString
		for _, l := range append([]planar.Loop{s.Outer}, s.Holes...) {
			pts := l.Flatten(chord)
			var xy []float64
			for _, p := range append(pts, pts[0]) {
				xy = append(xy, p.X, p.Y)
			}
			rings = append(rings, geom.NewLineString(geom.NewSequence(xy, geom.DimXY)))
		}
		ps = append(ps, geom.NewPolygon(rings))
	}
	g := geom.NewMultiPolygon(ps).AsGeometry()
	for _, w := range with {
		u, err := geom.Union(g, w)
		if err != nil {
			t.Fatal(err)
		}
		g = u
	}
	return g
}

func BenchmarkOffset(b *testing.B) {
	r := planar.MustParse("M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z M 30 30 A -5 40 30 A -5 30 30 Z")
	for b.Loop() {
		if _, err := planar.Offset(r, 3.175, planar.Round); err != nil {
			b.Fatal(err)
		}
	}
}
