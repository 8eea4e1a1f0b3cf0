package planar

import (
	"math"

	"rodwork/internal/geom/r2"
)

// maxChords bounds the chords that stand for one arc.
const maxChords = 4096

// Chords returns how many equal chords stand for the edge so that none lies
// further than err mm from the arc: the sagitta of a chord over the angle φ is
// r(1 − cos(φ/2)).
func (e Edge) Chords(err float64) int {
	if !e.IsArc() {
		return 1
	}
	r, sweep := e.Radius(), math.Abs(e.Sweep())
	least := int(math.Ceil(sweep/(math.Pi/2) - 1e-9)) // a circle is never a triangle
	if !(err > 0) {
		return maxChords
	}
	if err < r {
		least = max(least, int(math.Ceil(sweep/(2*math.Acos(1-err/r))-1e-9)))
	}
	return min(max(1, least), maxChords)
}

// Flatten returns the loop's corners with each arc replaced by chords no
// further than err mm from it. The points lie on the arc: where it turns round
// the material the polygon is a little smaller, at a hollow a little larger.
func (l Loop) Flatten(err float64) []r2.Vec {
	out := make([]r2.Vec, 0, len(l))
	for i := range l {
		e := l.Edge(i)
		out = append(out, e.A)
		n := e.Chords(err)
		if n == 1 {
			continue
		}
		c := e.Center()
		from, step := e.A.Sub(c), e.Sweep()/float64(n)
		for k := 1; k < n; k++ {
			out = append(out, c.Add(from.Turn(step*float64(k))))
		}
	}
	return out
}

// Flatten returns the region with chords for arcs, as Loop.Flatten does.
func (r Region) Flatten(err float64) Region {
	return r.each(func(l Loop) Loop { return Polygon(l.Flatten(err)...) })
}

// each returns the region with f applied to each loop.
func (r Region) each(f func(Loop) Loop) Region {
	out := make(Region, len(r))
	for i, s := range r {
		out[i].Outer = f(s.Outer)
		for _, h := range s.Holes {
			out[i].Holes = append(out[i].Holes, f(h))
		}
	}
	return out
}

// Moved returns the loop shifted by d.
func (l Loop) Moved(d r2.Vec) Loop {
	return l.mapped(func(p r2.Vec) r2.Vec { return p.Add(d) })
}

func (l Loop) mapped(f func(r2.Vec) r2.Vec) Loop {
	out := make(Loop, len(l))
	for i, v := range l {
		out[i] = Vertex{f(v.P), v.Bulge}
	}
	return out
}

// Moved returns the region shifted by d.
func (r Region) Moved(d r2.Vec) Region {
	return r.each(func(l Loop) Loop { return l.Moved(d) })
}

// Turned returns the region turned anticlockwise about a point by the angle, rad.
func (r Region) Turned(about r2.Vec, angle float64) Region {
	return r.each(func(l Loop) Loop {
		return l.mapped(func(p r2.Vec) r2.Vec { return about.Add(p.Sub(about).Turn(angle)) })
	})
}

// MirroredX returns the region mirrored at the upright line x = at; loops keep
// their sense.
func (r Region) MirroredX(at float64) Region {
	return r.mirrored(func(p r2.Vec) r2.Vec { return r2.Vec{X: 2*at - p.X, Y: p.Y} })
}

// MirroredY returns the region mirrored at the level line y = at.
func (r Region) MirroredY(at float64) Region {
	return r.mirrored(func(p r2.Vec) r2.Vec { return r2.Vec{X: p.X, Y: 2*at - p.Y} })
}

// mirrored maps by a reflection: it turns left arcs into right ones and loops
// over, and walking them backwards turns both again, so bulges keep their sign.
func (r Region) mirrored(f func(r2.Vec) r2.Vec) Region {
	return r.each(func(l Loop) Loop {
		m := l.mapped(f).Reverse()
		for i := range m {
			m[i].Bulge = -m[i].Bulge
		}
		return m
	})
}
