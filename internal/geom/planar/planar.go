// Package planar has flat shapes whose edges are straight lines and circular
// arcs: what a saw, a router and a pair of compasses make. An arc stays an arc;
// where a chord must stand for it the error is named and its side is known.
//
// A Loop runs anticlockwise round material and clockwise round a hole. Lengths
// are in mm, areas in mm², angles in radians.
//
// # Why a bulge
//
// Each edge of a loop is told by its two ends and one number, the bulge: the
// tangent of a quarter of the angle that the edge turns through. A straight
// line has 0, a quarter turn 0.4142, half a turn 1. The ends of edges are thus
// always exactly shared, nothing can come apart where a line runs into an arc,
// and centre and radius follow. DXF tells its polylines the same way.
//
// # Areas
//
// The area of a loop is that of the polygon through its corners (the shoelace
// formula) and, for each arc, of the segment between chord and arc; centroids
// follow from the same two parts. Both are exact, so a panel with a round
// corner weighs what it weighs, at any chord error.
//
// # Promises
//
// Regions are values: no function changes its arguments, results may share
// loops with them. Loops have no edge shorter than Near and no corner in the
// middle of a straight edge once an operation has made them. Operations are
// deterministic, and return an error where an outline crosses itself, never a
// region whose area can't be.
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
