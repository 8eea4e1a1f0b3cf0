package glb

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// sawn is Meshes for a body with oblique ends: its tight mesh, by what its
// triangles look at. What was sawn is a wall.
func (m *mesher) sawn(b solid.Body) ([]Mesh, error) {
	b.Pose = r3.Identity()
	mesh, err := b.Mesh(m.chord)
	if err != nil {
		return nil, err
	}
	for _, t := range mesh.Triangles {
		p, q, r := mesh.Points[t.P[0]], mesh.Points[t.P[1]], mesh.Points[t.P[2]]
		n := q.Sub(p).Cross(r.Sub(p))
		if n.Len() < planar.Near {
			continue
		}
		up := n.Unit().Z
		f := Facet{Cap: math.Abs(up) > 1-1e-9, Up: up > 0, Round: t.N[0] != t.N[1] || t.N[1] != t.N[2]}
		if !f.Cap {
			f.Length = math.Max(q.Sub(p).Len(), math.Max(r.Sub(q).Len(), p.Sub(r).Len()))
		}
		g := m.mesh(f)
		g.Triangles = append(g.Triangles, [3]int{g.corner(p, t.N[0]), g.corner(q, t.N[1]), g.corner(r, t.N[2])})
	}
	return m.meshes, nil
}

// bored is wall for a flat wall in which bores have their mouths or, where they go
// through, their ends; it reports whether there are any.
func (m *mesher) bored(e planar.Edge, z0, z1 float64) bool {
	d := e.B.Sub(e.A)
	along := r3.Vec{X: d.X, Y: d.Y}.Unit()
	out := r3.Vec{X: along.Y, Y: -along.X}
	origin := r3.Vec{X: e.A.X, Y: e.A.Y}
	plan := planar.Rect(0, z0, d.Len(), z1)
	left := plan
	for _, h := range m.bores {
		if math.Abs(math.Abs(h.Into.Dot(out))-1) > 1e-9 {
			continue
		}
		far := h.At.Sub(origin).Dot(out)
		mouth := math.Abs(far) < 1e-4 && h.Into.Dot(out) < 0
		end := h.Through && h.Into.Dot(out) > 0 && math.Abs(far+h.Depth) < 1e-4
		at := r2.Vec{X: h.At.Sub(origin).Dot(along), Y: h.At.Z}
		if !mouth && !end {
			continue
		}
		cut, err := planar.Difference(left, planar.Disc(at, h.Radius))
		if err != nil || math.Abs(cut.Area()-left.Area()) < planar.Near {
			continue
		}
		left = cut
		if mouth && z0 <= at.Y && at.Y < z1 {
			m.tube(h, along)
		}
	}
	if math.Abs(left.Area()-plan.Area()) < planar.Near {
		return false
	}
	g := m.mesh(Facet{Length: d.Len()})
	for _, cell := range left.Cells(m.chord) {
		first := len(g.Positions)
		for k, p := range cell {
			g.corner(origin.Add(along.Mul(p.X)).Add(r3.Vec{Z: p.Y}), out)
			if k > 1 {
				g.Triangles = append(g.Triangles, [3]int{first, first + k - 1, first + k})
			}
		}
	}
	return true
}

// tube adds the wall of a bore, and its floor where it has one.
func (m *mesher) tube(h solid.Bore, x r3.Vec) {
	y := h.Into.Cross(x)
	g := m.mesh(Facet{Round: true, Length: 2 * math.Pi * h.Radius})
	n := planar.Circle(r2.Vec{}, h.Radius).Edge(0).Chords(m.chord) * 2
	deep := h.Into.Mul(h.Depth)
	var low, high int
	for k := range n + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		d := x.Mul(c).Add(y.Mul(s))
		p := h.At.Add(d.Mul(h.Radius))
		l, t := g.corner(p, d.Mul(-1)), g.corner(p.Add(deep), d.Mul(-1))
		if k > 0 { // seen from the axis
			g.Triangles = append(g.Triangles, [3]int{low, high, t}, [3]int{low, t, l})
		}
		low, high = l, t
	}
	if h.Through {
		return
	}
	out := h.Into.Mul(-1)
	centre := g.corner(h.At.Add(deep), out)
	first := len(g.Positions)
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		g.corner(h.At.Add(deep).Add(x.Mul(h.Radius*c)).Add(y.Mul(h.Radius*s)), out)
	}
	for k := range n {
		g.Triangles = append(g.Triangles, [3]int{centre, first + (k+1)%n, first + k})
	}
}
