package solid

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// # Oblique ends
//
// A leg that leans both ways is sawn off level at both ends, and the saw's plane
// lies along no slab and stands up from none. Such a body is told as slabs that
// reach past the saw, and the half-spaces within which they count. Questions
// stay questions about slabs:
//
//   - a flat face, a section, a straight or round edge, a ray is asked for as if
//     there were no saw, and clipped: a half-space meets a plane in a half-plane,
//     and a line in a ray, and both are exact;
//   - a new face, the lid, is the section of the slabs by the saw's plane, clipped
//     by the other saws;
//   - convex cells are cut by the plane and stay convex;
//   - a volume is that of the slab as far as no saw reaches into it, exact for
//     arcs, and of the cells of the rest.
//
// A cylinder that a saw crosses ends in a piece of an ellipse, for which chords
// stand. It counts as touching another only as far as it is whole all round.

// HalfSpace is what has N·p ≤ D, mm, in a body's own frame; N has length 1 and
// looks out of what is kept.
type HalfSpace struct {
	N r3.Vec
	D float64
}

// CutBy returns what of the body lies behind the plane through a place at, in
// space, whose normal out looks away from what is kept.
func (b Body) CutBy(at, out r3.Vec) Body {
	n := b.inside(out.Unit())
	h := HalfSpace{n, n.Dot(b.Pose.Local(at))}
	for _, g := range b.Within {
		if g.N.Sub(h.N).Len() < 1e-9 && math.Abs(g.D-h.D) < thin {
			return b
		}
	}
	b.Within = append(b.Within[:len(b.Within):len(b.Within)], h)
	return b
}

// inside turns a direction of space into the body's frame.
func (b Body) inside(d r3.Vec) r3.Vec {
	return r3.Vec{X: d.Dot(b.Pose.X), Y: d.Dot(b.Pose.Y), Z: d.Dot(b.Pose.Z)}
}

// saws returns the body's half-spaces as planes in space.
func (b Body) saws() []plane {
	var out []plane
	for _, h := range b.Within {
		n := b.Pose.Dir(h.N)
		out = append(out, plane{n, h.D + n.Dot(b.Pose.O)})
	}
	return out
}

// flatCut returns what of a region in a frame of space lies within a plane. A
// region that lies in the plane itself is gone: the lid is there.
func (p plane) flatCut(pose r3.Pose, r planar.Region) (planar.Region, error) {
	n := r2.Vec{X: p.n.Dot(pose.X), Y: p.n.Dot(pose.Y)}
	room := -p.over(pose.O) // n·q ≤ room is kept
	if n.Len() < 1e-9 {
		if room < planar.Near {
			return nil, nil
		}
		return r, nil
	}
	return halfPlane(r, n, room)
}

// halfPlane returns what of a region has n·p ≤ room.
func halfPlane(r planar.Region, n r2.Vec, room float64) (planar.Region, error) {
	room /= n.Len()
	n = n.Unit()
	lo, hi := r.Extent(n)
	switch {
	case !(lo < room-planar.Near): // or empty
		return nil, nil
	case hi <= room+planar.Near:
		return r, nil
	}
	l, h := r.Extent(n.Left())
	half := planar.Rect(lo-1, l-1, room, h+1).Placed(r2.Vec{}, n, n.Left())
	return planar.Intersection(r, half)
}

// parts returns what of a slab's region no half-space reaches into at any of
// its heights, and the rest of what may be kept at one of them.
func (b Body) parts(s Slab) (whole, rest planar.Region, err error) {
	whole, may := s.Region, s.Region
	for _, h := range b.Within {
		n := flatten(h.N)
		most, least := max(h.N.Z*s.Z0, h.N.Z*s.Z1), min(h.N.Z*s.Z0, h.N.Z*s.Z1)
		if n.Len() < 1e-9 {
			if least > h.D-thin {
				return nil, nil, nil
			}
			if most > h.D+thin {
				whole = nil
			}
			continue
		}
		if whole, err = halfPlane(whole, n, h.D-most); err != nil {
			return nil, nil, err
		}
		if may, err = halfPlane(may, n, h.D-least); err != nil {
			return nil, nil, err
		}
	}
	switch {
	case len(whole) == 0:
		return nil, may, nil
	case math.Abs(may.Area()-whole.Area()) < planar.Near:
		return whole, nil, nil
	}
	rest, err = planar.Difference(may, whole)
	return whole, rest, err
}

// sawn cuts a convex cell by planes; ok is false where nothing is left of it.
func (c cell) sawn(by []plane) (cell, bool) {
	for _, p := range by {
		lo, hi := c.width(p.n)
		if hi <= p.d+thin {
			continue
		}
		if lo >= p.d-thin {
			return c, false
		}
		if c.convex = c.clip(p); len(c.faces) == 0 {
			return c, false
		}
		c.planes = append(c.planes, p)
		c.sawed = true
	}
	return c, true
}

// convexCells returns the convex cells of the body, cut by its half-spaces, in which
// chords of arcs lie no further than err mm within the material.
func (b Body) convexCells(err float64) []cell {
	by := b.saws()
	var out []cell
	for _, s := range b.Slabs {
		for _, poly := range s.Region.Cells(err) {
			c := cell{convex: prism(b.Pose, poly, s.Z0, s.Z1), planes: bounds(b.Pose, poly, s.Z0, s.Z1)}
			c, ok := c.sawn(by)
			if !ok {
				continue
			}
			c.box = c.convex.box()
			out = append(out, c)
		}
	}
	return out
}

// lids returns the faces that the half-spaces have cut: frames whose Z looks out,
// with the regions in them; chord as in slabSection.
func (b Body) lids(chord float64) ([]flat, error) {
	var out []flat
	by := b.saws()
	for i, p := range by {
		u, v := across(p.n)
		pose := r3.Pose{O: p.n.Mul(p.d), X: u, Y: v, Z: p.n}
		at := pose
		at.O = at.O.Sub(p.n.Mul(behind)) // a cap may lie in the plane
		r, err := b.slabSection(at, chord)
		for j, q := range by {
			if j != i && err == nil {
				r, err = q.flatCut(pose, r)
			}
		}
		if err != nil {
			return nil, err
		}
		if len(r) > 0 {
			out = append(out, flat{pose: pose, region: r})
		}
	}
	return out, nil
}
