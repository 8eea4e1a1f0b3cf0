package planar

import "rodwork/internal/geom/r2"

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

// Within returns what of the region lies in an upright rectangle. Shapes that
// lie wholly within, and holes that lie wholly without, cost next to nothing.
func (r Region) Within(b r2.Box) (Region, error) {
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
	if len(near) == 0 {
		return nil, nil
	}
	if all := near.reach(); b.Holds(all.Min) && b.Holds(all.Max) {
		return near, nil
	}
	// The holes left out would only count where the rectangle reaches, and they
	// don't touch it.
	return Intersection(near, Rect(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y))
}

// loopReach returns a box that holds the loop and may be a little larger.
func loopReach(l Loop) r2.Box {
	b := r2.EmptyBox()
	for i := range l {
		b = b.Union(l.Edge(i).reach())
	}
	return b
}
