package solid

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Volume returns the volume, mm³, exact for arcs that no half-space crosses.
func (b Body) Volume() float64 {
	v, _ := b.moments()
	return v
}

// Centroid returns the centre of volume in space; the pose's origin for an
// empty body.
func (b Body) Centroid() r3.Vec {
	v, first := b.moments()
	if v == 0 {
		return b.Pose.O
	}
	return b.Pose.At(first.Mul(1 / v))
}

// moments returns the volume and its first moment in the body's own frame.
func (b Body) moments() (volume float64, first r3.Vec) {
	add := func(r planar.Region, s Slab) {
		v := r.Area() * (s.Z1 - s.Z0)
		c := r.Centroid()
		volume += v
		first = first.Add(r3.Vec{X: c.X, Y: c.Y, Z: (s.Z0 + s.Z1) / 2}.Mul(v))
	}
	for _, s := range b.Slabs {
		if len(b.Within) == 0 {
			add(s.Region, s)
			continue
		}
		whole, sawn := b.apart(s)
		if len(whole) > 0 {
			add(whole, s)
		}
		for _, c := range sawn {
			v, m := c.measure()
			volume, first = volume+v, first.Add(m)
		}
	}
	return volume, first
}

// apart returns what of a slab is whole at all its heights, and the cells of the
// rest, in the body's own frame. Where the regions can't be parted, all of it is
// cells.
func (b Body) apart(s Slab) (planar.Region, []cell) {
	whole, rest, err := b.parts(s)
	if err != nil {
		whole, rest = nil, s.Region
	}
	return whole, Body{r3.Identity(), []Slab{{rest, s.Z0, s.Z1}}, b.Within}.convexCells(Chord / 10)
}

// Extent returns the least and the greatest p·d over the body in space, exact
// for arcs that no half-space crosses; +Inf, -Inf for an empty one.
func (b Body) Extent(d r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	flat := r2.Vec{X: b.Pose.X.Dot(d), Y: b.Pose.Y.Dot(d)}
	up, base := b.Pose.Z.Dot(d), b.Pose.O.Dot(d)
	for _, s := range b.Slabs {
		whole := s.Region
		if len(b.Within) > 0 {
			var sawn []cell
			whole, sawn = b.apart(s)
			for _, c := range sawn {
				l, h := c.width(r3.Vec{X: flat.X, Y: flat.Y, Z: up})
				lo, hi = min(lo, base+l), max(hi, base+h)
			}
		}
		l, h := whole.Extent(flat)
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
