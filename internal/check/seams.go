package check

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/frame"
	"rodwork/internal/piece"
)

// seam is where two stretches of a shell's top or bottom meet end to end. The
// stretches are one stick: it carries across, by the seam's joint.
type seam struct {
	part  *piece.Part // beyond it: the next strip, or the other end of the same
	at    float64
	kind  string // as frame.Joint knows it
	glued bool
}

// seamRow stands for a seam among the uprights.
const seamRow = -2

// is tells whether a stick is a stretch of the part.
func (s *stick) is(q *piece.Part) bool { return s.part == q || s.seam != nil && s.seam.part == q }

// seamed makes one stick of each two level stretches of strips that lie in one
// line and end at each other. A loose tongue holds like a loose tenon, plain ends
// like a butt joint.
func seamed(p *piece.Piece, in []stick) []stick {
	var out []stick
	for _, s := range in {
		joined := false
		for i := range out {
			t := &out[i]
			if s.upright || t.upright || s.part.Role != piece.Strip || t.part.Role != piece.Strip || t.seam != nil || math.Abs(s.at-t.at) > 1 {
				continue
			}
			left, right := t, &s
			if s.lo < t.lo {
				left, right = &s, t
			}
			if math.Abs(left.hi-right.lo) > 1 {
				continue
			}
			m := &seam{part: s.part, at: left.hi, kind: seamKind(p, s.part, t.part), glued: true}
			t.lo, t.hi, t.seam = left.lo, right.hi, m
			joined = true
			break
		}
		if !joined {
			out = append(out, s)
		}
	}
	return out
}

// seamKind is how a seam between two strips, or the ends of one, is held.
func seamKind(p *piece.Piece, a, b *piece.Part) string {
	for i := range p.Joints {
		j := &p.Joints[i]
		q := p.Part(j.B)
		if q != nil && q.Role == piece.Tongue && (j.A == a.ID || j.A == b.ID) {
			return "loose tenon"
		}
	}
	return "butt"
}

// addSeams gives each seam its node, off the crossings.
func (c *carcase) addSeams(sticks []stick) {
	for i := range sticks {
		if s := &sticks[i]; s.seam != nil {
			c.rows[[2]int{seamRow, i}] = len(c.frame.Nodes)
			c.seams = append(c.seams, len(c.frame.Nodes))
			c.frame.Nodes = append(c.frame.Nodes, frame.Node{At: r3.Vec{X: s.seam.at, Y: s.at}})
		}
	}
}
