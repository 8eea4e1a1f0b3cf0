package solid

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Patch is a place where a face of one body lies on a face of another.
type Patch struct {
	Area float64 // mm²
	// Gap is how far the faces are apart there, mm; less than 0 where they lie
	// within each other. Between cylinders it is the difference of the radii.
	Gap    float64
	Center r3.Vec
	// Normal looks out of the first body; of a cylinder at the patch's middle.
	Normal r3.Vec
	Round  bool // a cylinder in a hollow
}

// parallel is the least cosine of two faces that count as parallel: they are
// turned by less than 0.05 mm in a metre, so that a gap is the same all over.
const parallel = 1 - 1e-9

// Contact returns the patches where two bodies lie on each other and the area
// of them all; see Ready.Contact.
func Contact(a, b Body, tol float64) (area float64, patches []Patch, err error) {
	patches, err = Prepare(a).Contact(Prepare(b), tol)
	for _, p := range patches {
		area += p.Area
	}
	return area, patches, err
}

// Contact returns the patches where faces of the two bodies look at each other,
// overlap in area, and are at most tol mm apart (or within each other): flat
// faces that are parallel, and cylinders in hollows about one axis. Exact for
// arcs. A cylinder on a flat face touches it along a line, which has no area.
func (r *Ready) Contact(o *Ready, tol float64) ([]Patch, error) {
	if apart(r.box, o.box, tol) {
		return nil, nil
	}
	mine, theirs := r.skin(), o.skin()
	if mine.err != nil {
		return nil, mine.err
	}
	if theirs.err != nil {
		return nil, theirs.err
	}
	var out []Patch
	near := touching(theirs.flats, r.box, tol)
	for _, f := range touching(mine.flats, o.box, tol) {
		for _, g := range near {
			p, ok, err := f.on(g, tol)
			if err != nil {
				return nil, err
			}
			if ok {
				out = append(out, p)
			}
		}
	}
	for i := range mine.rounds {
		for j := range theirs.rounds {
			if p, ok := mine.rounds[i].in(&theirs.rounds[j], tol); ok {
				out = append(out, p)
			}
		}
	}
	return out, nil
}

// surface is the boundary of a body as contacts need it.
type surface struct {
	flats  []*flat
	rounds []Round
	err    error
}

// flat is a flat face: a region in a frame whose Z looks out of the material.
type flat struct {
	pose   r3.Pose
	region planar.Region
	box    r3.Box
	plan   r2.Box // of the region
}

func touching(fs []*flat, b r3.Box, tol float64) []*flat {
	var out []*flat
	for _, f := range fs {
		if !apart(f.box, b, tol) {
			out = append(out, f)
		}
	}
	return out
}

func surfaceOf(b Body) surface {
	var s surface
	k := skinner{pose: b.Pose}
	for i, slab := range b.Slabs {
		for l := range slab.Region.All {
			for e := range l {
				s.wall(&k, l.Edge(e), slab.Z0, slab.Z1)
			}
		}
		var below planar.Region
		if i > 0 && slab.Z0-b.Slabs[i-1].Z1 <= planar.Near {
			below = b.Slabs[i-1].Region
		} else if i > 0 {
			s.caps(b.Pose, b.Slabs[i-1].Region, nil, b.Slabs[i-1].Z1)
		}
		s.caps(b.Pose, below, slab.Region, slab.Z0)
	}
	if n := len(b.Slabs); n > 0 {
		s.caps(b.Pose, b.Slabs[n-1].Region, nil, b.Slabs[n-1].Z1)
	}
	if len(b.Within) > 0 && s.err == nil {
		s = s.sawn(b)
	}
	return s
}

// sawn clips faces by the body's half-spaces, and adds the lids.
func (s surface) sawn(b Body) surface {
	var out surface
	by := b.saws()
	for _, f := range s.flats {
		r := f.region
		for _, p := range by {
			if r, out.err = p.flatCut(f.pose, r); out.err != nil {
				return out
			}
		}
		out.face(f.pose, r)
	}
	for _, c := range s.rounds {
		if c, ok := c.whole(by); ok {
			out.rounds = append(out.rounds, c)
		}
	}
	lids, err := b.lids(Chord)
	for _, l := range lids {
		out.face(l.pose, l.region)
	}
	out.err = err
	return out
}

func (s *surface) wall(k *skinner, e planar.Edge, z0, z1 float64) {
	if e.IsArc() {
		s.rounds = append(s.rounds, k.round(e, z0, z1))
		return
	}
	t := e.B.Sub(e.A)
	along := k.pose.Dir(r3.Vec{X: t.X, Y: t.Y}).Unit()
	pose := r3.Pose{O: k.at(e.A, 0), X: along, Y: k.pose.Z, Z: along.Cross(k.pose.Z)}
	s.face(pose, planar.Rect(0, z0, t.Len(), z1))
}

func (s *surface) caps(pose r3.Pose, below, above planar.Region, z float64) {
	up, down, err := differences(below, above)
	if err != nil {
		s.err = err
		return
	}
	pose.O = pose.At(r3.Vec{Z: z})
	s.face(pose, up)
	pose.Y, pose.Z = pose.Y.Mul(-1), pose.Z.Mul(-1)
	s.face(pose, down.MirroredY(0))
}

// face adds a face for each shape of the region.
func (s *surface) face(pose r3.Pose, r planar.Region) {
	for i := range r {
		part := r[i : i+1 : i+1]
		box := Body{Pose: pose, Slabs: []Slab{{part, 0, 0}}}.Box()
		s.flats = append(s.flats, &flat{pose, part, box, part.Box()})
	}
}

// on returns where a face of another body lies on this one.
func (f *flat) on(g *flat, tol float64) (Patch, bool, error) {
	if f.pose.Z.Dot(g.pose.Z) > -parallel {
		return Patch{}, false, nil
	}
	gap := g.pose.O.Sub(f.pose.O).Dot(f.pose.Z)
	if abs(gap) > tol || apart(f.box, g.box, tol) {
		return Patch{}, false, nil
	}
	in := func(d r3.Vec) r2.Vec { return r2.Vec{X: d.Dot(f.pose.X), Y: d.Dot(f.pose.Y)} }
	o, x, y := in(g.pose.O.Sub(f.pose.O)), in(g.pose.X).Unit(), in(g.pose.Y).Unit()
	window, ok := shared(f.plan, placed(g.plan, o, x, y))
	if !ok {
		return Patch{}, false, nil
	}
	other := g.region.Placed(o, x, y)
	both, err := planar.Intersection(f.region.Near(window), other.Near(window))
	if err != nil {
		return Patch{}, false, err
	}
	area := both.Area()
	if area <= planar.Near*(1+both.Perimeter()) {
		return Patch{}, false, nil
	}
	c := both.Centroid()
	return Patch{Area: area, Gap: gap, Normal: f.pose.Z,
		Center: f.pose.At(r3.Vec{X: c.X, Y: c.Y, Z: gap / 2})}, true, nil
}

// placed returns the box round a box in another frame.
func placed(b r2.Box, o, x, y r2.Vec) r2.Box {
	out := r2.EmptyBox()
	for _, p := range [4]r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		out = out.With(o.Add(x.Mul(p.X)).Add(y.Mul(p.Y)))
	}
	return out
}

// shared returns what two boxes share, a little wider, where that has an area.
func shared(a, b r2.Box) (r2.Box, bool) {
	c := r2.Box{
		Min: r2.Vec{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: r2.Vec{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
	return c.Grown(1), c.Size().X > planar.Near && c.Size().Y > planar.Near
}

// in returns where one of two cylinders lies in the other, a hollow.
func (c *Round) in(d *Round, tol float64) (Patch, bool) {
	if c.Hollow == d.Hollow || abs(c.Radius-d.Radius) > tol {
		return Patch{}, false
	}
	axis := c.Up.Unit()
	along := axis.Dot(d.Up.Unit())
	off := d.Center.Sub(c.Center)
	h := off.Dot(axis)
	if abs(along) < parallel || off.Sub(axis.Mul(h)).Len() > tol {
		return Patch{}, false
	}
	z0, z1 := max(0, min(h, h+axis.Dot(d.Up))), min(c.Up.Len(), max(h, h+axis.Dot(d.Up)))
	if z1-z0 <= planar.Near {
		return Patch{}, false
	}
	side := axis.Cross(c.From)
	start := d.From
	if along < 0 { // its sweep runs the other way about our axis: from its end
		start = d.direction(d.Sweep)
	}
	from := math.Atan2(start.Dot(side), start.Dot(c.From))
	sweep, mid := sharedSweep(c.Sweep, from, d.Sweep)
	radius := min(c.Radius, d.Radius)
	if sweep*radius <= planar.Near {
		return Patch{}, false
	}
	out := c.direction(mid)
	p := Patch{Area: radius * sweep * (z1 - z0), Gap: c.Radius - d.Radius, Normal: out, Round: true,
		Center: c.Center.Add(axis.Mul((z0 + z1) / 2)).Add(out.Mul(radius))}
	if !c.Hollow {
		p.Gap = -p.Gap
	} else {
		p.Normal = out.Mul(-1)
	}
	return p, true
}

// whole returns the stretch of the cylinder along its axis that lies within the
// planes all round.
func (c Round) whole(by []plane) (Round, bool) {
	long := c.Up.Len()
	axis := c.Up.Mul(1 / long)
	z0, z1 := 0.0, long
	for _, p := range by {
		rise := p.n.Dot(axis)
		room := -p.over(c.Center) - c.reach(p.n)
		switch {
		case abs(rise) < 1e-9 && room < -planar.Near:
			return c, false
		case rise >= 1e-9:
			z1 = min(z1, room/rise)
		case rise <= -1e-9:
			z0 = max(z0, room/rise)
		}
	}
	if z1-z0 <= planar.Near {
		return c, false
	}
	c.Center, c.Up = c.Center.Add(axis.Mul(z0)), axis.Mul(z1-z0)
	return c, true
}

// reach returns the greatest n·p over the round's foot, from its centre.
func (c *Round) reach(n r3.Vec) float64 {
	x, y := n.Dot(c.From), n.Dot(c.Up.Unit().Cross(c.From))
	best := max(x, n.Dot(c.direction(c.Sweep)))
	for _, turn := range [2]float64{0, 2 * math.Pi} {
		if phi := math.Atan2(y, x) + turn; phi > 0 && phi < c.Sweep {
			best = math.Hypot(x, y)
		}
	}
	return c.Radius * best
}

// direction returns where the cylinder looks at an angle from its start.
func (c *Round) direction(angle float64) r3.Vec {
	s, k := math.Sincos(angle)
	return c.From.Mul(k).Add(c.Up.Unit().Cross(c.From).Mul(s))
}

// sharedSweep returns how much two stretches of a circle share, 0..a and
// from..from+b, and the middle of the longer run of it.
func sharedSweep(a, from, b float64) (sweep, mid float64) {
	longest := 0.0
	for _, turn := range [3]float64{-2 * math.Pi, 0, 2 * math.Pi} {
		lo, hi := max(0, from+turn), min(a, from+turn+b)
		if hi <= lo {
			continue
		}
		sweep += hi - lo
		if hi-lo > longest {
			longest, mid = hi-lo, (lo+hi)/2
		}
	}
	return sweep, mid
}
