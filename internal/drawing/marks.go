package drawing

import (
	"math"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// stroke ends a single dimension: an oblique stroke of 1.8.
func (p *pen) stroke(c r2.Vec) {
	p.line(leaf.Visible, pt(c.X-strokeHalf, c.Y+strokeHalf), pt(c.X+strokeHalf, c.Y-strokeHalf))
}

// arrow fills a head whose point is at tip, coming from the direction of from.
func (p *pen) arrow(tip, from r2.Vec) {
	d := from.Sub(tip).Unit()
	base := tip.Add(d.Mul(2.2))
	n := pt(-d.Y, d.X).Mul(0.42)
	p.solid(tip, base.Add(n), base.Sub(n))
}

// leader leads words to an edge: an arrow at tip, a knee, a short level line,
// and the words at its end, to the right or the left of it.
func (p *pen) leader(tip, knee r2.Vec, s string, size leaf.Size) {
	d := 1.5
	anchor := leaf.Start
	if knee.X < tip.X {
		d, anchor = -d, leaf.End
	}
	end := pt(knee.X+d, knee.Y)
	p.line(leaf.Dimension, tip, knee, end)
	p.arrow(tip, knee)
	p.add(leaf.Text{At: pt(end.X+d*0.5, end.Y+size.Cap()/2), S: s, Size: size, Anchor: anchor, Halo: true})
}

// point leads words to a surface: a dot instead of an arrow.
func (p *pen) point(tip, knee r2.Vec, s string) {
	d := 1.5
	anchor := leaf.Start
	if knee.X < tip.X {
		d, anchor = -d, leaf.End
	}
	p.line(leaf.Dimension, tip, knee, pt(knee.X+d, knee.Y))
	p.add(leaf.Path{Fill: leaf.Solid, Segs: circleOf(tip, 0.42)})
	p.add(leaf.Text{At: pt(knee.X+1.5*d, knee.Y+0.9), S: s, Anchor: anchor, Halo: true})
}

// across is a single dimension from x0 to x1 on the line y, with extension
// lines from y0 and its value above the line. Where it is too narrow for the
// value, the value stands to the right (or left, where left is set).
func (p *pen) across(x0, x1, y, y0 float64, s string, left bool) {
	away := 1.0
	if y < y0 {
		away = -1
	}
	for _, x := range []float64{x0, x1} {
		p.line(leaf.Dimension, pt(x, y0+extGap*away), pt(x, y+extOverrun*away))
	}
	text := leaf.Text{S: s, Size: leaf.Name, Anchor: leaf.Middle, At: pt((x0+x1)/2, y-0.9)}
	w := text.Width()
	a, b := x0, x1
	if w > x1-x0-1 {
		a, b = x0-1.6, x1+1.6
		if left {
			text.At, text.Anchor = pt(x0-1.2, y-0.9), leaf.End
			a = x0 - 1.2 - w
		} else {
			text.At, text.Anchor = pt(x1+1.2, y-0.9), leaf.Start
			b = x1 + 1.2 + w
		}
	}
	p.line(leaf.Dimension, pt(a, y), pt(b, y))
	p.stroke(pt(x0, y))
	p.stroke(pt(x1, y))
	p.add(text)
}

// upright is a single dimension from y0 to y1 (paper) on the line x, with
// extension lines from the figure's edge at x0. The value is turned and stands
// left of the line; where it is longer than the place it stands level beside
// it, away from the figure.
func (p *pen) upright(y0, y1, x, x0 float64, s string) {
	away := 1.0
	if x < x0 {
		away = -1
	}
	y0, y1 = min(y0, y1), max(y0, y1)
	for _, y := range []float64{y0, y1} {
		p.line(leaf.Dimension, pt(x0+extGap*away, y), pt(x+extOverrun*away, y))
	}
	text := leaf.Text{S: s, Size: leaf.Name, Anchor: leaf.Middle, Up: true, At: pt(x-0.9, (y0+y1)/2)}
	a, b := y0, y1
	if text.Width() > y1-y0-1 {
		text.Up = false
		text.At = pt(x+away*2.2, (y0+y1)/2+leaf.Name.Cap()/2)
		text.Anchor = leaf.Start
		if away < 0 {
			text.Anchor = leaf.End
		}
		if y1-y0 < 3 {
			a, b = y0-1.6, y1+1.6
		}
	}
	p.line(leaf.Dimension, pt(x, a), pt(x, b))
	p.stroke(pt(x, y0))
	p.stroke(pt(x, y1))
	p.add(text)
}

// grain draws the mark of the grain, a stroke with half-barbs, centred at c and
// of the length given, along x or upright; with the word where asked.
func (p *pen) grain(c r2.Vec, length float64, upright bool, word string) {
	h := length / 2
	place := func(u, v float64) r2.Vec {
		if upright {
			return pt(c.X-v, c.Y-u)
		}
		return pt(c.X+u, c.Y+v)
	}
	barb := min(2.6, length/5)
	p.line(leaf.Visible, place(-h+barb, 0.44*barb), place(-h, 0), place(h, 0), place(h-barb, -0.44*barb))
	if word != "" {
		t := leaf.Text{S: word, Italic: true, Anchor: leaf.Middle, At: pt(c.X, c.Y-1.1), Up: upright, Halo: true}
		if upright {
			t.At = pt(c.X-1.1, c.Y)
		}
		p.add(t)
	}
}

// datum marks the corner that all is measured from: a ring with a dot, and its
// two edges thickened towards the directions dx and dy (1 or -1 on paper).
func (p *pen) datum(c r2.Vec, dx, dy float64) {
	p.line(leaf.Datum, pt(c.X+4.5*dx, c.Y), c, pt(c.X, c.Y+4.5*dy))
	p.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: circleOf(c, 1.15)})
	p.add(leaf.Path{Fill: leaf.Solid, Segs: circleOf(c, 0.3)})
}

// showFace draws the joiner's loop, its tail on the datum edge at c, running
// off in the direction u, square to the edge.
func (p *pen) showFace(c, u r2.Vec) {
	n := pt(-u.Y, u.X)
	left := u.X-u.Y > 0
	if !left {
		n = n.Mul(-1)
	}
	at := func(along, aside float64) r2.Vec { return c.Add(u.Mul(along)).Add(n.Mul(aside)) }
	// Three arcs that run into each other: out from the edge, once round, off.
	p.add(leaf.Path{Line: leaf.Dimension, Segs: []leaf.Seg{
		{Op: leaf.Move, P: c},
		{Op: leaf.Arc, P: at(4.40, 1.09), R: 9.4, Left: !left},
		{Op: leaf.Arc, P: at(2.94, 1.83), R: 1.0, Left: !left, Large: true},
		{Op: leaf.Arc, P: at(5.86, -1.78), R: 4.5, Left: !left},
	}})
}

// zigzag breaks a line from a to b with one zigzag in the middle: the edge of
// a part that runs on.
func (p *pen) zigzag(a, b r2.Vec) {
	d := b.Sub(a).Unit()
	n := pt(-d.Y, d.X)
	m := a.Lerp(b, 0.5)
	p.line(leaf.Dimension, a, m.Sub(d.Mul(1.1)), m.Sub(d.Mul(0.4)).Add(n.Mul(1.2)),
		m.Add(d.Mul(0.4)).Sub(n.Mul(1.2)), m.Add(d.Mul(1.1)), b)
}

// flagSize is half the width and the length of a cut's flag.
const flagHalf, flagBody, flagPoint = 1.75, 3.6, 1.6

// flagBox returns the paper that a flag with its point at tip covers, when it
// looks along d.
func flagBox(tip, d r2.Vec) r2.Box {
	back := tip.Sub(d.Mul(flagBody + flagPoint))
	n := pt(-d.Y, d.X).Mul(flagHalf)
	return r2.EmptyBox().With(tip).With(back.Add(n)).With(back.Sub(n))
}

// flag draws a cut's number in a house whose point touches the saw line at tip
// and looks along d.
func (p *pen) flag(tip, d r2.Vec, number int) {
	n := pt(-d.Y, d.X).Mul(flagHalf)
	back := tip.Sub(d.Mul(flagBody + flagPoint))
	eave := tip.Sub(d.Mul(flagPoint))
	p.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: ring(tip, eave.Add(n), back.Add(n), back.Sub(n), eave.Sub(n))})
	c := back.Lerp(eave, 0.5)
	p.add(leaf.Text{At: pt(c.X, c.Y+leaf.Note.Cap()/2), S: strconv.Itoa(number), Anchor: leaf.Middle, Strong: true})
}

// hole marks a round hole: a circle with a cross through it.
func (p *pen) hole(c r2.Vec, r float64) {
	p.circle(leaf.Visible, c, r)
	h := max(r*1.5, r+0.4)
	p.line(leaf.Dimension, pt(c.X-h, c.Y), pt(c.X+h, c.Y))
	p.line(leaf.Dimension, pt(c.X, c.Y-h), pt(c.X, c.Y+h))
}

// hatch fills a closed outline of straight edges with parallel lines, step
// apart, at the angle (rad, anticlockwise as seen), by the even-odd rule.
func (p *pen) hatch(kind leaf.Line, accent bool, angle, step float64, rings ...[]r2.Vec) {
	segs := hatchLines(angle, step, rings)
	if len(segs) > 0 {
		p.add(leaf.Path{Line: kind, Accent: accent, Segs: segs})
	}
}

// maxHatch bounds the number of hatch lines in one field.
const maxHatch = 4000

func hatchLines(angle, step float64, rings [][]r2.Vec) []leaf.Seg {
	sin, cos := math.Sincos(angle)
	along := pt(cos, -sin) // y down
	across := pt(sin, cos)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range rings {
		for _, q := range r {
			lo, hi = min(lo, q.Dot(across)), max(hi, q.Dot(across))
		}
	}
	if !(hi > lo) || step <= 0 || (hi-lo)/step > maxHatch {
		return nil
	}
	var segs []leaf.Seg
	for k := math.Ceil(lo / step); k*step < hi; k++ {
		ts := crossings(k*step, along, across, rings)
		for i := 0; i+1 < len(ts); i += 2 {
			if ts[i+1]-ts[i] < 0.05 {
				continue
			}
			base := across.Mul(k * step)
			segs = append(segs, run(base.Add(along.Mul(ts[i])), base.Add(along.Mul(ts[i+1])))...)
		}
	}
	return segs
}

// crossings returns where the line 'across = c' meets the rings, in order.
func crossings(c float64, along, across r2.Vec, rings [][]r2.Vec) []float64 {
	var ts []float64
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			u, v := a.Dot(across)-c, b.Dot(across)-c
			if (u >= 0) == (v >= 0) {
				continue
			}
			ts = append(ts, a.Lerp(b, u/(u-v)).Dot(along))
		}
	}
	for i := 1; i < len(ts); i++ {
		for j := i; j > 0 && ts[j] < ts[j-1]; j-- {
			ts[j], ts[j-1] = ts[j-1], ts[j]
		}
	}
	return ts
}

func corners(b r2.Box) []r2.Vec {
	return []r2.Vec{b.Min, pt(b.Max.X, b.Min.Y), b.Max, pt(b.Min.X, b.Max.Y)}
}
