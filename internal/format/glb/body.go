package glb

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Facet is a piece of a body's boundary, by which its material is chosen.
type Facet struct {
	Cap    bool    // flat, level in the body's frame; else a wall, upright in it
	Up     bool    // of a cap: it looks up
	Round  bool    // of a wall: part of a cylinder
	Length float64 // of a wall, level, mm
}

// Meshes returns the boundary of a body in its own frame, one mesh for each
// material that paint gives to its facets. No triangle lies further than chord
// mm from the body; walls over arcs have the normals of the cylinder.
// Bores are shown where their mouths lie in walls.
func Meshes(b solid.Body, chord float64, paint func(Facet) int, bores ...solid.Bore) ([]Mesh, error) {
	m := mesher{chord: chord, paint: paint, at: map[int]int{}, bores: bores}
	if len(b.Within) > 0 {
		return m.sawn(b)
	}
	for _, s := range b.Slabs {
		for l := range s.Region.All {
			for i := range l {
				m.wall(l.Edge(i), s.Z0, s.Z1)
			}
		}
	}
	b.Pose = r3.Identity()
	skin, err := b.Skin(chord)
	if err != nil {
		return nil, err
	}
	for _, f := range skin.Faces {
		if math.Abs(f.Normal.Z) > 0.5 {
			m.cap(f)
		}
	}
	return m.meshes, nil
}

type mesher struct {
	chord  float64
	paint  func(Facet) int
	meshes []Mesh
	at     map[int]int // by material
	bores  []solid.Bore
}

// mesh returns the mesh for a facet.
func (m *mesher) mesh(f Facet) *Mesh {
	material := m.paint(f)
	i, ok := m.at[material]
	if !ok {
		i = len(m.meshes)
		m.at[material] = i
		m.meshes = append(m.meshes, Mesh{Material: material})
	}
	return &m.meshes[i]
}

func (m *Mesh) corner(p, n r3.Vec) int {
	m.Positions = append(m.Positions, p)
	m.Normals = append(m.Normals, n)
	return len(m.Positions) - 1
}

// wall adds the strips over an edge.
func (m *mesher) wall(e planar.Edge, z0, z1 float64) {
	if e.B.Sub(e.A).Len() < planar.Near {
		return // no direction can be told, and nothing is lost
	}
	if !e.IsArc() && m.bored(e, z0, z1) {
		return
	}
	g := m.mesh(Facet{Round: e.IsArc(), Length: e.Len()})
	n := e.Chords(m.chord)
	var low, high int
	for j := range n + 1 {
		t := float64(j) / float64(n)
		p, d := e.At(t), e.Tangent(t)
		normal := r3.Vec{X: d.Y, Y: -d.X} // material is at the left
		l, h := g.corner(r3.Vec{X: p.X, Y: p.Y, Z: z0}, normal), g.corner(r3.Vec{X: p.X, Y: p.Y, Z: z1}, normal)
		if j > 0 {
			g.Triangles = append(g.Triangles, [3]int{low, l, h}, [3]int{low, h, high})
		}
		low, high = l, h
	}
}

// cap adds a level face, cut into convex cells. They meet the walls along their
// rims, but their corners need not lie where those of the walls do: the
// triangles enclose the body without a gap, but share no corners.
func (m *mesher) cap(f solid.Face) {
	g := m.mesh(Facet{Cap: true, Up: f.Normal.Z > 0})
	side := math.Copysign(1, f.Normal.Z) // seen from below, x is mirrored
	var shape planar.Shape
	for i, l := range f.Loops {
		flat := make(planar.Loop, len(l))
		for k, p := range l {
			flat[k].P = r2.Vec{X: side * p.X, Y: p.Y}
		}
		if i == 0 {
			shape.Outer = flat
		} else {
			shape.Holes = append(shape.Holes, flat)
		}
	}
	z := f.Loops[0][0].Z
	for _, cell := range (planar.Region{shape}).Cells(m.chord) {
		first := len(g.Positions)
		for k, p := range cell {
			g.corner(r3.Vec{X: side * p.X, Y: p.Y, Z: z}, f.Normal)
			if k > 1 {
				g.Triangles = append(g.Triangles, [3]int{first, first + k - 1, first + k})
			}
		}
	}
}
