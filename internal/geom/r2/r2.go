// Package r2 has points and vectors of the plane, in millimetres, and boxes.
package r2

import "math"

// Vec is a point or a vector, mm.
type Vec struct{ X, Y float64 }

// Add returns a + b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y} }

// Sub returns a − b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y} }

// Mul returns k·a.
func (a Vec) Mul(k float64) Vec { return Vec{k * a.X, k * a.Y} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y }

// Cross returns the z of the vector product: positive where b is to the left of a.
func (a Vec) Cross(b Vec) float64 { return a.X*b.Y - a.Y*b.X }

// Len returns the length of a.
func (a Vec) Len() float64 { return math.Sqrt(a.X*a.X + a.Y*a.Y) }

// Unit returns a over its length; the zero vector stays.
func (a Vec) Unit() Vec {
	if l := a.Len(); l > 0 {
		return a.Mul(1 / l)
	}
	return a
}

// Left returns a turned a quarter turn anticlockwise.
func (a Vec) Left() Vec { return Vec{-a.Y, a.X} }

// Turn returns a turned anticlockwise by the angle, rad.
func (a Vec) Turn(angle float64) Vec {
	s, c := math.Sincos(angle)
	return Vec{c*a.X - s*a.Y, s*a.X + c*a.Y}
}

// Lerp returns the point at share t of the way from a to b.
func (a Vec) Lerp(b Vec, t float64) Vec { return a.Add(b.Sub(a).Mul(t)) }

// Box is an upright rectangle; Min > Max means that it is empty.
type Box struct{ Min, Max Vec }

// EmptyBox returns the box that holds nothing.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Vec{inf, inf}, Vec{-inf, -inf}}
}

// With returns the smallest box that holds b and p.
func (b Box) With(p Vec) Box {
	return Box{Vec{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}, Vec{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}}
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	return Box{Vec{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)}, Vec{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)}}
}

// Size returns width and height; negative for an empty box.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }

// Overlaps reports whether the boxes share more than a boundary.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// Touches reports whether the boxes share at least a point.
func (b Box) Touches(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Holds reports whether p lies in the box or on its edge.
func (b Box) Holds(p Vec) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Grown returns the box widened by d on each side.
func (b Box) Grown(d float64) Box {
	return Box{Vec{b.Min.X - d, b.Min.Y - d}, Vec{b.Max.X + d, b.Max.Y + d}}
}
