package check

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/frame"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// racks judges the carcase as a frame whose joints give: how far it leans under
// a push, with its back and without, and what its joints bear.
func racks(in Input) []work.Finding {
	if in.Design.Base.Kind == "wall" {
		return nil // the wall holds it square
	}
	out := append(legs(in), rackAlong(in, sideways, "rack", "sideways")...)
	for _, q := range in.Piece.Parts {
		if q.Role == piece.Post {
			return append(out, rackAlong(in, forwards, "rack forwards", "forwards")...)
		}
	}
	return out
}

// rackAlong is the same for one way.
func rackAlong(in Input, u int, id, word string) []work.Finding {
	c, ok := carcaseOf(in, u)
	if !ok {
		return nil
	}
	var out []work.Finding
	bare, bareOK := c.pushed(nil)
	p, back, hasPanel := c.panel(in)
	if u == forwards {
		back, hasPanel = nil, false
	}
	whole, wholeOK := bare, bareOK
	if hasPanel {
		whole, wholeOK = c.pushed(&p)
	}
	sources := append([]trace.Num(nil), c.parts...)
	if back != nil {
		sources = append(sources, back.Thick, back.Length, back.Width)
	}
	f := work.Finding{ID: id, Rule: "FRAME-05", Verdict: work.Fine, Title: "racking " + word, Unit: "mm", Path: "body", Chapter: "check",
		Limit: trace.Step(c.high*frame.LeanSeen, sources...)}
	if back != nil {
		f.Path = back.Path
	}
	if !wholeOK {
		f.Verdict = work.Stop
		f.Limit = trace.Const(1)
		f.Value = trace.Step(0, sources...)
		f.Unit = "1"
		f.Text = say.F("Nothing keeps it from folding up when it is pushed {}: it has no back there, and its joints hold no corner square.", word)
		f.Mends = []work.Mend{{Text: say.F("give it a back, fastened all round")}, {Text: say.F("glue its corners, or brace them")}}
		return append(out, f)
	}
	sway := c.sway(whole)
	f.Value = trace.Step(sway, sources...)
	f.Text = c.words(in, word, sway, bare, bareOK, hasPanel)
	kg := 0.0
	for _, m := range append(append([]work.MassLine(nil), in.Masses...), in.Contents...) {
		kg += m.Mass.V
	}
	lean, reserve := frame.Lean(frame.Push, sway, c.high, kg)
	f.Verdict = leanVerdict(lean, reserve)
	if reserve < frame.ReserveStop {
		f.Text = append(f.Text, say.F(" It is only {} times as stiff as its own weight and load would need: it may fold up.", say.Num(reserve, 1))...)
	}
	if f.Verdict != work.Fine {
		f.Mends = []work.Mend{{Text: say.F("higher rails, or a second one lower down")}}
		if u == sideways {
			f.Mends = backMends(c, in, back)
		}
	}
	out = append(out, f)
	strain := c.strained(whole, sources)
	strain.ID, strain.Title = id+"/joints", "moments in the joints, pushed "+word
	return append(out, strain)
}

func leanVerdict(lean, reserve float64) work.Verdict {
	switch {
	case lean > frame.LeanStop || reserve < frame.ReserveStop:
		return work.Stop
	case lean > frame.LeanSeen:
		return work.Look
	}
	return work.Fine
}

// pushed solves the carcase under the push at its head.
func (c *carcase) pushed(p *frame.Panel) (frame.Solution, bool) {
	f := c.frame
	for _, h := range c.heads {
		f.Loads = append(f.Loads, frame.Load{Node: h, Force: r3.Vec{X: frame.Push / float64(len(c.heads))}})
	}
	if p != nil {
		f.Panels = []frame.Panel{*p}
	}
	s, err := f.Solve()
	if err != nil || c.sway(s) > c.high {
		return s, false
	}
	return s, true
}

// sway is how far the heads go, mm.
func (c *carcase) sway(s frame.Solution) float64 {
	most := 0.0
	for _, h := range c.heads {
		most = math.Max(most, math.Abs(s.Moves[h][0]))
	}
	return most
}

func (c *carcase) words(in Input, word string, sway float64, bare frame.Solution, bareOK, hasPanel bool) say.Sentence {
	s := say.F("Pushed {} at its top with {} it leans {} over {}", word, newtons(frame.Push), leant(sway), say.Len(c.high, 0))
	switch {
	case !hasPanel:
		s = append(s, say.F("; it has no back that would hold it")...)
	case !bareOK:
		s = append(s, say.F("; without its back it would fold up")...)
	default:
		s = append(s, say.F("; without its back {}", say.Len(c.sway(bare), 1))...)
	}
	s = append(s, say.F(". More than {} is felt as a wobble.", say.Len(c.high*frame.LeanSeen, 1))...)
	for _, q := range in.Piece.Parts {
		if q.Role == piece.Strip && !q.InPlan() {
			return append(s, say.F(" Its bent corners are taken as hinges: what shut and glued kerfs hold is not known.")...)
		}
	}
	return s
}

// backMends computes what a back would do, or a thicker one.
func backMends(c carcase, in Input, back *piece.Part) []work.Mend {
	var out []work.Mend
	p, _, ok := c.panel(in)
	if !ok && back == nil {
		if q, good := c.tryBack(in); good {
			s, solved := c.pushed(&q)
			if solved {
				out = append(out, work.Mend{Text: say.F("a plywood back of {} screwed all round: it then leans {}", say.Len(6, 0), say.Len(c.sway(s), 1)), Path: "back", New: "on"})
			}
		}
	}
	if ok {
		p.Shear *= 2
		if s, solved := c.pushed(&p); solved {
			out = append(out, work.Mend{Text: say.F("a back twice as stiff, thicker or screwed twice as close: it then leans {}", say.Len(c.sway(s), 1))})
		}
	}
	return append(out, work.Mend{Text: say.F("fix it to the wall by its top: it then cannot lean")})
}

// tryBack is the back that the carcase might have: 6 mm of plywood, screwed on.
func (c *carcase) tryBack(in Input) (frame.Panel, bool) {
	trial := in
	p := *in.Piece
	q := &piece.Part{ID: "back?", Role: piece.BackPanel, Stock: trialBack, Length: in.Piece.Width, Width: in.Piece.Height, Thick: trace.Const(6), Pose: r3.Identity()}
	p.Parts = append(append([]*piece.Part(nil), p.Parts...), q)
	trial.Piece = &p
	panel, _, ok := c.panel(trial)
	return panel, ok
}

// strained tells the joint that is given most of what it bears.
func (c *carcase) strained(s frame.Solution, sources []trace.Num) work.Finding {
	worst, which, other := 0.0, "", ""
	stress, bent := 0.0, ""
	for i, b := range c.bars {
		for end, m := range [2]float64{math.Abs(s.Ends[i][5]), math.Abs(s.Ends[i][11])} {
			if may := b.moment[end]; may > 0 && !math.IsInf(may, 1) && m/may > worst {
				worst, which, other = m/may, b.stick.part.Name, b.joint[end]
			}
			if u := m / (b.stick.wide * b.stick.high * b.stick.high / 6) / (1.5 * b.stick.m.strength); u > stress {
				stress, bent = u, b.stick.part.Name
			}
		}
	}
	f := work.Finding{ID: "rack/joints", Rule: "FRAME-04", Verdict: work.Fine, Title: "moments in the joints", Value: trace.Step(worst, sources...),
		Limit: trace.Const(1), Unit: "1", Path: "joints", Chapter: "join"}
	if which == "" {
		f.Text = say.F("Its back takes the whole push: the joints bear nothing of it.")
		return f
	}
	f.Text = say.F("Under the same push the most strained joint, {} in {}, bears {} of what it may; bending in {} comes to {} of what it may.", say.Name(which), say.Name(other),
		share(worst), say.Name(bent), share(stress))
	switch {
	case worst > 2 || stress > 1:
		f.Verdict = work.Stop
	case worst > 1:
		f.Verdict = work.Look
	}
	if f.Verdict != work.Fine {
		f.Mends = []work.Mend{{Text: say.F("a back, fastened all round, takes the push off the joints")}, {Text: say.F("a joint of another kind there, glued")}}
	}
	return f
}

// legs judges what stands on legs: they are pushed sideways and forwards.
func legs(in Input) []work.Finding {
	var out []work.Finding
	for _, d := range []struct {
		axis int
		id   string
		word string
	}{{0, "legs/sideways", "sideways"}, {2, "legs/forwards", "forwards"}} {
		if f, ok := legsAlong(in, d.axis, d.word); ok {
			f.ID = d.id
			out = append(out, f)
		}
	}
	return out
}

// legsAlong takes all legs as one: cantilevers from the body that share the
// push, each joint of legs or their rails with the body a spring.
func legsAlong(in Input, axis int, word string) (work.Finding, bool) {
	var spring, may, stiff, resist, tall float64
	var sources []trace.Num
	kg, path := 0.0, ""
	n := 0
	group := map[string]bool{}
	for _, q := range in.Piece.Parts {
		if q.Role == piece.Leg || q.Role == piece.LegRail {
			group[q.ID] = true
		}
		if q.Role != piece.Leg || q.Stock == nil {
			continue
		}
		m := substanceOf(q.Stock, q.Stock.FaceVeneer.V, q.Stock.InnerVeneer.V, false)
		lo, hi := reachOf(q)
		if !m.known || hi[1]-lo[1] < 10 {
			continue
		}
		n++
		deep, wide := hi[axis]-lo[axis], hi[2-axis]-lo[2-axis]
		stiff += m.e * wide * deep * deep * deep / 12
		resist += wide * deep * deep / 6 * 1.5 * m.strength
		tall, path = math.Max(tall, hi[1]-lo[1]), q.Path
		sources = append(sources, q.Length, q.Width, q.Thick, q.Origin[0], q.Origin[1], q.Origin[2])
	}
	if n == 0 || tall <= 0 {
		return work.Finding{}, false
	}
	for i := range in.Piece.Joints {
		k, m := legSpring(in.Piece, &in.Piece.Joints[i], group, axis)
		spring, may = spring+k, may+m
	}
	for _, l := range append(append([]work.MassLine(nil), in.Masses...), in.Contents...) {
		kg += l.Mass.V
	}
	f := work.Finding{Rule: "FRAME-06", Verdict: work.Fine, Title: "legs pushed " + word, Unit: "mm", Path: path, Chapter: "check", Limit: trace.Step(tall*frame.LeanSeen*4, sources...)}
	if spring <= 0 {
		f.Verdict, f.Value = work.NotCovered, trace.Step(0, sources...)
		f.Text = say.F("How the legs are held is not known: whether they give when it is pushed {} is not checked.", word)
		return f, true
	}
	// One leg that is as stiff, and as wide, as all of them.
	moment := frame.Push * tall
	sway := moment*tall*tall/(3*stiff) + moment*tall/spring
	lean, reserve := frame.Lean(frame.Push, sway, tall, kg)
	f.Value = trace.Step(sway, sources...)
	f.Text = say.F("Pushed {} with {} the {} legs, {} high, give by {}; the joints that hold them bear {} of what they may, their wood {}.", word, newtons(frame.Push), n,
		say.Len(tall, 0), say.Len(sway, 1), share(moment/may), share(moment/resist))
	switch {
	case lean > 4*frame.LeanStop || reserve < frame.ReserveStop || moment > 2*may || moment > resist:
		f.Verdict = work.Stop
	case lean > 4*frame.LeanSeen || moment > may:
		f.Verdict = work.Look
	}
	if f.Verdict != work.Fine {
		f.Mends = []work.Mend{{Text: say.F("stouter or shorter legs")}, {Text: say.F("a rail or a brace between the legs, across that push")}, {Text: say.F("glue what is only screwed")}}
	}
	return f, true
}

// legSpring is what a joint of a leg, or of a leg's rail, adds: pushed along x
// what stands on the body's edge holds by its thickness; along z a leg holds by
// its breadth and by its lap with its rail.
func legSpring(p *piece.Piece, j *piece.Joint, group map[string]bool, axis int) (spring, moment float64) {
	a, b := p.Part(j.A), p.Part(j.B)
	if a == nil || b == nil || !group[a.ID] && !group[b.ID] {
		return 0, 0
	}
	leg, other := b, a
	if !group[leg.ID] || leg.Role == piece.LegRail && a.Role == piece.Leg {
		leg, other = a, b
	}
	m := substance{}
	if leg.Stock != nil {
		m = substanceOf(leg.Stock, leg.Stock.FaceVeneer.V, leg.Stock.InnerVeneer.V, false)
	}
	lapped := group[other.ID]
	if !m.known || lapped && axis == 0 || leg.Role == piece.LegRail && axis == 2 {
		return 0, 0
	}
	lo, hi := reachOf(leg)
	wide, high := hi[2-axis]-lo[2-axis], hi[axis]-lo[axis]
	if lapped {
		lo, hi = reachOf(other)
		high = hi[1] - lo[1]
	}
	return frame.Joint(j.Kind, j.Glued, wide, high, 1.5*m.strength)
}

// share prints a share of what is allowed.
func share(v float64) say.Sentence {
	if v < 0.01 {
		return say.F("less than {}", say.Percent(0.01, 0))
	}
	return say.Percent(v, 0)
}

// leant prints how far it leans.
func leant(mm float64) say.Sentence {
	if mm < 0.05 {
		return say.F("less than {}", say.Len(0.1, 1))
	}
	return say.F("{}", say.Len(mm, 1))
}

// newtons prints a force.
func newtons(n float64) say.Quantity { return say.Quantity{V: n, Dim: units.Force} }

// trialBack is the stock of a back that is tried where there is none.
var trialBack = &design.Stock{Name: "plywood 6", Kind: design.Plywood, Species: "birch", Thickness: design.Spread{Mean: trace.Const(6)}}
