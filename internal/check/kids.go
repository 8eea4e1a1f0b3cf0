package check

import (
	"fmt"
	"math"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/mech/child"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// small is up to which age, years, these checks look; choking up to which.
const small, choking = 6.0, 3.0

// kids judges what a small child can be caught on, by the youngest of the brief.
func kids(in Input) []work.Finding {
	y := in.Design.Brief.Youngest
	if y == nil || y.V > small {
		return nil
	}
	out := holes(in)
	out = append(out, gaps(in)...)
	out = append(out, vees(in)...)
	out = append(out, hingeLines(in)...)
	out = append(out, chests(in)...)
	out = append(out, edges(in), boards(in))
	if f, ok := climbs(in); ok {
		out = append(out, f)
	}
	if y.V < choking {
		out = append(out, chokes(in)...)
	}
	return out
}

// opened is one bounded opening of the piece.
type openedHole struct {
	part              *piece.Part
	words, path       string
	small, large, way trace.Num
}

// holes judges everything that is cut right through: finger holes, vents,
// windows, cut-outs of outlines.
func holes(in Input) []work.Finding {
	var all []openedHole
	for _, q := range in.Piece.Parts {
		for i := range q.Cuts {
			c := &q.Cuts[i]
			switch {
			case !c.Through || c.Face.Narrow():
			case isHole(c) && c.Diameter.V > 5.5:
				all = append(all, openedHole{q, c.For, q.Path, c.Diameter, c.Diameter, q.Thick})
			case c.Kind == piece.Window:
				a, b := c.X1.Sub(c.X0), c.Y1.Sub(c.Y0)
				all = append(all, openedHole{q, "window", q.Path, trace.Min(a, b), trace.Max(a, b), q.Thick})
			}
		}
		all = append(all, cutOuts(q)...)
	}
	var out []work.Finding
	fine, seen := 0, map[string]bool{}
	for _, h := range all {
		level, what := child.Opening(h.small.V, h.large.V, h.way.V)
		if level == child.Fine {
			fine++
			continue
		}
		id := fmt.Sprintf("opening/%s/%s/%.0f", h.part.ID, h.words, h.small.V)
		if seen[id] {
			continue
		}
		seen[id] = true
		out = append(out, openingFinding(id, h, level, what))
	}
	if fine > 0 {
		out = append(out, work.Finding{ID: "openings", Rule: "CHILD-01", Verdict: work.Fine, Title: "openings", Path: "brief.people", Chapter: "check",
			Text: say.F("Of the openings through its parts {} hold no finger, hand or head of a child, by the figures of bunk beds and playgrounds.", fine)})
	}
	return out
}

// cutOuts are the closed holes of a shaped part's outline, as boxes.
func cutOuts(q *piece.Part) []openedHole {
	var out []openedHole
	for _, s := range q.Outline {
		for _, h := range s.Holes {
			x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
			for _, v := range h.Flatten(0.001) {
				x0, x1, y0, y1 = math.Min(x0, v.X), math.Max(x1, v.X), math.Min(y0, v.Y), math.Max(y1, v.Y)
			}
			a, b := math.Min(x1-x0, y1-y0), math.Max(x1-x0, y1-y0)
			out = append(out, openedHole{q, "cut-out", q.Path, trace.Step(a, q.Length, q.Width), trace.Step(b, q.Length, q.Width), q.Thick})
		}
	}
	return out
}

func openingFinding(id string, h openedHole, level child.Level, what string) work.Finding {
	f := work.Finding{ID: id, Rule: "CHILD-01", Verdict: work.Look, Title: "opening in " + h.part.Name, Value: h.small, Unit: "mm", Part: h.part.ID, Path: h.path, Chapter: "check"}
	lo, hi := child.HeadFrom, child.HeadTo
	switch {
	case what == "finger" && level == child.Stop:
		lo, hi = child.FingerFrom, child.FingerTo
	case what == "finger":
		lo, hi = child.PlayFrom, child.PlayTo
	case what == "hand":
		lo, hi = child.LimbFrom, child.LimbTo
	}
	f.Limit = trace.Const(lo)
	f.Text = say.F("The opening in {} ({}), {} wide, can hold a child’s {}: openings of {} to {} are barred.", say.Name(h.part.Name), h.words, say.LenN(h.small, 1), what, say.Len(lo, 0), say.Len(hi, 0))
	if level == child.Stop {
		f.Verdict = work.Stop
	}
	f.Mends = []work.Mend{{Text: say.F("make it {} or less", say.Len(math.Floor(lo), 0))}, {Text: say.F("make it more than {}", say.Len(math.Ceil(hi), 0))}, {Text: say.F("close it from behind")}}
	return f
}

// gaps judges the gaps round fronts, and those between free parts and rails.
func gaps(in Input) []work.Finding {
	var out []work.Finding
	for i := range in.Design.Fronts {
		fr := &in.Design.Fronts[i]
		if fr.As == "lid" || fr.Gap.V <= 0 {
			continue
		}
		f := work.Finding{ID: "gap/" + fr.Name, Rule: "CHILD-01", Verdict: work.Fine, Title: "gap round " + fr.Name, Value: fr.Gap, Limit: trace.Const(child.FingerFrom), Unit: "mm",
			Path: fr.Path + ".gap", Chapter: "fronts", Text: say.F("The gap round {} is {}: it holds no finger up to {}.", say.Name(fr.Name), say.LenN(fr.Gap, 1), say.Len(child.FingerFrom, 0))}
		level, _ := child.Opening(fr.Gap.V, 1000, 18)
		if level != child.Fine {
			f.Verdict = work.Look
			f.Text = say.F("The gap round {} is {}: gaps of {} to {} hold a finger.", say.Name(fr.Name), say.LenN(fr.Gap, 1), say.Len(child.FingerFrom, 0), say.Len(child.FingerTo, 0))
			f.Mends = []work.Mend{{Text: say.F("leave a gap of {}", say.Len(2.5, 1)), Path: fr.Path + ".gap", New: "2.5 mm"}}
		}
		if level == child.Stop {
			f.Verdict = work.Stop
		}
		out = append(out, f)
	}
	return append(out, between3(in)...)
}

// between3 judges the gaps between free parts, posts and rails that face each
// other over some breadth.
func between3(in Input) []work.Finding {
	var qs []*piece.Part
	for _, q := range in.Piece.Parts {
		if q.Role == piece.Free || q.Role == piece.Rail || q.Role == piece.Post {
			qs = append(qs, q)
		}
	}
	var out []work.Finding
	if len(qs) > 80 {
		return nil
	}
	for i, a := range qs {
		for _, b := range qs[i+1:] {
			gap, long, deep, ok := facing(a, b)
			if !ok || parted(in.Piece, a, b) {
				continue
			}
			level, what := child.Opening(gap, long, deep)
			if level != child.Stop || what == "head" && long <= child.HeadFrom {
				continue
			}
			size := trace.Step(gap, a.Origin[0], a.Origin[1], a.Origin[2], b.Origin[0], b.Origin[1], b.Origin[2], a.Length, a.Width, b.Length, b.Width)
			h := openedHole{a, "to " + b.Name, a.Path, size, trace.Const(long), a.Thick}
			out = append(out, openingFinding("between/"+a.ID+"/"+b.ID, h, level, what))
		}
	}
	return out
}

// parted tells whether another part stands in the gap between two.
func parted(p *piece.Piece, a, b *piece.Part) bool {
	al, ah := reachOf(a)
	bl, bh := reachOf(b)
	for _, q := range p.Parts {
		if q == a || q == b || len(q.Run) > 0 {
			continue
		}
		ql, qh := reachOf(q)
		inside := true
		for k := range 3 {
			lo, hi := math.Max(al[k], bl[k]), math.Min(ah[k], bh[k]) // what both reach over
			if lo > hi {
				lo, hi = hi, lo // or the gap
			}
			inside = inside && math.Min(qh[k], hi)-math.Max(ql[k], lo) > 0.25*math.Min(hi-lo, qh[k]-ql[k])
		}
		if inside {
			return true
		}
	}
	return false
}

// facing is the gap between two parts that stand side by side, with how far they
// face each other along it and through it; ok is false where they touch, stand
// apart by more than a head, or are not in view of each other.
func facing(a, b *piece.Part) (gap, long, deep float64, ok bool) {
	al, ah := reachOf(a)
	bl, bh := reachOf(b)
	axis, n := -1, 0
	var over []float64
	for k := range 3 {
		lo, hi := math.Max(al[k], bl[k]), math.Min(ah[k], bh[k])
		if lo > hi {
			axis, gap = k, lo-hi
			n++
			continue
		}
		over = append(over, hi-lo)
	}
	if n != 1 || axis < 0 || gap < 0.5 || gap >= child.HeadTo {
		return 0, 0, 0, false
	}
	slices.Sort(over)
	return gap, over[1], over[0], over[0] > 5 && over[1] > 40
}

// hingeLines judges the space along each hinge line through the swing: while a
// leaf turns about a pin at its outer face, the gap behind it grows to its
// thickness.
func hingeLines(in Input) []work.Finding {
	var out []work.Finding
	for _, d := range doorsOf(in.Piece) {
		q := in.Piece.Part(d.id)
		gap := gapOf(in.Design, q)
		kg := massOf(in, d.id)
		open := gap.Add(q.Thick)
		f := work.Finding{ID: "hinge line/" + d.id, Rule: "CHILD-02", Verdict: work.Fine, Title: "hinge line of " + q.Name, Value: open, Limit: trace.Const(child.HingeIn), Unit: "mm",
			Part: d.id, Path: q.Path, Chapter: "fronts"}
		if child.HingeLine(gap.V, open.V, kg.V) == child.Fine {
			f.Text = say.F("Along the hinges of {} no gap holds a finger.", say.Name(q.Name))
			out = append(out, f)
			continue
		}
		f.Verdict = work.Look
		f.Text = say.F("While {} swings, the gap along its hinges goes from {} to about {}, through the {} to {} that catch a finger. Toys must not do so; every cabinet door does.",
			say.Name(q.Name), say.LenN(gap, 1), say.LenN(open, 0), say.Len(child.HingeIn, 0), say.Len(child.HingeOut, 0))
		f.Mends = []work.Mend{{Text: say.F("hinges that close slowly")}, {Text: say.F("a strip over the hinge line, inside")}, {Text: say.F("a door that slides, or none")}}
		out = append(out, f)
	}
	return out
}

// boards says what emission to ask for.
func boards(in Input) work.Finding {
	f := work.Finding{ID: "emissions", Rule: "CHILD-07", Verdict: work.Fine, Title: "what its boards give off", Value: trace.Const(child.AskFor), Limit: trace.Const(child.AskFor), Unit: "1",
		Path: "stock", Chapter: "buy",
		Text: say.F("Ask for boards with a report of no more than {} mg/m³ of formaldehyde, half of class E1.", say.Num(child.AskFor, 3))}
	for _, q := range in.Piece.Parts {
		if q.Stock != nil && (q.Stock.Kind == design.MDF || q.Stock.Kind == design.Chip) {
			f.Verdict = work.Look
			f.Text = append(f.Text, say.F(" {} is such a board that gives off more where it is cut: seal its edges.", say.Choice(q.Stock.Name, "stock"))...)
			f.Mends = []work.Mend{{Text: say.F("boards with that report, their edges sealed")}, {Text: say.F("solid wood, or plywood with that report")}}
			return f
		}
	}
	return f
}

// chokes names what comes off by hand and is small.
func chokes(in Input) []work.Finding {
	var out []work.Finding
	for _, f := range in.Piece.Fittings {
		if f.Kind != "pin" || len(out) > 0 || !child.Small(16, 8, 8) {
			continue
		}
		out = append(out, work.Finding{ID: "small parts", Rule: "CHILD-04", Verdict: work.Look, Title: "small parts", Value: trace.Const(16), Limit: trace.Const(child.CylinderDia), Unit: "mm",
			Part: f.On, Path: f.Path, Chapter: "inside", Text: say.F("A shelf pin comes out by hand and goes whole into the cylinder that small parts are tried in: a child under three can choke on it."),
			Mends: []work.Mend{{Text: say.F("fixed shelves")}, {Text: say.F("pins that are screwed or glued in, below {}", say.Len(914, 0))}}})
	}
	return out
}
