package step

import (
	"errors"
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/solid"
)

// # From slabs to a closed boundary
//
// A body is a stack of slabs. Its boundary in the sense of the standard is made
// of faces that share their edges, and each edge of them has two faces. It is
// found in four steps, in the body's own frame, where every edge is level or
// upright:
//
//  1. Gather (gather.go). The corners of all slabs and of all caps, a cap being
//     what one slab has and its neighbour has not, become points of the plane.
//     Every level edge of every slab and cap is cut at all points on it. What
//     comes out are pieces, of which neighbours have the very same.
//  2. Walls (faces.go). The piece of a slab's outline stands up as a cell. Cells
//     that lie in the same plane or cylinder and share a side grow together.
//  3. Pair. Every side that is left must have exactly one partner that runs the
//     other way. If not, the body touches itself along a line, which no solid
//     of the standard may, and an error is returned.
//  4. Straighten (edges.go). A point where only two edges meet, both on the same
//     line or circle, is no corner: they become one.
//
// A round wall that goes more than half the way round its axis is cut at the
// two ends of its level diameter, so that no face closes on itself.

// near is how close two points may lie and still be the same one, mm: coarser
// than the regions' own (planar.Near), finer than anything that is made.
const near = 2e-5

// errTouch says that a body is no solid in the sense of the standard.
var errTouch = errors.New("step: the body touches itself along a line, or is not closed")

// vertex is a point of the plane at a level of the body.
type vertex struct{ point, level int }

// piece is a level stretch between two points with no point between them.
type piece struct {
	a, b  int // points
	mid   int // its middle, told apart from others between the same points
	edge  planar.Edge
	curve *curve
}

func (p piece) reverse() piece {
	return piece{p.b, p.a, p.mid, p.edge.Reverse(), p.curve}
}

// curve is the line or circle that pieces lie on, whichever way they run.
type curve struct {
	arc    bool
	center r2.Vec
	radius float64
	from   r2.Vec // of a line: a place on it
	dir    r2.Vec // and its direction
	// seams are the points at which the wall over a circle is cut, -1 for none.
	seams [2]int
	turns []turn // of a circle, while it is not known whether it is cut
}

// turn is a stretch of a circle, anticlockwise, in rad.
type turn struct{ from, sweep float64 }

// half is a side of a face: a piece at a level, or an upright. Faces keep it on
// their left, seen from outside.
type half struct {
	from, to vertex
	piece    piece // of a level one
	upright  bool
	face     int
}

// key tells a side from all others, but not from its partner.
func (h half) key() [5]int {
	u, v, mid := h.from, h.to, -1
	if u.level > v.level || u.level == v.level && u.point > v.point {
		u, v = v, u
	}
	if !h.upright {
		mid = h.piece.mid
	}
	return [5]int{u.point, u.level, v.point, v.level, mid}
}

// flat is a cap: a connected flat face.
type flat struct {
	shape planar.Shape
	level int
	up    bool
}

// outline is what step 1 finds.
type outline struct {
	heights []float64
	points  points
	mids    points
	curves  []*curve
	walls   []wall // of all slabs
	caps    []cover
}

// wall is a cell: a piece with its height.
type wall struct {
	piece  piece
	lo, hi int // levels
}

// cover is a cap with its loops as pieces, material on the left as seen from
// above.
type cover struct {
	level int
	up    bool
	loops [][]piece
}

// level returns the index of a height.
func (o *outline) level(z float64) int {
	for i, h := range o.heights {
		if math.Abs(h-z) <= near {
			return i
		}
	}
	o.heights = append(o.heights, z)
	return len(o.heights) - 1
}

// capsOf returns the flat faces of a body.
func capsOf(b solid.Body, o *outline) ([]flat, error) {
	below, above := map[int]planar.Region{}, map[int]planar.Region{}
	for _, s := range b.Slabs {
		above[o.level(s.Z0)] = s.Region
		below[o.level(s.Z1)] = s.Region
	}
	var out []flat
	for i := range o.heights {
		up, err := planar.Difference(below[i], above[i])
		if err != nil {
			return nil, err
		}
		down, err := planar.Difference(above[i], below[i])
		if err != nil {
			return nil, err
		}
		for _, s := range up {
			out = append(out, flat{s, i, true})
		}
		for _, s := range down {
			out = append(out, flat{s, i, false})
		}
	}
	return out, nil
}

// gather is step 1.
func gather(b solid.Body) (*outline, error) {
	o := &outline{}
	for _, s := range b.Slabs {
		o.level(s.Z0)
		o.level(s.Z1)
	}
	slices.Sort(o.heights)
	caps, err := capsOf(b, o)
	if err != nil {
		return nil, err
	}
	var loops []planar.Loop
	for _, s := range b.Slabs {
		loops = append(loops, s.Region.Loops()...)
	}
	for _, c := range caps {
		loops = append(loops, planar.Region{c.shape}.Loops()...)
	}
	for _, l := range loops {
		for i, v := range l {
			o.points.add(v.P)
			if e := l.Edge(i); e.IsArc() && e.B.Sub(e.A).Len() > near {
				c := o.curveOf(e)
				c.turns = append(c.turns, turnOf(e))
			}
		}
	}
	for _, c := range o.curves {
		o.seam(c)
	}
	for _, s := range b.Slabs {
		lo, hi := o.level(s.Z0), o.level(s.Z1)
		for l := range s.Region.All {
			for _, p := range o.pieces(l) {
				o.walls = append(o.walls, wall{p, lo, hi})
			}
		}
	}
	for _, c := range caps {
		k := cover{level: c.level, up: c.up}
		for l := range (planar.Region{c.shape}).All {
			k.loops = append(k.loops, o.pieces(l))
		}
		o.caps = append(o.caps, k)
	}
	return o, nil
}
