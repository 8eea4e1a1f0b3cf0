package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// builder holds what is known while a piece grows.
type builder struct {
	d     *design.Design
	out   *piece.Piece
	diags diag.List
	used  map[string]bool // part ids

	// The body's outline in the piece's front view, and its depth.
	width, height, foot trace.Num    // foot: height of the base
	rear, front         trace.Num    // z of the members' rear and front edges
	backThick           trace.Num    // 0 without a back
	frontThick          trace.Num    // of the panel that closes the front, 0 where it is open
	inner               [4]trace.Num // how far each member's inner face is in: its thickness
	members             [4]*member
	uprights            []*upright
	spaces              []*space
	boards              []board
	holes               map[string]int
	bars                []bar // rails, as what stands in the way of others
	files               map[string][]byte
	shapes              map[string]shape // outlines by name, as far as they are asked for
	under               *piece.Part      // what a base of legs is fixed to; nil: nothing
}

// Options are choices that later stages make for the piece.
type Options struct {
	// Holes puts shelves on pins, by part id, on a hole of their row, from 1 at
	// the bottom; shelves that are not named stand evenly spread.
	Holes map[string]int
	// Files are the drawings of outlines, by their names relative to the piece
	// file.
	Files map[string][]byte
}

// Make builds the piece of a design. The diagnostics say what could not be
// built and why; a piece with errors is incomplete and must not be cut.
func Make(d *design.Design, o Options) (*piece.Piece, diag.List) {
	b := &builder{d: d, out: &piece.Piece{Name: d.Name}, used: map[string]bool{}, holes: o.Holes, files: o.Files, shapes: map[string]shape{}}
	b.frame()
	if b.diags.HasErrors() {
		return b.out, b.diags
	}
	switch {
	case d.Body.Kind == design.Frame || d.Body.Kind == design.Loose:
		b.open()
	case d.Body.Plan != nil:
		b.planShell()
	default:
		b.carcase()
	}
	if b.diags.HasErrors() {
		b.diags.Sort()
		return b.out, b.diags
	}
	b.freeParts()
	b.legs()
	b.plateDepths()
	b.pegs()
	b.finish()
	b.diags.Sort()
	return b.out, b.diags
}

// carcase builds a body of four members, with what is in it, before it and
// under it.
func (b *builder) carcase() {
	b.shell()
	if b.diags.HasErrors() {
		return
	}
	b.under = b.members[bottom].part
	b.inside()
	b.back()
	b.frontPanel()
	b.rails()
	b.shelves()
	b.fronts()
	b.lids()
	b.drawers()
	b.base()
}

// frame finds the body's outline and its depth from the wall to the front.
func (b *builder) frame() {
	d := b.d
	b.width, b.height = d.Body.Width, d.Body.Height
	if d.Base.Kind == "plinth" || d.Base.Kind == "legs" || d.Base.Kind == "feet" || d.Base.Kind == "sides" {
		b.foot = d.Base.Height
	}
	b.front = d.Body.Depth
	if !b.opens("front") {
		b.frontThick = b.thick(b.role("front panel"))
	}
	if d.Back != nil {
		b.backThick = b.thick(b.pick(d.Back.Role, "back"))
		if d.Back.Set == "on" {
			b.rear = b.backThick
		}
	}
	if d.Body.Kind == design.Frame || d.Body.Kind == design.Loose {
		return
	}
	shell := b.role("shell")
	if shell.Stock == nil {
		b.errorAt("stock", "no-stock", "no stock for the shell", "The body needs a stock under the role 'shell'.")
		return
	}
	t := b.thick(shell)
	for i := range b.inner {
		b.inner[i] = t
	}
	if t.V*2 >= b.width.V || t.V*2 >= b.height.V {
		b.errorAt("body.width", "no-room", "the shell leaves no room inside",
			fmt.Sprintf("Two thicknesses of %.1f mm do not fit into %.0f × %.0f mm.", t.V, b.width.V, b.height.V))
	}
	if b.backThick.V+b.frontThick.V >= b.front.V {
		b.errorAt("body.depth", "no-room", "the back is thicker than the body is deep", "Make the body deeper, or the back of thinner stock.")
	}
}

// role returns the stock under a role's name, or under 'panels', or under
// 'shell' where the piece file names neither.
func (b *builder) role(names ...string) design.Role {
	for _, n := range append(names, "panels", "shell") {
		if r, ok := b.d.Roles[n]; ok && r.Stock != nil {
			return r
		}
	}
	return design.Role{}
}

func (b *builder) pick(r design.Role, names ...string) design.Role {
	if r.Stock != nil {
		return r
	}
	return b.role(names...)
}

func (b *builder) thick(r design.Role) trace.Num {
	if r.Stock == nil {
		return trace.Num{}
	}
	if n := b.d.Body.Bend.Plies; n > 1 && r.Name == "shell" {
		return r.Stock.Thickness.Mean.Scale(float64(n)) // a laminated shell
	}
	return r.Stock.Thickness.Mean
}

// constant is a number that the program brings, booked once with its reason so
// that explain can show it.
func (b *builder) constant(path string, v float64, reason string) trace.Num {
	return b.d.Ledger.Constant(path, v, reason)
}

func (b *builder) errorAt(path, code, summary, detail string) {
	b.diags = append(b.diags, diag.Diagnostic{Code: code, Severity: diag.Error, Summary: summary,
		Detail: detail, At: b.d.At(path), Path: path})
}

// noSpace says that no bay or level has the name; where the bays could not be
// laid out at all, that has been said, and the name may be right.
func (b *builder) noSpace(path, name string) {
	if !b.diags.HasErrors() {
		b.errorAt(path, "no-space", fmt.Sprintf("no bay or level is called %q", name), "")
	}
}

// add books a part under an id that no other has.
func (b *builder) add(p *piece.Part) *piece.Part {
	if b.used[p.ID] {
		for n := 2; ; n++ {
			id := fmt.Sprintf("%s %d", p.ID, n)
			if !b.used[id] {
				p.ID = id
				break
			}
		}
	}
	b.used[p.ID] = true
	p.Number = len(b.out.Parts) + 1
	if p.Stock != nil && p.Thick.V > 1.5*p.Stock.Thickness.Mean.V && p.Stock.Thickness.Mean.V > 0 {
		p.Plies = int(p.Thick.V/p.Stock.Thickness.Mean.V + 0.5)
	}
	b.glued(p)
	if len(p.Outline) == 0 {
		p.Outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	}
	p.Pose.O = r3.Vec{X: p.Origin[0].V, Y: p.Origin[1].V, Z: p.Origin[2].V}
	b.out.Parts = append(b.out.Parts, p)
	return p
}

// cut adds a cut to a part and numbers it.
func cut(p *piece.Part, c piece.Cut) {
	c.ID = fmt.Sprintf("%s/cut %d", p.ID, len(p.Cuts)+1)
	if c.Count == 0 && (c.Kind == piece.Hole || c.Kind == piece.HoleRow) {
		c.Count = 1
	}
	p.Cuts = append(p.Cuts, c)
}

// join books a joint.
func (b *builder) join(j piece.Joint) {
	j.ID = j.B + " / " + j.A
	for n := 2; ; n++ {
		clash := false
		for _, o := range b.out.Joints {
			clash = clash || o.ID == j.ID
		}
		if !clash {
			break
		}
		j.ID = fmt.Sprintf("%s / %s %d", j.B, j.A, n)
	}
	b.out.Joints = append(b.out.Joints, j)
}

// The ways in which frames lie in the piece. Uprights have x up and y from the
// front; horizontals x to the right and y from the front; fronts and backs
// face the reader; doors stand with their length upright.
var (
	upright3    = r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: -1}}
	horizontal3 = r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}
	facing3     = r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
	standing3   = r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{X: -1}, Z: r3.Vec{Z: 1}}
)

// surface is one face of one part, with the way from a place in the piece (a
// coordinate along the part, and z) to the part's own x and y.
type surface struct {
	part  *piece.Part
	face  piece.Face
	along func(c trace.Num) trace.Num
	// across is set where the part lies across the piece's depth, as a shell
	// does that bends in plan: along then gives its y, and across its x of z.
	across func(z trace.Num) trace.Num
}

// at returns the part's x and y of a place.
func (s surface) at(c, z trace.Num) (x, y trace.Num) {
	if s.across != nil {
		return s.across(z), s.along(c)
	}
	return s.along(c), s.y(z)
}

// y returns the part's y of a depth z in the piece: uprights and horizontals
// measure it back from their front edge, where their origin lies.
func (s surface) y(z trace.Num) trace.Num { return s.part.Origin[2].Sub(z) }

// pocket cuts a rectangle between two coordinates along the part and two
// depths of the piece into the face.
func (s surface) pocket(kind piece.CutKind, c0, c1, z0, z1, depth trace.Num, why string) {
	x0, y0 := s.at(c0, z0)
	x1, y1 := s.at(c1, z1)
	if x0.V > x1.V {
		x0, x1 = x1, x0
	}
	if y0.V > y1.V {
		y0, y1 = y1, y0
	}
	cut(s.part, piece.Cut{Kind: kind, Face: s.face, X0: x0, X1: x1, Y0: y0, Y1: y1, Depth: depth, For: why})
}

// hole drills count holes into the face: the first at coordinate c and depth z,
// each next one at pitch further along the part.
func (s surface) hole(c, z, dia, depth, pitch trace.Num, count int, why string) {
	x, y := s.at(c, z)
	x1, y1 := s.at(c.Add(pitch), z)
	kind := piece.Hole
	if count > 1 {
		kind = piece.HoleRow
	}
	cut(s.part, piece.Cut{Kind: kind, Face: s.face, X0: x, Y0: y, Diameter: dia, Depth: depth,
		Count: count, StepX: x1.Sub(x), StepY: y1.Sub(y), For: why})
}
