package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// partDrawing is a flat part, its two faces unfolded about the datum edge: an
// upright stands, its A face left and its B face right of the edge view; any
// other part lies, A above and B below.
type partDrawing struct {
	pen
	ink
	q      *piece.Part
	stands bool
	k      float64
	a, b   *frame // nil: the face has no cuts and is not drawn
	mid    r2.Box // the edge view
	rows   []cutRow
}

const (
	partTop  = 15.0
	labelRun = 24.0 // room beside a face for values
	edgeGap  = 5.0  // from a face to the edge view
	thinFace = 16.0 // a lying face of less height has no room for words
)

// flatPart draws a flat part's faces with their cuts; a plain rectangle has no
// figure, for its sizes are all in the parts list.
func flatPart(q *piece.Part, opt Options) []leaf.Leaf {
	if len(q.Cuts) == 0 && isPlain(q) {
		return nil
	}
	d := &partDrawing{ink: ink{systemOf(opt)}, q: q}
	d.stands = math.Abs(q.Pose.X.Y) > 0.9
	for i, c := range q.Cuts {
		d.rows = append(d.rows, cutRow{letterOf(i), c})
	}
	d.layout()
	low := d.faces()
	d.edgeView()
	low = d.narrowViews(low)
	low = d.cutTable(d.ink, pt(leaf.Margin+8, low+6), d.rows)
	d.scaleBar(pt(leaf.Margin+8, low+7), d.k, 50, d.sys, "")
	l := leaf.Leaf{
		Key: "part-" + strconv.Itoa(q.Number), Title: capital(q.Name), Right: d.right(),
		Caption: "Unfolded about the datum edge; a cut is drawn only on the face it is made from, and all places run from the datum corner, the ring. Along: on the length; across: from the datum edge.",
		Alt:     fmt.Sprintf("The part %s, %s, with %s measured from its datum corner.", q.Name, d.by(q.Length.V, q.Width.V), cuts(len(q.Cuts))),
		W:       210, H: low + 10, Items: d.items,
	}
	if q.Late {
		l.Caption += " Provisional: cut it to the measured opening."
	}
	return []leaf.Leaf{l}
}

// cuts counts them in words that are right for one as well.
func cuts(n int) string {
	if n == 1 {
		return "1 cut"
	}
	return strconv.Itoa(n) + " cuts"
}

// isPlain tells whether the outline is no more than the part's rectangle.
func isPlain(q *piece.Part) bool {
	if len(q.Bevels) > 0 || len(q.Outline) != 1 || len(q.Outline[0].Holes) > 0 || len(q.Outline[0].Outer) != 4 {
		return false
	}
	for _, v := range q.Outline[0].Outer {
		if v.Bulge != 0 {
			return false
		}
	}
	return true
}

func (d *partDrawing) right() string {
	stock := ""
	if d.q.Stock != nil {
		stock = d.q.Stock.Name + ", "
	}
	return fmt.Sprintf("%s%s measured · cut to %s", stock, d.fine(d.q.Thick.V, 2), d.by(d.q.Length.V, d.q.Width.V))
}

// cutsOn returns the rows of the cuts made from a face.
func (d *partDrawing) cutsOn(f piece.Face) []cutRow {
	var out []cutRow
	for _, r := range d.rows {
		if r.c.Face == f || r.c.Through && r.c.Face == "" && f == piece.FaceA {
			out = append(out, r)
		}
	}
	return out
}

// layout chooses the scale and places the faces and the edge view.
func (d *partDrawing) layout() {
	l, w, t := max(d.q.Length.V, 1), max(d.q.Width.V, 1), d.q.Thick.V
	drawB := len(d.cutsOn(piece.FaceB)) > 0
	drawA := !drawB || len(d.cutsOn(piece.FaceA)) > 0 || d.q.Show == piece.FaceA
	count := 0.0
	for _, is := range []bool{drawA, drawB} {
		if is {
			count++
		}
	}
	const wide = 210 - 2*leaf.Margin
	if d.stands {
		d.k = min((wide-count*labelRun-2*edgeGap)/(count*w+t), 112/l)
		low := partTop + l*d.k
		x := leaf.Margin + (wide-count*labelRun-2*edgeGap-(count*w+t)*d.k)/2
		if drawA {
			x += labelRun + w*d.k
			d.a = &frame{At: pt(x, low), K: d.k, Turn: true}
		}
		d.mid = boxOf(x+edgeGap, partTop, x+edgeGap+t*d.k, low)
		if drawB {
			d.b = &frame{At: pt(x+2*edgeGap+t*d.k, low), K: d.k, Turn: true, Mirror: true}
		}
		return
	}
	d.k = min((wide-labelRun-4)/l, min(150, 30+75*count)/(count*w+t), 0.5)
	x := leaf.Margin + labelRun + (wide-labelRun-4-l*d.k)/2
	y := 8.0
	if drawA && drawB { // values above the upper face
		y = 24
	}
	if drawA {
		y += w * d.k
		d.a = &frame{At: pt(x, y), K: d.k}
	}
	d.mid = boxOf(x, y+edgeGap, x+l*d.k, y+edgeGap+t*d.k)
	if drawB {
		d.b = &frame{At: pt(x, y+2*edgeGap+t*d.k), K: d.k, Down: true}
	}
}

// faces draws the faces and returns the lowest place.
func (d *partDrawing) faces() float64 {
	low := d.mid.Max.Y
	if d.a != nil {
		low = max(low, d.face(*d.a, piece.FaceA, d.q.NameA))
	}
	if d.b != nil {
		low = max(low, d.face(*d.b, piece.FaceB, d.q.NameB))
	}
	return low
}

// face draws one face: outline, cuts, marks and running dimensions.
func (d *partDrawing) face(f frame, side piece.Face, name string) float64 {
	q := d.q
	rows := d.cutsOn(side)
	d.add(leaf.Path{Line: leaf.Visible, Segs: f.region(q.Outline)})
	if own, err := piece.OnFace(q, side); err == nil && len(q.Bevels) > 0 { // where the other face is longer, its end is seen past the bevel
		d.add(leaf.Path{Line: leaf.Visible, Segs: f.region(own)})
	}
	var holes []piece.Cut
	for _, r := range rows {
		holes = append(holes, r.c)
	}
	for _, r := range rows {
		switch {
		case isHole(r.c): // below, when the letters of the others stand
		case r.c.Kind != piece.Notch:
			d.pocket(f, r)
		default:
			d.notch(f, r)
		}
	}
	for _, r := range rows {
		if isHole(r.c) {
			d.holes(f, r, holes)
		}
	}
	if side == piece.FaceA || d.a == nil {
		d.roundings(f)
	}
	b := f.box(0, 0, q.Length.V, q.Width.V)
	corner := f.xy(0, 0)
	dx, dy := sign((b.Min.X+b.Max.X)/2-corner.X), sign((b.Min.Y+b.Max.Y)/2-corner.Y)
	d.datum(corner, dx, dy)
	d.faceName(b, side, name)
	if q.Grain != piece.NoGrain {
		up := (q.Grain == piece.AlongLength) == d.stands
		long := min(20, b.Size().X*0.4)
		if up {
			long = min(20, b.Size().Y*0.4)
		}
		d.grain(d.grainPlace(f, b, rows, long, up), long, up, "grain")
	}
	if q.Show == side {
		d.loopClear(f, b, corner, pt(dx, dy), holes)
	}
	return d.measure(f, side, b, rows)
}

// loopClear sets the show face's loop on the datum edge where it meets no hole;
// in is the direction from the datum corner into the face.
func (d *partDrawing) loopClear(f frame, b r2.Box, corner, in r2.Vec, holes []piece.Cut) {
	var best, u r2.Vec
	most := -1.0
	for _, share := range []float64{0.3, 0.2, 0.4, 0.6, 0.7, 0.8, 0.12, 0.88, 0.92} {
		at, dir := pt(corner.X, b.Max.Y-b.Size().Y*share), pt(in.X, 0)
		if !d.stands {
			at, dir = pt(b.Min.X+b.Size().X*share, corner.Y), pt(0, in.Y)
		}
		if room := min(roomAt(f, at.Add(dir.Mul(3.5)), holes), 5); room > most+0.1 {
			best, u, most = at, dir, room
		}
	}
	d.showFace(best, u)
}

// pocket hatches a housing, rabbet or groove.
func (d *partDrawing) pocket(f frame, r cutRow) {
	b := atLeast(f.box(r.c.X0.V, r.c.Y0.V, r.c.X1.V, r.c.Y1.V), 0.7)
	if len(r.c.Region) > 0 {
		d.shapedPocket(f, r.c)
	} else {
		d.rect(leaf.Dimension, b)
		d.hatch(leaf.Hatch, false, math.Pi/4, 0.9, corners(b))
	}
	s := b.Size()
	at := pt((b.Min.X+b.Max.X)/2, b.Max.Y+2.6)
	if s.Y > s.X {
		at = pt(b.Max.X+1.8, (b.Min.Y+b.Max.Y)/2+0.9)
		if whole := f.box(0, 0, d.q.Length.V, d.q.Width.V); whole.Max.X-b.Max.X < 4 {
			at.X = b.Min.X - 1.8
		}
	} else if whole := f.box(0, 0, d.q.Length.V, d.q.Width.V); whole.Max.Y-b.Max.Y < 4 {
		at.Y = b.Min.Y - 0.8
	}
	d.add(leaf.Text{At: at, S: r.letter, Strong: true, Halo: true, Anchor: leaf.Middle})
}

// shapedPocket hatches what is cut where that is no rectangle: a lap.
func (d *partDrawing) shapedPocket(f frame, c piece.Cut) {
	d.add(leaf.Path{Line: leaf.Dimension, Segs: f.region(c.Region)})
	var rings [][]r2.Vec
	for l := range c.Region.All {
		var ring []r2.Vec
		for _, v := range l.Flatten(0.1) {
			ring = append(ring, f.at(v))
		}
		rings = append(rings, ring)
	}
	d.hatch(leaf.Hatch, false, math.Pi/4, 0.9, rings...)
}

// notch sets a notch's letter inside the part, beside the notch.
func (d *partDrawing) notch(f frame, r cutRow) {
	b := f.box(r.c.X0.V, r.c.Y0.V, r.c.X1.V, r.c.Y1.V)
	whole := f.box(0, 0, d.q.Length.V, d.q.Width.V)
	m, c := b.Min.Lerp(b.Max, 0.5), whole.Min.Lerp(whole.Max, 0.5)
	s := b.Size()
	dx, dy := sign(c.X-m.X)*(s.X/2+1.9), sign(c.Y-m.Y)*(s.Y/2+1.9)
	switch { // beside a notch that is in no corner
	case b.Min.Y > whole.Min.Y+0.1 && b.Max.Y < whole.Max.Y-0.1:
		dy = 0
	case b.Min.X > whole.Min.X+0.1 && b.Max.X < whole.Max.X-0.1:
		dx = 0
	}
	at := pt(m.X+dx, m.Y+dy)
	d.add(leaf.Text{At: pt(at.X, at.Y+0.9), S: r.letter, Strong: true, Halo: true, Anchor: leaf.Middle})
}

// roundings marks the radius of each rounded corner, one leader for a radius:
// at its leftmost arc, as the names of faces stand at the right.
func (d *partDrawing) roundings(f frame) {
	type arc struct {
		text    string
		tip, in r2.Vec
	}
	var arcs []arc
	for _, s := range d.q.Outline {
		for i, v := range s.Outer {
			next := s.Outer[(i+1)%len(s.Outer)]
			if v.Bulge == 0 {
				continue
			}
			chord := next.P.Sub(v.P)
			radius := chord.Len() / 2 * (1 + v.Bulge*v.Bulge) / (2 * math.Abs(v.Bulge))
			// The arc's middle lies a sagitta to the right of its chord.
			tip := f.at(v.P.Lerp(next.P, 0.5).Sub(chord.Left().Mul(v.Bulge / 2)))
			a := arc{"R " + d.size(radius, 1), tip, f.at(v.P.Lerp(next.P, 0.5)).Sub(tip)}
			if k := slices.IndexFunc(arcs, func(o arc) bool { return o.text == a.text }); k < 0 {
				arcs = append(arcs, a)
			} else if d.thin(f) && a.tip.X < arcs[k].tip.X-1 {
				arcs[k] = a
			}
		}
	}
	for _, a := range arcs {
		knee := a.tip.Add(pt(sign(a.in.X)*6, sign(a.in.Y)*7))
		if d.thin(f) {
			knee = pt(a.tip.X+6, f.box(0, 0, d.q.Length.V, d.q.Width.V).Min.Y-3) // no room inside: over the edge
		}
		d.leader(a.tip, knee, a.text, leaf.Name)
	}
}

// thin reports whether the face has no room inside for leaders and names.
func (d *partDrawing) thin(f frame) bool {
	return !d.stands && f.box(0, 0, d.q.Length.V, d.q.Width.V).Size().Y < thinFace
}

func (d *partDrawing) faceName(b r2.Box, side piece.Face, name string) {
	if name == "" {
		name = "face " + string(side)
	}
	if d.stands {
		t := leaf.Shorten(name, leaf.Name, true, false, b.Size().X+labelRun-4)
		d.name(pt((b.Min.X+b.Max.X)/2, b.Min.Y-5.4), leaf.Middle, t)
		return
	}
	name = leaf.Shorten(name, leaf.Name, true, false, b.Size().X-6)
	if b.Size().Y < thinFace {
		d.add(leaf.Text{At: pt(b.Max.X, b.Min.Y-1.8), S: name, Size: leaf.Name, Italic: true, Anchor: leaf.End})
		return
	}
	d.add(leaf.Text{At: pt(b.Max.X-3, b.Min.Y+b.Size().Y*0.3), S: name, Size: leaf.Name, Italic: true, Anchor: leaf.End, Halo: true})
}

// measure draws the running dimensions of a face along and across.
func (d *partDrawing) measure(f frame, side piece.Face, b r2.Box, rows []cutRow) float64 {
	var xs, ys []float64
	for _, r := range rows {
		xs, ys = append(xs, r.c.X0.V), append(ys, r.c.Y0.V)
		if isHole(r.c) {
			last := holeAt(r.c, max(r.c.Count, 1)-1)
			xs, ys = append(xs, last.X), append(ys, last.Y)
		} else {
			xs, ys = append(xs, r.c.X1.V), append(ys, r.c.Y1.V)
		}
	}
	for _, s := range d.q.Outline {
		for _, v := range s.Outer {
			xs, ys = append(xs, v.P.X), append(ys, v.P.Y)
		}
	}
	along := d.axisPlaces(xs, func(x float64) r2.Vec { return f.xy(x, 0) }, d.stands)
	across := d.axisPlaces(ys, func(y float64) r2.Vec { return f.xy(0, y) }, !d.stands)
	if d.stands {
		line, edge := b.Min.X-lineOutside, b.Min.X
		if side == piece.FaceB {
			line, edge = b.Max.X+lineOutside, b.Max.X
		}
		d.running(axis{Upright: true, Line: line, Edge: edge, Lo: b.Min.Y - 6, Hi: b.Max.Y + 6}, along)
		d.running(axis{Line: b.Max.Y + lineOutside, Edge: b.Max.Y, Lo: b.Min.X - 6, Hi: b.Max.X + 6}, across)
		return b.Max.Y + lineOutside + levelKneed + longest(across)
	}
	d.running(axis{Upright: true, Line: b.Min.X - lineOutside, Edge: b.Min.X, Lo: b.Min.Y - 5, Hi: b.Max.Y + 5}, across)
	if side == piece.FaceA && d.b != nil { // values above: the other face is below
		d.lift(f, side, b, along)
		return b.Max.Y
	}
	d.running(axis{Line: max(b.Max.Y, d.mid.Max.Y) + lineOutside, Edge: max(b.Max.Y, d.mid.Max.Y), Lo: leaf.Margin, Hi: 210 - leaf.Margin}, along)
	return max(b.Max.Y, d.mid.Max.Y) + lineOutside + levelKneed + longest(along)
}

// lift draws the dimensions along above the face.
func (d *partDrawing) lift(f frame, side piece.Face, b r2.Box, along []place) {
	d.running(axis{Line: b.Min.Y - 4, Edge: b.Min.Y, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, along)
}

// axisPlaces turns values from the datum into places.
func (d *partDrawing) axisPlaces(vs []float64, at func(float64) r2.Vec, upright bool) []place {
	pos := func(v float64) float64 {
		if upright {
			return at(v).Y
		}
		return at(v).X
	}
	out := []place{{at: pos(0), text: "0", origin: true}}
	for _, v := range vs {
		if math.Abs(v) > 1e-6 {
			out = append(out, place{at: pos(v), text: d.size(v, 1)})
		}
	}
	return out
}

// edgeView draws the datum edge between the faces, with its caret.
func (d *partDrawing) edgeView() {
	if len(d.q.Bevels) > 0 {
		d.sawnEdge()
	} else {
		d.rect(leaf.Visible, d.mid)
	}
	if d.stands {
		y := d.mid.Min.Y + d.mid.Size().Y*0.55
		d.line(leaf.Visible, pt(d.mid.Min.X-2.6, y-1.3), pt(d.mid.Min.X, y), pt(d.mid.Min.X-2.6, y+1.3))
		return
	}
	x := d.mid.Min.X + d.mid.Size().X*0.45
	d.line(leaf.Visible, pt(x-1.3, d.mid.Min.Y-2.6), pt(x, d.mid.Min.Y), pt(x+1.3, d.mid.Min.Y-2.6))
}

// sawnEdge draws the datum edge of a part whose ends are sawn obliquely, face A
// towards the drawing of face A.
func (d *partDrawing) sawnEdge() {
	at := func(z float64) (low, high float64) {
		low, high = 0, d.q.Length.V
		for _, v := range d.q.Bevels {
			if x := (v.D - v.N.Z*z) / v.N.X; v.N.X < 0 {
				low = x
			} else {
				high = x
			}
		}
		return low, high
	}
	a0, a1 := at(d.q.Thick.V)
	b0, b1 := at(0)
	m := d.mid
	if d.stands {
		up := func(x float64) float64 { return m.Max.Y - x*d.k }
		d.line(leaf.Visible, pt(m.Min.X, up(a0)), pt(m.Min.X, up(a1)), pt(m.Max.X, up(b1)), pt(m.Max.X, up(b0)), pt(m.Min.X, up(a0)))
		return
	}
	on := func(x float64) float64 { return m.Min.X + x*d.k }
	d.line(leaf.Visible, pt(on(a0), m.Min.Y), pt(on(a1), m.Min.Y), pt(on(b1), m.Max.Y), pt(on(b0), m.Max.Y), pt(on(a0), m.Min.Y))
}

// capital writes the first letter large.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || strings.ToUpper(string(r)) == string(r) {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
