package step_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"rodwork/internal/format/step"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// two is an upright side and a shelf that meets it.
func two(t testing.TB) []step.Product {
	t.Helper()
	side := panel(t, planar.Rect(0, 0, 400, 300), 18, solid.Pocket{Region: planar.Rect(100, 0, 118, 300), Face: solid.A, Depth: 6})
	side.Pose = r3.Pose{O: r3.Vec{Z: 300}, X: r3.Vec{Y: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: -1}}
	shelf := panel(t, planar.Rect(0, 0, 500, 290), 18)
	s := math.Sqrt2 / 2
	shelf.Pose = r3.Pose{O: r3.Vec{X: 18, Y: 100, Z: 300}, X: r3.Vec{X: s, Y: s}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: -s, Y: s}}
	return []step.Product{{ID: "side", Name: "side, left", Body: side}, {ID: "shelf", Name: "Brett für Töpfe 3/4\" 🌱", Body: shelf}}
}

// assembled: bodies stand where their poses say, under their names.
func assembled(t testing.TB) exam {
	products := two(t)
	f, left, err := step.Assembly("seed shelf", products)
	if err != nil || len(left) > 0 {
		t.Fatal(left, err)
	}
	return exam{"assembly", f, func(t *testing.T, j judged) {
		if len(j.Solids) != 2 {
			t.Fatalf("%d solids", len(j.Solids))
		}
		for i, s := range j.Solids {
			p := products[i]
			if math.Abs(s.Volume-p.Body.Volume()) > 1e-6*p.Body.Volume() {
				t.Errorf("%s: volume %g, want %g", p.ID, s.Volume, p.Body.Volume())
			}
			want := p.Body.Box()
			least := r3.Vec{X: s.Min[0], Y: s.Min[1], Z: s.Min[2]}
			most := r3.Vec{X: s.Max[0], Y: s.Max[1], Z: s.Max[2]}
			if least.Sub(want.Min).Len() > 1e-3 || most.Sub(want.Max).Len() > 1e-3 {
				t.Errorf("%s stands in %v to %v, want %v", p.ID, least, most, want)
			}
			if s.Name != p.Name {
				t.Errorf("%s is called %q", p.ID, s.Name)
			}
		}
	}}
}

func TestSameBytes(t *testing.T) {
	one, _, err := step.Assembly("seed shelf", two(t))
	if err != nil {
		t.Fatal(err)
	}
	other, _, err := step.Assembly("seed shelf", two(t))
	if err != nil || !bytes.Equal(one, other) {
		t.Error("two runs differ", err)
	}
}

// What no solid of the standard may be is refused, not written.
func TestRefusals(t *testing.T) {
	step2 := solid.Body{Pose: r3.Identity(), Slabs: []solid.Slab{
		{Region: planar.Rect(0, 0, 50, 50), Z0: 0, Z1: 9}, {Region: planar.Rect(50, 0, 100, 50), Z0: 9, Z1: 18}}}
	corner := solid.Body{Pose: r3.Identity(), Slabs: []solid.Slab{
		{Region: append(planar.Rect(0, 0, 50, 50), planar.Rect(50, 50, 100, 100)...), Z0: 0, Z1: 9}}}
	for name, b := range map[string]solid.Body{"empty": {Pose: r3.Identity()}, "along a level line": step2, "along an upright line": corner} {
		if _, err := step.Part(step.Product{ID: name, Body: b}); err == nil {
			t.Errorf("%s: written", name)
		}
		_, left, err := step.Assembly("x", []step.Product{{ID: name, Body: b}})
		if err == nil || left[name] == nil {
			t.Errorf("%s: put into an assembly", name)
		}
	}
	good := step.Product{ID: "good", Name: "good", Body: panel(t, planar.Rect(0, 0, 50, 50), 9)}
	if f, left, err := step.Assembly("x", []step.Product{{ID: "bad", Body: corner}, good}); err != nil || len(left) != 1 || len(f) == 0 {
		t.Errorf("the good one is lost with the bad: %v, %v", left, err)
	}
}

// Names are coded as part 21 wants them, and numbers have a point.
func TestText(t *testing.T) {
	b := panel(t, planar.Rect(0, 0, 50, 50), 9, solid.Pocket{Region: planar.Disc(r2.Vec{X: 25, Y: 25}, 5), Through: true})
	f, err := step.Part(step.Product{ID: "x", Name: "it's ö\\ 🌱b\x00", Body: b})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`'it''s \X2\00F6\X0\\\ \X2\D83CDF31\X0\b\X2\0000\X0\'`, "CIRCLE('',", "CYLINDRICAL_SURFACE('',", ",5.)", "AUTOMOTIVE_DESIGN", "9."} {
		if !strings.Contains(string(f), want) {
			t.Errorf("lacks %q", want)
		}
	}
}

func BenchmarkPart(b *testing.B) {
	var pockets []solid.Pocket
	for i := range 60 {
		pockets = append(pockets, solid.Pocket{Region: planar.Disc(r2.Vec{X: 37 + 326*float64(i%2), Y: 20 + 32*float64(i/2)}, 2.5), Face: solid.A, Depth: 11})
	}
	p := step.Product{ID: "side", Name: "side", Body: panel(b, planar.Rect(0, 0, 400, 1000), 18, pockets...)}
	for b.Loop() {
		if _, err := step.Part(p); err != nil {
			b.Fatal(err)
		}
	}
}
