package fit

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/spread"
	"rodwork/internal/piece"
)

// Laid is a bent strip laid on a rail or former: the gaps at the middles of its
// ribs, from one flat to the other.
type Laid struct {
	Angles []float64 // round the rail from its first tangent point, rad
	Gaps   []float64 // at the ribs' middles, mm
	Flats  float64   // gap at both flats, mm
	Worst  float64
}

// strip is what lays a bend on a rail: what does not change from build to build.
type strip struct {
	alpha, angle float64
	dirs, mids   []r2.Vec // of ribs, and of hinges half way
	nominal      []float64
}

func newStrip(p bend.Plan) *strip {
	s := &strip{alpha: p.Alpha, angle: p.Spec.Angle, nominal: p.Positions}
	for i := range p.Count + 1 {
		s.dirs = append(s.dirs, r2.Vec{X: 1}.Turn(float64(i)*p.Alpha))
		s.mids = append(s.mids, r2.Vec{X: 1}.Turn((float64(i)+0.5)*p.Alpha))
	}
	return s
}

// lay folds the strip from its kerfs' centres, measured from where the bend is
// meant to begin, and lays it on a rail of the radius. kerf is the blade's
// width, over the height of the inner face above the neutral line, flat the
// developed length. It walks the list itself and shares nothing with the plan.
func (s *strip) lay(at []float64, kerf, over, flat, radius float64, out *Laid) {
	n := len(at)
	out.Angles, out.Gaps = out.Angles[:0], out.Gaps[:0]
	chord := kerf
	if s.alpha > 0 {
		chord = 2 * kerf / s.alpha * math.Sin(s.alpha/2)
	}
	// The rail's first flank lies along +x at the height over; its centre stands
	// over the tangent point at first, and is then moved until both flats lie on.
	p, last := r2.Vec{}, 0.0
	ribs := make([]r2.Vec, 0, n-1) // middles of inner faces
	for i, x := range at {
		rib := x - kerf/2 - last
		if i > 0 {
			ribs = append(ribs, p.Add(s.dirs[i].Mul(rib/2)).Add(s.dirs[i].Left().Mul(over)))
		}
		p = p.Add(s.dirs[i].Mul(rib)).Add(s.mids[i].Mul(chord))
		last = x + kerf/2
	}
	end := s.dirs[n]
	tip := p.Add(end.Mul(flat - last)).Add(end.Left().Mul(over))
	c := flanked(over, tip, end, s.angle, radius)
	s.gaps(ribs, c, radius, out)
}

// flanked is the centre of the arc that is tangent to both flats' inner faces.
func flanked(over float64, tip, end r2.Vec, angle, radius float64) r2.Vec {
	c := r2.Vec{Y: over + radius}
	// Along the first flank until it is radius off the second one's face too.
	off := c.Sub(tip).Dot(end.Left()) - radius
	c.X += off / math.Sin(angle) // end.Left() is (−sin, cos)
	return c
}

// gaps measures the ribs' middles, and lifts the strip off along the middle of
// the bend where it would enter the rail.
func (s *strip) gaps(ribs []r2.Vec, c r2.Vec, radius float64, out *Laid) {
	out.Flats, out.Worst = 0, 0
	lift := 0.0
	for _, p := range ribs {
		v := p.Sub(c)
		phi := math.Atan2(v.X, -v.Y) // 0 at the first tangent point
		if phi < -0.5 {
			phi += 2 * math.Pi
		}
		g := v.Len() - radius
		out.Angles, out.Gaps = append(out.Angles, phi), append(out.Gaps, g)
		if cos := math.Cos(phi - s.angle/2); cos > 0.05 {
			lift = math.Max(lift, -g/cos)
		}
	}
	for i := range out.Gaps {
		out.Gaps[i] += lift * math.Cos(out.Angles[i]-s.angle/2)
		out.Worst = math.Max(out.Worst, out.Gaps[i])
	}
	out.Flats = lift * math.Cos(s.angle/2)
	out.Worst = math.Max(out.Worst, out.Flats)
}

// mostTurn is the largest bend that is laid on a rail with its flats as guides,
// rad: near a half turn they run side by side, and it is the hinges that give.
const mostTurn = 150 * math.Pi / 180

// Lay lays a planned bend on a rail of the radius, mm. A bend of more than 150°
// is not laid: it has no gaps.
func Lay(p bend.Plan, radius float64) Laid {
	var out Laid
	if p.Count < 2 || p.Spec.Angle > mostTurn {
		return out
	}
	newStrip(p).lay(p.Positions, p.Spec.Kerf, p.Spec.Thick-p.NeutralY, p.Flat, radius, &out)
	return out
}

// Suits is the radius of rail that suits a shell which is bent already: the
// outside of its arc spans the chord, mm, and stands over it by the height, at
// the thickness measured there. ok is false for what no arc has.
func Suits(chord, height, thick float64) (radius float64, ok bool) {
	if !(chord > 0 && height > 0 && height <= chord/2+1e-9 && thick > 0) {
		return 0, false
	}
	r := (chord*chord/4+height*height)/(2*height) - thick
	return r, r > 0
}

// onRail is the largest gap between the ribs' middles and the rail or former.
func (in Input) onRail(q *piece.Part, b piece.Bend, saw *design.Saw) Fit {
	p := b.Plan
	n := p.Count
	f := Fit{ID: "rail/" + q.ID + "/" + b.Corner, Kind: OnRail, Parts: []string{q.ID}, Corner: b.Corner, Path: b.Path,
		Title: "the bend on its rail or former, " + b.Corner, Limits: spread.Limits{Tight: inf(-1), Loose: inf(1), Gap: bend.GlueLine}}
	var c causes
	thick := c.thickness(in, q.Stock, 1)
	mean, _ := in.blade(&c, saw, q.Stock, 1)
	place := c.add(spread.Cause{Name: "placing of each kerf, by " + saw.Index, SD: saw.IndexSD.V, Times: n}, Origin{Path: saw.Path + ".index spread", Measured: saw.IndexSD.V > 0, From: "the shop file"})
	cut := c.add(spread.Cause{Name: "outline of the rail", SD: in.Design.Shop.Spreads.Template.V}, in.habit("template"))
	s := newStrip(p)
	pin := saw.Index == "pin"
	at := make([]float64, n)
	var laid Laid
	f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
		sum := 0.0
		for i := range at {
			e := x[place+i]
			if pin {
				sum += e
				e = sum
			}
			at[i] = s.nominal[i] + e
		}
		s.lay(at, x[mean], thick(x, 0)-p.NeutralY, p.Flat, p.RailRadius+x[cut], &laid)
		return spread.Outcome{Tight: laid.Worst, Loose: laid.Worst, Gap: laid.Worst}
	}}
	f.Origins = c.origins
	return f
}
