package drawing

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
)

// folded is a kerfed bend as it stands after bending: rigid ribs, and between
// them arcs of the kerf's width that turn by the bend per kerf on the neutral
// line. It is drawn, not proved: the proof is bend's own folding of the list.
type folded struct {
	plan bend.Plan
	// ribs are the stretches between kerfs with the straight stubs at both
	// ends, in the order of the strip.
	ribs []rib
}

// rib is a straight stretch: its start on the neutral line, its direction, and
// its length.
type rib struct {
	from, dir r2.Vec
	length    float64
}

// at returns the point of the rib at u along it and v in from the outer face.
func (r rib) at(plan bend.Plan, u, v float64) r2.Vec {
	inward := r.dir.Left().Mul(-1) // bends turn right: inside is at the right
	return r.from.Add(r.dir.Mul(u)).Add(inward.Mul(v - neutral(plan)))
}

// neutral is the neutral line's distance from the outer face: with kerfs
// outside, the skin lies inside.
func neutral(plan bend.Plan) float64 {
	if plan.Spec.Outside {
		return plan.Spec.Thick - plan.NeutralY
	}
	return plan.NeutralY
}

// fold bends a stretch of a strip, with stubs of the length given before and
// after it.
func fold(b piece.Bend, s piece.Stretch, stub float64) folded {
	plan := b.Plan
	inward := s.Dir.Left().Mul(-1)
	pos := s.From.Add(inward.Mul(neutral(plan))).Sub(s.Dir.Mul(stub))
	dir := s.Dir
	w, alpha := plan.Spec.Kerf, plan.Alpha
	f := folded{plan: plan}
	last := -stub
	step := func(to float64) {
		f.ribs = append(f.ribs, rib{pos, dir, to - last})
		pos = pos.Add(dir.Mul(to - last))
		last = to
	}
	for _, x := range plan.Positions {
		step(x - w/2)
		if alpha > 0 {
			// The chord of the arc leaves at half its angle.
			chord := 2 * (w / alpha) * math.Sin(alpha/2)
			pos = pos.Add(dir.Turn(-alpha / 2).Mul(chord))
			dir = dir.Turn(-alpha)
		} else {
			pos = pos.Add(dir.Mul(w))
		}
		last = x + w/2
	}
	step(plan.Flat + stub)
	return f
}

// uncut returns the points of the face without kerfs, two for each rib; between
// ribs it is an arc.
func (f folded) uncut() []r2.Vec {
	if f.plan.Spec.Outside {
		return f.faceAt(f.plan.Spec.Thick)
	}
	return f.faceAt(0)
}

func (f folded) faceAt(v float64) []r2.Vec {
	var ps []r2.Vec
	for _, r := range f.ribs {
		ps = append(ps, r.at(f.plan, 0, v), r.at(f.plan, r.length, v))
	}
	return ps
}

// kerfed returns the outline of the other face: rib tips, walls and floors of the
// kerfs.
func (f folded) kerfed() []r2.Vec {
	t := f.plan.Spec.Thick
	floor := t - f.plan.Depth
	if f.plan.Spec.Outside {
		t, floor = 0, f.plan.Depth
	}
	var ps []r2.Vec
	for i, r := range f.ribs {
		if i > 0 {
			ps = append(ps, r.at(f.plan, 0, floor))
		}
		ps = append(ps, r.at(f.plan, 0, t), r.at(f.plan, r.length, t))
		if i < len(f.ribs)-1 {
			ps = append(ps, r.at(f.plan, r.length, floor))
		}
	}
	return ps
}

// centre returns the centre of the bend: at the radius from the tangent point,
// to the right of the strip's way.
func centre(s piece.Stretch) r2.Vec {
	return s.From.Add(s.Dir.Left().Mul(-s.Radius))
}

// drawn returns the stretch of a bend as it is drawn: one that turns to the
// left is seen from the other side, and so turns to the right.
func drawn(q *piece.Part, b piece.Bend) (piece.Stretch, bool) {
	s, ok := stretchOf(q, b)
	if !ok || !b.Left {
		return s, ok
	}
	mirror := func(v r2.Vec) r2.Vec { return r2.Vec{X: -v.X, Y: v.Y} }
	s.From = mirror(s.From.Sub(s.Dir.Left().Mul(q.Thick.V)))
	s.Dir, s.Radius, s.Angle = mirror(s.Dir), b.Radius.V, b.Angle.V
	return s, true
}

// stretchOf finds the stretch of a strip's run that is the bend.
func stretchOf(q *piece.Part, b piece.Bend) (piece.Stretch, bool) {
	for _, s := range q.Run {
		if s.Radius != 0 && math.Abs(s.X0-b.Start.V) < 0.5 {
			return s, true
		}
	}
	return piece.Stretch{}, false
}

// ply is one veneer of a sheet: where it starts and ends, from the show face,
// and whether its grain runs along the drawing.
type ply struct {
	from, to float64
	along    bool
}

// plies returns the veneers of a part's stock from its show face inwards, drawn
// to fill the measured thickness; nil where the stock has none or they are not
// known. Along tells whether the face grain lies in the plane of the drawing.
func plies(q *piece.Part, along bool) []ply {
	st := q.Stock
	if st == nil || st.Layers < 3 || st.FaceVeneer.V <= 0 || st.InnerVeneer.V <= 0 {
		return nil
	}
	total := 2*st.FaceVeneer.V + float64(st.Layers-2)*st.InnerVeneer.V
	k := q.Thick.V / total
	var out []ply
	y := 0.0
	for i := range st.Layers {
		t := st.InnerVeneer.V
		if i == 0 || i == st.Layers-1 {
			t = st.FaceVeneer.V
		}
		out = append(out, ply{y * k, (y + t) * k, (i%2 == 0) == along})
		y += t
	}
	return out
}
