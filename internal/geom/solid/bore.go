package solid

import "rodwork/internal/geom/r3"

// Bore is a round hole in a body's own frame: its mouth, the centre of which lies
// in a flat face, and from there square into the body, to a flat floor or through
// to another flat face. Bodies have none: no slab has a hole into its edge. They
// go beside a body to those who can draw them.
type Bore struct {
	At, Into      r3.Vec // Into has length 1
	Radius, Depth float64
	Through       bool
}
