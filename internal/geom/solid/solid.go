// Package solid has bodies as sheet work makes them: a stack of slabs, each a
// flat region between two depths. A panel with its housings is a few slabs
// through its thickness; a bent shell is a few slabs along the piece's depth,
// each the shell's section there. Every face of such a body is flat, or is a
// cylinder over an arc of its region.
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
// the frame Pose.
type Body struct {
	Pose  r3.Pose
	Slabs []Slab
}
