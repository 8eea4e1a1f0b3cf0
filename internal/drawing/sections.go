package drawing

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// Measures of the leaf of sections, paper mm.
const (
	sectionLeft  = 24.0
	sectionTop   = 20.0
	sectionGap   = 20.0 // between the front and A–A: an arrow stands there
	sectionBelow = 7.0  // between the depths of A–A and the plan
	sectionUnder = 18.0 // between the front and the plan: another arrow
	arrowOut     = 3.0  // from the view to the end of the cutting line
	arrowLong    = 5.5
)

// sectionDrawing is the leaf of sections.
type sectionDrawing struct {
	viewDrawing
	open   []view.Line // the open front
	a, b   cut
	bay    string // that A–A goes through
	places r2.Vec // of the two planes: x of A–A, y of B–B
}

// sections returns the piece cut open: an upright section through its widest
// bay, and a plan of a cut at half of its height; the front, whose lines are
// given, names both planes.
func sections(p *plan.Plan, opt Options, bodies []view.Item, open []view.Line) []leaf.Leaf {
	d := &sectionDrawing{viewDrawing: viewDrawing{ink: ink{systemOf(opt)}, pc: p.Piece, p: p}, open: open}
	w, h, deep := p.Piece.Width.V, p.Piece.Height.V, p.Piece.Depth.V
	d.k, d.n = fit(w+deep, h+deep, 140, 180)
	d.places, d.bay = d.planes()
	end := knife{-d.places.X, view.EndLeft()}
	if !d.fromLeft() {
		end = knife{d.places.X, view.EndRight()}
	}
	d.a = end.cutBy(p.Piece, bodies)
	d.b = knife{d.places.Y, view.Plan()}.cutBy(p.Piece, bodies)
	if len(d.a.faces)+len(d.b.faces) == 0 {
		return nil
	}
	return []leaf.Leaf{d.leaf()}
}

// planes finds where to cut: in the middle of the widest bay, and at half of the
// height; each moved aside as little as it takes not to run along a part or
// down a gap.
func (d *sectionDrawing) planes() (at r2.Vec, bay string) {
	at = r2.Vec{X: d.pc.Width.V / 2, Y: d.pc.Height.V / 2}
	wide := 0.0
	for _, s := range d.pc.Spaces {
		if s.Size[0].V > wide+1e-6 {
			wide, at.X, bay = s.Size[0].V, s.Min[0].V+s.Size[0].V/2, s.Name
		}
	}
	var xs, ys [][2]float64
	for _, q := range d.pc.Parts {
		e := extentOf(q)
		xs = append(xs, [2]float64{e.min.X, e.max.X})
		ys = append(ys, [2]float64{e.min.Y, e.max.Y})
	}
	if wide == 0 {
		wide = d.pc.Width.V
	}
	at.X, at.Y = clearOf(at.X, wide/2.5, xs), clearOf(at.Y, d.pc.Height.V/5, ys)
	return at, bay
}

// clearOf returns the place nearest to at, no further than reach, that lies
// neither within 5 mm of an end of a stretch nor in a short one: a panel's edge.
func clearOf(at, reach float64, stretches [][2]float64) float64 {
	const near, short = 5.0, 60.0
	free := func(x float64) bool {
		for _, s := range stretches {
			if math.Abs(x-s[0]) < near || math.Abs(x-s[1]) < near || s[1]-s[0] < short && x > s[0] && x < s[1] {
				return false
			}
		}
		return true
	}
	const steps = 40
	for i := range steps {
		for _, side := range []float64{1, -1} {
			if x := at + side*reach*float64(i)/steps; free(x) {
				return x
			}
		}
	}
	return at
}

func (d *sectionDrawing) leaf() leaf.Leaf {
	w, h, deep := d.pc.Width.V, d.pc.Height.V, d.pc.Depth.V
	floor := sectionTop + h*d.k
	left := max(sectionLeft, (210-sectionGap-(w+deep)*d.k)/2-6)
	front := frame{At: pt(left, floor), K: d.k}
	d.front(front)
	endLeft := left + w*d.k + sectionGap
	end := frame{At: pt(endLeft, floor), K: d.k}
	if !d.fromLeft() {
		end.O = pt(-deep, 0)
	}
	top := max(d.endPlaces(end, floor)+sectionBelow, floor+sectionUnder)
	under := frame{At: pt(left, top), K: d.k}
	d.section(end, d.a)
	d.section(under, d.b)
	d.name(pt(endLeft+deep*d.k/2, sectionTop-9), leaf.Middle, "A–A")
	d.name(pt(left+w*d.k/2, top-3.2), leaf.Middle, "B–B, from above")
	d.whichSide(end, deep, h)
	if d.stands() {
		d.floor(left-3, endLeft+deep*d.k+2, floor)
	}
	y := d.planPlaces(under, top+deep*d.k) + 8
	d.scaleBar(pt(left, y), d.k, 50, d.sys, "")
	d.numbers(end, d.a, boxOf(endLeft-sectionGap+8, sectionTop-8, endLeft+deep*d.k+4.5, floor-0.5))
	d.numbers(under, d.b, boxOf(left-18, top-2, left+w*d.k+4.5, top+deep*d.k+3))
	return leaf.Leaf{
		Key: sectionsKey, Title: "Sections", Right: d.right(), Caption: d.caption(),
		Alt: fmt.Sprintf("The %s cut upright across its depth and level at half of its height, with the numbers of the %d and %d parts that are cut.",
			d.pc.Name, len(d.a.faces), len(d.b.faces)),
		W: 210, H: y + 3, Items: d.items,
	}
}

func (d *sectionDrawing) caption() string {
	bay := ""
	if d.bay != "" {
		bay = ", through " + d.bay
	}
	ground := "lowest edge"
	if d.stands() {
		ground = "floor"
	}
	return fmt.Sprintf("A–A is cut %s from the left side%s, B–B %s from the %s; the arrows look the way that the sections are seen. "+
		"Wide lines are cut, narrow ones lie behind; the numbers are those of the parts. Depths run from the front.",
		d.size(d.places.X, 1), bay, d.size(d.places.Y, 1), ground)
}

// front draws the open front with the two planes.
func (d *sectionDrawing) front(f frame) {
	w, h := d.pc.Width.V, d.pc.Height.V
	d.draft(f, d.open, nil)
	d.name(pt(f.x(w/2), sectionTop-9), leaf.Middle, "front, open")
	look := pt(1, 0)
	if !d.fromLeft() {
		look = pt(-1, 0)
	}
	x, y := f.x(d.places.X), f.y(d.places.Y)
	d.plane(pt(x, f.y(h)-arrowOut), pt(x, f.y(0)+arrowOut), look, "A")
	d.plane(pt(f.x(0)-arrowOut, y), pt(f.x(w)+arrowOut, y), pt(0, 1), "B")
}

// plane draws a cutting plane seen on edge: a chain line with wide ends, and
// arrows that point the way one looks, with its letter.
func (d *sectionDrawing) plane(a, b, look r2.Vec, letter string) {
	u := b.Sub(a).Unit()
	d.line(leaf.Centre, a, b)
	for _, e := range []struct{ at, in r2.Vec }{{a, u}, {b, u.Mul(-1)}} {
		d.line(leaf.Cut, e.at, e.at.Add(e.in.Mul(2)))
		tail, tip := e.at, e.at.Add(look.Mul(arrowLong))
		d.line(leaf.Dimension, tail, tip)
		d.arrow(tip, tail)
		at := e.at.Sub(look.Mul(2.4)).Add(pt(0, leaf.Name.Cap()/2))
		d.add(leaf.Text{At: at, S: letter, Size: leaf.Name, Strong: true, Anchor: leaf.Middle, Halo: true})
	}
}

// section draws what lies behind, and over it the cut faces.
func (d *sectionDrawing) section(f frame, c cut) {
	var rims []view.Line
	for _, face := range c.faces {
		for _, l := range face.region.Loops() {
			for _, e := range l.Edges() {
				rims = append(rims, view.Line{A: e.A, B: e.B})
			}
		}
	}
	for _, l := range thinned(f.K, c.lines(), nil) {
		if l.Radius > 0 {
			d.add(leaf.Path{Line: leaf.Dimension, Segs: []leaf.Seg{{Op: leaf.Move, P: f.at(l.A)}, {Op: leaf.Arc, P: f.at(l.B), R: l.Radius * f.K, Left: true, Large: l.Sweep > math.Pi}}})
			continue
		}
		for _, s := range untold(l, rims, f.K) {
			d.line(leaf.Dimension, f.at(s.A), f.at(s.B))
		}
	}
	d.cutFaces(f, c.view, c.faces)
}

// whichSide says over the section which of its sides is the front.
func (d *sectionDrawing) whichSide(f frame, deep, h float64) {
	left, right := "wall", "front"
	if !d.fromLeft() {
		left, right = right, left
	}
	x, y := f.At.X, f.y(h)-2.2
	d.add(leaf.Text{At: pt(x, y), S: left, Italic: true})
	d.add(leaf.Text{At: pt(x+deep*d.k, y), S: right, Italic: true, Anchor: leaf.End})
}

// told are the cut faces whose places are written: of drawers only the front.
func told(c cut) []face {
	var out []face
	for _, f := range c.faces {
		if !isDrawerBox(f.q) && f.q.Role != piece.Tongue {
			out = append(out, f)
		}
	}
	return out
}

// endPlaces runs the heights and depths of A–A; it returns the lowest place.
func (d *sectionDrawing) endPlaces(f frame, floor float64) float64 {
	deep := d.pc.Depth.V
	right := f.At.X + deep*d.k
	heights := []place{{at: f.y(0), text: "0", origin: true}}
	depths := []place{}
	put := func(x float64) {
		z := x
		if !d.fromLeft() {
			z = -x
		}
		depths = append(depths, place{at: f.x(x), text: d.size(max(deep-z, 0), 1), origin: deep-z < 1e-6})
	}
	for _, c := range told(d.a) {
		b := c.box()
		for _, y := range []float64{b.Min.Y, b.Max.Y} {
			if y > 1e-6 {
				heights = append(heights, place{at: f.y(y), text: d.size(y, 1)})
			}
		}
		put(b.Min.X)
		put(b.Max.X)
	}
	front := deep
	if !d.fromLeft() {
		front = -deep
	}
	put(front)
	d.running(axis{Upright: true, Line: right + lineOutside, Edge: right, Lo: f.y(d.pc.Height.V) - 8, Hi: f.y(0) + 4}, heights)
	d.running(axis{Line: floor + lineOutside, Edge: floor, Lo: f.At.X - sectionGap + 2, Hi: 210 - leaf.Margin}, depths)
	return floor + lineOutside + levelKneed + longest(depths)
}

// planPlaces runs the widths and depths of B–B; it returns the lowest place.
func (d *sectionDrawing) planPlaces(f frame, foot float64) float64 {
	deep := d.pc.Depth.V
	right := f.x(d.pc.Width.V)
	widths := []place{{at: f.x(0), text: "0", origin: true}}
	depths := []place{{at: foot, text: "0", origin: true}}
	for _, c := range told(d.b) {
		b := c.box()
		for _, x := range []float64{b.Min.X, b.Max.X} {
			if x > 1e-6 {
				widths = append(widths, place{at: f.x(x), text: d.size(x, 1)})
			}
		}
		for _, y := range []float64{b.Min.Y, b.Max.Y} {
			if z := -y; deep-z > 1e-6 {
				depths = append(depths, place{at: f.y(y), text: d.size(deep-z, 1)})
			}
		}
	}
	d.running(axis{Line: foot + lineOutside, Edge: foot, Lo: leaf.Margin, Hi: right + 6}, widths)
	d.running(axis{Upright: true, Line: right + lineOutside, Edge: right, Lo: f.y(0) - 3, Hi: foot + 4}, depths)
	return foot + lineOutside + levelKneed + longest(widths)
}

// numbers writes the parts' numbers, the faces with the least room first.
func (d *sectionDrawing) numbers(f frame, c cut, field r2.Box) {
	spots := newCallouts(&d.pen, field)
	for _, face := range c.faces {
		spots.put(tipsIn(f, face), strconv.Itoa(face.q.Number))
	}
}

// tipsIn are places in a cut face where a leader may end: along its length.
func tipsIn(f frame, c face) []r2.Vec {
	var tips []r2.Vec
	for _, s := range c.region {
		r := planar.Region{s}.Box()
		size := r.Size()
		for _, t := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			q := pt(r.Min.X+size.X*t, r.Min.Y+size.Y/2)
			if size.Y > size.X {
				q = pt(r.Min.X+size.X/2, r.Min.Y+size.Y*t)
			}
			if c.region.Contains(q) {
				tips = append(tips, f.at(q))
			}
		}
	}
	return tips
}
