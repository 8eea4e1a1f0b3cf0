package step_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"rodwork/internal/format/step"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/judge"
)

// judged is what an independent kernel says of a file.
type judged struct {
	File    string
	Success bool
	Solids  []struct {
		Name                   string
		Volume                 float64
		Min, Max               [3]float64
		Faces, Triangles, Open int
	}
}

// ask hands files to the kernel.
func ask(t testing.TB, files ...[]byte) []judged {
	t.Helper()
	dir := t.TempDir()
	var names []string
	for i, f := range files {
		name := filepath.Join(dir, fmt.Sprintf("%03d.step", i))
		if err := os.WriteFile(name, f, 0o600); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	var out []judged
	judge.Node(t, "occt-import-js", "step.mjs", &out, names...)
	return out
}

func panel(t testing.TB, outline planar.Region, thick float64, pockets ...solid.Pocket) solid.Body {
	t.Helper()
	b, err := solid.Panel(r3.Identity(), outline, thick, pockets)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func part(t testing.TB, id string, b solid.Body) []byte {
	t.Helper()
	f, err := step.Part(step.Product{ID: id, Name: id, Body: b})
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	return f
}

// Bodies with what a shop cuts, each with the number of faces that it must
// have: flush walls are one face, a round hole is two.
func bodies(t testing.TB) []struct {
	name  string
	body  solid.Body
	faces int
} {
	t.Helper()
	plate := planar.Rect(0, 0, 600, 300)
	hole := func(x, y, d, depth float64, f solid.Side) solid.Pocket {
		return solid.Pocket{Region: planar.Disc(r2.Vec{X: x, Y: y}, d/2), Face: f, Depth: depth, Through: depth == 0}
	}
	cut := func(x0, y0, x1, y1, depth float64, f solid.Side) solid.Pocket {
		return solid.Pocket{Region: planar.Rect(x0, y0, x1, y1), Face: f, Depth: depth, Through: depth == 0}
	}
	rounded, err := planar.Rounded(planar.Corner{P: r2.Vec{}, Round: 40}, planar.Corner{P: r2.Vec{X: 600}},
		planar.Corner{P: r2.Vec{X: 600, Y: 300}, Round: 150}, planar.Corner{P: r2.Vec{Y: 300}})
	if err != nil {
		t.Fatal(err)
	}
	ring := planar.Of(planar.Circle(r2.Vec{X: 5, Y: 7}, 100), planar.Circle(r2.Vec{X: 5, Y: 7}, 60))
	bent := planar.Region{{Outer: planar.Loop{{P: r2.Vec{X: 100}}, {P: r2.Vec{X: 200}, Bulge: math.Tan(math.Pi / 8)}, {P: r2.Vec{X: 300, Y: 100}},
		{P: r2.Vec{X: 300, Y: 200}}, {P: r2.Vec{X: 280, Y: 200}}, {P: r2.Vec{X: 280, Y: 100}, Bulge: -math.Tan(math.Pi / 8)}, {P: r2.Vec{X: 200, Y: 20}}, {P: r2.Vec{X: 100, Y: 20}}}}}
	return []struct {
		name  string
		body  solid.Body
		faces int
	}{
		{"plain", panel(t, plate, 18), 6},
		{"through hole", panel(t, plate, 18, hole(100, 100, 35, 0, solid.A)), 8},
		{"blind hole", panel(t, plate, 18, hole(100, 100, 35, 12, solid.A)), 9},
		{"housing across", panel(t, plate, 18, cut(100, 0, 118, 300, 6, solid.A)), 10},
		{"stopped housing", panel(t, plate, 18, cut(100, 0, 118, 280, 6, solid.A)), 10},
		{"rabbet", panel(t, plate, 18, cut(0, 280, 600, 300, 8, solid.B)), 8},
		{"housing meets rabbet", panel(t, plate, 18, cut(100, -1, 118, 301, 6, solid.A), cut(-1, 292, 601, 301, 9, solid.A)), 12},
		{"crossing from both faces", panel(t, plate, 18, cut(100, -1, 118, 301, 6, solid.A), cut(-1, 100, 601, 130, 6, solid.B)), 14},
		{"crossing through each other", panel(t, plate, 18, cut(100, 20, 118, 280, 10, solid.A), cut(20, 100, 580, 130, 12, solid.B)), 18},
		{"deep from both, level with each other", panel(t, plate, 18, cut(100, 20, 118, 280, 8, solid.A), cut(20, 100, 580, 130, 10, solid.B)), 18},
		{"hole in a housing", panel(t, plate, 18, cut(100, -1, 118, 301, 6, solid.A), hole(109, 150, 8, 0, solid.A)), 12},
		{"hole over a housing's edge", panel(t, plate, 18, cut(100, -1, 118, 301, 6, solid.A), hole(118, 150, 20, 12, solid.A)), 14},
		{"hole over the edge", panel(t, plate, 18, hole(0, 150, 40, 0, solid.A)), 8},
		{"round corners", panel(t, planar.Region{{Outer: rounded}}, 18), 8},
		{"ring", panel(t, ring, 12), 6},
		{"two pieces", panel(t, plate, 18, cut(100, -1, 118, 301, 18, solid.A)), 12},
		{"bent", panel(t, bent, 400), 10},
		{"counterbore", panel(t, plate, 18, hole(100, 100, 20, 6, solid.A), hole(100, 100, 8, 0, solid.A)), 11},
	}
}

// exam is a file with what must be found in it.
type exam struct {
	name string
	file []byte
	mark func(t *testing.T, j judged)
}

// An independent kernel reads what we write. It takes a second to start, so it
// is asked once for all.
func TestAnIndependentKernel(t *testing.T) {
	exams := append(append(append(fixed(t), oblique(t)...), random(t)...), assembled(t))
	var files [][]byte
	for _, e := range exams {
		files = append(files, e.file)
	}
	for i, j := range ask(t, files...) {
		t.Run(exams[i].name, func(t *testing.T) {
			if !j.Success {
				t.Fatal("not read")
			}
			exams[i].mark(t, j)
		})
	}
}

// Each body comes out as closed solids of the right volume, size and number of
// faces.
func fixed(t testing.TB) []exam {
	var out []exam
	for _, b := range bodies(t) {
		out = append(out, exam{b.name, part(t, b.name, b.body), func(t *testing.T, j judged) {
			check(t, b.body, j)
			faces := 0
			for _, s := range j.Solids {
				faces += s.Faces
			}
			if faces != b.faces {
				t.Errorf("%d faces, want %d", faces, b.faces)
			}
		}})
	}
	return out
}

// check compares what the kernel found with the body in its own frame.
func check(t *testing.T, b solid.Body, j judged) {
	t.Helper()
	volume, open := 0.0, 0
	box := r3.EmptyBox()
	for _, s := range j.Solids {
		volume += s.Volume
		open += s.Open
		box = box.Union(r3.Box{Min: r3.Vec{X: s.Min[0], Y: s.Min[1], Z: s.Min[2]}, Max: r3.Vec{X: s.Max[0], Y: s.Max[1], Z: s.Max[2]}})
	}
	if open > 0 {
		t.Errorf("%d edges of triangles are open", open)
	}
	// Chords 0.02 mm off: along each arc that much of its surface at most.
	slack := 1e-6*b.Volume() + 0.02*arcArea(b)
	if math.Abs(volume-b.Volume()) > slack {
		t.Errorf("volume %.3f, want %.3f (±%.3f)", volume, b.Volume(), slack)
	}
	b.Pose = r3.Identity()
	want := b.Box()
	for _, d := range []r3.Vec{box.Min.Sub(want.Min), box.Max.Sub(want.Max)} {
		if d.Len() > 0.04 {
			t.Errorf("lies in %v, want %v", box, want)
		}
	}
}

func arcArea(b solid.Body) float64 {
	a := 0.0
	for _, s := range b.Slabs {
		for l := range s.Region.All {
			for i := range l {
				if e := l.Edge(i); e.IsArc() {
					a += e.Len() * (s.Z1 - s.Z0)
				}
			}
		}
	}
	return a
}
