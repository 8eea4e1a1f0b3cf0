package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Placed returns the region in another frame: o is where its origin comes to
// lie, x and y where its unit vectors point (length 1, square to each other;
// where y is right of x the region is mirrored). Loops keep their sense.
func (r Region) Placed(o, x, y r2.Vec) Region {
	at := func(p r2.Vec) r2.Vec { return o.Add(x.Mul(p.X)).Add(y.Mul(p.Y)) }
	if x.Cross(y) < 0 {
		return r.mirrored(at)
	}
	return r.each(func(l Loop) Loop { return l.mapped(at) })
}

// Near returns the region without the shapes and holes that don't come near an
// upright rectangle: within it, and only there, it is the same.
func (r Region) Near(b r2.Box) Region {
	var near Region
	for _, s := range r {
		if !loopReach(s.Outer).Touches(b) {
			continue
		}
		c := Shape{Outer: s.Outer}
		for _, h := range s.Holes {
			if loopReach(h).Touches(b) {
				c.Holes = append(c.Holes, h)
			}
		}
		near = append(near, c)
	}
	return near
}

// bothRects is the intersection of two upright rectangles, which most faces of
// sheet work are.
func bothRects(a, b Region) (Region, bool) {
	c, ok := a.rect()
	if !ok {
		return nil, false
	}
	d, ok := b.rect()
	if !ok {
		return nil, false
	}
	lo := r2.Vec{X: max(c.Min.X, d.Min.X), Y: max(c.Min.Y, d.Min.Y)}
	hi := r2.Vec{X: min(c.Max.X, d.Max.X), Y: min(c.Max.Y, d.Max.Y)}
	if hi.X-lo.X <= 4*Near || hi.Y-lo.Y <= 4*Near {
		return nil, true // touching, or a sliver
	}
	return Rect(lo.X, lo.Y, hi.X, hi.Y), true
}

// rect returns the region's box where the region is an upright rectangle.
func (r Region) rect() (r2.Box, bool) {
	if len(r) != 1 || len(r[0].Holes) > 0 || len(r[0].Outer) != 4 {
		return r2.Box{}, false
	}
	b := r2.EmptyBox()
	for i := range 4 {
		e := r[0].Outer.Edge(i)
		d := e.B.Sub(e.A)
		if e.IsArc() || min(math.Abs(d.X), math.Abs(d.Y)) > level {
			return r2.Box{}, false
		}
		b = b.With(e.A)
	}
	return b, true
}

// loopReach returns a box that holds the loop and may be a little larger.
func loopReach(l Loop) r2.Box {
	b := r2.EmptyBox()
	for i := range l {
		b = b.Union(l.Edge(i).reach())
	}
	return b
}
