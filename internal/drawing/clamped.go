package drawing

import (
	"fmt"
	"math"
	"strconv"

	fits "rodwork/internal/fit"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/units"
)

// clampedDrawing is one bend under clamps: in section on its former, and below
// it the gap along the strip.
type clampedDrawing struct {
	pen
	ink
	q *piece.Part
	b piece.Bend
	s piece.Stretch
	l fits.Loaded
	f frame
}

// Clamped draws one bend as it lies under its clamps, the clamps with the least
// force of each, and the gap that is left along the strip.
func Clamped(q *piece.Part, i int, l fits.Loaded, opt Options) leaf.Leaf {
	d := &clampedDrawing{ink: ink{systemOf(opt)}, q: q, b: q.Bends[i], l: l}
	n := len(l.Clamped.Clamps)
	out := leaf.Leaf{
		Key:   fmt.Sprintf("clamped-%d-%s", q.Number, slug(d.b.Corner)),
		Title: "Under the clamps, " + d.b.Corner,
		Right: "section seen from " + map[bool]string{true: "above", false: "the front"}[q.InPlan()],
		Caption: fmt.Sprintf("The least that holds the strip on its former: %d clamps, each over the whole width of %s. The force is of the elastic skin, at its stiffest; "+
			"gaps are of the inner face, at rib middles and edges.", n, d.size(q.Width.V, 1)),
		Alt: fmt.Sprintf("The bend %s on its former under %d clamps, with the force of each, and a curve of the gap along the strip; the largest is %s.",
			d.b.Corner, n, d.fine(l.Clamped.Shape.Worst.Off, 3)),
		W: 210,
	}
	s, ok := stretchOf(q, d.b)
	if !ok || n == 0 || len(l.Clamped.Shape.At) == 0 {
		out.H = 10
		return out
	}
	d.s = s
	low := d.section(12)
	low = d.curve(low + 12)
	d.scaleBar(pt(leaf.Margin+2, low+9), d.f.K, 45, d.sys, "section")
	out.H, out.Items = low+12, d.items
	return out
}

// at places a point of the chain in the section.
func (d *clampedDrawing) at(v r2.Vec) r2.Vec {
	in := d.s.Dir.Left().Mul(-1)
	return d.f.at(d.s.From.Add(d.s.Dir.Mul(v.X - d.l.Before)).Add(in.Mul(v.Y + d.b.Plan.NeutralY)))
}

// on is a point of a link: along it, and over its neutral line towards the
// former.
func (d *clampedDrawing) on(i int, along, over float64) r2.Vec {
	sh := d.l.Clamped.Shape
	u := r2.Vec{X: 1}.Turn(sh.Turned[i])
	return sh.At[i].Add(u.Mul(along)).Add(u.Left().Mul(over))
}

// section draws the strip, its former and its clamps, and returns the lowest
// place.
func (d *clampedDrawing) section(top float64) float64 {
	links := d.l.Problem.Links
	box := r2.EmptyBox()
	d.f = frame{K: 1}
	for i, l := range links {
		for _, along := range []float64{l.From, l.To} {
			v := d.at(d.on(i, along, -d.b.Plan.NeutralY))
			box = box.With(pt(v.X, -v.Y))
		}
	}
	size := box.Size()
	k := min(120/max(size.X, 1), 78/max(size.Y, 1))
	d.f = frame{At: pt(105-size.X*k/2, top+13+size.Y*k), O: box.Min, K: k}
	d.strip()
	d.former()
	d.comb()
	for i := range d.l.Clamped.Clamps {
		d.clamp(i)
	}
	return d.f.y(box.Min.Y) + 13
}

// strip draws both faces; kerfs are drawn where they are wider than a line.
func (d *clampedDrawing) strip() {
	var outer, inner []r2.Vec
	p := d.b.Plan
	floor := p.Spec.Skin - p.NeutralY
	links := d.l.Problem.Links
	for i, l := range links {
		if i > 0 && l.Rib {
			inner = append(inner, d.at(d.on(i-1, links[i-1].To, floor)), d.at(d.on(i, l.From, floor)))
		}
		for _, along := range []float64{l.From, l.To} {
			outer = append(outer, d.at(d.on(i, along, -p.NeutralY)))
			inner = append(inner, d.at(d.on(i, along, l.Over)))
		}
	}
	d.line(leaf.Cut, outer...)
	d.line(leaf.Visible, inner...)
	for _, e := range [][2]r2.Vec{{outer[0], inner[0]}, {outer[len(outer)-1], inner[len(inner)-1]}} {
		u := e[1].Sub(e[0]).Unit()
		d.zigzag(e[0].Sub(u.Mul(1.5)), e[1].Add(u.Mul(1.5)))
	}
}

// face is a point of the former's face, at an angle round its arc (before 0 and
// past the angle on its flanks), so far inside it.
func (d *clampedDrawing) face(p r2.Vec, in float64) r2.Vec {
	f := d.l.Problem.Former
	v := p.Sub(f.Centre)
	at := math.Atan2(v.X, -v.Y)
	if at < -math.Pi/2 {
		at += 2 * math.Pi
	}
	away := r2.Vec{Y: -1}
	switch {
	case at < 0:
		return r2.Vec{X: p.X, Y: f.Centre.Y - f.Radius + in}
	case at > f.Angle:
		away = away.Turn(f.Angle)
		along := away.Left()
		return f.Centre.Add(along.Mul(v.Dot(along))).Add(away.Mul(f.Radius - in))
	}
	return f.Centre.Add(v.Unit().Mul(f.Radius - in))
}

// former draws the face of the former under the whole strip, and a rim of hatch.
func (d *clampedDrawing) former() {
	var face, deep []r2.Vec
	for _, g := range d.l.Clamped.Shape.Gaps {
		face = append(face, d.at(d.face(g.Point, 0)))
		deep = append(deep, d.at(d.face(g.Point, min(14/d.f.K, 0.7*d.b.Plan.RailRadius))))
	}
	d.line(leaf.Visible, face...)
	mid := deep[len(deep)/2]
	c := d.at(d.l.Problem.Former.Centre)
	away := c.Sub(mid).Unit().Mul(6)
	d.add(leaf.Text{At: mid.Add(away).Add(pt(0, 1.2)), S: "former", Size: leaf.Name, Italic: true, Anchor: leaf.Middle, Halo: true})
}

// combHigh is how long the largest gap is drawn, paper mm.
const combHigh = 8.0

// stretch is the round factor that the gaps are drawn larger by.
func (d *clampedDrawing) stretch() float64 {
	worst := d.l.Clamped.Shape.Worst.Off * d.f.K
	best := 1.0
	for _, f := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if worst*f <= combHigh {
			best = f
		}
	}
	return best
}

// comb stands the gaps on the former's face, drawn larger.
func (d *clampedDrawing) comb() {
	k := d.stretch()
	var face, tips []r2.Vec
	for _, g := range d.l.Clamped.Shape.Gaps {
		a, b := d.at(d.face(g.Point, 0)), d.at(d.face(g.Point, max(g.Off, 0)*k))
		face, tips = append(face, a), append(tips, b)
	}
	field := append([]r2.Vec{}, face...)
	for i := len(tips) - 1; i >= 0; i-- {
		field = append(field, tips[i])
	}
	d.hatch(leaf.Hatch, true, math.Pi/4, 0.6, field)
	d.hatch(leaf.Hatch, true, -math.Pi/4, 0.6, field)
	d.accent(leaf.Dimension, tips...)
	w := d.l.Clamped.Shape.Worst
	tip := d.at(d.face(w.Point, w.Off*k))
	in := tip.Sub(d.at(d.face(w.Point, 0)))
	if in.Len() < 0.5 {
		return
	}
	knee := tip.Add(in.Unit().Mul(5))
	side := 6.0
	if c := d.at(d.l.Problem.Former.Centre); c.X < knee.X {
		side = -side
	}
	d.leader(tip, knee.Add(pt(side, 2)), "gap "+d.fine(w.Off, 3)+", drawn × "+strconv.FormatFloat(k, 'f', -1, 64), leaf.Note)
}

// clamp draws a caul on the show face, a chain line and an arrow on it.
func (d *clampedDrawing) clamp(i int) {
	k := d.l.Clamped.Clamps[i]
	l := d.l.Problem.Links[k]
	foot := d.at(d.on(k, (l.From+l.To)/2, -d.b.Plan.NeutralY))
	inner := d.at(d.on(k, (l.From+l.To)/2, l.Over))
	out := foot.Sub(inner).Unit()
	side := pt(-out.Y, out.X).Mul(2.2)
	deep := out.Mul(2)
	d.add(leaf.Path{Line: leaf.Cut, Fill: leaf.Paper, Segs: ring(foot.Add(side), foot.Sub(side), foot.Sub(side).Add(deep), foot.Add(side).Add(deep))})
	from, tip := foot.Add(out.Mul(9)), foot.Add(deep)
	d.line(leaf.Centre, from, tip)
	d.arrow(tip, from)
	at := foot.Add(out.Mul(10.2))
	t := leaf.Text{At: pt(at.X, at.Y+0.9), S: strconv.Itoa(i+1) + " · " + newtons(d.l.Clamped.Shape.Pulls[i], d.sys), Halo: true}
	switch {
	case out.X < -0.3:
		t.Anchor = leaf.End
	case out.X <= 0.3:
		t.Anchor = leaf.Middle
		t.At.Y = at.Y - 0.2
		if out.Y > 0 {
			t.At.Y = at.Y + 2.2
		}
	}
	d.add(t)
}

// newtons prints a force to two digits: more are not known.
func newtons(n float64, sys units.System) string {
	if sys == units.Inch {
		return twoDigits(n/4.4482216) + " lbf"
	}
	if n >= 995 {
		return strconv.FormatFloat(n/1000, 'f', 1, 64) + " kN"
	}
	return twoDigits(n) + " N"
}

func twoDigits(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	step := math.Pow(10, math.Floor(math.Log10(v))-1)
	return strconv.FormatFloat(math.Round(v/step)*step, 'f', 0, 64)
}

const (
	curveLeft, curveRight = 24.0, 192.0
	curveHigh             = 30.0
)

// curve draws the gap along the strip laid flat, from its datum end.
func (d *clampedDrawing) curve(top float64) float64 {
	gaps := d.l.Clamped.Shape.Gaps
	from, to := gaps[0].Along, gaps[len(gaps)-1].Along
	kx := (curveRight - curveLeft) / max(to-from, 1)
	x := func(along float64) float64 { return curveLeft + (along-from)*kx }
	most := max(d.l.Clamped.Shape.Worst.Off, d.l.Limit) * 1.15
	base := top + curveHigh
	y := func(gap float64) float64 { return base - gap/most*curveHigh }
	d.line(leaf.Dimension, pt(curveLeft, top-2), pt(curveLeft, base), pt(curveRight, base))
	for _, b := range d.l.Bend {
		d.line(leaf.Centre, pt(x(b), top-2), pt(x(b), base+1.5))
	}
	for i, b := range d.l.Bend {
		d.note(pt(x(b), top-3), leaf.Middle, [...]string{"bend starts", "bend ends"}[i])
	}
	d.line(leaf.Hidden, pt(curveLeft, y(d.l.Limit)), pt(curveRight, y(d.l.Limit)))
	d.add(leaf.Text{At: pt(curveRight, y(d.l.Limit)-0.8), S: "clamps are set for " + d.fine(d.l.Limit, 2), Anchor: leaf.End, Halo: true})
	var ps []r2.Vec
	for _, g := range gaps {
		ps = append(ps, pt(x(g.Along), y(max(g.Off, 0))))
	}
	d.accent(leaf.Dimension, ps...)
	d.add(leaf.Text{At: pt(curveLeft-1.4, base+0.9), S: "0", Anchor: leaf.End})
	worst := d.l.Clamped.Shape.Worst
	d.line(leaf.Dimension, pt(curveLeft-1, y(worst.Off)), pt(curveLeft, y(worst.Off)))
	d.add(leaf.Text{At: pt(curveLeft-1.4, y(worst.Off)+0.9), S: d.fine(worst.Off, 3), Anchor: leaf.End})
	d.add(leaf.Text{At: pt(curveLeft+1.5, top-0.2), S: "gap", Italic: true, Halo: true})
	places := []place{}
	for _, a := range d.l.Clamped.Along {
		d.solid(pt(x(a), base+0.4), pt(x(a)-0.9, base+2.4), pt(x(a)+0.9, base+2.4))
		places = append(places, place{at: x(a), text: d.size(d.l.From+a, 0), start: base + 2.6})
	}
	for _, b := range d.l.Bend {
		places = append(places, place{at: x(b), text: d.size(d.l.From+b, 0), start: base + 1.5})
	}
	d.running(axis{Line: base + 8, Edge: base + 2, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, places)
	low := base + 8 + levelKneed + 10
	d.add(leaf.Text{At: pt(curveRight, low+9), S: "clamps and bend, from the datum end of the strip laid flat", Anchor: leaf.End})
	return low
}
