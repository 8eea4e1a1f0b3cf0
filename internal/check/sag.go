package check

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/material"
	"rodwork/internal/mech/beam"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// sags judges every surface that the brief can load.
func sags(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		load, ok := in.Loads[q.ID]
		if !ok || load.V <= 0 || len(q.Bends) > 0 {
			continue
		}
		if c, ok := caseOf(in, q, load); ok {
			out = append(out, c.finding(in))
		}
	}
	if len(out) == 0 && bears(in.Piece) && len(in.Design.Brief.Holds) == 0 {
		out = append(out, work.Finding{
			ID: "sag", Rule: "SHELF-07", Verdict: work.Look, Title: "load of the shelves", Unit: "kg/m", Path: "brief.holds", Chapter: "inside",
			Text: say.F("The brief names nothing that the piece must hold, so that no shelf is checked for sag."),
		})
	}
	return out
}

func bears(p *piece.Piece) bool {
	for _, q := range p.Parts {
		if q.Role == piece.Shelf || q.Role == piece.Board {
			return true
		}
	}
	return false
}

// shelfCase is a surface with all that its sag hangs on, traced.
type shelfCase struct {
	part   *piece.Part
	edging *piece.Part
	span   trace.Num
	load   trace.Num // kg/m
	depth  trace.Num
	args   []trace.Num // see shelf
	layers int
	across bool // the face grain runs across the span
	// soft takes every stiffness one scatter under its mean (MAT-08): so the
	// verdict is judged, and every mend.
	soft bool
	held bool // its back edge is fastened to the back (a mend)
}

// caseOf gathers a surface's case; ok is false where it spans nothing.
func caseOf(in Input, q *piece.Part, load trace.Num) (shelfCase, bool) {
	c := shelfCase{part: q, load: load, span: spanOf(in.Piece, q), depth: q.Width}
	c.across = q.Grain == piece.AlongWidth
	if c.span.V <= 0 || q.Stock == nil {
		return c, false
	}
	zero := trace.Num{}
	edge := [3]trace.Num{zero, zero, zero} // width front to back, height, drop
	for _, e := range in.Piece.Parts {
		if e.Role == piece.Edging && e.Of == q.ID {
			c.edging = e
			edge = [3]trace.Num{e.Thick, e.Width, edgingDrop(q, e)}
		}
	}
	c.layers = q.Stock.Layers
	c.args = []trace.Num{c.span, load, q.Width, q.Thick, edge[0], edge[1], edge[2], q.Stock.FaceVeneer, q.Stock.InnerVeneer}
	return c, true
}

// edgingDrop is how far the top of an edging lies under the shelf's.
func edgingDrop(q, e *piece.Part) trace.Num {
	return q.Origin[1].Add(q.Thick).Sub(e.Origin[1].Add(e.Width))
}

// spanOf is the widest clear width that the part spans: of the spaces that it
// is a shelf or the floor of.
func spanOf(p *piece.Piece, q *piece.Part) trace.Num {
	var span trace.Num
	for i := range p.Spaces {
		s := &p.Spaces[i]
		mine := s.Floor == q.ID
		for _, id := range s.Shelves {
			mine = mine || id == q.ID
		}
		if mine && s.Size[0].V > span.V {
			span = s.Size[0]
		}
	}
	return span
}

// substance is what a stock is made of, for a beam.
type substance struct {
	e, strength, kdef float64
	scatter           float64 // of e, as a share
	known             bool
}

// substanceOf looks a stock up; plywood of known veneers is computed from them.
func substanceOf(s *design.Stock, face, inner float64, across bool) substance {
	if s == nil {
		return substance{}
	}
	m, err := material.Find(string(s.Kind), s.Species)
	if err != nil {
		return substance{}
	}
	out := substance{e: m.E.V, strength: m.LongTermStrength(), scatter: material.ScatterOf(m).Share, known: true}
	if across && m.EAcross.V > 0 {
		out.strength *= m.EAcross.V / m.E.V
		out.e = m.EAcross.V
	}
	if c, ok := material.CreepOf(m.Creep, 1); ok {
		out.kdef = c.K
	}
	if s.Kind == design.Plywood && s.Species == "birch" && s.Layers >= 3 && face > 0 && inner > 0 {
		p := material.Birch(s.Layers, face, inner).Plate()
		scale := out.strength / out.e
		if out.e = p.EAlong; across {
			out.e = p.EAcross
		}
		out.strength = scale * out.e
	}
	return out
}

// shelf is the beam of plain values in the order of args.
func (c shelfCase) shelf(x []float64) (beam.Shelf, bool) {
	m := substanceOf(c.part.Stock, x[7], x[8], c.across)
	if c.soft {
		m.e *= 1 - m.scatter
	}
	s := beam.Shelf{Span: x[0], Load: x[1], Depth: x[2], Thick: x[3], Ends: beam.Pins, E: m.e, Kdef: m.kdef, Strength: m.strength}
	if c.edging != nil {
		e := substanceOf(c.edging.Stock, 0, 0, false)
		if c.soft {
			e.e *= 1 - e.scatter
		}
		s.EdgingWidth, s.EdgingHigh, s.EdgingDrop, s.EdgingE = x[4], x[5], x[6], e.e
	}
	return s, m.known
}

func values(ns []trace.Num) []float64 {
	x := make([]float64, len(ns))
	for i, n := range ns {
		x[i] = n.V
	}
	return x
}

// finding judges the case.
func (c shelfCase) finding(in Input) work.Finding {
	q := c.part
	f := work.Finding{
		ID: "sag/" + q.ID, Rule: "SHELF-07", Title: "sag of " + q.Name, Unit: "mm",
		Part: q.ID, Path: q.Path, Chapter: "inside",
	}
	s, known := c.shelf(values(c.args))
	r, err := beam.Judge(s)
	c.soft = true
	low, _ := c.judged(values(c.args))
	c.soft = false
	if !known || err != nil {
		f.Verdict = work.NotCovered
		f.Text = say.F("No stiffness is known for {}: {} is not checked for sag. Load an offcut and measure it.", say.Choice(stockName(q), "stock"), say.Name(q.Name))
		return f
	}
	f.Value = trace.Lift(func(x []float64) float64 {
		s, _ := c.shelf(x)
		r, err := beam.Judge(s)
		if err != nil {
			return 0
		}
		return r.Long
	}, c.args...)
	f.Verdict = sagVerdict(low.Level)
	limit := sagLimit(low)
	f.Limit = c.span.Scale(limit.Sag / c.span.V)
	f.Text = c.text(r, low)
	if r.Used > 1 {
		f.Text = append(f.Text, say.F(" It is stressed to {} of what it may bear for years.", say.Percent(r.Used, 0))...)
	}
	if low.Level != beam.Fine {
		c.soft = true
		f.Mends = c.mends(in, low)
	}
	return f
}

// judged judges the case with other values.
func (c shelfCase) judged(x []float64) (beam.Result, error) {
	s, known := c.shelf(x)
	switch {
	case !known:
		return beam.Result{}, &beam.InputError{Field: "E"}
	case c.held:
		return beam.Held(s)
	}
	return beam.Judge(s)
}

func stockName(q *piece.Part) string {
	if q.Stock == nil {
		return "its stock"
	}
	return q.Stock.Name
}

func sagVerdict(l beam.Level) work.Verdict {
	switch l {
	case beam.Stop:
		return work.Stop
	case beam.Look:
		return work.Look
	}
	return work.Fine
}

// sagLimit is the limit that decides: the most lenient where that is passed,
// else the strictest.
func sagLimit(r beam.Result) beam.Limit {
	lenient, strict := r.Limits[0], r.Limits[0]
	for _, l := range r.Limits[1:] {
		if l.Sag > lenient.Sag {
			lenient = l
		}
		if l.Sag < strict.Sag {
			strict = l
		}
	}
	if r.Long > lenient.Sag {
		return lenient
	}
	return strict
}

// text tells the sag beside all the limits.
func (c shelfCase) text(r, low beam.Result) say.Sentence {
	s := say.F("Under {} over {} it sags {} at first and {} after years, up to {} with a softer board of its kind, by which it is judged", say.KgPerM(c.load.V, 1), say.LenN(c.span, 0),
		say.Len(r.First, 1), say.Len(r.Long, 1), say.Len(low.Long, 1))
	if c.edging != nil {
		s = append(s, say.F(" (without its edging {} at first)", say.Len(r.Bare, 1))...)
	}
	s = append(s, say.F(". Allowed: ")...)
	for i, l := range r.Limits {
		if i > 0 {
			s = append(s, say.Span{Text: ", "})
		}
		s = append(s, say.F("{} {}", l.Name, say.Len(l.Sag, 1))...)
	}
	return append(s, say.Span{Text: "."})
}

// mends proposes what settles the sag, each judged anew with what comes of it:
// fine if that can be had, else better than now.
func (c shelfCase) mends(in Input, was beam.Result) []work.Mend {
	var out []work.Mend
	if m, ok := c.edgingMend(in, was); ok {
		out = append(out, m)
	}
	if m, ok := c.stockMend(in, was); ok {
		out = append(out, m)
	}
	return append(out, c.plainMends(in, was)...)
}

// plainMends are those that change no stock: its rear edge fastened to the back,
// a divider in its middle, a shorter span.
func (c shelfCase) plainMends(in Input, was beam.Result) []work.Mend {
	var out []work.Mend
	x := values(c.args)
	if hasBack(in.Piece) {
		held := c
		held.held = true
		if r, err := held.judged(x); err == nil && r.Long < was.Long {
			out = append(out, work.Mend{Text: say.F("fix its rear edge to the back, a screw every {}: it then sags {} in front after years, {}", say.Len(150, 0), say.Len(r.Long, 1), levelWords(r, was))})
		}
	}
	half := append([]float64(nil), x...)
	half[0] = (x[0] - c.part.Thick.V) / 2
	if r, err := c.judged(half); err == nil && r.Long < was.Long {
		out = append(out, work.Mend{Text: say.F("a divider under its middle: each half of {} then sags {} after years, {}", say.Len(half[0], 0), say.Len(r.Long, 1), levelWords(r, was))})
	}
	if span := c.spanThatPasses(); span > 0 {
		x[0] = span
		if r, err := c.judged(x); err == nil {
			out = append(out, work.Mend{Text: say.F("divide the space: over {} it sags {} after years, within every limit", say.Len(span, 0), say.Len(r.Long, 1))})
		}
	}
	return out
}

func hasBack(p *piece.Piece) bool {
	for _, q := range p.Parts {
		if q.Role == piece.BackPanel {
			return true
		}
	}
	return false
}

// levelWords say whether a mend settles it.
func levelWords(r, was beam.Result) string {
	if g := better(r, was); g > 0 {
		return gradeWord(g)
	}
	return "better, though no limit more is kept"
}

// better tells whether a result is better than another: 2 fine, 1 a level
// better, 0 no better.
func better(now, was beam.Result) int {
	rank := map[beam.Level]int{beam.Stop: 0, beam.Look: 1, beam.Fine: 2}
	switch {
	case now.Level == beam.Fine:
		return 2
	case rank[now.Level] > rank[was.Level]:
		return 1
	}
	return 0
}

func (c shelfCase) edgingMend(in Input, was beam.Result) (work.Mend, bool) {
	x := values(c.args)
	from, stock := 20.0, (*design.Stock)(nil)
	path, text := "", "%.0f mm"
	if c.edging != nil {
		from, stock = c.edging.Width.V, c.edging.Stock
		path = c.part.Path + ".edging.height"
	} else if r, ok := in.Design.Roles["edging"]; ok && r.Stock != nil && c.part.Role == piece.Shelf {
		stock = r.Stock
		x[4] = stock.Thickness.Mean.V
		path, text = c.part.Path+".edging", "{stock: edging, height: %.0f mm}"
	}
	if stock == nil {
		return work.Mend{}, false
	}
	trial := c
	trial.edging = &piece.Part{Stock: stock}
	best, grade, sags := 0.0, 0, 0.0
	for h := float64(int(from/5)+1) * 5; h <= 80; h += 5 {
		x[5] = h
		r, err := trial.judged(x)
		if err != nil {
			continue
		}
		if g := better(r, was); g > grade {
			best, grade, sags = h, g, r.Long
		}
		if grade == 2 {
			break
		}
	}
	if grade == 0 {
		return work.Mend{}, false
	}
	return work.Mend{Text: say.F("give it an edging {} high: it then sags {} after years, {}", say.Len(best, 0), say.Len(sags, 1), gradeWord(grade)), Path: path, New: fmt.Sprintf(text, best)}, true
}

func gradeWord(g int) string {
	if g == 2 {
		return "within every limit"
	}
	return "better, not within every limit"
}

// stockMend proposes the thinnest other stock of the shop that passes.
func (c shelfCase) stockMend(in Input, was beam.Result) (work.Mend, bool) {
	var pick *design.Stock
	grade, sags := 0, 0.0
	for _, s := range in.Design.Shop.Stocks {
		if s.Stick || s.Thickness.Mean.V <= c.part.Thick.V {
			continue
		}
		x := values(c.args)
		x[3], x[7], x[8] = s.Thickness.Mean.V, s.FaceVeneer.V, s.InnerVeneer.V
		trial := c
		part := *c.part
		part.Stock = s
		trial.part = &part
		r, err := trial.judged(x)
		if err != nil {
			continue
		}
		g := better(r, was)
		if g > grade || g == grade && g > 0 && s.Thickness.Mean.V < pick.Thickness.Mean.V {
			pick, grade, sags = s, g, r.Long
		}
	}
	if pick == nil {
		return work.Mend{}, false
	}
	m := work.Mend{Text: say.F("make it of {}: it then sags {} after years, {}", say.Choice(pick.Name, "stock"), say.Len(sags, 1), gradeWord(grade))}
	if c.part.Role == piece.Shelf {
		m.Path, m.New = c.part.Path+".stock", pick.Name
	}
	return m, true
}

// spanThatPasses is the widest span, in whole centimetres, that is fine.
func (c shelfCase) spanThatPasses() float64 {
	x := values(c.args)
	for l := float64(int(x[0]/10)) * 10; l >= 100; l -= 10 {
		x[0] = l
		if r, err := c.judged(x); err == nil && r.Level == beam.Fine {
			return l
		}
	}
	return 0
}
