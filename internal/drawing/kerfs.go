package drawing

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// kerfDrawing is one bend's kerfs, laid flat.
type kerfDrawing struct {
	pen
	ink
	q *piece.Part
	b piece.Bend
}

// Kerfs draws the kerfs of one bend, laid flat: in plan and edge view with the
// place of each from the strip's datum end, three kerfs enlarged, and one kerf
// as it stands after bending.
func Kerfs(p *plan.Plan, q *piece.Part, i int, opt Options) leaf.Leaf {
	d := &kerfDrawing{ink: ink{systemOf(opt)}, q: q, b: q.Bends[i]}
	pl := d.b.Plan
	y, k := d.flat(11)
	y, ke := d.enlarged(y + 10)
	d.bent(y, ke)
	y += 16
	used := d.scaleBar(pt(leaf.Margin+2, y), k, 45, d.sys, "strip")
	d.scaleBar(pt(leaf.Margin+2+used+14, y), ke, 32, d.sys, "enlarged")
	return leaf.Leaf{
		Key:   fmt.Sprintf("kerfs-%d-%s", q.Number, slug(d.b.Corner)),
		Title: "The kerfs, " + d.b.Corner,
		Right: fmt.Sprintf("sheet %s measured · blade %s · R %s", d.fine(q.Thick.V, 2), d.fine(pl.Spec.Kerf, 2), d.size(d.b.Radius.V, 1)),
		Caption: fmt.Sprintf("Each kerf is set from the datum end of the strip, never from the last kerf: %d kerfs, first at %s, pitch %s, rounded only in print. "+
			"%s up; the kerfs run right across the strip. Strain of the skin %s to %s %% by the model: bend a test strip first.",
			len(d.b.Kerfs), d.first(), d.fine(pl.Pitch, 3), kerfedFace(d.b),
			strconv.FormatFloat(100*pl.StrainLow, 'f', 2, 64), strconv.FormatFloat(100*pl.StrainHigh, 'f', 2, 64)),
		Alt: fmt.Sprintf("The %d kerfs of the bend %s in plan and edge view, each measured from the datum end; three kerfs enlarged, with depth %s and skin %s.",
			len(d.b.Kerfs), d.b.Corner, d.fine(pl.Depth, 2), d.fine(q.Thick.V-pl.Depth, 2)),
		W: 210, H: y + 3,
		Items: d.items,
	}
}

// kerfedFace names the face that a bend's kerfs are cut into.
func kerfedFace(b piece.Bend) string {
	if b.Face == piece.FaceA {
		return "The outer face A, kerfed here,"
	}
	return "Kerfed face"
}

func (d *kerfDrawing) first() string {
	if len(d.b.Kerfs) == 0 {
		return "–"
	}
	return d.kerfPlace(d.b.Kerfs[0].V)
}

// kerfPlace prints a place on the strip of kerfs: one decimal, always.
func (d *kerfDrawing) kerfPlace(x float64) string { return d.fine(x, 1) }

const (
	flatLeft  = 20.0
	zoneLeft  = 41.0
	zoneRight = 177.0
	flatRight = 192.0
	// maxLabels is how many places one axis has room for side by side.
	maxLabels = 52
)

// flat draws plan and edge view with the ends broken off, and the running
// dimensions; it returns the lowest place and the scale.
func (d *kerfDrawing) flat(y float64) (low, k float64) {
	b, t := d.b, d.q.Thick.V
	flat := max(b.Length.V, 1)
	k = min((zoneRight-zoneLeft-16)/flat, 11/max(t, 0.1))
	mid := (zoneLeft + zoneRight) / 2
	x := func(s float64) float64 { return mid + (s-b.Start.V-flat/2)*k }
	planTop, planLow := y, y+14.5
	edgeTop := planLow + 8.5
	edgeLow := edgeTop + t*k
	d.ends(planTop, planLow, edgeTop, edgeLow)
	// The zone in plan, from the inside: the front edge on top, broken off below.
	d.line(leaf.Visible, pt(zoneLeft, planTop), pt(zoneRight, planTop))
	d.zigzag(pt(zoneLeft-1.5, planLow), pt(zoneRight+1.5, planLow))
	h := b.Plan.Spec.Kerf / 2
	for _, c := range b.Kerfs {
		for _, e := range []float64{c.V - h, c.V + h} {
			d.line(leaf.Dimension, pt(x(e), planTop), pt(x(e), planLow))
		}
	}
	d.kerfNumbers(x, planTop)
	d.edgeView(x, edgeTop, edgeLow, k)
	for i, s := range []float64{b.Start.V, b.Start.V + b.Length.V} {
		d.line(leaf.Centre, pt(x(s), planTop-3), pt(x(s), edgeLow+1.5))
		d.note(pt(x(s), planTop-4.2), leaf.Middle, [...]string{"bend starts", "bend ends"}[i])
	}
	return d.kerfPlaces(x, edgeLow), k
}

// ends draws the broken-off ends of the strip in both views.
func (d *kerfDrawing) ends(planTop, planLow, edgeTop, edgeLow float64) {
	const cutL, cutR = 34.0, 182.5
	for _, e := range [][2]float64{{flatLeft, cutL}, {flatRight, cutR}} {
		out, in := e[0], e[1]
		d.line(leaf.Visible, pt(out, planLow), pt(out, planTop), pt(in, planTop))
		d.zigzag(pt(min(out, in)-1.5, planLow), pt(max(out, in)+1.5, planLow))
		d.line(leaf.Visible, pt(in, edgeTop), pt(out, edgeTop), pt(out, edgeLow), pt(in, edgeLow))
		d.zigzag(pt(in, planTop-1.5), pt(in, edgeLow+1.5))
	}
	for _, x := range []float64{zoneLeft, zoneRight} {
		d.zigzag(pt(x, planTop-1.5), pt(x, edgeLow+1.5))
	}
	d.datum(pt(flatLeft, planTop), 1, 1)
	if d.q.Grain != piece.NoGrain {
		d.grain(pt(27.2, planTop+8.5), 10, d.q.Grain == piece.AlongWidth, "grain")
	}
	d.value(pt(flatRight+leaf.Name.Cap()+0.9, (planTop+planLow)/2), leaf.Middle, d.size(d.q.Width.V, 1))
	last := d.items[len(d.items)-1].(leaf.Text)
	last.Up = true
	d.items[len(d.items)-1] = last
}

func (d *kerfDrawing) kerfNumbers(x func(float64) float64, top float64) {
	n := len(d.b.Kerfs)
	if n == 0 {
		return
	}
	every, step := 1, math.Inf(1)
	room := leaf.Width(strconv.Itoa(n), leaf.Note, false, false) + 1
	if n > 1 {
		step = math.Abs(x(d.b.Kerfs[1].V) - x(d.b.Kerfs[0].V))
		for _, e := range []int{1, 2, 5, 10, 20, 50, 100} {
			if every = e; step*float64(e) >= room {
				break
			}
		}
	}
	first := x(d.b.Kerfs[0].V)
	for i, c := range d.b.Kerfs {
		if every == 1 || i == 0 && step*float64(every-1) >= room || (i+1)%every == 0 {
			d.note(pt(x(c.V), top-1), leaf.Middle, strconv.Itoa(i+1))
		}
	}
	d.add(leaf.Text{At: pt(min(first-3.4, x(d.b.Start.V)-1.2), top-1), S: "kerf", Italic: true, Anchor: leaf.End})
}

// edgeView draws the zone from the edge, kerfs up.
func (d *kerfDrawing) edgeView(x func(float64) float64, top, low, k float64) {
	h, depth := d.b.Plan.Spec.Kerf/2, d.b.Plan.Depth*k
	ps := []struct{ x, y float64 }{{zoneLeft, top}}
	for _, c := range d.b.Kerfs {
		a, b := x(c.V-h), x(c.V+h)
		ps = append(ps, []struct{ x, y float64 }{{a, top}, {a, top + depth}, {b, top + depth}, {b, top}}...)
	}
	ps = append(ps, struct{ x, y float64 }{zoneRight, top})
	segs := []leaf.Seg{}
	for i, q := range ps {
		op := leaf.To
		if i == 0 {
			op = leaf.Move
		}
		segs = append(segs, leaf.Seg{Op: op, P: pt(q.x, q.y)})
	}
	d.add(leaf.Path{Line: leaf.Visible, Segs: segs})
	d.line(leaf.Visible, pt(zoneLeft, low), pt(zoneRight, low))
}

// kerfPlaces draws the running dimensions of the zone; where there are more
// kerfs than an axis has room for, the places stand in a table below it.
func (d *kerfDrawing) kerfPlaces(x func(float64) float64, edge float64) float64 {
	b := d.b
	all := []place{{at: flatLeft, text: "0", origin: true}, {at: flatRight, text: d.kerfPlace(d.q.Length.V)},
		{at: x(b.Start.V), text: d.kerfPlace(b.Start.V)}, {at: x(b.Start.V + b.Length.V), text: d.kerfPlace(b.Start.V + b.Length.V)}}
	many := len(b.Kerfs)+4 > maxLabels
	for _, c := range b.Kerfs {
		if !many {
			all = append(all, place{at: x(c.V), text: d.kerfPlace(c.V)})
		}
	}
	longest := 0.0
	for _, a := range all {
		longest = max(longest, leaf.Width(a.text, leaf.Name, false, false))
	}
	d.running(axis{Line: edge + lineOutside, Edge: edge, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, all)
	low := edge + lineOutside + levelKneed + longest
	if many {
		low = d.kerfTable(low + 6)
	}
	return low
}

func (d *kerfDrawing) kerfTable(y float64) float64 {
	const columns, step = 8, 4.0
	wide := (210 - 2*leaf.Margin) / float64(columns)
	n := len(d.b.Kerfs)
	rows := (n + columns - 1) / columns
	for i, c := range d.b.Kerfs {
		at := pt(leaf.Margin+wide*float64(i/rows), y+step*float64(i%rows))
		d.add(leaf.Text{At: pt(at.X+5, at.Y), S: strconv.Itoa(i + 1), Strong: true, Anchor: leaf.End})
		d.note(pt(at.X+19, at.Y), leaf.End, d.kerfPlace(c.V))
	}
	return y + step*float64(rows-1)
}
