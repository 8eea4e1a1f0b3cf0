package solid

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// Face is a flat piece of a body's boundary in space.
type Face struct {
	// Normal points out of the material, length 1.
	Normal r3.Vec
	// Loops are the corners: the outer loop first, anticlockwise as seen from
	// outside, then holes, clockwise.
	Loops [][]r3.Vec
	// Curved is true for a strip that stands for part of a cylinder.
	Curved bool
}

// EdgeKind says how two faces of a body meet.
type EdgeKind string

const (
	// Sharp edges turn a corner, out or in.
	Sharp EdgeKind = "sharp"
	// Tangent edges are where a flat face runs on into a cylinder, or a
	// cylinder into another, without a corner.
	Tangent EdgeKind = "tangent"
)

// Edge is an edge of a body in space, straight or a circular arc. What is none
// is left out: the seam between two slabs whose walls are flush, the joints
// between the strips that stand for a cylinder.
type Edge struct {
	A, B r3.Vec
	Kind EdgeKind
	// N are the outward normals of the two faces that meet here; at a tangent
	// edge those of the two sides just beside it, which are equal. Along an
	// arc the second is that at its start, and turns with it.
	N [2]r3.Vec
	// Radius is 0 for a straight edge. An arc runs anticlockwise about Axis
	// (length 1) through Center, by Sweep rad, from A to B.
	Radius, Sweep float64
	Center, Axis  r3.Vec
	// Bends tells for a Tangent edge which way each side curves away from the
	// tangent plane: -1 inwards (convex), 1 outwards (concave), 0 flat.
	Bends [2]int
}

// Round is a stretch of a cylinder on a body's boundary.
type Round struct {
	// Center is the centre at the lower end, Up leads from there to the upper
	// end: the axis.
	Center, Up r3.Vec
	// The stretch runs from direction From (length 1) anticlockwise about Up
	// by Sweep rad.
	From          r3.Vec
	Radius, Sweep float64
	// Hollow is true where the material is outside of the cylinder.
	Hollow bool
	// Saws are the half-spaces of the body, in the frame Pose, where it has any:
	// only what lies within them is there. See Kept.
	Saws []HalfSpace
	Pose r3.Pose
}

// Skin is the boundary of a body.
type Skin struct {
	Faces  []Face
	Edges  []Edge
	Rounds []Round
}

// Faces returns the boundary as polygons; see Skin.
func (b Body) Faces(chord float64) ([]Face, error) {
	s, err := b.Skin(chord)
	return s.Faces, err
}

// Skin returns the boundary of the body in space: its walls (one face for each
// straight edge of a slab's region, strips for an arc, none further than chord
// mm from it), its caps where a slab ends and the next does not go on, and its
// edges. Slabs that meet leave no face between them.
func (b Body) Skin(chord float64) (Skin, error) {
	k := skinner{pose: b.Pose, chord: chord}
	for i, s := range b.Slabs {
		for l := range s.Region.All {
			k.walls(l, s.Z0, s.Z1)
		}
		var below planar.Region
		if i > 0 && s.Z0-b.Slabs[i-1].Z1 <= planar.Near {
			below = b.Slabs[i-1].Region
		} else if i > 0 {
			if err := k.level(b.Slabs[i-1].Region, nil, b.Slabs[i-1].Z1); err != nil {
				return Skin{}, err
			}
		}
		if err := k.level(below, s.Region, s.Z0); err != nil {
			return Skin{}, err
		}
	}
	if n := len(b.Slabs); n > 0 {
		if err := k.level(b.Slabs[n-1].Region, nil, b.Slabs[n-1].Z1); err != nil {
			return Skin{}, err
		}
	}
	if len(b.Within) > 0 {
		return k.Skin.sawn(b, chord)
	}
	return k.Skin, nil
}

type skinner struct {
	Skin
	pose  r3.Pose
	chord float64
	// Corners and loops are cut from large pieces: most faces have four corners.
	corners []r3.Vec
	loops   [][]r3.Vec
}

// loop returns room for n corners.
func (k *skinner) loop(n int) []r3.Vec {
	if len(k.corners) < n {
		k.corners = make([]r3.Vec, max(n, 256))
	}
	l := k.corners[:n:n]
	k.corners = k.corners[n:]
	return l
}

// single returns a list of one loop.
func (k *skinner) single(l []r3.Vec) [][]r3.Vec {
	if len(k.loops) < 1 {
		k.loops = make([][]r3.Vec, 64)
	}
	ls := k.loops[:1:1]
	k.loops = k.loops[1:]
	ls[0] = l
	return ls
}

func (k *skinner) at(p r2.Vec, z float64) r3.Vec { return k.pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z}) }

// out is the normal of a wall over an edge that runs along t: to its right, as
// material is on its left.
func (k *skinner) out(t r2.Vec) r3.Vec {
	return k.pose.X.Mul(t.Y).Add(k.pose.Y.Mul(-t.X))
}

// walls adds the faces over a loop between two heights, and the upright edges.
func (k *skinner) walls(l planar.Loop, z0, z1 float64) {
	for i := range l {
		e := l.Edge(i)
		k.wall(e, z0, z1)
		last := l.Edge((i + len(l) - 1) % len(l))
		k.upright(last, e, z0, z1)
	}
}

func (k *skinner) wall(e planar.Edge, z0, z1 float64) {
	n := e.Chords(k.chord)
	p := e.A
	for j := 1; j <= n; j++ {
		q := e.At(float64(j) / float64(n))
		l := k.loop(4)
		l[0], l[1], l[2], l[3] = k.at(p, z0), k.at(q, z0), k.at(q, z1), k.at(p, z1)
		k.Faces = append(k.Faces, Face{Normal: k.out(q.Sub(p).Unit()), Loops: k.single(l), Curved: e.IsArc()})
		p = q
	}
	if !e.IsArc() {
		return
	}
	k.Rounds = append(k.Rounds, k.round(e, z0, z1))
}

// round returns the cylinder over an arc between two heights.
func (k *skinner) round(e planar.Edge, z0, z1 float64) Round {
	c := e.Center()
	start := e
	if e.Bulge < 0 { // told anticlockwise
		start = e.Reverse()
	}
	from := start.A.Sub(c).Unit()
	return Round{
		Center: k.at(c, z0), Up: k.pose.Z.Mul(z1 - z0),
		From:   k.pose.Dir(r3.Vec{X: from.X, Y: from.Y}),
		Radius: e.Radius(), Sweep: start.Sweep(), Hollow: e.Bulge < 0,
	}
}

// upright adds the edge between two walls, if there is one.
func (k *skinner) upright(in, out planar.Edge, z0, z1 float64) {
	t0, t1 := in.Tangent(1), out.Tangent(0)
	edge := Edge{A: k.at(out.A, z0), B: k.at(out.A, z1), Kind: Sharp, N: [2]r3.Vec{k.out(t0), k.out(t1)}}
	if math.Abs(t0.Cross(t1)) < smooth && t0.Dot(t1) > 0 {
		if math.Abs(curvature(in)-curvature(out)) < 1e-9 {
			return
		}
		edge.Kind = Tangent
		edge.Bends = [2]int{bends(in), bends(out)}
	}
	k.Edges = append(k.Edges, edge)
}

// smooth is the sine of the angle under which two walls run on into each other.
const smooth = 1e-6

func curvature(e planar.Edge) float64 {
	if !e.IsArc() {
		return 0
	}
	return math.Copysign(1/e.Radius(), e.Bulge)
}

func bends(e planar.Edge) int {
	switch {
	case !e.IsArc():
		return 0
	case e.Bulge > 0:
		return -1
	}
	return 1
}

// level adds the caps at a height between the region below and that above, and
// their edges.
func (k *skinner) level(below, above planar.Region, z float64) error {
	up, down, err := differences(below, above)
	if err != nil {
		return err
	}
	k.caps(up, below, z, true)
	k.caps(down, above, z, false)
	return nil
}

// differences returns a less b and b less a. Mostly one lies within the other,
// and the areas tell: |a−b| − |b−a| = |a| − |b|.
func differences(a, b planar.Region) (ab, ba planar.Region, err error) {
	if len(a) == 0 || len(b) == 0 {
		return a, b, nil
	}
	more := a.Area() - b.Area()
	if more < 0 {
		ba, ab, err = differences(b, a)
		return ab, ba, err
	}
	if ab, err = planar.Difference(a, b); err != nil {
		return nil, nil, err
	}
	if math.Abs(ab.Area()-more) > 1e-3 {
		ba, err = planar.Difference(b, a)
	}
	return ab, ba, err
}

// caps adds the flat faces over r, which is a part of the slab's region own,
// looking up or down.
func (k *skinner) caps(r, own planar.Region, z float64, up bool) {
	n := k.pose.Z
	if !up {
		n = n.Mul(-1)
	}
	for i, s := range r {
		f := Face{Normal: n}
		for l := range r[i : i+1].All {
			ps := l.Flatten(k.chord)
			loop := k.loop(len(ps))
			for i, p := range ps {
				if !up {
					i = len(ps) - 1 - i
				}
				loop[i] = k.at(p, z)
			}
			if len(s.Holes) == 0 {
				f.Loops = k.single(loop)
			} else {
				f.Loops = append(f.Loops, loop)
			}
			for i := range l {
				k.rim(l.Edge(i), own, n, z)
			}
		}
		k.Faces = append(k.Faces, f)
	}
}

// rim adds an edge of a cap, and tells which wall meets it there: that of the
// cap's own slab, where the corner sticks out; else that of the other slab,
// which rises from the cap at an inner corner and looks to the cap's side.
func (k *skinner) rim(e planar.Edge, own planar.Region, n r3.Vec, z float64) {
	wall := k.out(e.Tangent(0))
	if !own.OnEdge(e.At(0.5), 1e-4) {
		wall = wall.Mul(-1)
	}
	edge := Edge{A: k.at(e.A, z), B: k.at(e.B, z), Kind: Sharp, N: [2]r3.Vec{n, wall}}
	if e.IsArc() {
		edge.Center = k.at(e.Center(), z)
		edge.Radius = e.Radius()
		edge.Axis, edge.Sweep = k.pose.Z, e.Sweep()
		if edge.Sweep < 0 {
			edge.Axis, edge.Sweep = edge.Axis.Mul(-1), -edge.Sweep
		}
	}
	k.Edges = append(k.Edges, edge)
}

// Normals returns the outward normals of the two faces at share t of the way.
func (e Edge) Normals(t float64) [2]r3.Vec {
	if e.Radius == 0 {
		return e.N
	}
	s, c := math.Sincos(t * e.Sweep)
	return [2]r3.Vec{e.N[0], e.N[1].Mul(c).Add(e.Axis.Cross(e.N[1]).Mul(s))}
}

// At returns the place at share t of the way along the edge.
func (e Edge) At(t float64) r3.Vec {
	if e.Radius == 0 {
		return e.A.Add(e.B.Sub(e.A).Mul(t))
	}
	u := e.A.Sub(e.Center)
	s, c := math.Sincos(t * e.Sweep)
	return e.Center.Add(u.Mul(c)).Add(e.Axis.Cross(u).Mul(s))
}
