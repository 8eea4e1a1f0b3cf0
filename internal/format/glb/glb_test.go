package glb_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/glb"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/judge"
)

const chord = 0.1

func paint(f glb.Facet) int {
	if f.Cap {
		return 0
	}
	return 1
}

// panels draws panels with holes and housings that meet and overlap.
var panels = rapid.Custom(func(t *rapid.T) solid.Body {
	var pockets []solid.Pocket
	at := func(limit int, what string) float64 {
		return float64(10 * rapid.IntRange(-1, limit/10+1).Draw(t, what))
	}
	for range rapid.IntRange(0, 12).Draw(t, "pockets") {
		p := solid.Pocket{Face: rapid.SampledFrom([]solid.Side{solid.A, solid.B}).Draw(t, "face"),
			Depth: rapid.SampledFrom([]float64{3, 6, 9, 18}).Draw(t, "depth")}
		x, y := at(300, "x"), at(200, "y")
		if rapid.Bool().Draw(t, "round") {
			p.Region = planar.Disc(r2.Vec{X: x, Y: y}, rapid.SampledFrom([]float64{2.5, 10, 17.5}).Draw(t, "radius"))
		} else {
			p.Region = planar.Rect(x, y, at(300, "x1"), at(200, "y1"))
		}
		if len(p.Region) > 0 {
			pockets = append(pockets, p)
		}
	}
	b, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 300, 200), 18, pockets)
	if err != nil || b.Volume() < 1 {
		t.Skip("nothing left")
	}
	return b
})

// volume is what triangles run round, mm³.
func volume(meshes []glb.Mesh) float64 {
	v := 0.0
	for _, m := range meshes {
		for _, t := range m.Triangles {
			a, b, c := m.Positions[t[0]], m.Positions[t[1]], m.Positions[t[2]]
			v += a.Dot(b.Cross(c)) / 6
		}
	}
	return v
}

// The triangles enclose exactly the body with chords for its arcs, and each
// looks the way its normals do.
func TestMeshes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := panels.Draw(t, "panel")
		meshes, err := glb.Meshes(b, chord, paint)
		if err != nil {
			t.Fatal(err)
		}
		flat := b
		flat.Slabs = nil
		for _, s := range b.Slabs {
			flat.Slabs = append(flat.Slabs, solid.Slab{Region: s.Region.Flatten(chord), Z0: s.Z0, Z1: s.Z1})
		}
		// Where two slabs' arcs are cut at other places, their chords differ.
		if got, want := volume(meshes), flat.Volume(); math.Abs(got-want) > 1e-9*want+2*chord*arcs(b) {
			t.Fatalf("volume %.6f, want %.6f", got, want)
		} else if arcs(b) == 0 && math.Abs(got-want) > 1e-9*want {
			t.Fatalf("volume %.6f, want %.6f", got, want)
		}
		for _, m := range meshes {
			for _, tr := range m.Triangles {
				p, q, s := m.Positions[tr[0]], m.Positions[tr[1]], m.Positions[tr[2]]
				n := q.Sub(p).Cross(s.Sub(p))
				for _, i := range tr {
					if d := n.Dot(m.Normals[i]); d <= 0 {
						t.Fatalf("a triangle looks away from its normal: %v %v %v", p, q, s)
					}
				}
			}
		}
	})
}

func arcs(b solid.Body) float64 {
	l := 0.0
	for _, s := range b.Slabs {
		for lp := range s.Region.All {
			for i := range lp {
				if e := lp.Edge(i); e.IsArc() {
					l += e.Len()
				}
			}
		}
	}
	return l
}

// sample is a side with holes and a shelf, each in its pose.
func sample(t testing.TB) glb.Scene {
	t.Helper()
	var pockets []solid.Pocket
	for i := range 12 {
		pockets = append(pockets, solid.Pocket{Region: planar.Disc(r2.Vec{X: 40 + 32*float64(i), Y: 37}, 2.5), Face: solid.A, Depth: 11})
	}
	side, err := solid.Panel(r3.Pose{O: r3.Vec{X: 18, Z: 300}, X: r3.Vec{Y: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: -1}}, planar.Rect(0, 0, 700, 300), 18, pockets)
	if err != nil {
		t.Fatal(err)
	}
	s := math.Sqrt2 / 2
	shelf := solid.Body{Pose: r3.Pose{O: r3.Vec{X: 18, Y: 200}, X: r3.Vec{X: s, Y: s}, Y: r3.Vec{X: -s, Y: s}, Z: r3.Vec{Z: 1}},
		Slabs: []solid.Slab{{Region: planar.Rect(0, 0, 400, 18), Z0: 10, Z1: 290}}}
	scene := glb.Scene{Name: "Seed shelf", Materials: []glb.Material{{Name: "face", Color: [3]float64{0.9, 0.8, 0.6}}, {Name: "edge", Color: [3]float64{0.6, 0.4, 0.3}}}}
	for i, b := range []solid.Body{side, shelf} {
		m, err := glb.Meshes(b, chord, paint)
		if err != nil {
			t.Fatal(err)
		}
		scene.Nodes = append(scene.Nodes, glb.Node{Name: []string{"side", "shelf <\u2028&>"}[i], Pose: b.Pose, Meshes: m,
			Extras: struct {
				Part   string `json:"part"`
				Number int    `json:"number"`
			}{[]string{"side", "shelf"}[i], i + 1}})
	}
	return scene
}

// report is what the standard's own validator says.
type report struct {
	File                             string
	NumErrors, NumWarnings, NumInfos int
	Messages                         []struct{ Code, Message, Pointer string }
	Info                             struct{ TotalTriangleCount, DrawCallCount, MaterialCount int }
}

func TestTheStandardsValidator(t *testing.T) {
	dir := t.TempDir()
	scenes := []glb.Scene{sample(t)}
	for seed := range 10 {
		m, err := glb.Meshes(panels.Example(seed), chord, paint)
		if err != nil {
			t.Fatal(err)
		}
		s := scenes[0]
		s.Nodes = []glb.Node{{Name: "panel", Pose: r3.Identity(), Meshes: m}}
		scenes = append(scenes, s)
	}
	var names []string
	for i, s := range scenes {
		f, err := glb.Render(s)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, filepath.Join(dir, fmt.Sprintf("%d.glb", i)))
		if err := os.WriteFile(names[i], f, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var got []report
	judge.Node(t, "gltf-validator", "glb.mjs", &got, names...)
	for i, r := range got {
		if r.NumErrors+r.NumWarnings+r.NumInfos > 0 {
			t.Errorf("%d: %d errors, %d warnings, %d remarks: %+v", i, r.NumErrors, r.NumWarnings, r.NumInfos, r.Messages)
		}
	}
	want := 0
	for _, n := range scenes[0].Nodes {
		for _, m := range n.Meshes {
			want += len(m.Triangles)
		}
	}
	if got[0].Info.TotalTriangleCount != want || got[0].Info.DrawCallCount != 4 || got[0].Info.MaterialCount != 2 {
		t.Errorf("%+v, want %d triangles", got[0].Info, want)
	}
}

// Read back without our writer's help, the things stand where they stood, in
// metres.
func TestReadBack(t *testing.T) {
	s := sample(t)
	f, err := glb.Render(s)
	if err != nil {
		t.Fatal(err)
	}
	again, err := glb.Render(sample(t))
	if err != nil || !bytes.Equal(f, again) {
		t.Error("two runs differ", err)
	}
	n := binary.LittleEndian.Uint32(f[12:])
	var doc struct {
		Nodes []struct {
			Name        string
			Mesh        *int
			Translation [3]float64
			Rotation    *[4]float64
			Extras      map[string]any
		}
		Meshes []struct {
			Primitives []struct{ Attributes struct{ POSITION int } }
		}
		Accessors   []struct{ BufferView, Count int }
		BufferViews []struct{ ByteOffset int }
	}
	if err := json.Unmarshal(f[20:20+n], &doc); err != nil {
		t.Fatal(err)
	}
	data := f[20+n+8:]
	for i, want := range s.Nodes {
		got := doc.Nodes[i+1]
		if got.Name != want.Name || got.Extras["number"] != float64(i+1) {
			t.Errorf("node %d is %+v", i, got)
		}
		for k, p := range doc.Meshes[*got.Mesh].Primitives {
			a := doc.Accessors[p.Attributes.POSITION]
			at := doc.BufferViews[a.BufferView].ByteOffset
			for j := range a.Count {
				var v [3]float64
				for c := range v {
					v[c] = float64(math.Float32frombits(binary.LittleEndian.Uint32(data[at+12*j+4*c:])))
				}
				q := [4]float64{0, 0, 0, 1}
				if got.Rotation != nil {
					q = *got.Rotation
				}
				p := turned(q, r3.Vec{X: v[0], Y: v[1], Z: v[2]}).Add(r3.Vec{X: got.Translation[0], Y: got.Translation[1], Z: got.Translation[2]}).Mul(1000)
				if w := want.Pose.At(want.Meshes[k].Positions[j]); p.Sub(w).Len() > 0.001 {
					t.Fatalf("%s: a corner stands at %v, want %v", got.Name, p, w)
				}
			}
		}
	}
}

// turned turns a vector by a quaternion: v + 2w(u×v) + 2u×(u×v).
func turned(q [4]float64, v r3.Vec) r3.Vec {
	u := r3.Vec{X: q[0], Y: q[1], Z: q[2]}
	c := u.Cross(v).Mul(2)
	return v.Add(c.Mul(q[3])).Add(u.Cross(c))
}

func TestRefusals(t *testing.T) {
	good := sample(t)
	tri := func(change func(*glb.Mesh)) glb.Scene {
		m := glb.Mesh{Positions: []r3.Vec{{}, {X: 1}, {Y: 1}}, Normals: []r3.Vec{{Z: 1}, {Z: 1}, {Z: 1}}, Triangles: [][3]int{{0, 1, 2}}}
		change(&m)
		return glb.Scene{Materials: good.Materials, Nodes: []glb.Node{{Pose: r3.Identity(), Meshes: []glb.Mesh{m}}}}
	}
	for name, s := range map[string]glb.Scene{
		"no triangle":       {},
		"no such material":  tri(func(m *glb.Mesh) { m.Material = 2 }),
		"no such corner":    tri(func(m *glb.Mesh) { m.Triangles[0][1] = 3 }),
		"a normal missing":  tri(func(m *glb.Mesh) { m.Normals = m.Normals[:2] }),
		"not a number":      tri(func(m *glb.Mesh) { m.Positions[1].X = math.NaN() }),
		"infinitely far":    tri(func(m *glb.Mesh) { m.Positions[1].X = math.Inf(1) }),
		"extras not a JSON": {Materials: good.Materials, Nodes: []glb.Node{{Pose: r3.Identity(), Meshes: good.Nodes[0].Meshes, Extras: func() {}}}},
	} {
		if _, err := glb.Render(s); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := glb.Render(tri(func(*glb.Mesh) {})); err != nil {
		t.Errorf("one triangle: %v", err)
	}
}
