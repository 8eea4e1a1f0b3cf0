package drawing

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// enlarged draws three kerfs in section, show face down, with mouth, rib,
// depth, skin, thickness and pitch. It returns the lowest place of the section
// and its scale.
func (d *kerfDrawing) enlarged(y float64) (low, k float64) {
	pl, t := d.b.Plan, d.q.Thick.V
	w, s := pl.Spec.Kerf, pl.Pitch
	const left, wide = 33.0, 78.0
	k = min(40/max(t, 0.1), wide/max(3*s+0.9*s, 0.1))
	width := 3.9 * s * k
	x0 := left
	top := y + 8
	low = top + t*k
	f := frame{At: pt(x0, low), K: k} // y up from the show face
	right := x0 + width
	var outline []r2.Vec
	outline = append(outline, pt(x0, top))
	var centres []float64
	for i := range 3 {
		c := s * (float64(i) + 0.95)
		centres = append(centres, c)
		for _, q := range []r2.Vec{{X: c - w/2, Y: t}, {X: c - w/2, Y: t - pl.Depth}, {X: c + w/2, Y: t - pl.Depth}, {X: c + w/2, Y: t}} {
			outline = append(outline, f.at(q))
		}
	}
	outline = append(outline, pt(right, top))
	d.plyLines(f, centres, width/k)
	d.line(leaf.Cut, outline...)
	d.line(leaf.Cut, pt(x0, low), pt(right, low))
	d.zigzag(pt(x0, top-1.8), pt(x0, low+1.8))
	d.zigzag(pt(right, top-1.8), pt(right, low+1.8))
	// What it measures.
	d.upright(top, low, x0-6, x0, d.fine(t, 2))
	c := centres
	d.across(f.x(c[0]-w/2), f.x(c[0]+w/2), top-4, top, "kerf "+d.fine(w, 2), true)
	d.across(f.x(c[0]+w/2), f.x(c[1]-w/2), top-4, top, "rib "+d.fine(pl.Rib, 2), false)
	for _, m := range c[1:] {
		d.line(leaf.Centre, pt(f.x(m), top-1.5), pt(f.x(m), low+1))
	}
	d.across(f.x(c[1]), f.x(c[2]), low+6, low, "pitch "+d.fine(s, 2), true)
	floor := f.y(t - pl.Depth)
	d.depths(right, top, floor, low)
	d.leader(pt(right-2.5, low+0.2), pt(right+2.5, low+6.2), uncutFace(d.b)+", down on the bed", leaf.Note)
	return low, k
}

// depths draws kerf depth and skin at the right of the section.
func (d *kerfDrawing) depths(right, top, floor, low float64) {
	x := right + 6
	for _, y := range []float64{top, floor, low} {
		d.line(leaf.Dimension, pt(right+extGap, y), pt(x+extOverrun, y))
		d.stroke(pt(x, y))
	}
	d.line(leaf.Dimension, pt(x, top), pt(x, low))
	cap := leaf.Name.Cap()
	d.value(pt(x+2.2, (top+floor)/2+cap/2), leaf.Start, "depth "+d.fine(d.b.Plan.Depth, 2))
	d.value(pt(x+2.2, (floor+low)/2+cap/2), leaf.Start, "skin "+d.fine(d.q.Thick.V-d.b.Plan.Depth, 2))
}

// plyLines draws glue lines and end grain of the veneers between the kerfs
// with the centres given, in a section that is wide mm long.
func (d *kerfDrawing) plyLines(f frame, centres []float64, wide float64) {
	pl, t := d.b.Plan, d.q.Thick.V
	w := pl.Spec.Kerf
	skin := t - pl.Depth
	for _, v := range plies(d.q, pl.Spec.GrainAlong) {
		for _, span := range freeOf(centres, w, wide, v.to > skin+1e-9) {
			if v.to < t-1e-6 {
				d.line(leaf.Hatch, f.xy(span[0], v.to), f.xy(span[1], v.to))
			}
		}
		if !v.along {
			for _, span := range freeOf(centres, w, wide, (v.from+v.to)/2 > skin) {
				d.dots(f.xy(span[0], (v.from+v.to)/2), f.xy(span[1], (v.from+v.to)/2))
			}
		}
	}
}

// dots draws a row of dots, a little in from both ends.
func (p *pen) dots(a, b r2.Vec) {
	u := b.Sub(a).Unit().Mul(0.5)
	p.line(leaf.Dots, a.Add(u), b.Sub(u))
}

// freeOf returns the stretches of 0 … wide that no kerf takes, where kerfs
// reach; the whole stretch where they do not.
func freeOf(centres []float64, w, wide float64, kerfed bool) [][2]float64 {
	if !kerfed {
		return [][2]float64{{0, wide}}
	}
	var out [][2]float64
	from := 0.0
	for _, c := range centres {
		out = append(out, [2]float64{from, c - w/2})
		from = c + w/2
	}
	return append(out, [2]float64{from, wide})
}

// bent draws one kerf after bending at the right of the enlarged section.
func (d *kerfDrawing) bent(low, k float64) {
	pl, t := d.b.Plan, d.q.Thick.V
	if pl.Alpha <= 0 {
		return
	}
	half := pl.Rib * 1.25
	rho := pl.Spec.Kerf / pl.Alpha // on the neutral line
	outer := rho + pl.NeutralY
	// Frame: show face lowest at the origin, the arc's centre above.
	f := frame{At: pt(164, low-0.5), K: k}
	at := func(side, u, v float64) r2.Vec {
		phi := side * pl.Alpha / 2
		sin, cos := math.Sincos(phi)
		out := pt(sin, -cos) // outwards, from the centre
		along := pt(cos, sin).Mul(side)
		return f.at(pt(0, outer).Add(out.Mul(outer - v)).Add(along.Mul(u)))
	}
	skin := t - pl.Depth
	for _, side := range []float64{-1, 1} {
		for _, v := range plies(d.q, pl.Spec.GrainAlong) {
			if v.to > skin && v.to < t-1e-6 {
				d.line(leaf.Hatch, at(side, 0, v.to), at(side, half, v.to))
			}
			if m := (v.from + v.to) / 2; !v.along && m > skin {
				d.dots(at(side, 0, m), at(side, half, m))
			}
		}
		d.zigzag(at(side, half, t+1.2/k), at(side, half, -1.2/k))
	}
	arc := func(v float64) []leaf.Seg {
		return []leaf.Seg{{Op: leaf.Move, P: at(-1, half, v)}, {Op: leaf.To, P: at(-1, 0, v)},
			{Op: leaf.Arc, P: at(1, 0, v), R: (outer - v) * k, Left: true}, {Op: leaf.To, P: at(1, half, v)}}
	}
	d.add(leaf.Path{Line: leaf.Cut, Segs: arc(0)})
	floor := arc(skin)
	d.add(leaf.Path{Line: leaf.Cut, Segs: []leaf.Seg{
		{Op: leaf.Move, P: at(-1, half, t)}, {Op: leaf.To, P: at(-1, 0, t)}, {Op: leaf.To, P: at(-1, 0, skin)}, floor[2],
		{Op: leaf.To, P: at(1, 0, t)}, {Op: leaf.To, P: at(1, half, t)}}})
	a, b := at(-1, 0, t), at(1, 0, t)
	d.across(a.X, b.X, min(a.Y, b.Y)-4, min(a.Y, b.Y), "mouth "+d.fine(pl.Mouth, 2)+", bent", false)
	d.note(pt(164, low+11), leaf.Middle, "one kerf after bending: "+deg(pl.Alpha, 3))
}

// uncutFace names the face that a bend's kerfs leave whole.
func uncutFace(b piece.Bend) string {
	if b.Face == piece.FaceA {
		return "inner face"
	}
	return "show face"
}
