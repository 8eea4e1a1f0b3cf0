package piece

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Feet returns the bought feet as plain round bodies of their height and width,
// one for each place; a fitting's places are on the floor.
func Feet(p *Piece) []solid.Body {
	var out []solid.Body
	for _, f := range p.Fittings {
		if f.Kind != "foot" || !(f.Width.V > 0) || !(f.Height.V > 0) {
			continue
		}
		for _, at := range f.At {
			o := r3.Vec{X: at[0].V, Y: at[1].V, Z: at[2].V}
			out = append(out, solid.Body{
				Pose:  r3.Pose{O: o, X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}},
				Slabs: []solid.Slab{{Region: planar.Disc(r2.Vec{}, f.Width.V/2), Z0: 0, Z1: f.Height.V}},
			})
		}
	}
	return out
}
