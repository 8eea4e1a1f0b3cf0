package meet_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/noskip"
	"rodwork/internal/piece"
)

// What a general mesh library, which shares no line with ours, says of bodies.
type verdict struct {
	Bodies []struct {
		Volume float64 `json:"volume"`
		Status string  `json:"status"`
	} `json:"bodies"`
	Pairs []struct {
		Volume float64 `json:"volume"`
		Gap    float64 `json:"gap"`
	} `json:"pairs"`
}

type question struct {
	Bodies []triangles `json:"bodies"`
	Pairs  [][2]int    `json:"pairs"`
	Reach  float64     `json:"reach"`
}

type triangles struct {
	Points    []float64 `json:"points"`
	Triangles []int     `json:"triangles"`
}

// judged asks the library, which works in numbers of seven digits.
func judged(t *testing.T, bodies []*solid.Ready, pairs [][2]int, chord, reach float64) verdict {
	t.Helper()
	const folder = "../../tools/mesh-judge"
	node := noskip.Program(t, "node", "nodejs")
	if _, err := os.Stat(folder + "/node_modules/manifold-3d"); err != nil {
		noskip.Skip(t, "the mesh library is not installed: npm ci in tools/mesh-judge")
	}
	q := question{Pairs: pairs, Reach: reach}
	for i, b := range bodies {
		m, err := b.Mesh(chord)
		if err != nil {
			t.Fatalf("body %d: %v", i, err)
		}
		var out triangles
		for _, p := range m.Points {
			out.Points = append(out.Points, p.X, p.Y, p.Z)
		}
		for _, f := range m.Triangles {
			out.Triangles = append(out.Triangles, f.P[:]...)
		}
		q.Bodies = append(q.Bodies, out)
	}
	text, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(node, folder+"/judge.mjs")
	var said bytes.Buffer
	c.Stdin, c.Stderr = bytes.NewReader(text), &said
	answer, err := c.Output()
	if err != nil {
		t.Fatalf("the mesh library: %v\n%s", err, said.Bytes())
	}
	var v verdict
	if err := json.Unmarshal(answer, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// surface returns the area of a box's faces, to which errors of a volume are in
// proportion.
func surface(b r3.Box) float64 {
	s := b.Size()
	return 2 * (s.X*s.Y + s.Y*s.Z + s.Z*s.X)
}

// compare holds our answers to the library's: volumes of the bodies, what pairs
// share, and the least gap. Digits is what the library's numbers are good for, mm;
// share how far the faces of what a pair shares may be off, mm.
func compare(t *testing.T, name string, bodies []*solid.Ready, pairs [][2]int, digits, share float64) {
	t.Helper()
	const chord, reach = 0.01, 20.0
	v := judged(t, bodies, pairs, chord, reach)
	for i, b := range v.Bodies {
		mine := bodies[i].Volume()
		if slack := (chord + digits) * surface(bodies[i].Box()); b.Status != "NoError" || math.Abs(b.Volume-mine) > slack {
			t.Errorf("%s: body %d: %s, %g mm³, ours has %g", name, i, b.Status, b.Volume, mine)
		}
	}
	shared, apart, worst, most := 0, 0, 0.0, 0.0
	for k, p := range v.Pairs {
		a, b := bodies[pairs[k][0]], bodies[pairs[k][1]]
		s, err := a.Overlap(b)
		if err != nil {
			t.Fatal(err)
		}
		slack := share * surface(s.Box)
		if s.Volume == 0 { // faces that touch may cross by a digit
			slack = 0.1 * digits * min(surface(a.Box()), surface(b.Box()))
			most = max(most, p.Volume/min(surface(a.Box()), surface(b.Box())))
		}
		if s.Volume > 0 {
			worst = max(worst, math.Abs(s.Volume-p.Volume)/surface(s.Box))
		}
		if math.Abs(s.Volume-p.Volume) > slack {
			t.Errorf("%s: bodies %v share %g mm³, the library says %g (within %g)", name, pairs[k], s.Volume, p.Volume, slack)
		}
		if d := min(a.Distance(b).Distance, reach); math.Abs(d-p.Gap) > 2*chord+digits {
			t.Errorf("%s: bodies %v are %g apart, the library says %g", name, pairs[k], d, p.Gap)
		}
		if s.Volume > 1 {
			shared++
		}
		if p.Gap > 0.1 && p.Gap < reach {
			apart++
		}
	}
	t.Logf("%s: %d bodies, %d pairs: %d share something (off by %.5f mm at most), %d are apart; where nothing is shared %.6f mm", name, len(bodies), len(pairs), shared, worst, apart, most)
	if shared < len(pairs)/50 || apart == 0 {
		t.Errorf("%s: %d pairs that share and %d apart: too few to prove anything", name, shared, apart)
	}
}

// The parts of each example as they stand, and once more each shifted a little,
// so that they reach into each other.
func TestExamplesAgainstAMeshLibrary(t *testing.T) {
	for _, name := range examples {
		p := built(t, name)
		var bodies []*solid.Ready
		for _, shift := range []float64{0, 0.1} {
			for i, q := range p.Parts {
				b, err := piece.Solid(q, 0)
				if err != nil {
					t.Fatal(err)
				}
				k := float64(i%5 - 2)
				b.Pose.O = b.Pose.O.Add(r3.Vec{X: shift * k, Y: shift * (1.5 - k), Z: -shift * k})
				bodies = append(bodies, solid.Prepare(b))
			}
		}
		n := len(p.Parts)
		var pairs [][2]int
		for i := range n {
			for j := range i {
				pairs = append(pairs, [2]int{i, j}, [2]int{n + i, n + j})
			}
		}
		compare(t, name, bodies, pairs, 3e-4, 2e-4) // seven digits of 1500 mm, twice
	}
}

// Random panels with random cuts, some sawn off obliquely, thrown on a heap.
func TestRandomBodiesAgainstAMeshLibrary(t *testing.T) {
	lots := rand.New(rand.NewPCG(7, 11))
	span := func(lo, hi float64) float64 { return lo + (hi-lo)*lots.Float64() }
	var bodies []*solid.Ready
	for range 20 {
		outline := planar.MustParse("M 0 0 L 80 0 L 80 40 A 20 60 60 L 20 60 A -20 0 40 Z")
		var cuts []solid.Pocket
		for range lots.IntN(5) {
			c := solid.Pocket{Region: planar.Disc(r2.Vec{X: span(0, 80), Y: span(0, 60)}, span(2, 18)), Depth: span(2, 16), Face: solid.A}
			if lots.IntN(2) == 0 {
				x := span(-10, 70)
				c.Region, c.Face = planar.Rect(x, -5, x+span(3, 30), 65), solid.B
			}
			cuts = append(cuts, c)
		}
		u := r3.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(-1, 1)}.Unit()
		v := u.Cross(r3.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(-1, 1)}).Unit()
		pose := r3.Pose{O: r3.Vec{X: span(-60, 60), Y: span(-60, 60), Z: span(-60, 60)}, X: u, Y: v, Z: u.Cross(v)}
		if lots.IntN(4) == 0 {
			pose.X, pose.Y, pose.Z = r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
		}
		b, err := solid.Panel(pose, outline, 18, cuts)
		if err != nil {
			t.Fatal(err)
		}
		for range lots.IntN(3) { // sawn off obliquely, in the middle or across a corner
			at := b.Pose.At(r3.Vec{X: span(20, 60), Y: span(10, 50), Z: span(0, 18)})
			b = b.CutBy(at, r3.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(-1, 1)})
		}
		bodies = append(bodies, solid.Prepare(b))
	}
	var pairs [][2]int
	for i := range bodies {
		for j := range i {
			pairs = append(pairs, [2]int{i, j})
		}
	}
	compare(t, "random", bodies, pairs, 5e-5, 2e-3) // a fifth of the chord on curved faces
}
