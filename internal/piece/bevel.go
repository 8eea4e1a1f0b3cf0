package piece

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/trace"
)

// Bevel is an end, or an edge, of a flat part that is sawn off by a plane which
// is square to neither of its faces: the blade tilted, the gauge turned. Before
// the cut the part has the outline Rough, which reaches past all of its bevels;
// its Outline is then what is seen from either face, its long points.
type Bevel struct {
	At string // "head", "foot", "left end"
	// N and D bound the part in its own frame: N·p ≤ D is left.
	N r3.Vec
	D float64
	// Tilt is the blade's angle from upright, Mitre the gauge's from square to
	// the part's length, rad, both 0 or more.
	Tilt, Mitre trace.Num
	// LongA is true where the face A is the longer one.
	LongA bool
}

// BevelOf returns the bevel by a plane of the piece through a place at, whose
// normal looks out of the part, in a part that stands in the pose.
func BevelOf(name string, pose r3.Pose, at, out r3.Vec) Bevel {
	u := out.Unit()
	n := r3.Vec{X: u.Dot(pose.X), Y: u.Dot(pose.Y), Z: u.Dot(pose.Z)}
	return Bevel{At: name, N: n, D: n.Dot(pose.Local(at)), LongA: n.Z < 0,
		Tilt: trace.Const(math.Asin(math.Abs(n.Z))), Mitre: trace.Const(math.Atan(math.Abs(n.Y / n.X)))}
}

// sawn returns the body of a part with its bevels.
func sawn(b solid.Body, p *Part) solid.Body {
	for _, v := range p.Bevels {
		b.Within = append(b.Within, solid.HalfSpace{N: v.N, D: v.D})
	}
	return b
}

// Stick reports whether a part with bevels is a rectangle before them: it is sawn
// and not shaped.
func (p *Part) Stick() bool {
	if len(p.Bevels) == 0 || len(p.Rough) != 1 || len(p.Rough[0].Holes) > 0 || len(p.Rough[0].Outer) != 4 {
		return false
	}
	for _, v := range p.Rough[0].Outer {
		if v.Bulge != 0 {
			return false
		}
	}
	return true
}

// Seen returns the outline of a flat part as both faces together show it: of one
// with bevels what its Rough keeps at any height between the faces.
func Seen(p *Part) (planar.Region, error) {
	return p.kept(func(n r3.Vec) float64 { return math.Min(0, n.Z*p.Thick.V) })
}

// OnFace returns the outline of a face of a flat part.
func OnFace(p *Part, f Face) (planar.Region, error) {
	z := 0.0
	if f == FaceA {
		z = p.Thick.V
	}
	return p.kept(func(n r3.Vec) float64 { return n.Z * z })
}

// kept cuts the rough outline by the bevels' lines: n.X·x + n.Y·y ≤ D − less(n).
func (p *Part) kept(less func(n r3.Vec) float64) (planar.Region, error) {
	if len(p.Bevels) == 0 {
		return p.Outline, nil
	}
	r := p.Rough
	for _, v := range p.Bevels {
		n := r2.Vec{X: v.N.X, Y: v.N.Y}
		room := (v.D - less(v.N)) / n.Len()
		u := n.Unit()
		lo, hi := r.Extent(u)
		if hi <= room {
			continue
		}
		l, h := r.Extent(u.Left())
		var err error
		half := planar.Rect(math.Min(lo, room)-1, l-1, room, h+1).Placed(r2.Vec{}, u, u.Left())
		if r, err = planar.Intersection(r, half); err != nil {
			return nil, err
		}
	}
	return r, nil
}
