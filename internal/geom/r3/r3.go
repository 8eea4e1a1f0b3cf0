// Package r3 has points, vectors and poses of space, in millimetres.
//
// A piece stands in a right-handed frame: x to the right and y up as seen by
// who stands before it, z towards that person, with the origin on the floor at
// the left, at the back face of the piece. So the front face lies at z = depth.
package r3

import "math"

// Vec is a point or a vector, mm.
type Vec struct{ X, Y, Z float64 }

// Add returns a + b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a − b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul returns k·a.
func (a Vec) Mul(k float64) Vec { return Vec{k * a.X, k * a.Y, k * a.Z} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len returns the length.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a over its length; the zero vector stays.
func (a Vec) Unit() Vec {
	if l := a.Len(); l > 0 {
		return a.Mul(1 / l)
	}
	return a
}

// Pose places a local frame in space: X, Y, Z are the images of its unit
// vectors (orthonormal, right-handed), O the image of its origin.
type Pose struct{ O, X, Y, Z Vec }

// Identity is the pose that changes nothing.
func Identity() Pose {
	return Pose{X: Vec{1, 0, 0}, Y: Vec{0, 1, 0}, Z: Vec{0, 0, 1}}
}

// At returns the place of a local point.
func (p Pose) At(v Vec) Vec { return p.O.Add(p.Dir(v)) }

// Dir returns the direction of a local vector.
func (p Pose) Dir(v Vec) Vec { return p.X.Mul(v.X).Add(p.Y.Mul(v.Y)).Add(p.Z.Mul(v.Z)) }

// Local returns the local coordinates of a point of space.
func (p Pose) Local(v Vec) Vec {
	d := v.Sub(p.O)
	return Vec{d.Dot(p.X), d.Dot(p.Y), d.Dot(p.Z)}
}

// Then returns the pose that first applies p, then q.
func (p Pose) Then(q Pose) Pose {
	return Pose{O: q.At(p.O), X: q.Dir(p.X), Y: q.Dir(p.Y), Z: q.Dir(p.Z)}
}

// Moved returns p shifted by d.
func (p Pose) Moved(d Vec) Pose { p.O = p.O.Add(d); return p }

// Box is an upright box; Min > Max means that it is empty.
type Box struct{ Min, Max Vec }

// EmptyBox returns the box that holds nothing.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}}
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	return Box{
		Vec{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y), min(b.Min.Z, c.Min.Z)},
		Vec{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y), max(b.Max.Z, c.Max.Z)},
	}
}

// Size returns width, height and depth; negative for an empty box.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }
