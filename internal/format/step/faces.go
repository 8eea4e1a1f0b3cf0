package step

import (
	"math"

	"rodwork/internal/geom/r2"
)

// face is a flat or round piece of the boundary.
type face struct {
	loops [][]half // the outer one first
	// One of these: a cap that looks up or down, or a wall.
	cap   bool
	up    bool
	level int
	wall  piece // one of its pieces; it runs with the material on its left
}

// forest is a union-find.
type forest []int

func newForest(n int) forest {
	f := make(forest, n)
	for i := range f {
		f[i] = i
	}
	return f
}

func (f forest) root(i int) int {
	for f[i] != i {
		f[i] = f[f[i]]
		i = f[i]
	}
	return i
}

// join makes two trees one; the lower number stays the root.
func (f forest) join(i, j int) {
	i, j = f.root(i), f.root(j)
	f[max(i, j)] = min(i, j)
}

// grow is step 2: it returns all faces, walls first.
func (o *outline) grow() ([]face, error) {
	sides, trees := o.cells()
	index := map[int]int{} // of a tree's face
	var faces []face
	left := map[int][]half{}
	for i, w := range o.walls {
		root := trees.root(i)
		if _, ok := index[root]; !ok {
			index[root] = len(faces)
			faces = append(faces, face{wall: w.piece})
		}
		left[index[root]] = append(left[index[root]], sides[i]...)
	}
	for i := range faces {
		loops, err := o.trace(left[i])
		if err != nil {
			return nil, err
		}
		if faces[i].loops, err = o.outerFirst(loops, faces[i].wall); err != nil {
			return nil, err
		}
	}
	for _, c := range o.caps {
		faces = append(faces, c.face())
	}
	for i, f := range faces {
		for _, l := range f.loops {
			for k := range l {
				l[k].face = i
			}
		}
	}
	return faces, nil
}

// cells returns the sides of each wall's cell that are left when cells of the
// same plane or cylinder have grown together, and which have.
func (o *outline) cells() (sides [][]half, trees forest) {
	trees = newForest(len(o.walls))
	sides = make([][]half, len(o.walls))
	type end struct{ point, level int } // an upright's foot
	starts := map[end][]int{}
	feet := map[[5]int]int{} // walls by the piece that they stand on
	for i, w := range o.walls {
		starts[end{w.piece.a, w.lo}] = append(starts[end{w.piece.a, w.lo}], i)
		feet[half{from: vertex{w.piece.a, w.lo}, to: vertex{w.piece.b, w.lo}, piece: w.piece}.key()] = i
	}
	gone := make([][4]bool, len(o.walls)) // bottom, right, top, left
	for i, w := range o.walls {
		if next := starts[end{w.piece.b, w.lo}]; len(next) == 1 && runsOn(w.piece, o.walls[next[0]].piece) {
			gone[i][1], gone[next[0]][3] = true, true
			trees.join(i, next[0])
		}
		top := half{from: vertex{w.piece.a, w.hi}, to: vertex{w.piece.b, w.hi}, piece: w.piece}
		if j, ok := feet[top.key()]; ok && j != i && o.walls[j].piece.a == w.piece.a && o.walls[j].piece.curve == w.piece.curve {
			gone[i][2], gone[j][0] = true, true
			trees.join(i, j)
		}
	}
	for i, w := range o.walls {
		all := w.sides()
		for k, h := range all {
			if !gone[i][k] {
				sides[i] = append(sides[i], h)
			}
		}
	}
	return sides, trees
}

// sides returns bottom, right, top and left of a cell, as seen from outside.
func (w wall) sides() [4]half {
	p := w.piece
	return [4]half{
		{from: vertex{p.a, w.lo}, to: vertex{p.b, w.lo}, piece: p},
		{from: vertex{p.b, w.lo}, to: vertex{p.b, w.hi}, upright: true},
		{from: vertex{p.b, w.hi}, to: vertex{p.a, w.hi}, piece: p.reverse()},
		{from: vertex{p.a, w.hi}, to: vertex{p.a, w.lo}, upright: true},
	}
}

// runsOn tells whether the wall over p goes on in that over q, which starts
// where p ends.
func runsOn(p, q piece) bool {
	c := p.curve
	if c != q.curve {
		return false
	}
	if !c.arc {
		return p.edge.B.Sub(p.edge.A).Dot(q.edge.B.Sub(q.edge.A)) > 0
	}
	return p.edge.Bulge*q.edge.Bulge > 0 && q.a != c.seams[0] && q.a != c.seams[1]
}

// face makes a face of a cap.
func (c cover) face() face {
	f := face{cap: true, up: c.up, level: c.level}
	for _, ps := range c.loops {
		var l []half
		for i := range ps {
			p := ps[i]
			if !c.up { // seen from below
				p = ps[len(ps)-1-i].reverse()
			}
			l = append(l, half{from: vertex{p.a, c.level}, to: vertex{p.b, c.level}, piece: p})
		}
		f.loops = append(f.loops, l)
	}
	return f
}

// trace orders sides into loops.
func (o *outline) trace(sides []half) ([][]half, error) {
	at := map[vertex]int{}
	for i, h := range sides {
		if _, twice := at[h.from]; twice {
			return nil, errTouch // two corners meet in a point
		}
		at[h.from] = i
	}
	done := make([]bool, len(sides))
	var loops [][]half
	for i := range sides {
		var l []half
		for j, ok := i, true; !done[j]; {
			done[j] = true
			l = append(l, sides[j])
			if j, ok = at[sides[j].to]; !ok {
				return nil, errTouch
			}
		}
		if len(l) == 0 {
			continue
		}
		if l[len(l)-1].to != l[0].from {
			return nil, errTouch
		}
		loops = append(loops, l)
	}
	return loops, nil
}

// outerFirst puts the loop that runs round the face before those round its
// holes: in a wall rolled out flat it is the one that runs anticlockwise.
func (o *outline) outerFirst(loops [][]half, w piece) ([][]half, error) {
	outer := -1
	for i, l := range loops {
		if o.unrolled(l, w) > 0 {
			if outer >= 0 {
				return nil, errTouch
			}
			outer = i
		}
	}
	if outer < 0 {
		return nil, errTouch
	}
	loops[0], loops[outer] = loops[outer], loops[0]
	return loops, nil
}

// unrolled returns twice the area that a loop of sides runs round in the wall
// rolled out flat, as seen from outside.
func (o *outline) unrolled(l []half, w piece) float64 {
	flat := func(v vertex) r2.Vec {
		p := o.points.at[v.point]
		if !w.curve.arc {
			return r2.Vec{X: p.Dot(w.edge.B.Sub(w.edge.A).Unit()), Y: o.heights[v.level]}
		}
		c := w.curve.center
		mid, d := w.edge.At(0.5).Sub(c), p.Sub(c)
		u := math.Atan2(mid.Cross(d), mid.Dot(d)) * w.curve.radius
		return r2.Vec{X: math.Copysign(1, w.edge.Bulge) * u, Y: o.heights[v.level]}
	}
	base, sum := flat(l[0].from), 0.0
	for _, h := range l {
		sum += flat(h.from).Sub(base).Cross(flat(h.to).Sub(base))
	}
	return sum
}
