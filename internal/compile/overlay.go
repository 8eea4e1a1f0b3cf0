package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/trace"
)

// edges are the outer edges of a front, or of a pair as a whole.
type edges struct{ x0, x1, y0, y1 trace.Num }

// field finds the edges of a front. An inset one lies within its opening, a
// gap inside it all round. An overlay one ends half a gap before a line: the
// body's outside (so that two bodies side by side leave one gap), the far face
// of a divider or board, or its middle where the next front begins there or
// where only half of it is to be covered.
func (b *builder) field(f *design.Front, o opening) edges {
	if !f.Overlays() {
		return edges{o.x0.Add(f.Gap), o.x1.Sub(f.Gap), o.y0.Add(f.Gap), o.y1.Sub(f.Gap)}
	}
	half := f.Gap.Scale(0.5)
	lap := func(thick trace.Num, shared bool) trace.Num {
		if shared || f.Set == "half overlay" {
			return thick.Scale(0.5).Sub(half)
		}
		return thick.Sub(half)
	}
	low, high := o.y0.V < b.floorY().V+0.01, o.y1.V > b.ceilY().V-0.01
	board := b.thick(b.role("boards", "panels"))
	under, over := board, board
	if low {
		under = b.inner[bottom]
	}
	if high {
		if over = b.inner[top]; b.absent(top) {
			over = trace.Num{}
		}
	}
	e := edges{
		x0: o.x0.Sub(lap(o.left.x1.Sub(o.left.x0), !o.left.side && b.frontBeside(f, o, -1, 0))),
		x1: o.x1.Add(lap(o.right.x1.Sub(o.right.x0), !o.right.side && b.frontBeside(f, o, 1, 0))),
		y0: o.y0.Sub(lap(under, !low && b.frontBeside(f, o, 0, -1))),
		y1: o.y1.Add(lap(over, !high && b.frontBeside(f, o, 0, 1))),
	}
	return e
}

// frontBeside reports whether another front stands next to an opening, in the
// direction dx or dy.
func (b *builder) frontBeside(f *design.Front, o opening, dx, dy float64) bool {
	const most = 120.0 // no divider and no board is thicker
	for _, s := range b.spaces {
		if s.covered == nil || s.covered == f {
			continue
		}
		inX, inY := s.x0.V < o.x1.V-1 && s.x1.V > o.x0.V+1, s.y0.V < o.y1.V-1 && s.y1.V > o.y0.V+1
		switch {
		case dx < 0 && inY && s.x1.V <= o.x0.V && o.x0.V-s.x1.V < most,
			dx > 0 && inY && s.x0.V >= o.x1.V && s.x0.V-o.x1.V < most,
			dy < 0 && inX && s.y1.V <= o.y0.V && o.y0.V-s.y1.V < most,
			dy > 0 && inX && s.y0.V >= o.y1.V && s.y0.V-o.y1.V < most:
			return true
		}
	}
	return false
}

// cupEdge is how far the cup's rim lies from the door's hanging edge. Where the
// hinge's overlay at zero was measured it follows from how far the door is to
// lap over its upright: lap = overlay at zero + cup edge − plate height, as
// planning pages of three makers have it; an inset door's lap is its reveal,
// negative. Else it is what the shop file says.
func (b *builder) cupEdge(f *design.Front, lap trace.Num) trace.Num {
	h := f.Hinge
	if h.OverlayAtZero == nil || h.PlateHigh == nil {
		return h.CupEdge
	}
	c := lap.Sub(*h.OverlayAtZero).Add(*h.PlateHigh)
	if c.V < h.CupLeast.V-1e-9 || c.V > h.CupMost.V+1e-9 {
		b.errorAt(f.Path, "hinge-out-of-reach", fmt.Sprintf("the hinge does not reach for %q", f.Name),
			fmt.Sprintf("The door is to lap %.1f mm over its upright: with this hinge and plate its cup would lie %.1f mm from the edge; %.1f to %.1f mm are allowed. "+
				"A plate %.1f mm high would do with the cup at %.1f mm.", lap.V, c.V, h.CupLeast.V, h.CupMost.V,
				h.OverlayAtZero.V+h.CupEdge.V-lap.V, h.CupEdge.V))
	}
	return c
}
