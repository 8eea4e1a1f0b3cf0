package solid

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Volume returns the volume, mm³, exact for arcs.
func (b Body) Volume() float64 {
	v := 0.0
	for _, s := range b.Slabs {
		v += s.Region.Area() * (s.Z1 - s.Z0)
	}
	return v
}

// Centroid returns the centre of volume in space; the pose's origin for an
// empty body.
func (b Body) Centroid() r3.Vec {
	total, sum := 0.0, r3.Vec{}
	for _, s := range b.Slabs {
		v := s.Region.Area() * (s.Z1 - s.Z0)
		c := s.Region.Centroid()
		total += v
		sum = sum.Add(r3.Vec{X: c.X, Y: c.Y, Z: (s.Z0 + s.Z1) / 2}.Mul(v))
	}
	if total == 0 {
		return b.Pose.O
	}
	return b.Pose.At(sum.Mul(1 / total))
}

// Extent returns the least and the greatest p·d over the body in space, exact
// for arcs; +Inf, -Inf for an empty one.
func (b Body) Extent(d r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	flat := r2.Vec{X: b.Pose.X.Dot(d), Y: b.Pose.Y.Dot(d)}
	up, base := b.Pose.Z.Dot(d), b.Pose.O.Dot(d)
	for _, s := range b.Slabs {
		l, h := s.Region.Extent(flat)
		lo = min(lo, base+l+min(s.Z0*up, s.Z1*up))
		hi = max(hi, base+h+max(s.Z0*up, s.Z1*up))
	}
	return lo, hi
}

// Box returns the smallest upright box round the body in space.
func (b Body) Box() r3.Box {
	var box r3.Box
	box.Min.X, box.Max.X = b.Extent(r3.Vec{X: 1})
	box.Min.Y, box.Max.Y = b.Extent(r3.Vec{Y: 1})
	box.Min.Z, box.Max.Z = b.Extent(r3.Vec{Z: 1})
	return box
}
