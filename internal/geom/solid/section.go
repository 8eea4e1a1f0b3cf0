package solid

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// behind is how far behind its plane a section is really taken, mm: what lies
// just behind the plane shows cut where a face of the body lies in it.
const behind = 10 * planar.Near

// Section returns what a plane cuts of the body, in the plane's own x and y. The
// plane goes through plane.O; its Z looks towards the eye, and the cut is taken a
// hair behind it. Arcs stay arcs where the plane lies along the slabs; where it
// stands up from them the section has straight sides; a plane that slants across
// them makes ellipses, for which chords stand, no further than Chord from them.
func (b Body) Section(plane r3.Pose) (planar.Region, error) {
	plane.O = plane.O.Sub(plane.Z.Mul(behind))
	r, err := b.slabSection(plane, Chord)
	for _, p := range b.saws() {
		if err == nil {
			r, err = p.flatCut(plane, r)
		}
	}
	return r, err
}

// slabSection is the section of the slabs by the plane itself, whatever the
// half-spaces; chords of ellipses lie no further from them than chord.
func (b Body) slabSection(plane r3.Pose, chord float64) (planar.Region, error) {
	n := r3.Vec{X: plane.Z.Dot(b.Pose.X), Y: plane.Z.Dot(b.Pose.Y), Z: plane.Z.Dot(b.Pose.Z)}
	at := b.Pose.Local(plane.O)
	var out planar.Region
	for _, s := range b.Slabs {
		var part planar.Region
		var err error
		switch {
		case math.Abs(n.Z) > 1-1e-14:
			part = b.along(s, plane, at.Z)
		case math.Abs(n.Z) < 1e-7:
			part = b.standing(s, plane, at, n)
		default:
			part, err = b.slanting(s, plane, at, n, chord)
		}
		if err == nil && len(part) > 0 {
			out, err = planar.Union(out, part)
		}
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// along is the section of a slab by a plane that lies along it.
func (b Body) along(s Slab, plane r3.Pose, z float64) planar.Region {
	if z < s.Z0 || z >= s.Z1 {
		return nil
	}
	in := func(d r3.Vec) r2.Vec { return r2.Vec{X: d.Dot(plane.X), Y: d.Dot(plane.Y)} }
	return s.Region.Placed(in(b.Pose.O.Sub(plane.O)), in(b.Pose.X).Unit(), in(b.Pose.Y).Unit())
}

// standing is the section of a slab by a plane square to it: the stretches of
// the line where they meet, as high as the slab.
func (b Body) standing(s Slab, plane r3.Pose, at, n r3.Vec) planar.Region {
	d := r2.Vec{X: -n.Y, Y: n.X}.Unit()
	var flat planar.Region
	for _, w := range s.Region.Along(flatten(at), d) {
		flat = append(flat, planar.Rect(w.T0, s.Z0-at.Z, w.T1, s.Z1-at.Z)...)
	}
	in := func(v r3.Vec) r2.Vec { return r2.Vec{X: v.Dot(plane.X), Y: v.Dot(plane.Y)}.Unit() }
	return flat.Placed(r2.Vec{}, in(b.Pose.Dir(r3.Vec{X: d.X, Y: d.Y})), in(b.Pose.Z))
}

// slanting is the section of a slab by a plane that slants across it. Over a
// place p of the slab's region the plane runs at the height z = at.Z − (p − at)·n/n.Z,
// so that the slab keeps of its region the strip where that lies within it.
func (b Body) slanting(s Slab, plane r3.Pose, at, n r3.Vec, chord float64) (planar.Region, error) {
	fall := flatten(n).Mul(-1 / n.Z) // of z per mm
	steep, up := fall.Len(), fall.Unit()
	t0, t1 := (s.Z0-at.Z)/steep, (s.Z1-at.Z)/steep
	reach := 1.0
	for l := range s.Region.All {
		for i := range l {
			reach = max(reach, l[i].P.Sub(flatten(at)).Len()+2*l.Edge(i).Radius())
		}
	}
	strip := planar.Rect(max(t0, -reach), -reach, min(t1, reach), reach)
	kept, err := planar.Intersection(s.Region, strip.Placed(flatten(at), up, up.Left()))
	if err != nil {
		return nil, err
	}
	to := func(p r2.Vec) r2.Vec {
		z := at.Z + p.Sub(flatten(at)).Dot(fall)
		v := b.Pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z}).Sub(plane.O)
		return r2.Vec{X: v.Dot(plane.X), Y: v.Dot(plane.Y)}
	}
	var out planar.Region
	for _, shape := range kept.Flatten(chord * math.Abs(n.Z)) { // the slant stretches them
		holes := make([]planar.Loop, len(shape.Holes))
		for i, h := range shape.Holes {
			holes[i] = mapped(h, to)
		}
		out = append(out, planar.Of(mapped(shape.Outer, to), holes...)...)
	}
	return out, nil
}

func mapped(l planar.Loop, to func(r2.Vec) r2.Vec) planar.Loop {
	ps := make([]r2.Vec, len(l))
	for i, v := range l {
		ps[i] = to(v.P)
	}
	return planar.Polygon(ps...)
}
