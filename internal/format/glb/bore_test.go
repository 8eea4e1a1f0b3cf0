package glb_test

import (
	"math"
	"testing"

	"rodwork/internal/format/glb"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Holes into edges, blind and through, leave a mesh that holds what the body has
// less the holes, and looks outwards.
func TestBores(t *testing.T) {
	b, err := solid.Panel(r3.Identity(), planar.Rect(0, 0, 300, 100), 18, []solid.Pocket{{Region: planar.Rect(100, -1, 118, 101), Face: solid.A, Depth: 6}})
	if err != nil {
		t.Fatal(err)
	}
	bores := []solid.Bore{
		{At: r3.Vec{Y: 30, Z: 9}, Into: r3.Vec{X: 1}, Radius: 4, Depth: 25},
		{At: r3.Vec{X: 300, Y: 30, Z: 12}, Into: r3.Vec{X: -1}, Radius: 4, Depth: 25}, // over the housing's level
		{At: r3.Vec{X: 50, Z: 9}, Into: r3.Vec{Y: 1}, Radius: 3, Depth: 100, Through: true},
	}
	want := b.Volume()
	for _, h := range bores {
		want -= math.Pi * h.Radius * h.Radius * h.Depth
	}
	meshes, err := glb.Meshes(b, 0.01, paint, bores...)
	if err != nil {
		t.Fatal(err)
	}
	if got := volume(meshes); math.Abs(got-want) > 60 { // 0.01 mm on the holes' walls
		t.Errorf("%.1f mm³, want %.1f; without holes %.1f", got, want, b.Volume())
	}
	looks(t, meshes)
}

func TestSawnMeshes(t *testing.T) {
	b, err := solid.Panel(r3.Identity(), planar.Rect(-50, 0, 500, 45), 40, nil)
	if err != nil {
		t.Fatal(err)
	}
	b = b.CutBy(r3.Vec{}, r3.Vec{X: -1, Y: 0.1, Z: 0.2}).CutBy(r3.Vec{X: 400}, r3.Vec{X: 1, Y: -0.1, Z: -0.2})
	meshes, err := glb.Meshes(b, 0.1, paint)
	if err != nil {
		t.Fatal(err)
	}
	if got := volume(meshes); math.Abs(got-b.Volume()) > 1e-6*got {
		t.Errorf("%.3f mm³, want %.3f", got, b.Volume())
	}
	looks(t, meshes)
}

// looks checks that no triangle looks away from its normals.
func looks(t *testing.T, meshes []glb.Mesh) {
	t.Helper()
	for _, m := range meshes {
		for _, tr := range m.Triangles {
			p, q, s := m.Positions[tr[0]], m.Positions[tr[1]], m.Positions[tr[2]]
			n := q.Sub(p).Cross(s.Sub(p))
			for _, i := range tr {
				if n.Dot(m.Normals[i]) <= 0 {
					t.Fatalf("a triangle looks away from its normal: %v %v %v", p, q, s)
				}
			}
		}
	}
}
