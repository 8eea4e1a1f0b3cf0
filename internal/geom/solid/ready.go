package solid

import (
	"slices"
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
// says which slabs it can reach. These are cut into convex cells (see planar), and
// these into one another where their boxes meet; holes clear of there are not
// looked at.
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
	// full are the cells of each slab with its holes filled.
	full []func() []cell
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
		r.full = append(r.full, sync.OnceValue(func() []cell {
			return Body{b.Pose, []Slab{{filled(s.Region), s.Z0, s.Z1}}, b.Within}.convexCells(Chord)
		}))
	}
	r.skin = sync.OnceValue(func() surface { return surfaceOf(b) })
	r.pieces = sync.OnceValue(func() []cell { return edged(b.convexCells(Chord)) })
	return r
}

// Box returns the smallest upright box round the body in space.
func (r *Ready) Box() r3.Box { return r.box }

// seen returns the extent of slab j of the other body in this one's frame.
func (r *Ready) seen(other *Ready, j int) reach {
	p, s := other.Pose, other.inner[j]
	mid := p.At(r3.Vec{X: (s.flat.Min.X + s.flat.Max.X) / 2, Y: (s.flat.Min.Y + s.flat.Max.Y) / 2, Z: (s.z0 + s.z1) / 2})
	half := r3.Vec{X: (s.flat.Max.X - s.flat.Min.X) / 2, Y: (s.flat.Max.Y - s.flat.Min.Y) / 2, Z: (s.z1 - s.z0) / 2}
	return r.extent(mid, p.X.Mul(half.X), p.Y.Mul(half.Y), p.Z.Mul(half.Z))
}

// extent returns the extent in the body's frame of a box told by its middle and
// half its sides.
func (r *Ready) extent(mid, a, b, c r3.Vec) reach {
	at := r.Pose.Local(mid)
	w := func(d r3.Vec) float64 { return abs(a.Dot(d)) + abs(b.Dot(d)) + abs(c.Dot(d)) }
	x, y, z := w(r.Pose.X), w(r.Pose.Y), w(r.Pose.Z)
	return reach{r2.Box{Min: r2.Vec{X: at.X - x, Y: at.Y - y}, Max: r2.Vec{X: at.X + x, Y: at.Y + y}}, at.Z - z, at.Z + z}
}

// reaches reports whether slab i can share anything with the given extent.
func (r *Ready) reaches(i int, w reach) bool {
	in := r.inner[i]
	return min(in.z1, w.z1)-max(in.z0, w.z0) > planar.Near &&
		min(in.flat.Max.X, w.flat.Max.X)-max(in.flat.Min.X, w.flat.Min.X) > planar.Near &&
		min(in.flat.Max.Y, w.flat.Max.Y)-max(in.flat.Min.Y, w.flat.Min.Y) > planar.Near
}

// cells returns the convex cells of slab i that reach into a box. Mostly no hole
// does, and the cells are at hand.
func (r *Ready) cells(i int, b r3.Box) []cell {
	mid, half := b.Min.Add(b.Max).Mul(0.5), b.Size().Mul(0.5)
	w := r.extent(mid, r3.Vec{X: half.X}, r3.Vec{Y: half.Y}, r3.Vec{Z: half.Z})
	if near := r.Slabs[i].Region.Near(w.flat); hasHoles(near) {
		return within(Body{r.Pose, []Slab{{near, r.Slabs[i].Z0, r.Slabs[i].Z1}}, r.Within}.convexCells(Chord), b)
	}
	return within(r.full[i](), b)
}

// within returns the cells that reach into a box.
func within(cells []cell, b r3.Box) []cell {
	var out []cell
	for _, c := range cells {
		if !apart(c.box, b, -thin) {
			out = append(out, c)
		}
	}
	return out
}

// covered returns the box round what cells have of a box.
func covered(cells []cell, b r3.Box) r3.Box {
	out := r3.EmptyBox()
	for _, c := range cells {
		out = out.Union(c.box)
	}
	return r3.Box{
		Min: r3.Vec{X: max(out.Min.X, b.Min.X), Y: max(out.Min.Y, b.Min.Y), Z: max(out.Min.Z, b.Min.Z)},
		Max: r3.Vec{X: min(out.Max.X, b.Max.X), Y: min(out.Max.Y, b.Max.Y), Z: min(out.Max.Z, b.Max.Z)},
	}
}

func hasHoles(r planar.Region) bool {
	return slices.ContainsFunc(r, func(s planar.Shape) bool { return len(s.Holes) > 0 })
}

// filled returns the outer loops of a region alone.
func filled(r planar.Region) planar.Region {
	out := make(planar.Region, len(r))
	for i, s := range r {
		out[i].Outer = s.Outer
	}
	return out
}

func abs(x float64) float64 { return max(x, -x) }

// apart reports whether two boxes are further apart than d along an axis.
func apart(a, b r3.Box, d float64) bool {
	return a.Min.X-b.Max.X > d || b.Min.X-a.Max.X > d ||
		a.Min.Y-b.Max.Y > d || b.Min.Y-a.Max.Y > d ||
		a.Min.Z-b.Max.Z > d || b.Min.Z-a.Max.Z > d
}
