package solid

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Shared is what two bodies have in common.
type Shared struct {
	Volume float64 // mm³
	// Reach is how far one reaches into the other, mm: the greatest thickness of
	// the convex pieces of what they share, measured square to their faces.
	Reach float64
	// Center is the centre of what they share, Box the upright box round it.
	Center r3.Vec
	Box    r3.Box
}

// Overlap returns the volume that two bodies have in common, mm³; see
// Ready.Overlap.
func Overlap(a, b Body) (volume float64, err error) {
	s, err := Prepare(a).Overlap(Prepare(b))
	return s.Volume, err
}

// Overlap returns what two bodies have in common. The volume is exact where
// their slabs lie parallel; else arcs cost it what Chord says, and it is never
// too great. Bodies that only touch share nothing, to within planar.Near.
func (r *Ready) Overlap(o *Ready) (Shared, error) {
	s := Shared{Box: r3.EmptyBox()}
	if apart(r.box, o.box, -planar.Near) {
		return s, nil
	}
	first := r3.Vec{}
	for i := range r.Slabs {
		for j := range o.Slabs {
			m, err := r.meet(o, i, j, &s)
			if err != nil {
				return Shared{}, err
			}
			first = first.Add(m)
		}
	}
	if s.Volume > 0 {
		s.Center = first.Mul(1 / s.Volume)
	}
	return s, nil
}

// meet adds what slab i of one and slab j of the other share, and returns its
// first moment.
func (r *Ready) meet(o *Ready, i, j int, s *Shared) (r3.Vec, error) {
	seen, back := r.seen(o, j), o.seen(r, i)
	if !r.reaches(i, seen) || !o.reaches(j, back) {
		return r3.Vec{}, nil
	}
	if len(r.Within)+len(o.Within) == 0 && abs(r.Pose.Z.Dot(o.Pose.Z)) > 1-1e-14 {
		return r.meetFlat(o, i, j, r.Slabs[i].Region.Near(seen.flat), o.Slabs[j].Region.Near(back.flat), s)
	}
	// First with holes filled, which tells where the rest is to be looked at.
	theirs := within(o.full[j](), r.box)
	where := covered(theirs, r.box)
	mine := within(r.full[i](), where)
	if where = covered(mine, where); len(mine) == 0 || apart(where, where, -thin) {
		return r3.Vec{}, nil
	}
	mine, theirs = r.cells(i, where), o.cells(j, where)
	first := r3.Vec{}
	for _, c := range mine {
		for _, d := range theirs {
			if !apart(c.box, d.box, -thin) {
				first = first.Add(s.add(common(c.convex, d.planes)))
			}
		}
	}
	return first, nil
}

// common cuts a convex body by half-spaces.
func common(c convex, by []plane) convex {
	for _, p := range by {
		if c = c.clip(p); len(c.faces) == 0 {
			return c
		}
	}
	return c
}

// add books a convex piece, and returns its first moment.
func (s *Shared) add(c convex) r3.Vec {
	v, first := c.measure()
	if v <= 0 {
		return r3.Vec{}
	}
	s.Volume += v
	s.Box = s.Box.Union(c.box())
	s.Reach = max(s.Reach, c.thickness())
	return first
}

// meetFlat is meet for slabs that lie parallel.
func (r *Ready) meetFlat(o *Ready, i, j int, mine, theirs planar.Region, s *Shared) (r3.Vec, error) {
	at := o.seenFrom(r)
	z0, z1 := at.O.Z+at.Z.Z*o.Slabs[j].Z0, at.O.Z+at.Z.Z*o.Slabs[j].Z1
	z0, z1 = max(r.Slabs[i].Z0, min(z0, z1)), min(r.Slabs[i].Z1, max(z0, z1))
	if z1-z0 <= planar.Near {
		return r3.Vec{}, nil
	}
	flat := theirs.Placed(flatten(at.O), flatten(at.X), flatten(at.Y))
	both, err := planar.Intersection(mine, flat)
	if err != nil || len(both) == 0 {
		return r3.Vec{}, err
	}
	part := Body{Pose: r.Pose, Slabs: []Slab{{both, z0, z1}}}
	v := part.Volume()
	s.Volume += v
	s.Box = s.Box.Union(part.Box())
	for _, c := range both.Cells(Chord) {
		s.Reach = max(s.Reach, prism(r.Pose, c, z0, z1).thickness())
	}
	return part.Centroid().Mul(v), nil
}

// seenFrom returns the body's pose in the frame of another.
func (r *Ready) seenFrom(o *Ready) r3.Pose {
	in := func(d r3.Vec) r3.Vec { return r3.Vec{X: d.Dot(o.Pose.X), Y: d.Dot(o.Pose.Y), Z: d.Dot(o.Pose.Z)} }
	return r3.Pose{O: o.Pose.Local(r.Pose.O), X: in(r.Pose.X), Y: in(r.Pose.Y), Z: in(r.Pose.Z)}
}

func flatten(v r3.Vec) r2.Vec { return r2.Vec{X: v.X, Y: v.Y} }
