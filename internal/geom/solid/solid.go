// Package solid has bodies as sheet work makes them: a stack of slabs, each a
// flat region between two depths, sawn off obliquely where need be. A panel with its housings is a few slabs
// through its thickness; a bent shell is a few slabs along the piece's depth,
// each the shell's section there. Every face of such a body is flat, or is a
// cylinder over an arc of its region.
//
// # Why slabs
//
// Sheet goods are cut square to their faces: saws, routers and drills take a
// region away to a depth. Between two depths the section of a panel is the same
// all through, so a panel with any number of housings, grooves and holes is a
// few flat regions one above the other, and all questions about it (volume,
// centre of mass, boundary) come down to exact questions about regions. Nothing
// is ever cut in space.
//
// # Boundary
//
// Each edge of a slab's region stands up as a wall. Where one slab meets the
// next, what the lower has and the upper has not is a cap that looks up, and the
// other way round one that looks down; what both have is no boundary. The rims
// of the caps are just the edges of the body at that height: where two slabs'
// walls are flush there is no cap beside them, and so no edge.
package solid

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
)

// Slab is the region between the heights Z0 < Z1 of the body's own frame.
type Slab struct {
	Region planar.Region
	Z0, Z1 float64
}

// Body is a stack of slabs in order of height, none overlapping another, in
// the frame Pose, as far as they lie within all of its half-spaces, of which
// most bodies have none.
type Body struct {
	Pose   r3.Pose
	Slabs  []Slab
	Within []HalfSpace
}
