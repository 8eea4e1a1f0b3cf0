package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// bendDrawing is one bend in section, seen from the front or from above.
type bendDrawing struct {
	pen
	ink
	pc *piece.Piece
	q  *piece.Part
	b  piece.Bend
	s  piece.Stretch
	f  frame
	// stub is how much of the straight strip is drawn at both ends, mm.
	stub    float64
	meets   string // "rail, 80 high" or "former"
	ribsMet int    // whole ribs that the drawn curve meets
}

// Bend draws one bend in section as it stands, its kerfs round the rail or
// former that its ribs meet, and one rib tip enlarged.
func Bend(p *plan.Plan, q *piece.Part, i int, opt Options) leaf.Leaf {
	d := &bendDrawing{ink: ink{systemOf(opt)}, pc: p.Piece, q: q, b: q.Bends[i]}
	pl := d.b.Plan
	l := leaf.Leaf{
		Key:   fmt.Sprintf("bend-%d-%s", q.Number, slug(d.b.Corner)),
		Title: "The bend in section, " + d.b.Corner,
		Right: "section seen from " + seenFrom(q, d.b),
		Caption: fmt.Sprintf("The rib tips are flats on a round: each touches at its middle and stands off %s at its edges. "+
			"In the enlargement only the gap is stretched.", d.fine(pl.RailGap, 3)),
		Alt: fmt.Sprintf("The bend %s in section: radius %s, %d kerfs, and the rail or former of radius %s that its ribs meet.",
			d.b.Corner, d.size(d.b.Radius.V, 1), len(d.b.Kerfs), d.fine(pl.RailRadius, 1)),
		W: 210,
	}
	if pl.Spec.Outside {
		l.Caption = fmt.Sprintf("The skin lies inside: it meets the round at each rib’s middle and stands off %s at the rib’s edges; the kerfs open outwards. "+
			"In the enlargement only the gap is stretched.", d.fine(pl.RailGap, 3))
	}
	s, ok := drawn(q, d.b)
	if !ok {
		l.H = 10
		return l
	}
	d.s = s
	low := d.section()
	d.tip(26)
	y := max(low, 104) + 8
	d.scaleBar(pt(leaf.Margin+2, y), d.f.K, 55, d.sys, "bend")
	l.H, l.Items = y+3, d.items
	l.Title = "The bend meets its " + strings.Split(d.meets, ",")[0] + ", " + d.b.Corner
	l.Caption += fmt.Sprintf(" %d whole ribs meet the %s.", d.ribsMet, strings.Split(d.meets, ",")[0])
	return l
}

// seenFrom tells the side that a bend's section is seen from.
func seenFrom(q *piece.Part, b piece.Bend) string {
	switch {
	case q.InPlan() && b.Left:
		return "below"
	case q.InPlan():
		return "above"
	case b.Left:
		return "the back"
	}
	return "the front"
}

const stubLength = 22.0

// section draws the bend on its rail and returns the lowest place.
func (d *bendDrawing) section() float64 {
	r := d.s.Radius
	stub := min(stubLength*r/140+8, 0.45*r+8)
	d.stub = stub
	folded := fold(d.b, d.s, stub)
	box := r2.EmptyBox()
	for _, ps := range [][]r2.Vec{folded.uncut(), folded.kerfed()} {
		for _, q := range ps {
			box = box.With(q)
		}
	}
	box = box.With(centre(d.s)) // its radii are drawn from there
	size := box.Size()
	k := min(100/max(size.X, 1), 92/max(size.Y, 1))
	d.f = frame{At: pt(34, 14+size.Y*k), O: box.Min, K: k}
	if right := 34 + size.X*k; right < 130 {
		d.f.At.X += (130 - right) / 2
	}
	d.veneers(folded)
	d.faces(folded)
	d.stubEnds(folded)
	d.rail()
	low := d.axes()
	d.radii()
	return max(low+2, d.f.y(box.Min.Y))
}

// faces draws show face and inside.
func (d *bendDrawing) faces(f folded) {
	var segs []leaf.Seg
	rho := math.Inf(1)
	if f.plan.Alpha > 0 {
		rho = (f.plan.Spec.Kerf/f.plan.Alpha + f.plan.NeutralY) * d.f.K
		if f.plan.Spec.Outside {
			rho = (f.plan.Spec.Kerf/f.plan.Alpha - f.plan.NeutralY) * d.f.K
		}
	}
	for i, q := range f.uncut() {
		switch {
		case i == 0:
			segs = append(segs, leaf.Seg{Op: leaf.Move, P: d.f.at(q)})
		case i%2 == 0 && !math.IsInf(rho, 1):
			segs = append(segs, leaf.Seg{Op: leaf.Arc, P: d.f.at(q), R: rho})
		default:
			segs = append(segs, leaf.Seg{Op: leaf.To, P: d.f.at(q)})
		}
	}
	d.add(leaf.Path{Line: leaf.Cut, Segs: segs})
	var inner []r2.Vec
	for _, q := range f.kerfed() {
		inner = append(inner, d.f.at(q))
	}
	d.line(leaf.Cut, inner...)
}

// veneers draws glue lines in the ribs: both sides of the plies whose grain
// runs along the section.
func (d *bendDrawing) veneers(f folded) {
	skin := f.plan.Spec.Thick - f.plan.Depth
	var segs []leaf.Seg
	for i, v := range plies(d.q, f.plan.Spec.GrainAlong) {
		if i%2 != 0 || !f.plan.Spec.Outside && v.from < skin || f.plan.Spec.Outside && v.to > f.plan.Depth {
			continue
		}
		for _, r := range f.ribs {
			segs = append(segs, run(d.f.at(r.at(f.plan, 0, v.from)), d.f.at(r.at(f.plan, r.length, v.from)))...)
		}
	}
	if len(segs) > 0 {
		d.add(leaf.Path{Line: leaf.Hatch, Segs: segs})
	}
}

func (d *bendDrawing) stubEnds(f folded) {
	t := f.plan.Spec.Thick
	first, last := f.ribs[0], f.ribs[len(f.ribs)-1]
	over := 1.8 / d.f.K
	d.zigzag(d.f.at(first.at(f.plan, 0, -over)), d.f.at(first.at(f.plan, 0, t+over)))
	d.zigzag(d.f.at(last.at(f.plan, last.length, -over)), d.f.at(last.at(f.plan, last.length, t+over)))
}

// angles returns the direction angles from the bend's centre of its two
// tangent points: from, and by how much it turns (to the right: negative).
func (d *bendDrawing) angles() (from, turn float64) {
	v := d.s.From.Sub(centre(d.s))
	return math.Atan2(v.Y, v.X), -d.s.Angle
}

// rail draws the curve that the rib tips meet in accent: along the end of the
// rail, where a rail stands in this bend, with its lower or upper edge; else
// all along, for the former.
func (d *bendDrawing) rail() {
	c, a := centre(d.s), d.b.Plan.RailRadius
	from, turn := d.angles()
	at := func(phi, r float64) r2.Vec { sin, cos := math.Sincos(phi); return c.Add(pt(r*cos, r*sin)) }
	t0, t1, e, name := d.railShare(func(share float64) float64 { return at(from+turn*share, a).Y })
	d.meets = name
	for i := range max(len(d.b.Kerfs)-1, 0) { // rib i lies between kerf i and i+1
		n := float64(len(d.b.Kerfs))
		if (float64(i)+0.5)/n >= t0-1e-9 && (float64(i)+1.5)/n <= t1+1e-9 {
			d.ribsMet++
		}
	}
	segs := []leaf.Seg{{Op: leaf.Move, P: d.f.at(at(from+turn*t0, a))}}
	if t0 == 0 {
		segs = run(d.f.at(at(from, a).Sub(d.s.Dir.Mul(d.stub))), d.f.at(at(from, a)))
	}
	segs = append(segs, leaf.Seg{Op: leaf.Arc, P: d.f.at(at(from+turn*t1, a)), R: a * d.f.K, Large: math.Abs(turn*(t1-t0)) > math.Pi})
	if t1 == 1 {
		segs = append(segs, leaf.Seg{Op: leaf.To, P: d.f.at(at(from+turn, a).Add(d.s.Dir.Turn(turn).Mul(d.stub)))})
	}
	d.add(leaf.Path{Line: leaf.Visible, Accent: true, Segs: segs})
	mid := d.f.at(at(from+turn*0.8, a*0.62))
	if math.Abs(at(from+turn*0.8, a).X-c.X) > a*0.6 {
		mid = d.f.at(at(from+turn*0.2, a*0.62))
	}
	if e != nil {
		edge := e.min.Y
		if t0 == 0 != (at(from, a).Y > at(from+turn, a).Y) { // the curve leaves the rail at its top
			edge = e.max.Y
		}
		end := at(from+turn*t0, a)
		if t1 < 1 {
			end = at(from+turn*t1, a)
		}
		away := sign(c.X - end.X)
		x := c.X + away*d.stub
		d.accent(leaf.Visible, d.f.xy(end.X, edge), d.f.xy(x, edge))
		mid = d.f.xy(c.X-away*a*0.28, (e.min.Y+e.max.Y)/2)
		mid.Y += 1.2
	}
	d.add(leaf.Text{At: mid, S: name, Size: leaf.Name, Italic: true, Anchor: leaf.Middle, Halo: true})
}

// railShare finds the rail that stands in the bend, which shares of the bend's
// turn its end covers, and its name; no rail: the whole bend, for the former.
func (d *bendDrawing) railShare(height func(share float64) float64) (t0, t1 float64, e *extent, name string) {
	for _, q := range d.pc.Parts {
		if q.Role != piece.Rail {
			continue
		}
		x := extentOf(q)
		first, last := -1.0, -1.0
		const steps = 360
		for i := range steps + 1 {
			s := float64(i) / steps
			if h := height(s); h >= x.min.Y-1e-6 && h <= x.max.Y+1e-6 {
				if first < 0 {
					first = s
				}
				last = s
			}
		}
		c := centre(d.s)
		if last-first > 0.1 && x.max.X > c.X-d.s.Radius && x.min.X < c.X+d.s.Radius {
			return first, last, &x, "rail, " + d.size(x.size().Y, 1) + " high"
		}
	}
	return 0, 1, nil, "former"
}

// axes draws the tangent lines through the bend's centre, and returns how far
// down their words reach where these stand below the bend.
func (d *bendDrawing) axes() (low float64) {
	c := centre(d.s)
	from, turn := d.angles()
	out := (d.s.Radius + 7/d.f.K)
	for i, phi := range []float64{from, from + turn} {
		sin, cos := math.Sincos(phi)
		u := pt(cos, sin)
		a := d.f.at(c.Add(u.Mul(out)))
		d.line(leaf.Centre, a, d.f.at(c.Sub(u.Mul(5/d.f.K))))
		word := [...]string{"bend starts", "bend ends"}[i]
		if sin < -0.7 {
			low = max(low, a.Y)
		}
		switch {
		case cos < -0.7:
			d.note(pt(a.X-1, a.Y-0.8), leaf.End, word)
		case cos > 0.7:
			d.note(pt(a.X+1, a.Y-0.8), leaf.Start, word)
		case sin > 0:
			d.note(pt(a.X+1.2, a.Y+1.5), leaf.Start, word)
		default:
			d.note(pt(a.X+1.2, a.Y), leaf.Start, word)
		}
	}
	return low
}

// radii draws the outside radius and that of the rail, by arrows.
func (d *bendDrawing) radii() {
	c := centre(d.s)
	from, turn := d.angles()
	polar := func(share, r float64) r2.Vec {
		sin, cos := math.Sincos(from + turn*share)
		return d.f.at(c.Add(pt(r*cos, r*sin)))
	}
	share := 0.4
	if math.Cos(from+turn*0.4) > 0 {
		share = 0.6
	}
	tip, off := polar(share, d.s.Radius), polar(share, d.s.Radius+9/d.f.K)
	d.leader(tip, off, "R "+d.fine(d.s.Radius, 1), leaf.Name)
	share = 0.22
	if d.s.Angle < 1.4 { // out from where the axes meet
		share = 0.45
	}
	in, end := polar(0.5, d.b.Plan.RailRadius), polar(0.5, d.b.Plan.RailRadius*share)
	d.line(leaf.Dimension, in, end)
	d.arrow(in, end)
	t := leaf.Text{At: pt(end.X, end.Y+3.4), S: "R " + d.fine(d.b.Plan.RailRadius, 1), Size: leaf.Name, Halo: true, Anchor: leaf.Middle}
	d.add(t)
}

// tip enlarges one rib where it meets the rail; only the gap is stretched.
func (d *bendDrawing) tip(top float64) {
	pl := d.b.Plan
	if pl.Rib <= 0 || pl.RailGap <= 0 || pl.RailRadius <= 0 {
		return
	}
	const left, wide, high = 160.0, 32.0, 34.0
	k := wide / pl.Rib
	stretch := stretchFor(pl.RailGap * k)
	gap := pl.RailGap * k * stretch
	right, low := left+wide, top+high
	d.enlargedRib(left, right, top, low)
	// The rail's curve: a parabola in truth as near as can be told, drawn as
	// the arc through the middle and both edges.
	over := 6.0
	r := (wide/2*wide/2 + gap*gap) / (2 * gap)
	drop := func(u float64) float64 { return r - math.Sqrt(max(r*r-u*u, 0)) }
	end := wide/2 + over
	a, b := pt(left-over, low+drop(end)), pt(right+over, low+drop(end))
	d.add(leaf.Path{Line: leaf.Cut, Segs: []leaf.Seg{{Op: leaf.Move, P: a}, {Op: leaf.Arc, P: b, R: r}}})
	foot := low + 18
	field := []r2.Vec{pt(b.X, foot), pt(a.X, foot)}
	for i := range 25 {
		u := -end + 2*end*float64(i)/24
		field = append(field, pt(left+wide/2+u, low+drop(u)))
	}
	d.hatch(leaf.Hatch, false, -math.Pi/4, 1.7, field)
	d.line(leaf.Dimension, a, pt(a.X, foot))
	d.line(leaf.Dimension, b, pt(b.X, foot))
	d.zigzag(pt(a.X-1.5, foot), pt(b.X+1.5, foot))
	d.add(leaf.Text{At: pt(left+wide/2, low+11), S: strings.Split(d.meets, ",")[0], Size: leaf.Name, Italic: true, Anchor: leaf.Middle, Halo: true})
	d.glue(left, right, low, drop)
	d.line(leaf.Centre, pt(left+wide/2, low-13), pt(left+wide/2, low+7))
	d.add(leaf.Text{At: pt(left+wide/2, low-13.8), S: "touches on this line", Anchor: leaf.Middle, Halo: true})
	d.gapMark(left, low, gap, stretch)
	d.add(leaf.Text{At: pt(left+wide/2, top-10.5), S: "A, one rib tip", Size: leaf.Name, Italic: true, Anchor: leaf.Middle})
	d.across(left, right, top-4, top-0.5, "rib "+d.fine(pl.Rib, 2), false)
	d.scaleBar(pt(left-6, foot+9), k, 28, d.sys, "along the rib")
	d.scaleBar(pt(left-6, foot+17), k*stretch, 12, d.sys, "across the gap")
	d.ringA()
}

// enlargedRib draws the rib with its veneers.
func (d *bendDrawing) enlargedRib(left, right, top, low float64) {
	d.line(leaf.Cut, pt(left, top), pt(left, low), pt(right, low), pt(right, top))
	d.zigzag(pt(left-1.5, top), pt(right+1.5, top))
	k := (right - left) / d.b.Plan.Rib
	t := d.q.Thick.V
	for _, v := range plies(d.q, d.b.Plan.Spec.GrainAlong) {
		y := func(in float64) float64 { return low - (t-in)*k }
		if v.to < t-1e-6 && y(v.to) > top+1 {
			d.line(leaf.Hatch, pt(left, y(v.to)), pt(right, y(v.to)))
		}
		if v.along {
			continue
		}
		for i := range 3 {
			if m := y(v.from + (v.to-v.from)*(float64(i)+1)/4); m > top+1 && m < low-0.5 {
				d.dots(pt(left, m), pt(right, m))
			}
		}
	}
}

// glue fills the gap between rib and rail with crossed hatch in accent.
func (d *bendDrawing) glue(left, right, low float64, drop func(float64) float64) {
	for _, side := range []float64{-1, 1} {
		mid, half := (left+right)/2, (right-left)/2
		field := []r2.Vec{pt(mid, low), pt(mid+side*half, low)}
		for i := range 13 {
			u := half * (1 - float64(i)/12)
			field = append(field, pt(mid+side*u, low+drop(u)))
		}
		d.hatch(leaf.Hatch, true, math.Pi/4, 0.6, field)
		d.hatch(leaf.Hatch, true, -math.Pi/4, 0.6, field)
	}
}

// gapMark draws the gap between two arrows from outside.
func (d *bendDrawing) gapMark(left, low, gap, stretch float64) {
	x := left - 4
	for _, y := range []float64{low, low + gap} {
		d.line(leaf.Dimension, pt(left-0.9, y), pt(x-1.2, y))
	}
	d.line(leaf.Dimension, pt(x, low-5), pt(x, low))
	d.arrow(pt(x, low), pt(x, low-5))
	d.line(leaf.Dimension, pt(x, low+gap+5), pt(x, low+gap))
	d.arrow(pt(x, low+gap), pt(x, low+gap+5))
	d.value(pt(x-1, low-4.8), leaf.End, "gap "+d.fine(d.b.Plan.RailGap, 3))
	if stretch > 1 {
		d.note(pt(x-1, low-0.8), leaf.End, "drawn × "+strconv.FormatFloat(stretch, 'f', -1, 64))
	}
}

// ringA rings the rib tip in the bend that is enlarged.
func (d *bendDrawing) ringA() {
	from, turn := d.angles()
	phi := from + turn*0.3
	if math.Cos(from+turn*0.4) > 0 {
		phi = from + turn*0.7
	}
	sin, cos := math.Sincos(phi)
	c := d.f.at(centre(d.s).Add(pt(cos, sin).Mul(d.b.Plan.RailRadius)))
	d.circle(leaf.Dimension, c, 4)
	in := d.f.at(centre(d.s)).Sub(c).Unit().Mul(6) // on the former's side, clear of the ribs
	d.add(leaf.Text{At: pt(c.X+in.X, c.Y+in.Y+leaf.Name.Cap()/2), S: "A", Anchor: leaf.Middle, Size: leaf.Name, Strong: true, Halo: true})
}

// stretchFor picks the round factor that draws a gap between 1.2 and 3 mm.
func stretchFor(drawn float64) float64 {
	for _, f := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if drawn*f >= 1.2 {
			return f
		}
	}
	return 1000
}
