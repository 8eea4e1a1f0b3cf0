package check

import (
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Shares of the thickness that a housing or a rabbet may take: a quarter to a
// third for a housing, up to a half for a rabbet (common practice).
const (
	leastShare  = 0.25
	mostHousing = 1.0 / 3
	mostRabbet  = 0.5
	shareMargin = 0.005
)

// joints holds the depth of each housing and rabbet against the thickness that
// it is cut into. Those that are as usual share one finding.
func joints(in Input) []work.Finding {
	var out []work.Finding
	usual := 0
	var deepest trace.Num
	for i := range in.Piece.Joints {
		j := &in.Piece.Joints[i]
		a := in.Piece.Part(j.A)
		if a == nil || j.Depth.V <= 0 || j.Kind != "housing" && j.Kind != "rabbet" && j.Kind != "groove" || a.Thick.V <= 0 {
			continue
		}
		most := mostHousing
		if j.Kind != "housing" {
			most = mostRabbet
		}
		share := j.Depth.Div(a.Thick)
		if share.V >= leastShare-shareMargin && share.V <= most+shareMargin {
			if usual++; share.V > deepest.V {
				deepest = share
			}
			continue
		}
		out = append(out, shareFinding(j, a, share, most))
	}
	if usual > 0 {
		out = append(out, work.Finding{
			ID: "joint/depths", Rule: ShareRule.ID, Verdict: work.Fine, Title: "depth of housings and rabbets",
			Value: deepest, Limit: trace.Const(mostRabbet), Unit: "1", Path: "joints", Chapter: "join",
			Text: say.F("{} housings, rabbets and grooves take between a quarter and a half of the thickness, housings no more than a third.", usual),
		})
	}
	return out
}

func shareFinding(j *piece.Joint, a *piece.Part, share trace.Num, most float64) work.Finding {
	f := work.Finding{
		ID: "joint/" + j.ID, Rule: ShareRule.ID, Verdict: work.Look, Title: "depth of the " + j.Kind,
		Value: share, Limit: trace.Const(most), Unit: "1", Part: j.A, Path: j.Path, Chapter: "join",
	}
	words := "it leaves little wood behind it"
	if share.V < leastShare {
		words, f.Limit = "it holds little", trace.Const(leastShare)
	}
	if share.V >= 1 {
		f.Verdict, words = work.Stop, "it goes through"
	}
	f.Text = say.F("The {} of {} is {} deep in {}, {} of its thickness: {}.", j.Kind, say.Name(j.B),
		say.LenN(j.Depth, 1), say.Name(a.Name), say.Percent(share.V, 0), words)
	want := a.Thick.V * mostHousing
	f.Mends = []work.Mend{{Text: say.F("make it {} deep, a third of the thickness", say.Len(want, 1))}}
	return f
}

// leastWeb is what two cuts from opposite faces should leave between them, mm:
// a veneer and its neighbour (common practice).
const leastWeb = 2.5

// faces finds places where cuts from both faces of a panel lie over each other,
// and tells the thinnest web of each panel.
func faces(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		web, a, b := thinnest(q)
		if a == nil {
			continue
		}
		f := work.Finding{
			ID: "web/" + q.ID, Rule: WebRule.ID, Verdict: work.Fine, Title: "cuts from both faces",
			Value: web, Limit: trace.Const(leastWeb), Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "join",
			Text: say.F("In {} a {} ({}) and a {} ({}) lie over each other and leave {} between them.",
				say.Name(q.Name), string(a.Kind), a.For, string(b.Kind), b.For, say.LenN(web, 1)),
		}
		switch {
		case web.V <= 0:
			f.Verdict = work.Stop
			f.Text = say.F("In {} a {} ({}) and a {} ({}), cut from opposite faces, meet: together they are {} deep in {}.",
				say.Name(q.Name), string(a.Kind), a.For, string(b.Kind), b.For, say.Len(q.Thick.V-web.V, 1), say.LenN(q.Thick, 1))
		case web.V < leastWeb:
			f.Verdict = work.Look
		}
		if f.Verdict != work.Fine {
			f.Mends = []work.Mend{
				{Text: say.F("move one of them clear of the other")},
				{Text: say.F("cut them {} less deep together", say.Len(leastWeb-web.V, 1))},
			}
			if m, ok := shiftMend(in, q, a, b); ok {
				f.Mends[0] = m
			} else if m, ok := hingeShift(in, q, a, b); ok {
				f.Mends[0] = m
			}
		}
		out = append(out, f)
	}
	return out
}

// thinnest is the least that two cuts from opposite faces leave of a part.
func thinnest(q *piece.Part) (web trace.Num, a, b *piece.Cut) {
	for i := range q.Cuts {
		for k := i + 1; k < len(q.Cuts); k++ {
			c, d := &q.Cuts[i], &q.Cuts[k]
			if c.Face == d.Face || c.Through || d.Through || c.Face.Narrow() || d.Face.Narrow() || !over(c, d) {
				continue
			}
			w := q.Thick.Sub(c.Depth).Sub(d.Depth)
			if a == nil || w.V < web.V-1e-9 {
				web, a, b = w, c, d
			}
		}
	}
	return web, a, b
}

// over tells whether two cuts lie over each other in the part's plane.
func over(c, d *piece.Cut) bool {
	for _, p := range spots(c) {
		for _, r := range spots(d) {
			if p.meets(r) {
				return true
			}
		}
	}
	return false
}

// spot is a rectangle, or a circle where r is set.
type spot struct{ x0, y0, x1, y1, r float64 }

func spots(c *piece.Cut) []spot {
	if c.Kind != piece.Hole && c.Kind != piece.HoleRow {
		return []spot{{min(c.X0.V, c.X1.V), min(c.Y0.V, c.Y1.V), max(c.X0.V, c.X1.V), max(c.Y0.V, c.Y1.V), 0}}
	}
	r := c.Diameter.V / 2
	n := min(max(c.Count, 1), 1000)
	out := make([]spot, 0, n)
	for i := range n {
		x, y := c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V
		out = append(out, spot{x, y, x, y, r})
	}
	return out
}

// meets tells whether two spots come nearer than their radii.
func (s spot) meets(o spot) bool {
	dx := math.Max(0, math.Max(s.x0-o.x1, o.x0-s.x1))
	dy := math.Max(0, math.Max(s.y0-o.y1, o.y0-s.y1))
	if s.r == 0 && o.r == 0 { // rectangles that share a border do not meet
		return s.x0 < o.x1-1e-6 && o.x0 < s.x1-1e-6 && s.y0 < o.y1-1e-6 && o.y0 < s.y1-1e-6
	}
	return math.Hypot(dx, dy) < s.r+o.r-1e-6
}

// hardware says what is planned and not in hand. Fittings of one name share
// what is in hand.
func hardware(in Input) []work.Finding {
	type lot struct {
		need, has int
		path      string
		on        string
	}
	var names []string
	lots := map[string]*lot{}
	for _, f := range in.Piece.Fittings {
		l := lots[f.What]
		if l == nil {
			l = &lot{has: f.InHand, path: f.Path, on: f.On}
			lots[f.What] = l
			names = append(names, f.What)
		}
		l.need += f.Count
	}
	var out []work.Finding
	for _, n := range names {
		l := lots[n]
		f := work.Finding{
			ID: "hardware/" + n, Rule: HandRule.ID, Verdict: work.Fine, Title: n, Part: l.on,
			Value: trace.Const(float64(l.has)), Limit: trace.Const(float64(l.need)), Unit: "1", Path: l.path, Chapter: "buy",
			Text: say.F("{}: {} needed, {} in hand.", say.Name(n), l.need, l.has),
		}
		if l.has < l.need {
			f.Verdict = work.Look
			f.Text = say.F("{}: {} needed, {} in hand. Holes for it are cut to its geometry: have it in hand, and measure it, before they are drilled.",
				say.Name(n), l.need, l.has)
			f.Mends = []work.Mend{{Text: say.F("buy {} more", l.need-l.has)}}
		}
		out = append(out, f)
	}
	return out
}
