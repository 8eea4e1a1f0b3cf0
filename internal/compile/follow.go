package compile

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// boardEnd is how a board or shelf meets what is at one of its ends: housed
// there so deep, or, where it lies in a bend, cut square to the shorter of its
// faces.
type boardEnd struct {
	deep   trace.Num
	corner string    // the bend; "" where there is none
	in     trace.Num // from the space's edge to the end
	gap    trace.Num // left open at the longer face
	under  bool      // the longer face is the underside
}

// bendEnds finds the two ends of a board between y0 and y1 across a space: dl
// and dr are the depths of the housings where it is clear of the bends.
func (b *builder) bendEnds(s *space, y0, y1, dl, dr trace.Num) [2]boardEnd {
	out := [2]boardEnd{{deep: dl}, {deep: dr}}
	for e, u := range []*upright{b.uprights[s.bay], b.uprights[s.bay+1]} {
		if !u.side {
			continue
		}
		for _, c := range [][]int{{0, 1}, {3, 2}}[e] {
			k := b.corner(c)
			if !k.Bent {
				continue
			}
			clear := trace.Const(b.bendClear(c))
			low := b.foot.Add(k.Radius).Add(clear)
			high := b.foot.Add(b.height).Sub(k.Radius).Sub(clear)
			if upper := c == 1 || c == 2; upper && y1.V > high.V || !upper && y0.V < low.V {
				out[e] = b.bendEnd(c, k, y0, y1)
			}
		}
	}
	return out
}

// bendEnd cuts an end to the bend at corner c: square, to the face that is the
// shorter, against the curve that the rib tips take.
func (b *builder) bendEnd(c int, k design.Corner, y0, y1 trace.Num) boardEnd {
	upper := c == 1 || c == 2
	centre, near, far := b.foot.Add(k.Radius), y1, y0
	r := b.tipRadius(c)
	if upper {
		centre = b.foot.Add(b.height).Sub(k.Radius)
		near, far = y0, y1
	}
	// How far in the curve lies from the member's inner face at a height.
	in := func(y trace.Num) trace.Num {
		dy := y.Sub(centre)
		if !upper {
			dy = dy.Neg()
		}
		if dy.V <= 0 {
			return k.Radius.Sub(b.inner[0]).Sub(r)
		}
		if dy.V >= r.V {
			return k.Radius.Sub(b.inner[0])
		}
		return k.Radius.Sub(b.inner[0]).Sub(r.Mul(r).Sub(dy.Mul(dy)).Sqrt())
	}
	e := boardEnd{corner: design.CornerNames[c], in: in(far), under: upper}
	e.gap = e.in.Sub(in(near))
	return e
}

// tipRadius is that of the largest curve that the rib tips of corner c's bend
// take, about the bend's own centre.
func (b *builder) tipRadius(c int) trace.Num {
	r := b.corner(c).Radius.Sub(b.inner[0])
	for _, p := range b.shellParts() {
		for _, bd := range p.Bends {
			if bd.Corner == design.CornerNames[c] && bd.RailRadius.V > 0 {
				r = bd.RailRadius
			}
		}
	}
	return r
}

// fitEnds sets a board's length and place by its ends, and tells how those in a
// bend are cut.
func (b *builder) fitEnds(p *piece.Part, ends [2]boardEnd, s *space) {
	x0, x1 := s.x0.Sub(ends[0].deep).Add(ends[0].in), s.x1.Add(ends[1].deep).Sub(ends[1].in)
	p.Length, p.Origin[0] = x1.Sub(x0), x0
	p.BlankLength = p.Length
	for e, end := range ends {
		if end.corner == "" {
			continue
		}
		face := map[bool]string{true: "underside", false: "upper face"}[end.under]
		p.Notes = append(p.Notes, say.F("Its {} end lies in the bend at the {}: it is cut square, to the shorter face, and touches there only. "+
			"At the {} a gap of {} stays to the curve; plane the end to a bevel to close it.",
			[]string{"left", "right"}[e], end.corner, face, say.LenN(end.gap, 1)))
		if math.IsNaN(p.Length.V) || p.Length.V < 20 {
			b.errorAt(p.Path, "no-room", p.Name+" has no room in the bend", "Lay it further from the top or the bottom.")
		}
	}
}

// boardEnds houses a board's ends in what bounds its bay, or sets them against
// the bend; what and partner call each end's joint in a wish.
func (b *builder) boardEnds(p *piece.Part, bay int, ends [2]boardEnd, z, stop trace.Num, what string, partner [2]string) {
	y0, y1 := p.Origin[1], p.Origin[1].Add(p.Thick)
	for e, end := range ends {
		u := b.uprights[bay+e]
		s, enter := u.rightward, r3.Vec{X: -1}
		if e == 1 {
			s, enter = u.leftward, r3.Vec{X: 1}
		}
		if end.corner == "" {
			b.housed(s, p, y0, y1, b.backThick, z, end.deep, enter, stop, what, partner[e])
			continue
		}
		out := r3.Vec{Y: 1}
		if !end.under {
			out.Y = -1
		}
		b.join(piece.Joint{Kind: "butt", A: s.part.ID, B: p.ID, Enter: enter, Also: []r3.Vec{out, {Z: 1}, {Z: -1}}, Path: p.Path})
	}
}
