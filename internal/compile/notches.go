package compile

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// The corners of a panel whose x runs up (or to the right) and whose y runs back
// from its front edge.
const (
	frontFoot = iota
	frontHead
	rearHead
	rearFoot
)

// notch is a rectangle taken from a panel's corner: high along its length, deep
// across it. Where a rail stands in it, rail is how far the rail takes the
// housing beside it away.
type notch struct{ high, deep, rail trace.Num }

// notches are those of a panel's four corners.
type notches [4]notch

// stop is how far the housing ends before the panel's front edge: not at all
// where a rail hides it.
func (n notch) stop(other trace.Num) trace.Num {
	if n.rail.V > 0 {
		return trace.Num{}
	}
	return other
}

// notched is a panel's outline with its corners taken off.
func notched(l, w trace.Num, ns notches) planar.Region {
	zero := trace.Num{}
	at := [4][2]trace.Num{{zero, zero}, {l, zero}, {l, w}, {zero, w}}
	var pts []r2.Vec
	v := func(x, y trace.Num) { pts = append(pts, r2.Vec{X: x.V, Y: y.V}) }
	for c, n := range ns {
		x, y := at[c][0], at[c][1]
		if n.high.V <= 0 || n.deep.V <= 0 {
			v(x, y)
			continue
		}
		xi, yi := x.Add(n.high), y.Add(n.deep)
		if x.V > 0 {
			xi = x.Sub(n.high)
		}
		if y.V > 0 {
			yi = y.Sub(n.deep)
		}
		if c == frontFoot || c == rearHead {
			v(x, yi)
			v(xi, yi)
			v(xi, y)
		} else {
			v(xi, y)
			v(xi, yi)
			v(x, yi)
		}
	}
	return planar.Region{{Outer: planar.Polygon(pts...)}}
}

// noteNotches books as cuts what notched has taken from the outline.
func noteNotches(p *piece.Part, ns notches) {
	for c, n := range ns {
		if n.high.V <= 0 || n.deep.V <= 0 {
			continue
		}
		x0, x1 := trace.Num{}, n.high
		if c == frontHead || c == rearHead {
			x0, x1 = p.Length.Sub(n.high), p.Length
		}
		y0, y1 := trace.Num{}, n.deep
		if c == rearHead || c == rearFoot {
			y0, y1 = p.Width.Sub(n.deep), p.Width
		}
		why := "stopped housing"
		if n.rail.V > 0 {
			why = "rail"
		}
		cut(p, piece.Cut{Kind: piece.Notch, Face: piece.FaceA, X0: x0, X1: x1, Y0: y0, Y1: y1, Depth: p.Thick, Through: true, For: why})
	}
}

// dividerNotches are what a divider loses at its corners: in front where its
// housings stop short of what is seen, and wherever a rail runs through. Its
// front edge lies at z.
func (b *builder) dividerNotches(z, foot, head, stop trace.Num) notches {
	var ns notches
	if foot.V > 0 && stop.V > 0 {
		ns[frontFoot] = notch{high: foot, deep: stop}
	}
	if head.V > 0 && stop.V > 0 {
		ns[frontHead] = notch{high: head, deep: stop}
	}
	for i := range b.d.Rails {
		w := &b.d.Rails[i]
		t := b.thick(b.railRole(w))
		switch w.Where {
		case "top back":
			ns[rearHead] = notch{high: w.Height.Add(head), deep: t, rail: t}
		case "bottom back":
			ns[rearFoot] = notch{high: w.Height.Add(foot), deep: t, rail: t}
		case "top front":
			deep := z.Sub(b.railZ(w))
			ns[frontHead] = notch{high: w.Height.Add(head), deep: deep, rail: deep}
		}
	}
	if b.d.Base.Kind == "wall" && !b.hasRail("top back") {
		t := b.thick(b.pick(b.d.Base.Role, "rails", "panels"))
		ns[rearHead] = notch{high: b.d.Base.Height.Add(head), deep: t, rail: t}
	}
	return ns
}
