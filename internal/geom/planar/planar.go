// Package planar has flat shapes whose edges are straight lines and circular
// arcs: what a saw, a router and a pair of compasses make. An arc stays an arc;
// where a chord must stand for it the error is named and its side is known.
//
// A Loop runs anticlockwise round material and clockwise round a hole. Lengths
// are in mm, areas in mm², angles in radians.
package planar

import "rodwork/internal/geom/r2"

// Vertex is a corner of a loop and the edge that leaves it: Bulge is the
// tangent of a quarter of the arc's angle, positive where the edge turns left
// (anticlockwise), 0 for a straight line.
type Vertex struct {
	P     r2.Vec
	Bulge float64
}

// Loop is a closed run of edges; the last vertex's edge leads to the first.
type Loop []Vertex

// Shape is one connected piece of the plane: an outer loop and its holes.
type Shape struct {
	Outer Loop
	Holes []Loop
}

// Region is a set of shapes that share no more than points.
type Region []Shape
