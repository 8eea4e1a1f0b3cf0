// Package stability tells whether a piece stands: a rigid body on its feet,
// with every mass in its place, a block under its back feet and a pull at its
// top.
//
// # The model
//
// The body touches the floor in the hull of its feet. It tips about one edge of
// that hull when the moments that turn it outwards win over those that hold it.
// Each mass weighs down along the true vertical; a block (or the give of a
// carpet) under the rear feet turns the body, and so the vertical as the body
// sees it, forwards by
//
//	θ = asin(t/d)
//
// with t the block and d the distance from the front to the rear feet. Nothing
// is approximated: a mass at the height y moves its lever by y·sin θ towards
// the edge.
//
// The frame is the piece's own: x to the right, y up, z to the viewer, mm; the
// front feet have the largest z. Moments are in N·mm, positive where they hold.
//
// # States
//
// Which state is the worst is not known beforehand: an empty cabinet may be
// worse than a full one, one open door worse than two. States are data; Tip
// tries them all about all edges and returns the worst.
//
// # What it can not promise
//
// This is statics. A child who climbs or jumps loads a piece with more than its
// weight, and joints, anchors and walls have a strength of their own. It is
// not a test to a standard. Anchor what can tip, by local rules.
package stability
