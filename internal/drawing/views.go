package drawing

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// viewDrawing is a leaf of views of the whole piece.
type viewDrawing struct {
	pen
	ink
	pc *piece.Piece
	p  *plan.Plan
	k  float64 // paper mm to one of the piece
	n  float64 // the ratio, 1 : n
}

// Views returns the piece as a whole: front and end, the inside with the plan,
// an axonometric picture, and sections.
func Views(p *plan.Plan, opt Options) []leaf.Leaf {
	if p.Piece == nil || len(p.Piece.Parts) == 0 {
		return nil
	}
	d := viewDrawing{ink: ink{systemOf(opt)}, pc: p.Piece, p: p}
	w, h, deep := p.Piece.Width.V, p.Piece.Height.V, p.Piece.Depth.V
	d.k, d.n = fit(w+deep, h, 158, 125)
	boxed := false // drawers are behind their fronts
	for _, q := range p.Piece.Parts {
		boxed = boxed || q.Role == piece.DrawerFront
	}
	bodies, lost := bodiesOf(p.Piece)
	bodies = withFeet(p.Piece, bodies)
	whole, bad := sceneOf(bodies)
	lost = append(lost, bad...)
	all := whole.Only(func(id string) bool { return !boxed || !isDrawerBox(p.Piece.Part(id)) })
	scene := whole.Only(func(id string) bool { return !isFront(p.Piece.Part(id)) })
	var open []view.Line
	if opt.wants(insideKey) || opt.wants(sectionsKey) {
		open = scene.Draw(view.Front(), view.Options{})
	}
	var leaves []leaf.Leaf
	if opt.wants(frontKey) {
		leaves = append(leaves, d.frontAndEnd(all))
	}
	if opt.wants(insideKey) {
		leaves = append(leaves, d.inside(open, all))
	}
	if opt.wants(pictureKey) {
		leaves = append(leaves, d.picture(all))
	}
	if opt.wants(sectionsKey) {
		leaves = append(leaves, sections(p, opt, bodies, open)...)
	}
	if len(lost) > 0 {
		for i := range leaves {
			leaves[i].Caption += " Not drawn, for want of a sound body: " + strings.Join(lost, ", ") + "."
		}
	}
	return leaves
}

// The keys of the figures of the piece as a whole.
const (
	frontKey    = "front-and-end"
	insideKey   = "inside"
	pictureKey  = "picture"
	sectionsKey = "sections"
)

const (
	viewLeft = 30.0
	viewTop  = 14.0
	viewGap  = 13.0
)

func (d viewDrawing) right() string {
	if d.n == math.Trunc(d.n) || d.n == 2.5 || d.n == 7.5 {
		return fmt.Sprintf("%s · 1 : %v on paper", d.pc.Name, d.n)
	}
	return d.pc.Name
}

// fromLeft tells from which end the piece is seen: from where it is bent.
func (d viewDrawing) fromLeft() bool {
	left, right := false, false
	for _, q := range d.pc.Parts {
		for _, b := range q.Bends {
			left = left || strings.Contains(b.Corner, "left")
			right = right || strings.Contains(b.Corner, "right")
		}
	}
	return left || !right
}

// behind are the roles that are drawn dashed where something stands before
// them.
func behind(pc *piece.Piece, roles ...piece.Role) func(string) bool {
	return func(id string) bool {
		q := pc.Part(id)
		if q == nil {
			return false
		}
		for _, r := range roles {
			if q.Role == r {
				return true
			}
		}
		return false
	}
}

// frontAndEnd is the closed piece with what stands behind its fronts.
func (d viewDrawing) frontAndEnd(sc *view.Scene) leaf.Leaf {
	w, h, deep := d.pc.Width.V, d.pc.Height.V, d.pc.Depth.V
	floor := viewTop + h*d.k
	front := frame{At: pt(viewLeft, floor), K: d.k}
	lines := sc.Draw(view.Front(), view.Options{HiddenToo: true})
	d.draft(front, lines, behind(d.pc, piece.Shelf, piece.Divider, piece.Board, piece.Rail))
	d.title(front.xy(w/2, h), "front")

	v, name := view.EndLeft(), "end, from the left"
	if !d.fromLeft() {
		v, name = view.EndRight(), "end, from the right"
	}
	endLeft := viewLeft + w*d.k + viewGap
	end := frame{At: pt(endLeft, floor), K: d.k}
	if !d.fromLeft() {
		end.O = pt(-deep, 0)
	}
	d.draft(end, sc.Draw(v, view.Options{HiddenToo: true}), behind(d.pc, piece.Rail, piece.BackPanel, piece.Board, piece.Bottom))
	d.title(pt(endLeft+deep*d.k/2, front.y(h)), name)
	ground := "from the lowest edge"
	if d.stands() {
		ground = "from the floor"
		d.floor(viewLeft-6, endLeft+deep*d.k+6, floor)
	}
	low := d.heights(front)
	low = max(low, d.widths(front), d.depths(end, floor))
	d.radii(front)
	d.sides(end, deep, h)
	y := low + 6
	d.scaleBar(pt(viewLeft, y), d.k, 50, d.sys, "")
	return leaf.Leaf{
		Key: frontKey, Title: "Front and end", Right: d.right(),
		Caption: "Every measure runs from one ring: heights " + ground + ", widths from the left side, depths from the front. " +
			"Gaps too narrow to draw close to one line; dashed: what stands behind.",
		Alt: fmt.Sprintf("Front view and end view of the %s, %s wide, %s high and %s deep, with running dimensions from the floor, the left side and the front.",
			d.pc.Name, d.size(w, 1), d.size(h, 1), d.size(deep, 1)),
		W: 210, H: y + 3, Items: d.items,
	}
}

// stands tells whether the piece has a base to stand on the floor with; a piece
// without one may hang on a wall.
func (d viewDrawing) stands() bool {
	if d.p.Design == nil {
		return true
	}
	kind := d.p.Design.Base.Kind
	return kind != "wall" && kind != "none" && kind != ""
}

// title names a view above it.
func (d *viewDrawing) title(at r2.Vec, s string) {
	d.name(pt(at.X, viewTop-6.6), leaf.Middle, s)
}

// floor draws the line of the floor with its short strokes.
func (d *viewDrawing) floor(x0, x1, y float64) {
	d.line(leaf.Dimension, pt(x0, y), pt(x1, y))
	var segs []leaf.Seg
	for x := x0 + 2; x < min(x1, 205); x += 5 {
		segs = append(segs, run(pt(x, y), pt(x-1.1, y+1.1))...)
	}
	d.add(leaf.Path{Line: leaf.Hatch, Segs: segs})
}

// heights are the running dimensions from the floor.
func (d *viewDrawing) heights(f frame) float64 {
	all := []place{{at: f.y(0), text: "0", origin: true}}
	left := f.x(0)
	put := func(y float64) {
		if y > 1e-6 {
			all = append(all, place{at: f.y(y), text: d.size(y, 1)})
		}
	}
	for _, q := range d.pc.Parts {
		if q.Loose || isFront(q) {
			continue
		}
		e := extentOf(q)
		if len(q.Run) > 0 {
			d.strip(q, 'y', put)
		} else if lies(q) == 'y' && q.Role != piece.Edging {
			put(e.min.Y)
			put(e.max.Y)
		}
	}
	put(d.pc.Height.V)
	d.running(axis{Upright: true, Line: left - 8, Edge: left, Lo: f.y(d.pc.Height.V) - 6, Hi: f.y(0) + 2}, all)
	return f.y(0)
}

// strip passes on the places of a bent strip along one axis: its flats, inside
// and outside, and where its bends start and end.
func (d *viewDrawing) strip(q *piece.Part, axis byte, put func(float64)) {
	if q.InPlan() {
		planStrip(q, axis, put)
		return
	}
	for _, s := range q.Run {
		level := math.Abs(s.Dir.Y) < 1e-6
		switch {
		case s.Radius != 0:
			// The tangent point on the upright side.
			at := s.X0
			if level {
				at = s.X1
			}
			if axis == 'y' {
				put(piece.Fold(q, at, q.Thick.V).Y)
			}
		case level && axis == 'y', !level && axis == 'x':
			for _, h := range []float64{0, q.Thick.V} {
				p := piece.Fold(q, s.X0, h)
				if axis == 'y' {
					put(p.Y)
				} else {
					put(p.X)
				}
			}
		}
	}
}

// planStrip passes on what is seen from the front of a strip that bends in
// plan: its edges and its windows in height, its straight runs in width.
func planStrip(q *piece.Part, axis byte, put func(float64)) {
	if axis == 'y' {
		put(q.Edge())
		put(q.Edge() - q.Width.V)
		for _, c := range q.Cuts {
			if c.Kind == piece.Window {
				put(q.Edge() - c.Y0.V)
				put(q.Edge() - c.Y1.V)
			}
		}
		return
	}
	for _, s := range q.Run {
		if s.Radius == 0 && math.Abs(s.Dir.X) < 1e-6 {
			put(piece.Fold(q, s.X0, 0).X)
			put(piece.Fold(q, s.X0, q.Thick.V).X)
		}
	}
}

// widths are the running dimensions from the left side.
func (d *viewDrawing) widths(f frame) float64 {
	all := []place{{at: f.x(0), text: "0", origin: true}}
	put := func(x float64) {
		if x > 1e-6 {
			all = append(all, place{at: f.x(x), text: d.size(x, 1)})
		}
	}
	for _, q := range d.pc.Parts {
		if q.Loose || isFront(q) || q.Role == piece.Plinth || q.Role == piece.Tongue {
			continue
		}
		if len(q.Run) > 0 {
			d.strip(q, 'x', put)
		} else if lies(q) == 'x' {
			e := extentOf(q)
			put(e.min.X)
			put(e.max.X)
		}
	}
	put(d.pc.Width.V)
	edge := f.y(0)
	d.running(axis{Line: edge + lineOutside, Edge: edge, Lo: leaf.Margin, Hi: f.x(d.pc.Width.V) + 6}, all)
	return edge + lineOutside + levelKneed + longest(all)
}

// depths are the running dimensions from the front, in the end view.
func (d *viewDrawing) depths(f frame, floor float64) float64 {
	deep := d.pc.Depth.V
	at := func(z float64) float64 {
		if d.fromLeft() {
			return f.x(z)
		}
		return f.x(-z)
	}
	all := []place{{at: at(deep), text: "0", origin: true}}
	put := func(z float64) {
		if v := deep - z; v > 1e-6 {
			all = append(all, place{at: at(z), text: d.size(v, 1)})
		}
	}
	for _, q := range d.pc.Parts {
		if lies(q) != 'z' || isFront(q) || len(q.Run) > 0 || q.Loose {
			continue
		}
		e := extentOf(q)
		switch q.Role {
		case piece.Plinth:
			put(e.max.Z)
			put(e.min.Z)
		case piece.BackPanel:
			put(e.max.Z)
		}
	}
	put(0)
	d.running(axis{Line: floor + lineOutside, Edge: floor, Lo: at(0) - 8, Hi: 210 - leaf.Margin + 4}, all)
	return floor + lineOutside + levelKneed + longest(all)
}

func longest(all []place) float64 {
	w := 0.0
	for _, q := range all {
		w = max(w, leaf.Width(q.text, leaf.Name, false, false))
	}
	return w
}

// radii marks the outside radius of each bend in the front view.
func (d *viewDrawing) radii(f frame) {
	seen := map[string]bool{}
	for _, q := range d.pc.Parts {
		if q.InPlan() {
			continue // its bends are not seen from the front
		}
		for _, b := range q.Bends {
			s, ok := stretchOf(q, b)
			text := "R " + d.size(b.Radius.V, 1)
			if !ok || seen[text] {
				continue
			}
			seen[text] = true
			c := centre(s)
			from := s.From.Sub(c)
			mid := from.Turn(-s.Angle / 2).Unit()
			tip := f.at(c.Add(mid.Mul(b.Radius.V)))
			out := pt(mid.X, -mid.Y)
			knee := tip.Add(pt(4.5*sign(out.X), 6.2*sign(out.Y)))
			if out.Y < 0 { // above the piece: lead back over it, clear of the heights
				knee = pt(tip.X-4.5*sign(out.X)+9*sign(-out.X), f.y(d.pc.Height.V)-3)
			}
			d.leader(tip, knee, text, leaf.Name)
		}
	}
}

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}

// sides says which side of the end view is the front.
func (d *viewDrawing) sides(f frame, deep, h float64) {
	x0, x1 := f.At.X, f.At.X+deep*d.k
	y := f.y(h * 0.45)
	left, right := "wall", "front"
	if !d.fromLeft() {
		left, right = right, left
	}
	d.add(leaf.Text{At: pt(x0-2, y), S: left, Italic: true, Up: true, Anchor: leaf.Middle})
	d.add(leaf.Text{At: pt(x1+3.6, y), S: right, Italic: true, Up: true, Anchor: leaf.Middle})
}
