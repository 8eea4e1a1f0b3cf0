package drawing

import (
	"fmt"
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/work"
)

// Former draws one board of a former, with its curve and its size.
func Former(a work.Aid, opt Options) leaf.Leaf {
	d := &formerDrawing{ink: ink{systemOf(opt)}, a: a}
	l := leaf.Leaf{
		Key:     slug(a.ID),
		Title:   "One board of the " + a.Name,
		Right:   fmt.Sprintf("%d like it · %s thick", a.Count, d.size(a.Thick.V, 1)),
		Caption: fmt.Sprintf("The strip lies on the round; straight legs lead in and out. %d boards stand across the strip. The full-size template is among the templates.", a.Count),
		Alt: fmt.Sprintf("A board of %s with a round of radius %s over %s and straight legs.", d.by(a.Length.V, a.Width.V),
			d.fine(a.Radius.V, 1), deg(a.Angle.V, 2)),
		W: 210,
	}
	y := d.draw()
	d.scaleBar(pt(leaf.Margin+2, y+10), d.f.K, 50, d.sys, "former")
	l.H, l.Items = y+13, d.items
	return l
}

type formerDrawing struct {
	pen
	ink
	a work.Aid
	f frame
}

func (d *formerDrawing) draw() float64 {
	box := d.a.Outline.Box()
	size := box.Size()
	k := min(110/max(size.X, 1), 62/max(size.Y, 1))
	d.f = frame{At: pt((210-size.X*k)/2, 22+size.Y*k), O: box.Min, K: k}
	for _, loop := range d.a.Outline.Loops() {
		var segs []leaf.Seg
		for i, e := range loop.Edges() {
			if i == 0 {
				segs = append(segs, leaf.Seg{Op: leaf.Move, P: d.f.at(e.A)})
			}
			if e.IsArc() {
				segs = append(segs, leaf.Seg{Op: leaf.Arc, P: d.f.at(e.B), R: d.a.Radius.V * k, Left: true, Large: d.a.Angle.V > math.Pi})
			} else {
				segs = append(segs, leaf.Seg{Op: leaf.To, P: d.f.at(e.B)})
			}
		}
		segs = append(segs, leaf.Seg{Op: leaf.Close})
		d.add(leaf.Path{Line: leaf.Cut, Segs: segs})
	}
	top := r2.Vec{X: (box.Min.X + box.Max.X) / 2, Y: box.Max.Y}
	c := top.Sub(pt(0, d.a.Radius.V))
	sin, cos := math.Sincos(math.Pi/2 - d.a.Angle.V*0.18)
	tip := d.f.at(c.Add(pt(cos, sin).Mul(d.a.Radius.V)))
	out := tip.Add(pt(cos, -sin).Mul(9))
	d.leader(tip, out, "R "+d.fine(d.a.Radius.V, 1)+", "+deg(d.a.Angle.V, 2), leaf.Name)
	low, left, right := d.f.y(box.Min.Y), d.f.x(box.Min.X), d.f.x(box.Max.X)
	d.across(left, right, low+7, low+1, d.size(size.X, 1), false)
	d.value(pt(right+leaf.Name.Cap()+4, (d.f.y(box.Max.Y)+low)/2), leaf.Middle, d.size(size.Y, 1))
	last := d.items[len(d.items)-1].(leaf.Text)
	last.Up = true
	d.items[len(d.items)-1] = last
	return low + 7
}
