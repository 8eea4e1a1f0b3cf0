package dryfit

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// slack is how far two boxes may overlap and still be said to touch, mm: more
// than any fit, less than any housing is deep.
const slack = 0.6

// box is upright in the piece's frame.
type box struct{ lo, hi [3]float64 }

func xyz(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

func (b box) with(v r3.Vec) box {
	for k, c := range xyz(v) {
		b.lo[k], b.hi[k] = min(b.lo[k], c), max(b.hi[k], c)
	}
	return b
}

func emptyBox() box {
	inf := math.Inf(1)
	return box{[3]float64{inf, inf, inf}, [3]float64{-inf, -inf, -inf}}
}

// boxesOf covers a part with boxes: one for a flat part, for a strip one for
// each straight stretch and four for each bend.
func boxesOf(q *piece.Part) []box {
	if len(q.Run) == 0 {
		b := emptyBox()
		if len(q.Bevels) > 0 { // its ends are level, its frame leans
			if s, err := piece.Solid(q, 0); err == nil {
				in := s.Box()
				return []box{b.with(in.Min).with(in.Max)}
			}
		}
		for i := range 8 {
			b = b.with(q.Pose.At(r3.Vec{
				X: float64(i&1) * q.Length.V, Y: float64(i>>1&1) * q.Width.V, Z: float64(i>>2&1) * q.Thick.V,
			}))
		}
		return []box{b}
	}
	var out []box
	for _, s := range q.Run {
		out = append(out, stretchBoxes(q, s)...)
	}
	return out
}

// stretchBoxes covers one stretch of a strip.
func stretchBoxes(q *piece.Part, s piece.Stretch) []box {
	z1 := q.Edge()
	z0 := z1 - q.Width.V
	of := func(ps ...r2.Vec) box {
		b := emptyBox()
		for _, p := range ps {
			b = b.with(q.Pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z0})).with(q.Pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z1}))
		}
		return b
	}
	out, t := s.Dir.Left(), q.Thick.V
	if s.Radius == 0 {
		end := s.From.Add(s.Dir.Mul(s.X1 - s.X0))
		in := out.Mul(-t)
		return []box{of(s.From, end, s.From.Add(in), end.Add(in))}
	}
	const parts = 4
	centre := s.From.Sub(out.Mul(s.Radius))
	bs := make([]box, 0, parts)
	for i := range parts {
		a := out.Turn(-s.Angle * float64(i) / parts)
		b := out.Turn(-s.Angle * float64(i+1) / parts)
		bs = append(bs, of(centre.Add(a.Mul(s.Radius)), centre.Add(b.Mul(s.Radius)),
			centre.Add(a.Mul(s.Radius-t)), centre.Add(b.Mul(s.Radius-t))))
	}
	return bs
}

// dir is one of the six directions of the piece's frame: its axis and sign.
type dir struct{ axis, sign int }

func (d dir) back() dir { return dir{d.axis, -d.sign} }

func (d dir) vec() [3]float64 {
	var v [3]float64
	v[d.axis] = float64(d.sign)
	return v
}

// dirOf returns the direction that v points in, if it is square to the piece.
func dirOf(v r3.Vec) (dir, bool) {
	u := xyz(v.Unit())
	for k, c := range u {
		if math.Abs(c) > 1-1e-6 {
			return dir{k, int(math.Copysign(1, c))}, true
		}
	}
	return dir{}, false
}

// ahead tells whether a, travelling along d for ever, runs into b.
func ahead(a, b []box, d dir) bool {
	for _, x := range a {
		for _, y := range b {
			if x.runsInto(y, d) {
				return true
			}
		}
	}
	return false
}

func (b box) runsInto(o box, d dir) bool {
	for k := range 3 {
		if k != d.axis && min(b.hi[k], o.hi[k])-max(b.lo[k], o.lo[k]) < slack {
			return false
		}
	}
	if d.sign > 0 {
		return o.lo[d.axis] >= b.hi[d.axis]-slack
	}
	return o.hi[d.axis] <= b.lo[d.axis]+slack
}
