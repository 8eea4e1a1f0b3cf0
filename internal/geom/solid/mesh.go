package solid

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Mesh is a body's boundary in triangles. It is tight: corners are shared, and
// each side of a triangle is walked once each way by its neighbours.
type Mesh struct {
	Points    []r3.Vec
	Triangles []Triangle
}

// Triangle is told by its corners, anticlockwise as seen from outside. N are the
// outward normals there: on a cylinder those of the cylinder, not of the chord,
// so that it can be shaded smooth.
type Triangle struct {
	P [3]int
	N [3]r3.Vec
}

// Mesh returns the boundary of the body in triangles, no chord further than the
// given length, mm, from the arc that it stands for. Flat-sided bodies have
// their exact volume.
func (b Body) Mesh(chord float64) (Mesh, error) {
	regions := make([]planar.Region, len(b.Slabs))
	for i, s := range b.Slabs {
		regions[i] = s.Region
	}
	w, err := planar.Woven(chord, regions...)
	if err != nil {
		return Mesh{}, err
	}
	m := mesher{pose: b.Pose, weave: w, at: map[corner]int{}}
	for i, s := range b.Slabs {
		below, above := -1, -1 // the slabs that this one meets
		if i > 0 && s.Z0-b.Slabs[i-1].Z1 <= planar.Near {
			below = i - 1
		}
		if i+1 < len(b.Slabs) && b.Slabs[i+1].Z0-s.Z1 <= planar.Near {
			above = i + 1
		}
		low := m.level(s.Z0, below >= 0)
		high := m.level(s.Z1, false)
		if err := m.cap(i, below, low, false); err != nil {
			return Mesh{}, err
		}
		m.walls(w.Regions[i], low, high)
		if err := m.cap(i, above, high, true); err != nil {
			return Mesh{}, err
		}
	}
	for _, p := range b.saws() {
		if m.Mesh, err = m.Mesh.sawn(p); err != nil {
			return Mesh{}, err
		}
	}
	return m.Mesh, nil
}

// corner is a point of the weave at a level.
type corner struct{ point, level int }

type mesher struct {
	Mesh
	pose    r3.Pose
	weave   planar.Weave
	heights []float64
	at      map[corner]int
}

// level returns the index of a height, that of the last one where it is the same.
func (m *mesher) level(z float64, same bool) int {
	if !same {
		m.heights = append(m.heights, z)
	}
	return len(m.heights) - 1
}

func (m *mesher) point(p, level int) int {
	c := corner{p, level}
	i, ok := m.at[c]
	if !ok {
		i = len(m.Points)
		m.at[c] = i
		q := m.weave.Points[p]
		m.Points = append(m.Points, m.pose.At(r3.Vec{X: q.X, Y: q.Y, Z: m.heights[level]}))
	}
	return i
}

// cap adds what is in region a and not in b, at a level, looking up or down.
func (m *mesher) cap(a, b, level int, up bool) error {
	tris, err := m.weave.Difference(a, b)
	if err != nil {
		return err
	}
	n := m.pose.Z
	if !up {
		n = n.Mul(-1)
	}
	for _, t := range tris {
		if !up {
			t[1], t[2] = t[2], t[1]
		}
		m.Triangles = append(m.Triangles, Triangle{
			P: [3]int{m.point(t[0], level), m.point(t[1], level), m.point(t[2], level)},
			N: [3]r3.Vec{n, n, n},
		})
	}
	return nil
}

// walls stands the sides of a region up between two levels.
func (m *mesher) walls(sides []planar.Side, low, high int) {
	for _, s := range sides {
		a, b := m.normals(s)
		p, q := m.point(s.From, low), m.point(s.To, low)
		r, t := m.point(s.To, high), m.point(s.From, high)
		m.Triangles = append(m.Triangles,
			Triangle{[3]int{p, q, r}, [3]r3.Vec{a, b, b}},
			Triangle{[3]int{p, r, t}, [3]r3.Vec{a, b, a}})
	}
}

// normals returns the outward normals at the ends of a side: to its right, and
// on a cylinder along the radius.
func (m *mesher) normals(s planar.Side) (a, b r3.Vec) {
	p, q := m.weave.Points[s.From], m.weave.Points[s.To]
	d := q.Sub(p).Unit()
	right := r2.Vec{X: d.Y, Y: -d.X}
	dir := func(v r2.Vec) r3.Vec { return m.pose.Dir(r3.Vec{X: v.X, Y: v.Y}) }
	if !s.Round {
		return dir(right), dir(right)
	}
	u, v := p.Sub(s.Center).Unit(), q.Sub(s.Center).Unit()
	if u.Dot(right) < 0 { // a hollow
		u, v = u.Mul(-1), v.Mul(-1)
	}
	return dir(u), dir(v)
}

// Volume returns the volume that the triangles hold, mm³.
func (m Mesh) Volume() float64 {
	v := 0.0
	for _, t := range m.Triangles {
		v += m.Points[t.P[0]].Dot(m.Points[t.P[1]].Cross(m.Points[t.P[2]]))
	}
	return v / 6
}
