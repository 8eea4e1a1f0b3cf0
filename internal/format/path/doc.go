// Package path reads outlines from SVG drawings: the paths of a drawing, at
// their size in mm, as one region of lines and circular arcs.
//
// What is read is a small part of Scalable Vector Graphics 1.1 (W3C, second
// edition 2011): the root's width, height and viewBox (section 7), and path
// data (section 8.3) with all its commands. The drawing must say its size in a
// unit of length, as a user unit is no millimetre. Its y runs downwards; here
// it runs up, and the origin is the lower left corner of the viewBox.
//
// # From curves to arcs
//
// Saws, compasses and routers make lines and arcs, so Bézier curves and
// ellipses become pairs of arcs. Between two points with given tangents there
// is a pair that meets in a common tangent: with the unit tangents u and v at
// the ends and w from end to end, the two control points lie d from the ends
// along the tangents, where
//
//	d²(|u+v|² − 4) − 2d·w·(u+v) + |w|² = 0
//
// and the arcs meet half way between the control points. A curve is halved
// until such a pair keeps within Within of it. A circle's arc stays one.
//
// # Strangers' files
//
// A drawing is hostile until read: its size, the number of its elements, their
// depth and the number of edges are bounded, and what would change the shape
// and is not understood (a transform, a shape that is no path) is refused and
// not skipped.
package path
