package view_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
)

var update = flag.Bool("update", false, "write the golden files")

// text tells a drawing in words: one line each, rounded to 0.01 mm.
func text(lines []view.Line) string {
	var b strings.Builder
	n := func(x float64) string {
		return strings.TrimSuffix(fmt.Sprintf("%.2f", math.Round(x*100)/100+0), ".00")
	}
	for _, l := range lines {
		seen := "seen"
		if l.Hidden {
			seen = "hidden"
		}
		fmt.Fprintf(&b, "%-7s %-6s %-10s ", l.Body, seen, l.Kind)
		if l.Radius == 0 {
			fmt.Fprintf(&b, "%s,%s to %s,%s\n", n(l.A.X), n(l.A.Y), n(l.B.X), n(l.B.Y))
			continue
		}
		fmt.Fprintf(&b, "%s,%s round %s,%s by %s° to %s,%s\n", n(l.A.X), n(l.A.Y), n(l.Center.X), n(l.Center.Y),
			n(l.Sweep*180/math.Pi), n(l.B.X), n(l.B.Y))
	}
	return b.String()
}

func box(id string, x0, y0, z0, x1, y1, z1 float64) view.Item {
	return view.Item{ID: id, Body: solid.Block(r3.Vec{X: x0, Y: y0, Z: z0}, r3.Vec{X: x1, Y: y1, Z: z1})}
}

// shelfCase is a case with a shelf: sides with housings 5 deep for the shelf, a top
// and a bottom between them.
func shelfCase(t *testing.T) []view.Item {
	t.Helper()
	side := func(id string, x float64, face solid.Side) view.Item {
		pose := r3.Pose{O: r3.Vec{X: x}, X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}}
		b, err := solid.Panel(pose, planar.Rect(0, 0, 300, 200), 18, []solid.Pocket{
			{Region: planar.Rect(141, 0, 159, 190), Face: face, Depth: 5},
		})
		if err != nil {
			t.Fatal(err)
		}
		return view.Item{ID: id, Body: b}
	}
	return []view.Item{
		side("left", 0, solid.A), side("right", 382, solid.B),
		box("top", 18, 282, 0, 382, 300, 200), box("bottom", 18, 0, 0, 382, 18, 200),
		box("shelf", 13, 141, 0, 387, 159, 190),
	}
}

// bent is a shell with one bent corner, a divider and a drilled door.
func bent(t *testing.T) []view.Item {
	t.Helper()
	c := func(x, y, r float64) planar.Corner { return planar.Corner{P: r2.Vec{X: x, Y: y}, Round: r} }
	l, err := planar.Rounded(c(0, 0, 0), c(17.7, 0, 0), c(17.7, 382.3, 140-17.7), c(600, 382.3, 0), c(600, 400, 0), c(0, 400, 140))
	if err != nil {
		t.Fatal(err)
	}
	shell, err := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Of(l), Z1: 300})
	if err != nil {
		t.Fatal(err)
	}
	door, err := solid.Panel(r3.Identity().Moved(r3.Vec{X: 320, Y: 3, Z: 282}), planar.Rect(0, 0, 277, 376), 18, []solid.Pocket{
		{Region: planar.Disc(r2.Vec{X: 40, Y: 336}, 15), Through: true},
		{Region: planar.Disc(r2.Vec{X: 254, Y: 80}, 17.5), Face: solid.B, Depth: 13},
	})
	if err != nil {
		t.Fatal(err)
	}
	return []view.Item{{ID: "shell", Body: shell}, box("divider", 300, 0, 0, 317.7, 382.3, 300), {ID: "door", Body: door}}
}

func TestGolden(t *testing.T) {
	for name, items := range map[string][]view.Item{"shelf": shelfCase(t), "bent": bent(t)} {
		for _, v := range []view.View{view.Front(), view.Plan(), view.EndLeft(), view.Dimetric(false)} {
			t.Run(name+" "+v.Name, func(t *testing.T) {
				flat := v.Name != "dimetric"
				lines, err := view.Draw(items, v, view.Options{HiddenToo: flat, Chord: 2})
				if err != nil {
					t.Fatal(err)
				}
				got := text(lines)
				file := filepath.Join("testdata", strings.ReplaceAll(name+" "+v.Name, " ", "-")+".txt")
				if *update {
					if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
						t.Fatal(err)
					}
				}
				want, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				if got != string(want) {
					t.Errorf("%s has changed; got\n%s", file, got)
				}
			})
		}
	}
}

func draw(t *testing.T, v view.View, hidden bool, items ...view.Item) []view.Line {
	t.Helper()
	lines, err := view.Draw(items, v, view.Options{HiddenToo: hidden})
	if err != nil {
		t.Fatal(err)
	}
	return lines
}

func TestOneBox(t *testing.T) {
	b := box("box", 0, 0, 0, 30, 40, 50)
	// Square on, the far edges lie behind the near ones: four lines, none hidden.
	for _, v := range []view.View{view.Front(), view.Back(), view.Plan(), view.EndLeft(), view.EndRight()} {
		if l := draw(t, v, true, b); len(l) != 4 {
			t.Errorf("%s: %d lines\n%s", v.Name, len(l), text(l))
		}
	}
	// Aslant nine edges are seen and three hidden.
	for _, v := range []view.View{view.Isometric(false), view.Isometric(true), view.Dimetric(false), view.Dimetric(true)} {
		if l := draw(t, v, false, b); len(l) != 9 {
			t.Errorf("%s: %d lines seen\n%s", v.Name, len(l), text(l))
		}
		if l := draw(t, v, true, b); len(l) != 12 {
			t.Errorf("%s: %d lines in all\n%s", v.Name, len(l), text(l))
		}
	}
}

func TestScales(t *testing.T) {
	// Isometric: every axis √(2/3). Dimetric: width and height 2√2/3, depth half
	// of that; width rises by 7.18°, depth by 41.41°.
	size := func(v view.View, p r3.Vec) (float64, float64) {
		at, _ := v.Project(p)
		return at.Len(), math.Atan2(at.Y, math.Abs(at.X)) * 180 / math.Pi
	}
	for _, right := range []bool{false, true} {
		iso, di := view.Isometric(right), view.Dimetric(right)
		for _, p := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			if l, _ := size(iso, p); math.Abs(l-math.Sqrt(2.0/3)) > 1e-12 {
				t.Errorf("isometric %v has length %v", p, l)
			}
		}
		l, a := size(di, r3.Vec{X: 1})
		if math.Abs(l-2*math.Sqrt2/3) > 1e-12 || math.Abs(math.Abs(a)-7.1808) > 1e-4 {
			t.Errorf("width: %v at %v°", l, a)
		}
		l, a = size(di, r3.Vec{Z: 1})
		if math.Abs(l-math.Sqrt2/3) > 1e-12 || math.Abs(math.Abs(a)-41.4096) > 1e-4 {
			t.Errorf("depth: %v at %v°", l, a)
		}
		for _, v := range []view.View{iso, di} {
			if v.Right.Cross(v.Up).Sub(v.Eye).Len() > 1e-12 || v.Right.Y != 0 {
				t.Errorf("%s is no upright right-handed view: %+v", v.Name, v)
			}
		}
	}
}

func TestCylinder(t *testing.T) {
	b, err := solid.Extrude(r3.Identity(), solid.Slab{Region: planar.Disc(r2.Vec{X: 10, Y: 20}, 10), Z1: 50})
	if err != nil {
		t.Fatal(err)
	}
	post := view.Item{ID: "post", Body: b}
	// End on: one full circle.
	l := draw(t, view.Front(), true, post)
	if len(l) != 1 || l[0].Radius != 10 || math.Abs(l[0].Sweep-2*math.Pi) > 1e-9 || l[0].Hidden {
		t.Errorf("end on: %s", text(l))
	}
	// From the side: two rims as straight lines, two exact silhouettes.
	l = draw(t, view.EndRight(), false, post)
	n := map[view.Kind]float64{}
	for _, x := range l {
		n[x.Kind] += x.B.Sub(x.A).Len()
	}
	if math.Abs(n[view.Silhouette]-100) > 1e-9 || math.Abs(n[view.Edge]-40) > 1e-6 {
		t.Errorf("from the side: %s", text(l))
	}
	// Aslant the silhouettes touch the exact circle: they are 2r apart on paper,
	// measured square to the axis.
	v := view.Isometric(false)
	axis, _ := v.Project(r3.Vec{Z: 1})
	var off []float64
	for _, x := range draw(t, v, false, post) {
		if x.Kind == view.Silhouette {
			off = append(off, axis.Unit().Cross(x.A))
		}
	}
	if len(off) != 2 || math.Abs(math.Abs(off[0]-off[1])-20) > 1e-9 {
		t.Errorf("silhouettes at %v", off)
	}
}

func TestFlushParts(t *testing.T) {
	// Two blocks side by side, flush in front: the line between them is seen
	// once, and nothing of the faces where they touch is.
	a, b := box("a", 0, 0, 0, 10, 10, 10), box("b", 10, 0, 0, 20, 10, 10)
	l := draw(t, view.Front(), true, a, b)
	sum := 0.0
	for _, x := range l {
		sum += x.B.Sub(x.A).Len()
	}
	if len(l) != 7 || math.Abs(sum-70) > 1e-9 {
		t.Errorf("%v mm of line\n%s", sum, text(l))
	}
	// A block let into another one: nothing of what is inside is seen.
	peg := box("peg", 4, 4, 5, 6, 6, 15)
	for _, x := range draw(t, view.EndRight(), false, a, peg) {
		if x.Body == "peg" && min(x.A.X, x.B.X) > -10-1e-9 && max(x.A.X, x.B.X) > -10+1e-9 {
			t.Errorf("the peg is seen inside the block: %s", text([]view.Line{x}))
		}
	}
}

func TestHollow(t *testing.T) {
	// A hole from one side to the other: from the side its walls are hidden
	// lines, 2r apart; without hidden lines nothing of it is drawn.
	b, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 100, 60), 18, []solid.Pocket{
		{Region: planar.Disc(r2.Vec{X: 30, Y: 20}, 8), Through: true},
	})
	if err != nil {
		t.Fatal(err)
	}
	item := view.Item{ID: "panel", Body: b}
	if l := draw(t, view.Plan(), false, item); len(l) != 4 {
		t.Errorf("without hidden lines:\n%s", text(l))
	}
	var at []float64
	for _, l := range draw(t, view.Plan(), true, item) {
		if l.Hidden {
			at = append(at, l.A.X)
		}
	}
	if len(at) != 2 || math.Abs(math.Abs(at[0]-at[1])-16) > 1e-9 {
		t.Errorf("hidden walls at %v", at)
	}
	// Looking through the hole, what is behind it is seen in it.
	behind := box("behind", 28, -10, -50, 32, 70, -40)
	seen := 0.0
	for _, l := range draw(t, view.Front(), false, item, behind) {
		if l.Body == "behind" && l.A.Y > 0 && l.A.Y < 60 {
			seen += l.B.Sub(l.A).Len()
		}
	}
	if want := 4 * math.Sqrt(64-4); math.Abs(seen-want) > 0.3 {
		t.Errorf("%v mm seen through the hole, want %v", seen, want)
	}
}

func TestChains(t *testing.T) {
	l := draw(t, view.Front(), false, bent(t)[0])
	runs := view.Chains(l)
	if len(runs) != 1 {
		t.Fatalf("the shell's outline is %d runs", len(runs))
	}
	run := runs[0]
	for i := range run {
		next := run[(i+1)%len(run)]
		if next.A.Sub(run[i].B).Len() > 2e-3 {
			t.Errorf("a gap after %v", run[i])
		}
	}
	// No line is lost or doubled.
	all := draw(t, view.Isometric(false), true, shelfCase(t)...)
	n := 0
	for _, r := range view.Chains(all) {
		n += len(r)
	}
	if n != len(all) {
		t.Errorf("%d lines in runs of %d", n, len(all))
	}
}

func TestBounds(t *testing.T) {
	b := view.Bounds(draw(t, view.Front(), true, bent(t)...))
	if b.Min.Len() > 1e-6 || b.Max.Sub(r2.Vec{X: 600, Y: 400}).Len() > 1e-6 {
		t.Errorf("bounds %v", b)
	}
}
