package solid

import (
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// onSaw is how near all of an edge is to lie to a saw's plane to be the lid's,
// mm.
const onSaw = 10 * planar.Near

// sawn clips a skin of slabs by the body's half-spaces and adds the lids.
func (k Skin) sawn(b Body, chord float64) (Skin, error) {
	var out Skin
	by := b.saws()
	for _, f := range k.Faces {
		if err := out.addFace(f, by); err != nil {
			return Skin{}, err
		}
	}
	for _, e := range k.Edges {
		out.Edges = append(out.Edges, e.sawn(by)...)
	}
	for _, r := range k.Rounds {
		r.Saws = b.Within
		r.Pose = b.Pose
		out.Rounds = append(out.Rounds, r)
	}
	lids, err := b.lids(chord)
	if err != nil {
		return Skin{}, err
	}
	for _, l := range lids {
		out.addRegion(l.pose, l.region.Flatten(chord), false)
		for loop := range l.region.All {
			for i := range loop {
				out.addRim(b, by, l.pose, loop.Edge(i))
			}
		}
	}
	return out, nil
}

// addFace adds what of a flat face lies within the planes.
func (k *Skin) addFace(f Face, by []plane) error {
	crossed := false
	for _, p := range by {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range f.Loops[0] {
			lo, hi = min(lo, p.over(q)), max(hi, p.over(q))
		}
		if lo > -planar.Near { // beyond it, or in it: then the lid is there
			return nil
		}
		crossed = crossed || hi > planar.Near
	}
	if !crossed {
		k.Faces = append(k.Faces, f)
		return nil
	}
	u, v := across(f.Normal)
	pose := r3.Pose{O: f.Loops[0][0], X: u, Y: v, Z: f.Normal}
	loops := make([]planar.Loop, len(f.Loops))
	for i, l := range f.Loops {
		loops[i] = make(planar.Loop, len(l))
		for j, q := range l {
			loops[i][j].P = flatten(pose.Local(q))
		}
	}
	r := planar.Of(loops[0], loops[1:]...)
	for _, p := range by {
		var err error
		if r, err = p.flatCut(pose, r); err != nil {
			return err
		}
	}
	k.addRegion(pose, r, f.Curved)
	return nil
}

// addRegion adds a region with straight sides in a frame whose Z looks out.
func (k *Skin) addRegion(pose r3.Pose, r planar.Region, curved bool) {
	for _, s := range r {
		f := Face{Normal: pose.Z, Curved: curved}
		for l := range (planar.Region{s}).All {
			ps := make([]r3.Vec, len(l))
			for i, v := range l {
				ps[i] = pose.At(r3.Vec{X: v.P.X, Y: v.P.Y})
			}
			f.Loops = append(f.Loops, ps)
		}
		k.Faces = append(k.Faces, f)
	}
}

// addRim adds an edge of a lid, where another face meets it at a corner.
func (k *Skin) addRim(b Body, by []plane, pose r3.Pose, e planar.Edge) {
	at := func(p r2.Vec) r3.Vec { return pose.At(r3.Vec{X: p.X, Y: p.Y}) }
	n, ok := b.beside(by, pose, at(e.At(0.5)))
	if !ok {
		return
	}
	edge := Edge{A: at(e.A), B: at(e.B), Kind: Sharp, N: [2]r3.Vec{pose.Z, n}}
	if e.IsArc() {
		edge.Center, edge.Radius = at(e.Center()), e.Radius()
		edge.Axis, edge.Sweep = pose.Z, e.Sweep()
		if edge.Sweep < 0 {
			edge.Axis, edge.Sweep = edge.Axis.Mul(-1), -edge.Sweep
		}
		s, c := math.Sincos(-edge.Sweep / 2) // back to the arc's start
		edge.N[1] = n.Mul(c).Add(edge.Axis.Cross(n).Mul(s))
	}
	k.Edges = append(k.Edges, edge)
}

// beside returns the outward normal of the face that meets a lid at a place on
// its rim: another lid, or the nearest wall or cap of a slab.
func (b Body) beside(by []plane, lid r3.Pose, p r3.Vec) (r3.Vec, bool) {
	for _, q := range by {
		if abs(q.over(p)) < onSaw && q.n.Sub(lid.Z).Len() > 1e-6 {
			return q.n, true
		}
	}
	at := b.Pose.Local(p)
	best, out := 2*Chord+1e-3, r3.Vec{}
	k := skinner{pose: b.Pose}
	for _, s := range b.Slabs {
		if at.Z < s.Z0-onSaw || at.Z > s.Z1+onSaw {
			continue
		}
		for l := range s.Region.All {
			for i := range l {
				e := l.Edge(i)
				if t, d := nearestOn(e, flatten(at)); d < best {
					best, out = d, k.out(e.Tangent(t))
				}
			}
		}
	}
	for _, s := range b.Slabs { // a cap lies nearer than any wall only where it is
		for _, end := range [2]float64{s.Z0, s.Z1} {
			if d := abs(at.Z - end); d < best && d < onSaw {
				best, out = d, b.Pose.Z.Mul(math.Copysign(1, end-(s.Z0+s.Z1)/2))
			}
		}
	}
	return out, out != r3.Vec{} && out.Sub(lid.Z).Len() > 1e-6
}

// nearestOn returns the share along an edge that lies nearest to a place, and
// how far it lies from it.
func nearestOn(e planar.Edge, p r2.Vec) (share, far float64) {
	d := e.B.Sub(e.A)
	if !e.IsArc() {
		share = clamped(p.Sub(e.A).Dot(d) / max(d.Dot(d), 1e-30))
	} else {
		c := e.Center()
		u, v := e.A.Sub(c), p.Sub(c)
		turn := math.Atan2(u.Cross(v), u.Dot(v))
		if turn*e.Sweep() < 0 && abs(turn) > 1e-6 {
			turn += math.Copysign(2*math.Pi, e.Sweep())
		}
		share = clamped(turn / e.Sweep())
	}
	return share, e.At(share).Sub(p).Len()
}

// sawn returns the stretches of an edge that lie within planes and not in one.
func (e Edge) sawn(by []plane) []Edge {
	cuts := []float64{0, 1}
	for _, p := range by {
		if abs(p.over(e.A)) < onSaw && abs(p.over(e.At(0.5))) < onSaw && abs(p.over(e.B)) < onSaw {
			return nil
		}
		cuts = append(cuts, e.crossings(p)...)
	}
	slices.Sort(cuts)
	var out []Edge
	for i := 1; i < len(cuts); i++ {
		t0, t1 := cuts[i-1], cuts[i]
		mid := e.At((t0 + t1) / 2)
		if slices.ContainsFunc(by, func(p plane) bool { return p.over(mid) > 0 }) {
			continue
		}
		if part := e.stretch(t0, t1); part.B.Sub(part.A).Len() > planar.Near || e.Radius > 0 && t1 > t0 {
			out = append(out, part)
		}
	}
	return out
}

// stretch returns the edge between two shares of its way.
func (e Edge) stretch(t0, t1 float64) Edge {
	out := e
	if t0 > 0 {
		out.A, out.N = e.At(t0), e.Normals(t0)
	}
	if t1 < 1 {
		out.B = e.At(t1)
	}
	out.Sweep = e.Sweep * (t1 - t0)
	return out
}

// crossings returns the shares at which an edge goes through a plane.
func (e Edge) crossings(p plane) []float64 {
	a, b := p.over(e.A), p.over(e.B)
	if e.Radius == 0 {
		if a*b >= 0 {
			return nil
		}
		return []float64{a / (a - b)}
	}
	u := e.A.Sub(e.Center)
	x, y := p.n.Dot(u), p.n.Dot(e.Axis.Cross(u))
	far := -p.over(e.Center) // x·cos φ + y·sin φ = far
	r := math.Hypot(x, y)
	if abs(far) >= r {
		return nil
	}
	mid, half := math.Atan2(y, x), math.Acos(far/r)
	var out []float64
	for _, phi := range [2]float64{mid - half, mid + half} {
		phi = math.Mod(phi+4*math.Pi, 2*math.Pi)
		if t := phi / e.Sweep; t > 1e-9 && t < 1-1e-9 {
			out = append(out, t)
		}
	}
	return out
}

// Kept clips a straight line, from a to b, on the round by the half-spaces that
// bound the body; ok is false where nothing of it is left.
func (r *Round) Kept(a, b r3.Vec) (p, q r3.Vec, ok bool) {
	t0, t1 := 0.0, 1.0
	for _, h := range r.Saws {
		n := r.Pose.Dir(h.N)
		s := plane{n, h.D + n.Dot(r.Pose.O)}
		x, y := s.over(a), s.over(b)
		switch {
		case x >= 0 && y >= 0:
			return a, b, false
		case x > 0:
			t0 = max(t0, x/(x-y))
		case y > 0:
			t1 = min(t1, x/(x-y))
		}
	}
	d := b.Sub(a)
	return a.Add(d.Mul(t0)), a.Add(d.Mul(t1)), t0 < t1
}
