package template

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/leaf"
	"rodwork/internal/mech/rout"
	"rodwork/internal/piece"
)

// row is one row of holes in one part, its place from the part's datum.
type row struct {
	part       *piece.Part
	cut        piece.Cut
	first, off float64 // from the datum end and from the datum edge, mm
	far        bool    // off counts from the edge that lies opposite the datum edge
}

// group is all rows that one drilling template serves: holes of one diameter
// and pitch, for one purpose.
type group struct {
	what       string // "shelf pins"
	dia, pitch float64
	count      int // of the longest row
	rows       []row
}

// purpose is what holes are for, without the part that they are in.
func purpose(c piece.Cut) string {
	what := c.For
	for _, sep := range []string{" in ", " of "} {
		what, _, _ = strings.Cut(what, sep)
	}
	if what == "" {
		return "holes"
	}
	return what
}

// groups gathers the rows of the piece in the order of its parts. Single holes
// count as rows of one; those that are routed to a template of their part do
// not count, and neither do rows that don't run along their part.
func groups(parts []*piece.Part) []*group {
	var out []*group
	for _, q := range parts {
		for _, c := range q.Cuts {
			routed := c.Kind == piece.Hole && c.Through && c.Diameter.V >= leastOpening
			if c.Kind != piece.Hole && c.Kind != piece.HoleRow || routed || math.Abs(c.StepY.V) > 1e-9 || c.Diameter.V <= 0 || pegged(c) {
				continue
			}
			r := row{part: q, cut: c, first: c.X0.V, off: c.Y0.V}
			if c.Count > 1 { // a row may be told from its far end
				r.first = min(r.first, c.X0.V+float64(c.Count-1)*c.StepX.V)
			}
			if fromNearest(c) && q.Width.V-c.Y0.V < c.Y0.V {
				r.off, r.far = q.Width.V-c.Y0.V, true
			}
			g := find(&out, purpose(c), c)
			g.rows = append(g.rows, r)
			g.count = max(g.count, max(c.Count, 1))
		}
	}
	return out
}

// fromNearest tells whether holes are measured from the edge that they belong
// to, whichever it is: a hinge's cup from the edge that it hangs on.
func fromNearest(c piece.Cut) bool { return c.Diameter.V >= leastOpening }

func find(all *[]*group, what string, c piece.Cut) *group {
	pitch := 0.0
	if c.Count > 1 {
		pitch = math.Abs(c.StepX.V)
	}
	for _, g := range *all {
		if g.what == what && math.Abs(g.dia-c.Diameter.V) < 0.005 && math.Abs(g.pitch-pitch) < 5e-4 {
			return g
		}
	}
	g := &group{what: what, dia: c.Diameter.V, pitch: pitch}
	*all = append(*all, g)
	return g
}

// least returns the smallest first place and the smallest distance from the
// edge: a template made for these needs spacer blocks only, never a notch.
func (g *group) least() (first, off float64) {
	first, off = math.Inf(1), math.Inf(1)
	for _, r := range g.rows {
		first, off = min(first, r.first), min(off, r.off)
	}
	return first, off
}

// drilling makes a sheet for each group.
func (m *maker) drilling() []Sheet {
	var out []Sheet
	for i, g := range groups(m.p.Piece.Parts) {
		out = append(out, m.drill(g, i+1))
	}
	return out
}

// beyond is how far a template reaches past its last hole, mm.
const beyond = 30.0

func (m *maker) drill(g *group, n int) Sheet {
	first, off := g.least()
	s := Sheet{
		Key: fmt.Sprintf("holes-%d", n), Title: "Drilling template, " + g.what,
		Right: fmt.Sprintf("⌀ %s, %d rows", m.mm(g.dia, 1), len(g.rows)),
		Alt:   fmt.Sprintf("A drilling template at full size for %s, and the spacer blocks that set it off from each part’s datum.", g.what),
		DX:    1, DY: 1,
	}
	if g.pitch > 0 {
		s.Right += ", every " + m.mm(g.pitch, 1)
	}
	length := first + float64(g.count-1)*g.pitch + g.dia/2 + beyond
	s.rect(Outside, 0, 0, length, off+g.dia/2+beyond)
	s.mean(Outside, "edges of the template and of its spacer blocks: the ring is the corner that goes to the datum")
	for i := range g.count {
		x := first + float64(i)*g.pitch
		s.hole(pt(x, off), g.dia)
		s.word(Word{At: pt(x+leaf.Note.Cap()/2, off+max(g.dia/2+1.5, 2.5)+1.5), S: fmt.Sprintf("%d · %s", i+1, m.bare(x, 1)), Up: true})
	}
	s.mean(Hole, "holes to drill, with their centres")
	s.word(Word{At: pt(8, -4), S: "this edge along the fence: " + m.bare(off, 1) + " to the centres", Italic: true})
	m.opening(&s, g, first, off)
	m.blocks(&s, g)
	m.drillFacts(&s, g)
	return s
}

// opening draws what a guide bush needs round a large hole.
func (m *maker) opening(s *Sheet, g *group, first, off float64) {
	if g.dia < leastOpening || m.opt.Bush == 0 || m.opt.Bit == 0 {
		return
	}
	if _, err := rout.Offset(m.opt.Bush, m.opt.Bit); err != nil {
		return
	}
	for i := range g.count {
		s.closed(Inside, planar.Circle(pt(first+float64(i)*g.pitch, off), rout.Opening(g.dia, m.opt.Bush, m.opt.Bit)/2))
	}
	s.mean(Inside, fmt.Sprintf("opening for a guide bush of %s with a bit of %s: %s", m.dia(m.opt.Bush), m.dia(m.opt.Bit), m.dia(rout.Opening(g.dia, m.opt.Bush, m.opt.Bit))))
	s.rule(rout.RuleBush.ID)
}

// setting is how a template is set off for some rows: blocks at the end and
// along the edge.
type setting struct {
	end, edge float64
	rows      []row
}

// settings gathers the rows that take the same blocks, to a hundredth.
func (g *group) settings() []setting {
	first, off := g.least()
	var out []setting
	for _, r := range g.rows {
		end, edge := r.first-first, r.off-off
		i := slices.IndexFunc(out, func(s setting) bool { return math.Abs(s.end-end) < 0.005 && math.Abs(s.edge-edge) < 0.005 })
		if i < 0 {
			i = len(out)
			out = append(out, setting{end: end, edge: edge})
		}
		out[i].rows = append(out[i].rows, r)
	}
	return out
}

// leastBlock is the length below which no block is cut, mm.
const leastBlock = 0.05

// blocks draws each spacer block once, below the template.
func (m *maker) blocks(s *Sheet, g *group) {
	var lengths []float64
	for _, t := range g.settings() {
		lengths = append(lengths, t.end, t.edge)
	}
	slices.Sort(lengths)
	lengths = slices.CompactFunc(lengths, func(a, b float64) bool { return math.Abs(b-a) < 0.005 })
	y := -12.0
	for _, v := range lengths {
		if v < leastBlock {
			continue
		}
		s.rect(Outside, 0, y-blockWide, v, y)
		w := Word{At: pt(v+2, y-blockWide/2-1.2), S: "spacer block " + m.mm(v, 2), Size: leaf.Name}
		s.word(w)
		y -= blockWide + 5
	}
}

const blockWide = 22.0

// drillFacts tells for each row which blocks it takes.
func (m *maker) drillFacts(s *Sheet, g *group) {
	block := func(v float64) string {
		if v < leastBlock {
			return "no block"
		}
		return "block " + m.mm(v, 2)
	}
	for _, t := range g.settings() {
		var where []string
		for _, r := range t.rows {
			words := fmt.Sprintf("%d %s, face %s, first at %s", r.part.Number, r.part.Name, r.cut.Face, m.bare(r.first, 1))
			if n := max(r.cut.Count, 1); n > 1 {
				words += fmt.Sprintf(", %d holes", n)
			}
			if r.far {
				words += ", from the edge opposite the datum edge"
			}
			where = append(where, words+", "+m.deep(r.cut))
		}
		s.fact(fmt.Sprintf("Datum end, %s; datum edge, %s: %s.", block(t.end), block(t.edge), strings.Join(where, "; ")))
	}
	s.fact("Set the template off with the blocks, never from the last row. Of a template that is turned over for the other face, the same edge goes to the fence. A short row takes the first holes only.")
	s.fact("Drill a test row in an offcut and try the hardware in it. Set the drill’s stop to the depth plus the template’s own thickness.")
}
