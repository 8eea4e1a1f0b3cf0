package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// explodedDrawing is the piece taken apart, in dimetric projection.
type explodedDrawing struct {
	viewDrawing
	apart  *apart
	view   view.View
	f      frame
	bodies []shown
}

// shown is a body where it stands, with the paper that it can cover.
type shown struct {
	part int
	body solid.Body
	box  r2.Box
	near float64 // how far towards the eye it reaches
}

// Exploded returns the piece taken apart along the ways in which its parts go
// in, in the order of assembly; nothing where there is no order.
func Exploded(p *plan.Plan, opt Options) []leaf.Leaf {
	if p.Piece == nil || len(p.Piece.Parts) == 0 || len(p.Order) == 0 {
		return nil
	}
	items, _ := bodiesOf(p.Piece)
	d := &explodedDrawing{
		viewDrawing: viewDrawing{ink: ink{systemOf(opt)}, pc: p.Piece, p: p},
		apart:       takeApart(p.Piece, p.Order, items),
	}
	d.view = view.Dimetric(!d.fromLeft())
	d.stand(items)
	sc, err := view.NewScene(items, sceneChord)
	if err != nil || len(items) == 0 {
		return nil
	}
	return []leaf.Leaf{d.leaf(sc.Draw(d.view, view.Options{}))}
}

// stand puts the bodies where they stand apart.
func (d *explodedDrawing) stand(items []view.Item) {
	for k := range items {
		i := d.apart.index[items[k].ID]
		items[k].Body.Pose = items[k].Body.Pose.Moved(d.apart.off[i])
		e, box, near := d.apart.at(i), r2.EmptyBox(), math.Inf(-1)
		for c := range 8 {
			q := e.min
			if c&1 != 0 {
				q.X = e.max.X
			}
			if c&2 != 0 {
				q.Y = e.max.Y
			}
			if c&4 != 0 {
				q.Z = e.max.Z
			}
			at, depth := d.view.Project(q)
			box, near = box.With(at), max(near, depth)
		}
		d.bodies = append(d.bodies, shown{i, items[k].Body, box, near})
	}
}

func (d *explodedDrawing) leaf(lines []view.Line) leaf.Leaf {
	box := boundsOf(lines)
	for _, w := range d.apart.ways {
		from, length := d.wayOf(w)
		end, _ := d.view.Project(from.Add(w.dir.Mul(length)))
		box = box.With(end)
	}
	size := box.Size()
	const left, top = 18.0, 10.0
	k := min((210-2*left)/max(size.X, 1), 185/max(size.Y, 1))
	d.f = frame{At: pt((210-size.X*k)/2, top+size.Y*k), O: box.Min, K: k}
	d.draft(d.f, lines, nil)
	for _, w := range d.apart.ways {
		d.chain(w)
	}
	low := top + size.Y*k
	bar := low + 12
	hidden := d.numbers(boxOf(6, 2, 204, low+6), lines)
	d.scaleBar(pt(viewLeft, bar), k*0.9428, 45, d.sys, "along width and height; depth is drawn half as long")
	side := map[bool]string{true: "left", false: "right"}[d.fromLeft()]
	return leaf.Leaf{
		Key: "exploded", Title: "Taken apart", Right: d.p.Piece.Name + " · dimetric",
		Caption: "Each part has moved out along the way that it goes in, by the order of assembly, seen from before, above and the " + side +
			". Chain lines lead to where it goes." + d.together() + hidden,
		Alt: fmt.Sprintf("The %d parts of the %s taken apart, each moved out along its way in, with their numbers.", len(d.p.Piece.Parts), d.p.Piece.Name),
		W:   210, H: bar + 3, Items: d.items,
	}
}

func (d *explodedDrawing) together() string {
	for i, u := range d.apart.unit {
		if u != i {
			return " Boxes of drawers are left together."
		}
	}
	return ""
}

// hidden tells whether a place in space is behind any of the bodies.
func (d *explodedDrawing) hidden(at r3.Vec) bool {
	q, depth := d.view.Project(at)
	for _, b := range d.bodies {
		if b.near < depth || !b.box.Holds(q) {
			continue
		}
		for _, s := range b.body.Ray(at, d.view.Eye) {
			if s.T1 > 0.5 {
				return true
			}
		}
	}
	return false
}

// wayOf returns where the way of a part begins, and its length.
func (d *explodedDrawing) wayOf(w way) (from r3.Vec, length float64) {
	q := d.p.Piece.Parts[w.part]
	e := d.apart.at(w.part)
	mid := e.min.Add(e.max).Mul(0.5)
	if len(q.Run) > 0 && !q.InPlan() { // from an end, not from the hollow between both
		mid = piece.Place(q, 0, q.Width.V/2, q.Thick.V/2).Add(d.apart.off[w.part])
	}
	_, front := along(e, w.dir)
	return mid.Add(w.dir.Mul(front - mid.Dot(w.dir) + 1)), w.distance - 1
}

// chain draws the way of a part from where it stands to its place, as far as
// it is seen.
func (d *explodedDrawing) chain(w way) {
	from, length := d.wayOf(w)
	n := max(4, min(int(length*d.f.K/1.5), 24))
	start := -1
	at := func(i int) r3.Vec { return from.Add(w.dir.Mul(length * float64(i) / float64(n))) }
	for i := range n + 2 {
		seen := i <= n && !d.hidden(at(i))
		if seen && start < 0 {
			start = i
		}
		if !seen && start >= 0 {
			if i-1 > start {
				a, _ := d.view.Project(at(start))
				b, _ := d.view.Project(at(i - 1))
				d.line(leaf.From, d.f.at(a), d.f.at(b))
			}
			start = -1
		}
	}
}

// numbers writes the numbers of the parts, those with the fewest places first.
// It says which could not be written, as others hide the parts.
func (d *explodedDrawing) numbers(field r2.Box, lines []view.Line) string {
	type one struct {
		tips []r2.Vec
		text string
	}
	var all []one
	for i, q := range d.p.Piece.Parts {
		if slices.Contains(d.apart.unit[:i], d.apart.unit[i]) {
			continue
		}
		lo, hi := q.Number, q.Number
		var tips []r2.Vec
		for j, o := range d.p.Piece.Parts {
			if d.apart.unit[j] == d.apart.unit[i] {
				lo, hi = min(lo, o.Number), max(hi, o.Number)
				tips = append(tips, d.tips(o, d.apart.off[j])...)
			}
		}
		text := strconv.Itoa(lo)
		if hi > lo {
			text += "–" + strconv.Itoa(hi)
		}
		if len(tips) == 0 {
			tips = d.edgeTips(q.ID, lines)
		}
		all = append(all, one{tips, text})
	}
	slices.SortStableFunc(all, func(a, b one) int { return len(a.tips) - len(b.tips) })
	spots := newCallouts(&d.pen, field)
	var hidden []string
	for _, o := range all {
		if !spots.put(o.tips, o.text) {
			hidden = append(hidden, o.text)
		}
	}
	if len(hidden) == 0 {
		return ""
	}
	return " Hidden by others: " + strings.Join(hidden, ", ") + "."
}

// edgeTips are the middles of the longest lines of a part that are seen.
func (d *explodedDrawing) edgeTips(id string, lines []view.Line) []r2.Vec {
	var own []view.Line
	for _, l := range lines {
		if l.Body == id && !l.Hidden && l.Radius == 0 && l.B.Sub(l.A).Len()*d.f.K > 1 {
			own = append(own, l)
		}
	}
	slices.SortStableFunc(own, func(a, b view.Line) int {
		return cmp.Compare(b.B.Sub(b.A).Len(), a.B.Sub(a.A).Len())
	})
	var out []r2.Vec
	for _, l := range own[:min(len(own), 3)] {
		out = append(out, d.f.at(l.A.Lerp(l.B, 0.5)))
	}
	return out
}

// mostTips bounds the places on one part that a leader is tried for.
const mostTips = 3

// tips are places on a part's faces that are seen.
func (d *explodedDrawing) tips(q *piece.Part, off r3.Vec) []r2.Vec {
	var out []r2.Vec
	for _, at := range surface(q, d.view.Eye) {
		at = at.Add(off)
		if d.hidden(at.Add(d.view.Eye.Mul(0.05))) {
			continue
		}
		p, _ := d.view.Project(at)
		if out = append(out, d.f.at(p)); len(out) == mostTips {
			break
		}
	}
	return out
}

// surface returns places on the faces of a part that look towards the eye,
// those near the middle first.
func surface(q *piece.Part, eye r3.Vec) []r3.Vec {
	var out []r3.Vec
	if len(q.Run) > 0 {
		for _, y := range []float64{0.5, 0.25, 0.75} {
			for _, x := range []float64{0.5, 0.25, 0.75, 0.1, 0.9, 0.6, 0.4} {
				for _, h := range []float64{q.Thick.V, 0} {
					out = append(out, piece.Place(q, x*q.Length.V, y*q.Width.V, h))
				}
			}
		}
		return out
	}
	z := 0.0
	if q.Pose.Z.Dot(eye) > 0 {
		z = q.Thick.V
	}
	box := q.Outline.Box()
	size := box.Size()
	shares := []float64{0.5, 0.3, 0.7, 0.12, 0.88}
	for ring := range len(shares) {
		for i := range ring + 1 {
			for j := range ring + 1 {
				if max(i, j) != ring {
					continue
				}
				at := box.Min.Add(r2.Vec{X: size.X * shares[i], Y: size.Y * shares[j]})
				if math.IsNaN(at.X+at.Y) || !q.Outline.Contains(at) || inCut(q, at) {
					continue
				}
				out = append(out, q.Pose.At(r3.Vec{X: at.X, Y: at.Y, Z: z}))
			}
		}
	}
	return out
}

// inCut tells whether a place on a part's face is cut away by a joint or a
// window.
func inCut(q *piece.Part, at r2.Vec) bool {
	for _, c := range q.Cuts {
		if c.Kind != piece.HoleRow && at.X > c.X0.V-c.Diameter.V && at.X < max(c.X1.V, c.X0.V+c.Diameter.V) &&
			at.Y > c.Y0.V-c.Diameter.V && at.Y < max(c.Y1.V, c.Y0.V+c.Diameter.V) {
			return true
		}
	}
	return false
}
