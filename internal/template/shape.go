package template

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/rout"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// leastOpening is the diameter from which a hole through a part is routed to a
// template rather than drilled, mm.
const leastOpening = 20.0

// shaped tells whether an outline asks for a template: it has an arc or a
// slanting edge. Square notches are sawn.
func shaped(q *piece.Part) bool {
	if q.Stick() { // sawn, not routed
		return false
	}
	for l := range q.Outline.All {
		for _, e := range l.Edges() {
			d := e.B.Sub(e.A)
			if e.IsArc() || math.Min(math.Abs(d.X), math.Abs(d.Y)) > 1e-6 {
				return true
			}
		}
	}
	return false
}

// finished returns the part's outline with the openings that go right through.
func finished(q *piece.Part) planar.Region {
	out := q.Outline
	for _, c := range q.Cuts {
		if c.Kind != piece.Hole || !c.Through || c.Diameter.V < leastOpening {
			continue
		}
		r, err := planar.Difference(out, planar.Disc(r2.Vec{X: c.X0.V, Y: c.Y0.V}, c.Diameter.V/2))
		if err == nil {
			out = r
		}
	}
	return out
}

// shape is one part with a shaped outline.
func (m *maker) shape(q *piece.Part) Sheet {
	s := Sheet{
		Key: "shape-" + strconv.Itoa(q.Number), Part: q.Number, DX: 1, DY: 1,
		Title: fmt.Sprintf("Template, %d %s", q.Number, q.Name),
		Right: fmt.Sprintf("%s · %s", m.stock(q), m.by(q.Length.V, q.Width.V)),
		Alt:   fmt.Sprintf("The outline of part %d, %s, at full size, with the lines that jigsaw and router follow.", q.Number, q.Name),
	}
	r := finished(q)
	if !r.OnEdge(pt(0, 6), 1e-3) {
		s.DY = 0 // no straight edge runs up from the datum corner
	}
	s.closed(Outline, r.Loops()...)
	s.mean(Outline, "finished outline of the part; of this size too is the template for a pattern bit, whose bearing is as wide as its cutters")
	m.sawLine(&s, r)
	m.drilled(&s, q)
	m.lapped(&s, q)
	bit := m.bitFor(&s, q, r)
	m.bushLine(&s, q, r, bit)
	m.thickness(&s)
	if bit > 0 {
		n, each := rout.Passes(q.Thick.V, bit)
		s.fact(fmt.Sprintf("With %s the bit goes through %s of full wood in %d passes of %s; what the saw left outside the line takes fewer.", m.dia(bit), m.mm(q.Thick.V, 2), n, m.mm(each, 1)))
		s.rule(rout.RulePass.ID)
	}
	s.fact(fmt.Sprintf("Seen on face A: %s. %s%s", nameOf(q.NameA), ringOf(r), late(q)))
	s.fact("Caution: eye and ear protection; clamp work and template down; move so that the bit bites uncut wood: counterclockwise round an outside, clockwise inside an opening; unplug to change the bit. The tool’s manual and the law of the place go before what is printed here.")
	return s
}

func nameOf(s string) string {
	if s == "" {
		return "no name"
	}
	return s
}

// ringOf says what the datum mark stands on: an outline may be rounded away
// from the corner that all is measured from.
func ringOf(r planar.Region) string {
	if r.OnEdge(pt(0, 0), 1e-3) {
		return "The ring is the datum corner."
	}
	return "The ring is the datum corner of the blank; the part itself is cut back from it."
}

func late(q *piece.Part) string {
	if q.Late {
		return " The size is provisional: the part is cut to the measured opening, so make its template after that."
	}
	return ""
}

func (m *maker) stock(q *piece.Part) string {
	if q.Stock == nil {
		return "thickness " + m.mm(q.Thick.V, 2)
	}
	return q.Stock.Name + ", " + m.mm(q.Thick.V, 2) + " measured"
}

// deep says how deep a cut is.
func (m *maker) deep(c piece.Cut) string {
	if c.Through {
		return "right through"
	}
	return m.bare(c.Depth.V, 1) + " deep"
}

func (m *maker) dia(v float64) string { return "⌀ " + m.mm(v, 2) }

// sawLine draws where the jigsaw runs: outside the outline, inside openings.
func (m *maker) sawLine(s *Sheet, r planar.Region) {
	grown, err := planar.Offset(r, rout.Proud, planar.Mitre)
	if err != nil {
		s.fact("No line for the jigsaw: " + err.Error() + ".")
		return
	}
	s.closed(Saw, grown.Loops()...)
	s.mean(Saw, fmt.Sprintf("jigsaw: leave %s outside the finished line (%s to %s), for the bit to trim", m.mm(rout.Proud, 1), m.bare(rout.LeastProud, 1), m.mm(rout.MostProud, 1)))
	s.rule(rout.RuleProud.ID)
}

// drilled draws the holes that are drilled, on the sheet of their part.
func (m *maker) drilled(s *Sheet, q *piece.Part) {
	n := 0
	for _, c := range q.Cuts {
		if c.Kind != piece.Hole && c.Kind != piece.HoleRow || c.Kind == piece.Hole && c.Through && c.Diameter.V >= leastOpening {
			continue
		}
		for i := range max(c.Count, 1) {
			at := pt(c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V)
			s.hole(at, c.Diameter.V)
			s.word(Word{At: pt(at.X+c.Diameter.V/2+1.5, at.Y+1.5), S: fmt.Sprintf("⌀ %s, %s, face %s", m.bare(c.Diameter.V, 1), m.deep(c), c.Face)})
			n++
		}
	}
	if n > 0 {
		s.mean(Hole, "holes to drill, with their centres; the face that each is drilled from stands beside it")
	}
}

// lapped draws the edges of half laps, on the sheet of their part.
func (m *maker) lapped(s *Sheet, q *piece.Part) {
	n := 0
	for _, c := range q.Cuts {
		if c.Kind != piece.Lap || len(c.Region) == 0 {
			continue
		}
		n++
		s.closed(Recess, c.Region.Loops()...)
		b := c.Region.Box()
		s.word(Word{At: pt(b.Min.X+2, (b.Min.Y+b.Max.Y)/2), S: fmt.Sprintf("lap for %s, %s, face %s", c.For, m.deep(c), c.Face)})
	}
	if n > 0 {
		s.mean(Recess, "edges of laps; the face that each is cut from stands in it")
	}
}

// bitFor names the bit that goes into the tightest inside corner, or finds that
// none does; it returns the diameter to work with, 0 for none.
func (m *maker) bitFor(s *Sheet, q *piece.Part, r planar.Region) float64 {
	s.rule(rout.RuleCorner.ID)
	least, ok := tightest(r)
	radius := math.Inf(1)
	if ok {
		radius = least.radius
	}
	w := want{radius: radius, reach: q.Thick.V, most: m.mostBit()}
	bit, short := choose(m.bits(), w)
	switch {
	case !ok && bit != nil:
		s.fact(fmt.Sprintf("No inside corner: any bit goes round. The stoutest of the shop that is long enough%s: %s, %s.", m.through(), bit.Name, m.dia(bit.Diameter.V)))
	case !ok:
		s.fact("No inside corner: any bit goes round that is long enough for the thickness.")
	case radius == 0:
		m.none(s, q, least, "A sharp inside corner: no bit goes into it. The corner keeps the radius of the bit; square it with a chisel, or leave a relief.")
		w.radius = math.Inf(1)
		bit, _ = choose(m.bits(), w)
	case bit != nil:
		s.fact(fmt.Sprintf("The tightest inside corner has R %s: bits up to %s go in. The stoutest of the shop that is thin enough%s: %s, %s.", m.bare(radius, 1), m.dia(rout.LargestBit(radius)), m.through(), bit.Name, m.dia(bit.Diameter.V)))
	default:
		why := "none of the shop’s bits is as thin as that" + m.through() + "."
		if short {
			why = fmt.Sprintf("those of the shop’s bits that are as thin as that do not reach through %s.", m.mm(q.Thick.V, 1))
		}
		m.none(s, q, least, fmt.Sprintf("The tightest inside corner has R %s: bits up to %s go in, and %s", m.bare(radius, 1), m.dia(rout.LargestBit(radius)), why))
	}
	if m.opt.Bit > 0 {
		if ok && m.opt.Bit > rout.LargestBit(radius)+1e-9 && radius > 0 {
			m.none(s, q, least, fmt.Sprintf("The bit that was named, %s, does not go into the inside corner of R %s: the corner keeps the bit’s radius.", m.dia(m.opt.Bit), m.bare(radius, 1)))
		}
		return m.opt.Bit
	}
	if bit == nil {
		return 0
	}
	return bit.Diameter.V
}

// through says that the bush was thought of.
func (m *maker) through() string {
	if m.opt.Bush == 0 {
		return ""
	}
	return " and goes through a bush of " + m.dia(m.opt.Bush)
}

// mostBit is the diameter of the stoutest bit that the bush lets through.
func (m *maker) mostBit() float64 {
	if m.opt.Bush == 0 {
		return math.Inf(1)
	}
	return m.opt.Bush - rout.LeastWall
}

func (m *maker) bits() []*design.Bit {
	if m.p.Design == nil || m.p.Design.Shop == nil {
		return nil
	}
	return m.p.Design.Shop.Bits
}

// none records that no bit fits.
func (m *maker) none(s *Sheet, q *piece.Part, at inside, words string) {
	s.fact("Finding: " + words)
	mark := "no bit: sharp"
	if at.radius > 0 {
		mark = "no bit: R " + m.bare(at.radius, 1)
	}
	s.word(Word{At: pt(at.at.X+2, at.at.Y+2), S: mark, Italic: true})
	s.Findings = append(s.Findings, work.Finding{
		ID: "template/" + q.ID, Rule: rout.RuleCorner.ID, Verdict: work.Look, Title: "no bit for an inside corner of " + q.Name,
		Text: say.F("{}: {}", say.Name(q.Name), words), Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "cut",
		Mends: []work.Mend{{Text: say.F("a larger rounding in the piece file")}, {Text: say.F("square the corner with a chisel")}},
	})
}

// bushLine draws the edge of a template for a guide bush, where one is known.
func (m *maker) bushLine(s *Sheet, q *piece.Part, r planar.Region, bit float64) {
	s.rule(rout.RuleBush.ID)
	if m.opt.Bush == 0 {
		s.fact("The shop file has no guide bush, and none was named, so no template for one is drawn: it lies inside the outline by (bush − bit)/2, and openings are larger by as much.")
		return
	}
	if bit == 0 {
		s.fact("No bit is known for the bush: no template for it is drawn.")
		return
	}
	o, err := rout.Offset(m.opt.Bush, bit)
	if err != nil {
		s.fact(fmt.Sprintf("The bush of %s does not let the bit of %s through: no template for them is drawn.", m.dia(m.opt.Bush), m.dia(bit)))
		return
	}
	t, err := planar.Offset(r, -o, planar.Round)
	if err != nil || len(t) == 0 {
		s.fact(fmt.Sprintf("The part is too narrow for a template that is smaller by %s all round.", m.mm(o, 2)))
		return
	}
	for _, shape := range t {
		s.closed(Outside, shape.Outer)
		s.closed(Inside, shape.Holes...)
	}
	s.mean(Outside, fmt.Sprintf("template for a guide bush of %s with a bit of %s: inside the outline by (%s − %s)/2 = %s, openings larger by as much", m.dia(m.opt.Bush), m.dia(bit),
		m.bare(m.opt.Bush, 2), m.bare(bit, 2), m.mm(o, 2)))
	if len(t) > len(r) {
		s.fact("Where the part is narrow its template falls into several: screw them to one board.")
	}
}

// thickness advises on the template's own thickness.
func (m *maker) thickness(s *Sheet) {
	s.rule(rout.RuleTemplate.ID)
	text := fmt.Sprintf("Template: sheet without voids, %s is usual; at least %s under a bearing", m.mm(rout.Thick, 0), m.mm(rout.LeastForBearing, 0))
	switch {
	case m.opt.BushLength > 0:
		text += fmt.Sprintf(", at least %s for a bush that stands out by %s.", m.mm(rout.Template(m.opt.BushLength), 1), m.mm(m.opt.BushLength, 1))
	default:
		text += fmt.Sprintf(", and %s more than a bush stands out.", m.mm(rout.Play, 0))
	}
	s.fact(text)
}
