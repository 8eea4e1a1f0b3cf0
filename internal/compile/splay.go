package compile

import (
	"fmt"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/lean"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// stance is how a leg stands that leans both ways: outwards from its pair's plane
// by across, and outwards in the plane by along. It turns about its foot: the
// outer corner of the foot lies at foot, on the floor.
type stance struct {
	out, in       r3.Vec // outwards, square to the plane, and in it
	foot          [3]trace.Num
	across, along trace.Num // rad, 0 or more
	height, thick trace.Num
	by            []trace.Num // what places it
}

// pose is the frame of the stick: x up along it, y inwards in the face that lies
// along the level line, and the other way round z, its origin at the foot's outer
// corner. outer tells that the face A is the one that looks outwards.
func (s stance) pose() (pose r3.Pose, outer bool) {
	up := r3.Vec{Y: 1}.Sub(s.out.Mul(math.Tan(s.across.V))).Sub(s.in.Mul(math.Tan(s.along.V))).Unit()
	inwards := s.in.Mul(-1)
	y := inwards.Sub(up.Mul(inwards.Dot(up))).Unit()
	pose = r3.Pose{O: r3.Vec{X: s.foot[0].V, Y: s.foot[1].V, Z: s.foot[2].V}, X: up, Y: y, Z: up.Cross(y)}
	outer = pose.Z.Dot(s.out) > 0
	if outer {
		pose.O = pose.O.Sub(pose.Z.Mul(s.thick.V))
	}
	return pose, outer
}

// splayedPair stands a pair of legs that lean out of their plane as well.
func (b *builder) splayedPair(pl legPlane, out, in trace.Num) {
	w := b.d.Base
	l := w.Legs
	for _, turned := range []bool{false, true} {
		if turned && !l.Mirrored {
			return
		}
		s := b.stance(pl, turned)
		s.across, s.along = out, in
		p, ok := b.leaningLeg(pl, s, turned)
		if !ok {
			return
		}
		b.standsUnder(p)
	}
}

// stance places a leg of a plane: the foot's outer corner stands where a plumb
// leg's would.
func (b *builder) stance(pl legPlane, turned bool) stance {
	l := b.d.Base.Legs
	role := b.pick(b.d.Base.Role, "legs", "panels")
	s := stance{height: b.d.Base.Height, thick: b.thick(role), by: []trace.Num{pl.lo, pl.hi, l.Inset, b.d.Base.Height}}
	across := b.width
	if !pl.end {
		across = b.front
	}
	at, sign := pl.lo, -1.0
	if pl.lo.V+pl.hi.V > across.V {
		at, sign = pl.hi, 1
	}
	if pl.end {
		s.out, s.in, s.foot = r3.Vec{X: sign}, r3.Vec{Z: 1}, [3]trace.Num{at, {}, b.front.Sub(l.Inset)}
		if turned {
			s.in, s.foot[2] = r3.Vec{Z: -1}, l.Inset
		}
		return s
	}
	s.out, s.in, s.foot = r3.Vec{Z: sign}, r3.Vec{X: -1}, [3]trace.Num{l.Inset, {}, at}
	if turned {
		s.in, s.foot[0] = r3.Vec{X: 1}, b.width.Sub(l.Inset)
	}
	return s
}

// leaningLeg makes a leg that leans both ways, sawn off level at floor and body.
func (b *builder) leaningLeg(pl legPlane, s stance, turned bool) (*piece.Part, bool) {
	w := b.d.Base
	p := b.legPart(pl, turned)
	rough, ok := b.roughLeg(s)
	if !ok {
		return nil, false
	}
	if !b.sawLevel(p, s, rough, w.Path+".outline") {
		return nil, false
	}
	if !w.Legs.Shape.Given() {
		p.Width = w.Legs.Wide
		p.Length = longPoints(s, w.Legs.Wide)
	}
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	return b.add(p), true
}

// roughLeg is the outline of a leg before its ends are cut, x up along it and y
// inwards, from the foot's outer corner.
func (b *builder) roughLeg(s stance) (planar.Region, bool) {
	l := b.d.Base.Legs
	if !l.Shape.Given() {
		a, err := lean.Of(s.across.V, s.along.V)
		if err != nil {
			b.errorAt(b.d.Base.Path+".splay", "out-of-bounds", "the legs lean too far", "At most 60 degrees each way.")
			return nil, false
		}
		more := l.Wide.V + s.thick.V + 10
		return planar.Rect(-more, 0, s.height.V*a.Stretch+more, l.Wide.V), true
	}
	shape, ok := b.shapeOf(l.Shape)
	if !ok {
		return nil, false
	}
	return shape.region.Placed(r2.Vec{}, r2.Vec{Y: 1}, r2.Vec{X: 1}), true
}

// sawLevel cuts a leaning stick level at both ends, and gives the part its frame,
// outline, bevels and sizes.
func (b *builder) sawLevel(p *piece.Part, s stance, rough planar.Region, path string) bool {
	pose, outer := s.pose()
	low := s.foot[1].V
	p.Pose, p.Rough, p.Thick = pose, rough, s.thick
	p.Bevels = []piece.Bevel{
		piece.BevelOf("foot", pose, r3.Vec{Y: low}, r3.Vec{Y: -1}),
		piece.BevelOf("head", pose, r3.Vec{Y: low + s.height.V}, r3.Vec{Y: 1}),
	}
	if !reaches(p) {
		b.errorAt(path, "leg-short", "the legs do not reach from the floor to the body",
			fmt.Sprintf("Leaning both ways, they take an outline of more than %.1f mm.", s.height.V*pose.X.Len()/pose.X.Y))
		return false
	}
	seen, err := piece.Seen(p)
	if err != nil || len(seen) != 1 {
		b.errorAt(path, "bad-outline", "the legs' outline falls apart", "Between the floor and the body it must be one shape.")
		return false
	}
	box := seen.Box()
	shift := box.Min.Mul(-1)
	p.Outline, p.Rough = seen.Moved(shift), rough.Moved(shift)
	p.Pose.O = pose.At(r3.Vec{X: box.Min.X, Y: box.Min.Y})
	for i := range p.Bevels {
		v := &p.Bevels[i]
		v.D += v.N.X*shift.X + v.N.Y*shift.Y
		v.Tilt, v.Mitre = s.across, mitreOf(s)
	}
	by := append([]trace.Num{s.height, s.thick, s.across, s.along}, s.by...)
	p.Origin = [3]trace.Num{trace.Step(p.Pose.O.X, by...), trace.Step(p.Pose.O.Y, by...), trace.Step(p.Pose.O.Z, by...)}
	p.Length, p.Width = trace.Step(box.Size().X, by...), trace.Step(box.Size().Y, by...)
	p.NameA, p.NameB, p.Show = "outer face", "inner face", piece.FaceA
	if !outer {
		p.NameA, p.NameB, p.Show = p.NameB, p.NameA, piece.FaceB
	}
	b.leanNote(p, s)
	return true
}

// reaches reports whether a part's rough outline stands out past its bevels on
// both faces.
func reaches(p *piece.Part) bool {
	for _, v := range p.Bevels {
		n := r2.Vec{X: v.N.X, Y: v.N.Y}
		if _, hi := p.Rough.Extent(n); hi < v.D-min(0, v.N.Z*p.Thick.V) {
			return false
		}
	}
	return true
}

func mitreOf(s stance) trace.Num {
	return trace.Lift(func(x []float64) float64 { return math.Atan(math.Tan(x[1]) * math.Cos(x[0])) }, s.across, s.along)
}

// longPoints is the length of a stick of a width between its long points: along
// its axis from level to level, and once more what the cut runs over the section.
func longPoints(s stance, wide trace.Num) trace.Num {
	return trace.Lift(func(x []float64) float64 {
		a, b := math.Tan(x[2]), math.Tan(x[3])
		k := math.Sqrt(1 + a*a + b*b)
		return x[0]*k + x[4]*b*math.Cos(x[2]) + x[1]*math.Sin(x[2])*k
	}, s.height, s.thick, s.across, s.along, wide)
}

// leanNote says what the sizes of a leaning part do not.
func (b *builder) leanNote(p *piece.Part, s stance) {
	a, err := lean.Of(s.across.V, s.along.V)
	if err != nil {
		return
	}
	p.Notes = append(p.Notes, say.F("It leans {} out of plumb, in the upright plane that stands {} from that of its pair. Its length is told between the long points.",
		say.Angle(a.Lean, 1), say.Angle(a.Sight, 1)))
}
