package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// plainKinds are joints without a recess that one part's thickness fills: the
// faces meet, what crosses them holds.
var plainKinds = []string{"butt", "dowel", "loose tenon", "screwed", "lap", "notch", "edging", "finger"}

// plainCut is what the figure of such a joint has beyond the two sections.
type plainCut struct {
	peg *pegCut
	// plane is where the parts meet along a, out the way along a from A to B.
	plane, out float64
}

// pegCut is one dowel, tenon or screw in the section, its middle at b.
type pegCut struct {
	*piece.Pegs
	b   float64
	inA bool // a screw's head lies in A
}

// eyeOf is the direction along the joint, in which its section is looked at, and
// a place in the section's plane.
func eyeOf(pc *piece.Piece, j *piece.Joint, a, b *piece.Part) (eye, at r3.Vec, ok bool) {
	eA, eB := extentOf(a), extentOf(b)
	lo := r3.Vec{X: max(eA.min.X, eB.min.X), Y: max(eA.min.Y, eB.min.Y), Z: max(eA.min.Z, eB.min.Z)}
	hi := r3.Vec{X: min(eA.max.X, eB.max.X), Y: min(eA.max.Y, eB.max.Y), Z: min(eA.max.Z, eB.max.Z)}
	size, mid := hi.Sub(lo), lo.Add(hi).Mul(0.5)
	switch j.Kind {
	case "lap": // along the one that runs through
		return a.Pose.Y, mid, len(a.Run) == 0
	case "notch":
		return b.Pose.X, mid, true
	case "finger": // through the comb of the one, across the fingers of the other
		return a.Pose.Z, mid, len(a.Run) == 0
	}
	long := -1.0
	for _, d := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		if n := math.Abs(d.Dot(j.Enter)); n < 0.01 && d.Dot(size) > long {
			eye, long = d, d.Dot(size)
		}
	}
	if p, found := pegPlace(j, a, b); found {
		return eye, p, long > 0
	}
	return eye, mid, long > 0
}

// pegPlace is where the first peg of a joint crosses it.
func pegPlace(j *piece.Joint, a, b *piece.Part) (r3.Vec, bool) {
	if j.Pegs == nil {
		return r3.Vec{}, false
	}
	for _, q := range []*piece.Part{b, a} {
		for _, c := range q.Cuts {
			if c.For != j.Pegs.Kind+"s of "+j.ID || c.Through || len(q.Run) > 0 {
				continue
			}
			x, y := c.X0.V, c.Y0.V
			if c.Kind == piece.Mortise {
				x, y = (c.X0.V+c.X1.V)/2, (c.Y0.V+c.Y1.V)/2
			}
			return q.Pose.At(q.OnFace(c.Face, x, y)), true
		}
	}
	return r3.Vec{}, false
}

// cutPlain cuts a joint of plain faces across its length; false where its parts
// don't lie square to each other.
func cutPlain(pc *piece.Piece, j piece.Joint, fromLeft bool) (jointCut, bool) {
	if j.Kind == "finger" && len(j.Also) > 0 { // the way that lies in the comb's plane
		j.Enter = j.Also[0]
	}
	c := jointCut{j: j, a: pc.Part(j.A), b: pc.Part(j.B), plain: &plainCut{}}
	eye, at, ok := eyeOf(pc, &j, c.a, c.b)
	if !ok || len(c.b.Run) > 0 && j.Kind != "dowel" {
		return c, false
	}
	if c.view, ok = squareTo(eye, fromLeft); !ok {
		return c, false
	}
	c.upright = math.Abs(onPaper(j.Enter.Unit(), c.view).Y) > 0.99
	if !c.upright && math.Abs(onPaper(j.Enter.Unit(), c.view).X) < 0.99 {
		return c, false
	}
	regions := [2]planar.Region{}
	for i, q := range []*piece.Part{c.a, c.b} {
		body, err := piece.Solid(seen(q), leastHole)
		if err != nil {
			return c, false
		}
		if regions[i], err = body.Section((knife{at.Dot(c.view.Eye), c.view}).pose()); err != nil {
			return c, false
		}
	}
	return c, c.window2(regions, at)
}

// window2 clips both sections to what is shown: round the joint, as far as the
// thicker part is thick, or as the pegs reach.
func (c *jointCut) window2(regions [2]planar.Region, at r3.Vec) bool {
	p := onPaper(at, c.view)
	tm := max(c.a.Thick.V, c.b.Thick.V)
	room := 1.25 * tm
	if g := c.j.Pegs; g != nil {
		room = max(room, max(g.InA.V, g.InB.V)+0.3*tm)
	}
	a0, b0 := c.of(p)
	wide := 0.5*c.acrossB(regions[1], p, room) + 0.7*tm
	lo, hi := c.to(a0-room, b0-wide), c.to(a0+room, b0+wide)
	win := planar.Rect(lo.X, lo.Y, hi.X, hi.Y)
	var err error
	if c.inA, err = planar.Intersection(regions[0], win); err != nil || len(c.inA) == 0 {
		return false
	}
	if c.inB, err = planar.Intersection(regions[1], win); err != nil || len(c.inB) == 0 {
		return false
	}
	c.window, c.mid = r2.Box{Min: lo, Max: hi}, b0
	into := onPaper(c.j.Enter, c.view).Dot(c.to(1, 0))
	c.plain.plane, c.plain.out = a0, -sign(into)
	if c.whole() {
		return true
	}
	low, high := c.inB.Extent(c.to(1, 0)) // B's end on the way in
	if c.plain.plane = low; into > 0 {
		c.plain.plane = high
	}
	if c.j.Pegs != nil {
		c.plain.peg = &pegCut{Pegs: c.j.Pegs, b: b0, inA: c.j.Pegs.Head == c.j.A}
	}
	return true
}

// whole reports whether the joint is shown from end to end, with its shoulders.
func (c *jointCut) whole() bool {
	return c.j.Kind == "lap" || c.j.Kind == "notch" || c.j.Kind == "finger"
}

// mostShown is how far from its middle a lap, a notch or a row of fingers is
// shown, mm.
const mostShown = 90.0

// acrossB is how far B reaches across the way in, near the joint.
func (c *jointCut) acrossB(r planar.Region, p r2.Vec, room float64) float64 {
	a0, b0 := c.of(p)
	far := 2 * room
	if c.whole() {
		far = mostShown
	}
	if c.j.Kind == "finger" { // some of them
		far = 3 * room
	}
	lo, hi := c.to(a0-room, b0-far), c.to(a0+room, b0+far)
	near, err := planar.Intersection(r, planar.Rect(lo.X, lo.Y, hi.X, hi.Y))
	if err != nil || len(near) == 0 {
		return 0
	}
	low, high := near.Extent(c.to(0, 1))
	if c.whole() { // whole, with its shoulders
		return 2 * max(high-b0, b0-low)
	}
	return min(2*max(high-b0, b0-low), 2.4*room)
}

// plainLikeness is equal for joints that one figure tells.
func (c *jointCut) plainLikeness() string {
	s := fmt.Sprintf("%s %.2f %.2f %v", c.j.Kind, c.a.Thick.V, c.b.Thick.V, c.j.Glued)
	square := func(q *piece.Part) bool { return math.Abs(q.Pose.Z.Dot(c.j.Enter)) > 0.9 || len(q.Run) > 0 }
	if g := c.j.Pegs; g != nil {
		s += fmt.Sprintf(" %s %.1f %.1f %.1f", g.Name, g.Length.V, g.InA.V, g.InB.V)
	}
	if c.j.Kind == "finger" { // as many fingers as the box is high
		return s + fmt.Sprintf(" %.1f", c.b.Width.V)
	}
	return s + fmt.Sprint(square(c.a), square(c.b))
}

// plainCell draws one joint of plain faces with its words.
func (d *jointDrawing) plainCell(c *jointCut, left, top float64, count int) float64 {
	held := c.held()
	size := held.Size()
	k := min(jointField/max(size.X, 0.1), jointTall/max(size.Y, 0.1))
	x, y := left+(jointWide-size.X*k)/2-1, top+jointHead
	f := frame{At: pt(x, y+size.Y*k), O: held.Min, K: k}
	d.plainWords(c, left, top, count)
	for _, one := range []face{{q: c.a, region: c.inA}, {q: c.b, region: c.inB}} {
		d.add(leaf.Path{Fill: leaf.Paper, Segs: f.region(one.region)})
		d.layers(f, c.view, one)
	}
	if c.j.Glued {
		d.glueOf(c, f, 0, 1)
	}
	d.outline(c, f, c.inA, 1)
	d.outline(c, f, c.inB, 1)
	if c.plain.peg != nil {
		d.peg(c, f)
	}
	d.plainNumbers(c, f)
	paper := f.box(held.Min.X, held.Min.Y, held.Max.X, held.Max.Y)
	d.plainMeasures(c, f, paper)
	foot := paper.Max.Y + jointFoot - 4
	d.scaleBar(pt(left+4, foot), k, 28, d.sys, "")
	return foot + 6 - top
}

// plainNames are what a joint is called over its figure.
var plainNames = map[string]string{"butt": "butt", "dowel": "butt, dowelled", "loose tenon": "loose tenon", "screwed": "screwed", "lap": "half lap",
	"notch": "notched round", "edging": "edging", "finger": "finger joint"}

func (d *jointDrawing) plainWords(c *jointCut, left, top float64, count int) {
	room := jointWide - 6
	on := " on "
	if c.j.Kind == "notch" {
		on = " in "
	}
	d.add(leaf.Text{At: pt(left, top+3), S: leaf.Shorten(c.b.Name+on+c.a.Name, leaf.Name, true, false, room), Size: leaf.Name, Italic: true})
	first := plainNames[c.j.Kind]
	switch g := c.j.Pegs; {
	case g == nil && c.j.Kind == "lap":
		first += ", each cut " + d.fine(c.j.Depth.V, 2) + " deep"
	case g == nil && !c.j.Glued && c.j.Kind != "screwed":
		first += ", dry"
	case g == nil && c.j.Glued:
		first += ", glued"
	case g != nil && g.Kind == "screw":
		first = fmt.Sprintf("%d screws %s × %s, holes %s and %s", g.Count, d.size(g.Diameter.V, 1), d.size(g.Length.V, 0), d.size(g.Clear.V, 1), d.size(g.Pilot.V, 1))
	case g != nil:
		first = fmt.Sprintf("%d × %s, holes %s and %s deep", g.Count, g.Name, d.size(g.InA.V, 1), d.size(g.InB.V, 1))
	}
	var rest []string
	if g := c.j.Pegs; g != nil && g.Every.V > 0 && g.Count > 1 {
		rest = append(rest, d.size(g.Every.V, 1)+" from one to the next")
	}
	if count > 1 {
		rest = append(rest, fmt.Sprintf("%d such joints", count))
	}
	d.note(pt(left, top+7.4), leaf.Start, leaf.Shorten(first, leaf.Note, false, false, room))
	d.note(pt(left, top+11), leaf.Start, leaf.Shorten(strings.Join(rest, "; "), leaf.Note, false, false, room))
}

// peg draws the holes of one peg over the sections, and what lies in them.
func (d *jointDrawing) peg(c *jointCut, f frame) {
	g, out := c.plain.peg, c.plain.out
	at := func(a, b float64) r2.Vec { return f.at(c.to(a, g.b+b)) }
	block := func(kind leaf.Line, a0, a1, r float64) {
		ps := []r2.Vec{at(a0, -r), at(a1, -r), at(a1, r), at(a0, r)}
		d.add(leaf.Path{Fill: leaf.Paper, Line: kind, Segs: ring(ps...)})
	}
	plane := c.plain.plane
	if g.Kind == "screw" {
		d.screw(c, f)
		return
	}
	r := g.Diameter.V / 2
	block(leaf.Visible, plane-out*g.InA.V, plane+out*g.InB.V, r)
	play := (g.InA.V + g.InB.V - g.Length.V) / 2
	a0, a1 := plane-out*(g.InA.V-play), plane+out*(g.InB.V-play)
	block(leaf.Cut, a0, a1, r)
	for i := 1; i < 4; i++ { // its grain runs along it
		b := r * (float64(i)/2 - 1)
		d.line(leaf.Hatch, at(a0+out*1.2, b), at(a1-out*1.2, b))
	}
	if c.j.Glued {
		half := glueBand / 2 / f.K
		for _, b := range []float64{-r, r} {
			field := []r2.Vec{at(a0, b-half), at(a1, b-half), at(a1, b+half), at(a0, b+half)}
			d.hatch(leaf.Hatch, true, math.Pi/4, 0.6, field)
			d.hatch(leaf.Hatch, true, -math.Pi/4, 0.6, field)
		}
	}
}

// screw draws a countersunk screw in its clearance hole and its pilot hole.
func (d *jointDrawing) screw(c *jointCut, f frame) {
	g, out, plane := c.plain.peg, c.plain.out, c.plain.plane
	toTip := out // from the head to the tip
	deep, thick := g.InB.V, g.InA.V
	if !g.inA {
		toTip, deep, thick = -out, g.InA.V, g.InB.V
	}
	head := plane - toTip*thick
	at := func(a, b float64) r2.Vec { return f.at(c.to(a, g.b+b)) }
	fill := func(kind leaf.Line, ps ...r2.Vec) { d.add(leaf.Path{Fill: leaf.Paper, Line: kind, Segs: ring(ps...)}) }
	rc, rp, rs, rh := g.Clear.V/2, g.Pilot.V/2, g.Diameter.V/2, g.Diameter.V
	sink := rh - rs
	fill(leaf.Visible, at(plane, -rp), at(plane+toTip*deep, -rp), at(plane+toTip*deep, rp), at(plane, rp))
	fill(leaf.Visible, at(head, -rh), at(head+toTip*(rh-rc), -rc), at(plane, -rc), at(plane, rc), at(head+toTip*(rh-rc), rc), at(head, rh))
	tip := head + toTip*g.Length.V
	fill(leaf.Cut, at(head, -rh+0.1), at(head+toTip*sink, -rs), at(tip-toTip*2*rs, -rs), at(tip, 0), at(tip-toTip*2*rs, rs), at(head+toTip*sink, rs), at(head, rh-0.1))
	for a := 1.5; a < deep-3*rs; a += 1.6 { // its thread, where it holds
		d.line(leaf.Dimension, at(plane+toTip*a, -rs), at(plane+toTip*(a+0.9), rs))
	}
	d.line(leaf.Centre, at(head-toTip*4, 0), at(tip+toTip*4, 0))
}

// plainNumbers writes each part's number where only it is, or beside it with a
// leader where it is too lean.
func (d *jointDrawing) plainNumbers(c *jointCut, f frame) {
	for _, one := range []struct {
		q           *piece.Part
		in, without planar.Region
	}{{c.a, c.inA, c.inB}, {c.b, c.inB, c.inA}} {
		at, room := c.spot(f, one.in, one.without)
		if room {
			d.number(f.at(at), one.q.Number)
			continue
		}
		tip := f.at(at)
		d.point(tip, tip.Add(pt(-9, 5)), strconv.Itoa(one.q.Number))
	}
}

// spot is a place for a number in a section: clear of its edges, of the other
// part and of the peg. Where there is none it is one in its wood.
func (c *jointCut) spot(f frame, in, without planar.Region) (r2.Vec, bool) {
	box := in.Box()
	free := func(at r2.Vec) bool { return in.Contains(at) && !without.Contains(at) }
	var tip r2.Vec
	for _, t := range [][2]float64{{0.5, 0.5}, {0.5, 0.8}, {0.5, 0.2}, {0.15, 0.5}, {0.85, 0.5}, {0.2, 0.2}, {0.8, 0.2}, {0.2, 0.8}, {0.8, 0.8}, {0.08, 0.8}, {0.92, 0.8}, {0.08, 0.3}} {
		at := r2.Vec{X: box.Min.X + box.Size().X*t[0], Y: box.Min.Y + box.Size().Y*t[1]}
		if !free(at) || c.onPeg(at, 0.5/f.K) {
			continue
		}
		tip = at
		clear := !c.onPeg(at, 2.6/f.K)
		for _, o := range []r2.Vec{{X: 2.4}, {X: -2.4}, {Y: 1.8}, {Y: -1.8}} {
			clear = clear && free(at.Add(o.Mul(1/f.K)))
		}
		if clear {
			return at, true
		}
	}
	return tip, false
}

// onPeg tells whether a place lies on the joint's peg, or nearer to it than so.
func (c *jointCut) onPeg(at r2.Vec, near float64) bool {
	if c.plain.peg == nil {
		return false
	}
	_, b := c.of(at)
	return math.Abs(b-c.plain.peg.b) < c.plain.peg.Diameter.V/2+near
}

// plainMeasures draws the depths of a peg's holes, or the depth of a lap, and the
// thickness of each part that is cut across it.
func (d *jointDrawing) plainMeasures(c *jointCut, f frame, paper r2.Box) {
	plane, out := c.plain.plane, c.plain.out
	type span struct {
		lo, hi float64
		words  string
	}
	var alongA []span // two at most, one on each side
	if g := c.j.Pegs; g != nil {
		alongA = []span{{plane - out*g.InA.V, plane, d.size(g.InA.V, 1)}, {plane, plane + out*g.InB.V, d.size(g.InB.V, 1)}}
	} else if lo, hi, ok := c.thickness(c.a, c.inA, c.to(1, 0)); ok && c.j.Kind != "lap" {
		alongA = []span{{lo, hi, d.fine(c.a.Thick.V, 2)}}
	}
	if c.j.Kind == "lap" {
		if lo, hi, ok := c.thickness(c.b, c.inB, c.to(1, 0)); ok {
			alongA = append(alongA, span{lo, hi, d.fine(c.j.Depth.V, 2)})
		}
	}
	for i, s := range alongA {
		p, q := f.at(c.to(s.lo, c.mid)), f.at(c.to(s.hi, c.mid))
		switch {
		case c.upright && i == 0:
			d.upright(p.Y, q.Y, paper.Max.X+6, paper.Max.X, s.words)
		case c.upright:
			d.upright(p.Y, q.Y, paper.Max.X+12, paper.Max.X, s.words)
		default:
			d.across(min(p.X, q.X), max(p.X, q.X), paper.Max.Y+7, paper.Max.Y, s.words, len(alongA) > 1 && (i == 0) == (out > 0))
		}
	}
	for _, one := range []struct {
		q *piece.Part
		r planar.Region
	}{{c.b, c.inB}, {c.a, c.inA}} {
		lo, hi, ok := c.thickness(one.q, one.r, c.to(0, 1))
		if !ok {
			continue
		}
		p, q := f.at(c.to(plane, lo)), f.at(c.to(plane, hi))
		words := d.fine(one.q.Thick.V, 2)
		if c.upright {
			d.across(min(p.X, q.X), max(p.X, q.X), paper.Min.Y-5, paper.Min.Y, words, false)
		} else {
			d.upright(p.Y, q.Y, paper.Min.X-6, paper.Min.X, words)
		}
		return
	}
}

// thickness is where a part's thickness lies along a direction of paper; ok is
// false where it is not seen there whole.
func (c *jointCut) thickness(q *piece.Part, r planar.Region, dir r2.Vec) (lo, hi float64, ok bool) {
	if len(q.Run) == 0 && math.Abs(onPaper(q.Pose.Z, c.view).Dot(dir)) < 0.99 {
		return 0, 0, false
	}
	lo, hi = r.Extent(dir)
	want := q.Thick.V
	if c.j.Kind == "lap" && q == c.b {
		want = c.b.Thick.V - c.j.Depth.V
	}
	return lo, hi, math.Abs(hi-lo-want) < 0.05
}

// isPlainKind tells whether a joint is drawn by its faces alone.
func isPlainKind(j *piece.Joint) bool { return slices.Contains(plainKinds, j.Kind) }
