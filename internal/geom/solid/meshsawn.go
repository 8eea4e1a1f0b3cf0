package solid

import (
	"errors"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// # Sawing a mesh
//
// A tight mesh stays tight when a plane cuts it: a side that crosses the plane is
// shared by two triangles, and gets one new corner for both. What is left is open
// along the plane, at just those sides that are walked one way only; walked the
// other way they are the rim of the lid, which is filled with triangles between
// the very same corners. Only where what is left is thinner than planar.Near, or
// a plane is turned against a face by next to nothing, may a side stay open.

// sawn cuts a tight mesh by a plane and closes it.
func (m Mesh) sawn(p plane) (Mesh, error) {
	c := meshCut{in: m, plane: p, kept: map[int]int{}, made: map[[2]int]int{}}
	c.far = make([]float64, len(m.Points))
	beyond := false
	for i, q := range m.Points {
		if c.far[i] = p.over(q); abs(c.far[i]) < planar.Near {
			c.far[i] = 0
		}
		beyond = beyond || c.far[i] > 0
	}
	if !beyond {
		return m, nil
	}
	for _, t := range m.Triangles { // those in the plane first: others are welded to them
		for _, i := range t.P {
			if c.far[i] == 0 {
				c.keep(i)
			}
		}
	}
	for _, t := range m.Triangles {
		c.triangle(t)
	}
	err := c.lid()
	c.out.stitch()
	return c.out, err
}

// meshCut is the work of one plane.
type meshCut struct {
	in, out Mesh
	plane   plane
	far     []float64 // of each corner over the plane; 0: in it
	kept    map[int]int
	made    map[[2]int]int // by the side, its lower corner first
	inPlane []int          // corners that lie in the plane, and those made
}

// weld is how near two corners in the plane may lie and still be one, mm: what
// planar takes for one, and a little more.
const weld = 2 * planar.Near

// rim is a corner of what is left of a triangle.
type rim struct {
	at int
	n  r3.Vec
}

func (c *meshCut) triangle(t Triangle) {
	var left []rim
	flat := 0
	for i := range 3 {
		a, b := t.P[i], t.P[(i+1)%3]
		if c.far[a] == 0 {
			flat++
		}
		if c.far[a] <= 0 {
			left = append(left, rim{c.keep(a), t.N[i]})
		}
		if c.far[a]*c.far[b] < 0 {
			at, s := c.cross(a, b)
			n := t.N[i].Add(t.N[(i+1)%3].Sub(t.N[i]).Mul(s)).Unit()
			left = append(left, rim{at, n})
		}
	}
	if flat == 3 {
		return // the lid is there
	}
	for i := 2; i < len(left); i++ {
		p, q, r := left[0], left[i-1], left[i]
		if p.at == q.at || q.at == r.at || r.at == p.at {
			continue
		}
		c.out.Triangles = append(c.out.Triangles, Triangle{[3]int{p.at, q.at, r.at}, [3]r3.Vec{p.n, q.n, r.n}})
	}
}

func (c *meshCut) keep(i int) int {
	j, ok := c.kept[i]
	if !ok {
		j = len(c.out.Points)
		if c.far[i] == 0 {
			j = c.corner(c.in.Points[i])
		} else {
			c.out.Points = append(c.out.Points, c.in.Points[i])
		}
		c.kept[i] = j
	}
	return j
}

// cross returns the new corner on a side, and its share of the way from a to b.
func (c *meshCut) cross(a, b int) (at int, share float64) {
	share = c.far[a] / (c.far[a] - c.far[b])
	key := [2]int{min(a, b), max(a, b)}
	at, ok := c.made[key]
	if !ok {
		p, q := c.in.Points[key[0]], c.in.Points[key[1]]
		s := c.far[key[0]] / (c.far[key[0]] - c.far[key[1]])
		at = c.corner(p.Add(q.Sub(p).Mul(s)))
		c.made[key] = at
	}
	return at, share
}

// corner returns a corner in the plane, one that is there already where it is
// near.
func (c *meshCut) corner(p r3.Vec) int {
	for _, k := range c.inPlane {
		if c.out.Points[k].Sub(p).Len() <= weld {
			return k
		}
	}
	c.out.Points = append(c.out.Points, p)
	c.inPlane = append(c.inPlane, len(c.out.Points)-1)
	return len(c.out.Points) - 1
}

var errOpen = errors.New("solid: a cut mesh could not be closed")

// lid closes the mesh along the plane.
func (c *meshCut) lid() error {
	loops := c.open()
	if len(loops) == 0 {
		return nil
	}
	u, v := across(c.plane.n)
	var region planar.Region
	number := map[r2.Vec]int{}
	for _, l := range loops {
		loop := make(planar.Loop, len(l))
		for i, k := range l {
			p := c.out.Points[k]
			loop[i].P = r2.Vec{X: p.Dot(u), Y: p.Dot(v)}
			if _, ok := number[loop[i].P]; !ok {
				number[loop[i].P] = k
			}
		}
		region = append(region, planar.Shape{Outer: loop})
	}
	w, err := planar.Woven(1, region)
	if err != nil {
		return err
	}
	tris, err := w.Difference(0, -1)
	if err != nil {
		return err
	}
	n := [3]r3.Vec{c.plane.n, c.plane.n, c.plane.n}
	for _, t := range tris {
		var ps [3]int
		for i, k := range t {
			at, ok := number[w.Points[k]]
			if !ok {
				return errOpen
			}
			ps[i] = at
		}
		c.out.Triangles = append(c.out.Triangles, Triangle{ps, n})
	}
	return nil
}

// open returns the loops along which the mesh is open, as the lid walks them.
func (c *meshCut) open() [][]int {
	count := map[[2]int]int{}
	for _, t := range c.out.Triangles {
		for i := range 3 {
			count[[2]int{t.P[i], t.P[(i+1)%3]}]++
		}
	}
	next := map[int][]int{}
	var order []int
	for _, t := range c.out.Triangles {
		for i := range 3 {
			a, b := t.P[i], t.P[(i+1)%3]
			if count[[2]int{b, a}] == 0 {
				next[b] = append(next[b], a)
				order = append(order, b)
			}
		}
	}
	var loops [][]int
	for _, start := range order {
		var l []int
		for at := start; len(next[at]) > 0; {
			to := next[at][0]
			next[at] = next[at][1:]
			l = append(l, at)
			at = to
		}
		if len(l) > 2 {
			loops = append(loops, l)
		}
	}
	return loops
}
