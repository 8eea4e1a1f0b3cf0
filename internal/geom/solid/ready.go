package solid

import (
	"sync"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// # Asking bodies
//
// What two bodies have in common is asked in steps of growing cost, and most
// pairs are told apart by the first. Boxes: bodies whose upright boxes are apart
// have nothing in common. Slabs: the other body's extent along this one's axes
// says which slabs it can reach and in which rectangle of their regions; only
// that part of a region is looked at, with its arcs as they are. What remains is
// cut into convex cells (see planar) and these into one another.
//
// Bodies whose slabs lie parallel need no cells: their regions are put in one
// plane and intersected there, exact for arcs. Else chords stand for arcs, no
// further than Chord from them and within the material: a volume in common is
// never overstated, a gap never understated.

// Chord is how far a chord may lie from the arc that it stands for in the
// questions of this package, mm.
const Chord = 0.005

// Ready is a body made ready to be asked many times. It may be asked from
// several goroutines at once. The body is not to be changed any more.
type Ready struct {
	Body
	box    r3.Box
	inner  []reach // of each slab, in the body's own frame
	skin   func() surface
	pieces func() []cell
}

// reach is a box in a body's frame: of its flat regions, and of its heights.
type reach struct {
	flat   r2.Box
	z0, z1 float64
}

// Prepare makes a body ready to be asked.
func Prepare(b Body) *Ready {
	r := &Ready{Body: b, box: b.Box()}
	for _, s := range b.Slabs {
		r.inner = append(r.inner, reach{s.Region.Box(), s.Z0, s.Z1})
	}
	r.skin = sync.OnceValue(func() surface { return surfaceOf(b) })
	r.pieces = sync.OnceValue(func() []cell { return cellsOf(b) })
	return r
}

// Box returns the smallest upright box round the body in space.
func (r *Ready) Box() r3.Box { return r.box }

// seen returns the extent of slab j of the other body in this one's frame.
func (r *Ready) seen(other *Ready, j int) reach {
	p, s := other.Pose, other.inner[j]
	mid := p.At(r3.Vec{X: (s.flat.Min.X + s.flat.Max.X) / 2, Y: (s.flat.Min.Y + s.flat.Max.Y) / 2, Z: (s.z0 + s.z1) / 2})
	half := r3.Vec{X: (s.flat.Max.X - s.flat.Min.X) / 2, Y: (s.flat.Max.Y - s.flat.Min.Y) / 2, Z: (s.z1 - s.z0) / 2}
	at := r.Pose.Local(mid)
	w := func(d r3.Vec) float64 {
		return abs(p.X.Dot(d))*half.X + abs(p.Y.Dot(d))*half.Y + abs(p.Z.Dot(d))*half.Z
	}
	x, y, z := w(r.Pose.X), w(r.Pose.Y), w(r.Pose.Z)
	return reach{r2.Box{Min: r2.Vec{X: at.X - x, Y: at.Y - y}, Max: r2.Vec{X: at.X + x, Y: at.Y + y}}, at.Z - z, at.Z + z}
}

// window returns the part of slab i that can meet the given extent.
func (r *Ready) window(i int, w reach) (planar.Region, error) {
	in := r.inner[i]
	if min(in.z1, w.z1)-max(in.z0, w.z0) <= planar.Near ||
		min(in.flat.Max.X, w.flat.Max.X)-max(in.flat.Min.X, w.flat.Min.X) <= planar.Near ||
		min(in.flat.Max.Y, w.flat.Max.Y)-max(in.flat.Min.Y, w.flat.Min.Y) <= planar.Near {
		return nil, nil
	}
	return r.Slabs[i].Region.Within(w.flat)
}

func abs(x float64) float64 { return max(x, -x) }

// apart reports whether two boxes are further apart than d along an axis.
func apart(a, b r3.Box, d float64) bool {
	return a.Min.X-b.Max.X > d || b.Min.X-a.Max.X > d ||
		a.Min.Y-b.Max.Y > d || b.Min.Y-a.Max.Y > d ||
		a.Min.Z-b.Max.Z > d || b.Min.Z-a.Max.Z > d
}
