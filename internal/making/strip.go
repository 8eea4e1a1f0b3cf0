package making

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// stripCentre is the centre of a bent strip in the piece: of each straight
// stretch at half its thickness, of each bend at the centre of its ring sector.
// A bend counts for what its kerfs leave of it. It hangs on where the strip
// starts, on its flats, its radii and its thickness; its depth, with what the
// cuts take, is that of the flat strip, measured from the front.
func stripCentre(p *piece.Piece, q *piece.Part, flat [3]trace.Num) (x, y, z trace.Num) {
	args := stripArgs(p, q)
	left := kerfsLeave(q)
	c := trace.LiftN(func(v []float64) []float64 {
		at := ringCentre(q.Run, v, left)
		return []float64{at.X, at.Y}
	}, args...)
	if q.InPlan() { // the section's y points to the rear, its z up
		x, y, z = c[0], origin(q, 1).Sub(flat[1]), c[1].Neg()
		return windowed(q, x, y, z)
	}
	return c[0], c[1], origin(q, 2).Sub(flat[1])
}

// windowed moves the centre of a strip to where that of its solid lies, if a
// window takes so much of its front that the whole ring says too little. The
// solid has no kerfs: what they shift is less than what they weigh.
func windowed(q *piece.Part, x, y, z trace.Num) (trace.Num, trace.Num, trace.Num) {
	for _, c := range q.Cuts {
		if c.Kind != piece.Window {
			continue
		}
		body, err := piece.Solid(q, 0)
		if err != nil {
			break
		}
		at := body.Centroid()
		return x.Plus(at.X - x.V), y.Plus(at.Y - y.V), z.Plus(at.Z - z.V)
	}
	return x, y, z
}

// kerfsLeave is the share of the wood of each bend that its kerfs leave.
func kerfsLeave(q *piece.Part) []float64 {
	var out []float64
	for _, b := range q.Bends {
		if b.Plan.Count == 0 {
			out = append(out, 1)
			continue
		}
		all := b.Length.V * q.Thick.V
		out = append(out, 1-float64(b.Plan.Count)*b.Plan.Spec.Kerf*b.Plan.Depth/max(all, 1e-9))
	}
	return out
}

// stripArgs are the start's x and y, the thickness, and for each stretch its
// flat length or its radius.
func stripArgs(p *piece.Piece, q *piece.Part) []trace.Num {
	if len(q.Run) == 0 {
		return []trace.Num{{}, {}, q.Thick}
	}
	from := q.Run[0].From
	args := []trace.Num{startX(p, from.X), startY(p, q, from.Y), q.Thick}
	if q.InPlan() {
		args[1] = trace.Const(from.Y)
	}
	at := trace.Num{} // end of the last bend on the flat strip
	k := 0
	for i, s := range q.Run {
		switch {
		case s.Radius != 0 && k < len(q.Bends):
			args = append(args, q.Bends[k].Radius)
			at = q.Bends[k].Start.Add(q.Bends[k].Length)
			k++
		case k < len(q.Bends) && i < len(q.Run)-1:
			args = append(args, q.Bends[k].Start.Sub(at))
		default:
			args = append(args, q.Length.Sub(at))
		}
	}
	return args
}

// startX hangs a place on the width where it is nearer to the right.
func startX(p *piece.Piece, x float64) trace.Num {
	if x > p.Width.V/2 {
		return p.Width.Plus(x - p.Width.V)
	}
	return trace.Const(x)
}

// startY hangs a height on the piece's height, or on the body's foot, which the
// floor of any space stands on, whichever is nearer.
func startY(p *piece.Piece, q *piece.Part, y float64) trace.Num {
	base := p.Height
	for _, s := range p.Spaces {
		if foot := s.Min[1].Sub(q.Thick); math.Abs(foot.V-y) < math.Abs(base.V-y) {
			base = foot
		}
	}
	return base.Plus(y - base.V)
}

// ringCentre walks the run with the values of stripArgs.
func ringCentre(run []piece.Stretch, v, left []float64) r2.Vec {
	bend := 0
	at, t := r2.Vec{X: v[0], Y: v[1]}, v[2]
	var area float64
	var first r2.Vec
	for i, s := range run {
		size := v[3+i]
		out := s.Dir.Left()
		var a float64
		var c r2.Vec
		if s.Radius == 0 {
			a = size * t
			c = at.Add(s.Dir.Mul(size / 2)).Sub(out.Mul(t / 2))
			at = at.Add(s.Dir.Mul(size))
		} else {
			ro, ri, half := size, size-t, math.Abs(s.Angle)/2
			to, near := 1.0, ro // to the right, face A is the far one
			if s.Angle < 0 {
				to, near, out = -1, ri, out.Mul(-1)
			}
			a = half * (ro*ro - ri*ri)
			if bend < len(left) {
				a *= left[bend]
			}
			bend++
			r := 2.0 / 3 * (ro*ro*ro - ri*ri*ri) / (ro*ro - ri*ri) * math.Sin(half) / half
			centre := at.Sub(out.Mul(near))
			c = centre.Add(out.Turn(-to * half).Mul(r))
			at = centre.Add(out.Turn(-s.Angle).Mul(near))
		}
		area += a
		first = first.Add(c.Mul(a))
	}
	if area <= 0 {
		return at
	}
	return first.Mul(1 / area)
}
