package drawing

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// Stack draws a bend of thin plies on its former, and dashed the shape that it
// takes when it is let go: the one that is wanted.
func Stack(q *piece.Part, i int, opt Options) leaf.Leaf {
	b := q.Bends[i]
	d := &stackDrawing{ink: ink{systemOf(opt)}, b: b}
	s := b.Stack
	l := leaf.Leaf{
		Key:   fmt.Sprintf("stack-%d-%s", q.Number, slug(b.Corner)),
		Title: "The plies on their former, " + b.Corner,
		Right: fmt.Sprintf("%d plies of %s", s.Stack.Count, d.fine(s.Stack.Ply, 2)),
		W:     210,
	}
	switch s.Stack.Count {
	case 1:
		l.Title = "The sheet, bent cold, " + b.Corner
		l.Right = "one sheet of " + d.fine(s.Stack.Ply, 2)
		l.Caption = "Bent cold it gives all back: what it is fixed to holds it. Solid: as it is held."
	default:
		l.Caption = fmt.Sprintf("Solid: on the former, radius %s, %s. Dashed: let go, after it has given back %s %% of its curvature.",
			d.fine(s.FormerRadius, 1), deg(s.FormerAngle, 2), strconv.FormatFloat(100*s.Lost, 'f', 1, 64))
	}
	l.Alt = fmt.Sprintf("The bend %s of %d plies: former of radius %s over %s, outside radius %s over %s when it is let go.",
		b.Corner, s.Stack.Count, d.fine(s.FormerRadius, 1), deg(s.FormerAngle, 2), d.size(b.Radius.V, 1), deg(b.Angle.V, 2))
	y := d.draw()
	d.scaleBar(pt(leaf.Margin+2, y+8), d.f.K, 55, d.sys, "bend")
	l.H, l.Items = y+11, d.items
	return l
}

type stackDrawing struct {
	pen
	ink
	b piece.Bend
	f frame
}

// arcs are the places of a bend: it starts at the origin, level, its outer face
// above, and turns to the right and down, with a straight stub at both ends.
type arcs struct{ radius, angle, thick, stub float64 }

// at is the place at the share of the bend, h under the outer face.
func (a arcs) at(share, h float64) r2.Vec {
	sin, cos := math.Sincos(a.angle * share)
	r := a.radius - h
	return pt(r*sin, r*cos-a.radius)
}

// face is a line parallel to the outer face, stubs and all.
func (a arcs) face(h float64) (from, start, end, to r2.Vec) {
	start, end = a.at(0, h), a.at(1, h)
	return start.Sub(pt(a.stub, 0)), start, end, end.Add(pt(a.stub, 0).Turn(-a.angle))
}

func (d *stackDrawing) draw() float64 {
	s := d.b.Stack
	t := s.Thick
	stub := 0.35*s.Stack.Radius + 10
	on := arcs{s.FormerRadius + t, s.FormerAngle, t, stub}
	off := arcs{s.Stack.Radius, s.Stack.Angle, t, stub}
	box := r2.EmptyBox()
	for _, a := range []arcs{on, off} {
		for i := range 21 {
			box = box.With(a.at(float64(i)/20, 0)).With(a.at(float64(i)/20, t))
		}
		for _, h := range []float64{0, t} {
			from, _, _, to := a.face(h)
			box = box.With(from).With(to)
		}
	}
	size := box.Size()
	k := min(110/max(size.X, 1), 84/max(size.Y, 1))
	d.f = frame{At: pt((210-size.X*k)/2, 14+size.Y*k), O: box.Min, K: k}
	if s.Stack.Count > 1 {
		for _, h := range []float64{0, t} {
			d.path(off, h, leaf.Hidden, false)
		}
	}
	d.path(on, 0, leaf.Cut, false)
	d.path(on, t, leaf.Visible, true)
	for i := 1; i < s.Stack.Count; i++ {
		d.path(on, float64(i)*s.Stack.Ply, leaf.Hatch, false)
	}
	d.path(on, t, leaf.Cut, false)
	f0, _, _, e0 := on.face(0)
	f1, _, _, e1 := on.face(t)
	d.line(leaf.Cut, d.f.at(f0), d.f.at(f1))
	d.line(leaf.Cut, d.f.at(e0), d.f.at(e1))
	d.radii(on, off)
	return d.f.y(box.Min.Y)
}

// path draws one face of a bend.
func (d *stackDrawing) path(a arcs, h float64, l leaf.Line, accent bool) {
	from, start, end, to := a.face(h)
	d.add(leaf.Path{Line: l, Accent: accent, Segs: []leaf.Seg{
		{Op: leaf.Move, P: d.f.at(from)}, {Op: leaf.To, P: d.f.at(start)},
		{Op: leaf.Arc, P: d.f.at(end), R: (a.radius - h) * d.f.K, Large: a.angle > math.Pi},
		{Op: leaf.To, P: d.f.at(to)}}})
}

// radii tells the former's radius inside, and the outside one when let go.
func (d *stackDrawing) radii(on, off arcs) {
	s := d.b.Stack
	c := d.f.at(pt(0, -on.radius))
	tip := d.f.at(on.at(0.35, on.thick))
	d.line(leaf.Dimension, c, tip)
	d.arrow(tip, c)
	word := "former R " + d.fine(s.FormerRadius, 1)
	if s.Stack.Count == 1 {
		word = "held at R " + d.fine(s.FormerRadius, 1)
	}
	d.add(leaf.Text{At: pt(c.X, c.Y+3.4), S: word, Size: leaf.Name, Halo: true, Anchor: leaf.Middle})
	edge := d.f.at(off.at(0.6, 0))
	out := edge.Add(edge.Sub(d.f.at(pt(0, -off.radius))).Unit().Mul(9))
	d.leader(edge, out, "R "+d.fine(s.Stack.Radius, 1), leaf.Name)
}
