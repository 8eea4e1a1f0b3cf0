package step

import (
	"errors"
	"math"

	"rodwork/internal/geom/r3"
)

// # Beyond slabs
//
// A boundary of slabs knows level and upright edges only. For a saw that cuts
// aslant and a hole that is bored into an edge it is told once more as faces that
// share edges in space: a brep. A plane cuts its straight edges and its flat
// faces (brepcut.go), a bore goes into one flat face (brepbore.go). A plane that
// runs through a cylinder or through a corner, and a bore that does not lie within
// one face, are refused.

// circle is what an arc lies on; arcs run anticlockwise about its axis.
type circle struct {
	center, axis, x r3.Vec
	radius          float64
}

// link is an edge between two corners, straight where it has no circle.
type link struct {
	a, b   int
	circle *circle
}

// patch is a face: flat where it has no radius.
type patch struct {
	at, normal, x r3.Vec  // of a cylinder: a place on its axis and the axis
	radius        float64 // 0: flat
	hollow        bool
	loops         [][]use // the outer one first; the edges of links
}

// brep is a closed boundary in space.
type brep struct {
	corners []r3.Vec
	links   []link
	patches []patch
}

// brep tells a boundary of slabs as faces in space.
func (b *boundary) brep() *brep {
	out := &brep{}
	number := map[vertex]int{}
	corner := func(v vertex) int {
		i, ok := number[v]
		if !ok {
			i = len(out.corners)
			number[v] = i
			out.corners = append(out.corners, space(b.points.at[v.point], b.heights[v.level]))
		}
		return i
	}
	for _, e := range b.edges {
		l := link{a: corner(e.from), b: corner(e.to)}
		if !e.upright && e.curve.arc {
			l.circle = &circle{space(e.curve.center, b.heights[e.from.level]), up, right, e.curve.radius}
		}
		out.links = append(out.links, l)
	}
	for i, f := range b.faces {
		p := patch{loops: b.bounds[i], x: right}
		z := b.heights[f.loops[0][0].from.level]
		switch c := f.wall.curve; {
		case f.cap && f.up:
			p.at, p.normal = space(f.loops[0][0].piece.edge.A, z), up
		case f.cap:
			p.at, p.normal = space(f.loops[0][0].piece.edge.A, z), up.Mul(-1)
		case !c.arc:
			d := f.wall.edge.B.Sub(f.wall.edge.A).Unit()
			p.at, p.normal, p.x = space(f.wall.edge.A, z), r3.Vec{X: d.Y, Y: -d.X}, up
		default:
			p.at, p.normal, p.radius, p.hollow = space(c.center, z), up, c.radius, f.wall.edge.Bulge < 0
		}
		out.patches = append(out.patches, p)
	}
	return out
}

// shells returns the faces that hang together, each list in order.
func (b *brep) shells() [][]int {
	trees := newForest(len(b.patches))
	by := map[int]int{} // the first face of an edge
	for i, p := range b.patches {
		for _, l := range p.loops {
			for _, u := range l {
				if j, ok := by[u.edge]; ok {
					trees.join(j, i)
				} else {
					by[u.edge] = i
				}
			}
		}
	}
	index := map[int]int{}
	var out [][]int
	for i := range b.patches {
		root := trees.root(i)
		k, ok := index[root]
		if !ok {
			k = len(out)
			index[root] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}

// ends returns the corners from which and to which a face walks an edge.
func (b *brep) ends(u use) (from, to int) {
	l := b.links[u.edge]
	if u.forward {
		return l.a, l.b
	}
	return l.b, l.a
}

// sweep is how far round an arc runs, rad.
func (b *brep) sweep(l link) float64 {
	p, q := b.corners[l.a].Sub(l.circle.center), b.corners[l.b].Sub(l.circle.center)
	t := math.Atan2(l.circle.axis.Dot(p.Cross(q)), p.Dot(q))
	if t <= 1e-9 {
		t += 2 * math.Pi
	}
	return t
}

// along returns a place on an edge, at a share of its way.
func (b *brep) along(l link, t float64) r3.Vec {
	p, q := b.corners[l.a], b.corners[l.b]
	if l.circle == nil {
		return p.Add(q.Sub(p).Mul(t))
	}
	u := p.Sub(l.circle.center)
	s, c := math.Sincos(t * b.sweep(l))
	return l.circle.center.Add(u.Mul(c)).Add(l.circle.axis.Cross(u).Mul(s))
}

var (
	errCurve  = errors.New("step: an oblique cut through a curved face is not written")
	errCorner = errors.New("step: an oblique cut that runs through a corner is not written")
	// ErrBore says that a hole could not be written; without it the body may be.
	ErrBore = errors.New("step: a hole that does not lie within one flat face is not written")
)
