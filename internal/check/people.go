package check

import (
	"math"

	"rodwork/internal/mech/frame"
	"rodwork/internal/mech/reach"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// people judges heights and masses by who uses and who carries it.
func people(in Input) []work.Finding {
	var out []work.Finding
	if f, ok := reaches(in); ok {
		out = append(out, f)
	}
	if f, ok := sits(in); ok {
		out = append(out, f)
	}
	if f, ok := lifts(in); ok {
		out = append(out, f)
	}
	if f, ok := presses(in); ok {
		out = append(out, f)
	}
	return out
}

// highest is what a grown-up reaches standing, mm: above it a step is needed
// (common practice).
const tallReach = 1900.0

// reaches tells which loaded surfaces lie within reach.
func reaches(in Input) (work.Finding, bool) {
	years := 18.0
	if y := in.Design.Brief.Youngest; y != nil && y.V >= 3 {
		years = y.V
	}
	low, high, _ := reach.Band(years)
	inside, all, top := 0, 0, trace.Num{}
	for _, c := range in.Contents {
		q := in.Piece.Part(c.Part)
		if q == nil {
			continue
		}
		all++
		y := q.Origin[1]
		if c.Y.V >= low && c.Y.V <= high {
			inside++
		}
		if y.V > top.V {
			top = y
		}
	}
	if all == 0 {
		return work.Finding{}, false
	}
	f := work.Finding{ID: "reach", Rule: "ERGO-02", Verdict: work.Fine, Title: "reach", Value: trace.Step(float64(inside), top), Limit: trace.Const(float64(all)), Unit: "1", Path: "brief.people", Chapter: "inside"}
	if years < 18 {
		f.Text = say.F("What stands on {} of {} surfaces lies between {} and {}, where a child of {} years reaches.", inside, all, say.Len(low, 0), say.Len(high, 0), say.Num(years, 0))
	} else {
		f.Text = say.F("What stands on {} of {} surfaces lies between {} and {}, where nearly everybody reaches.", inside, all, say.Len(low, 0), say.Len(high, 0))
	}
	if top.V > tallReach {
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" The highest, at {}, wants a step to stand on.", say.LenN(top, 0))...)
		f.Mends = []work.Mend{{Text: say.F("light things that are seldom used up there")}, {Text: say.F("a lower piece")}}
	}
	return f, true
}

// sits tells how a low lid or top sits, by the youngest.
func sits(in Input) (work.Finding, bool) {
	y := in.Design.Brief.Youngest
	if y == nil || y.V > 14 {
		return work.Finding{}, false
	}
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Lid && q.Role != piece.Top || len(q.Run) > 0 || q.Stock == nil {
			continue
		}
		_, hi := reachOf(q)
		if hi[1] > 500 {
			continue
		}
		s, known := reach.SeatFor(math.Max(y.V, 3))
		known = known && y.V >= 3
		f := work.Finding{ID: "seat/" + q.ID, Rule: "ERGO-01", Verdict: work.Fine, Title: q.Name + " as a seat", Value: trace.Step(hi[1], q.Origin[1], q.Thick), Limit: trace.Const(s.Seat), Unit: "mm",
			Part: q.ID, Path: q.Path, Chapter: "piece",
			Text: say.F("As a seat it is {} high; school furniture for a child of {} years has {}, a table for it {}.", say.Len(hi[1], 0), say.Num(math.Max(y.V, 3), 0), say.Len(s.Seat, 0), say.Len(s.Table, 0))}
		if !known {
			f.Text = append(f.Text, say.F(" For younger children no size was found: their seats are lower.")...)
		}
		return f, true
	}
	return work.Finding{}, false
}

// lifts tells how many carry it.
func lifts(in Input) (work.Finding, bool) {
	var kg trace.Num
	for _, m := range in.Masses {
		kg = kg.Add(m.Mass)
	}
	if kg.V <= 0 {
		return work.Finding{}, false
	}
	one := reach.OneLifts()
	f := work.Finding{ID: "lift", Rule: "LIFT-01", Verdict: work.Fine, Title: "lifting it", Value: kg, Limit: trace.Const(one), Unit: "kg", Path: "body", Chapter: "assemble"}
	switch {
	case kg.V <= one:
		f.Text = say.F("Empty it weighs {}: one person lifts it.", say.Kg(kg.V, 1))
	case kg.V <= one*reach.Two:
		f.Text = say.F("Empty it weighs {}; by the lifting equation one person lifts {}: two carry it.", say.Kg(kg.V, 1), say.Kg(one, 0))
	default:
		f.Text = say.F("Empty it weighs {}; by the lifting equation one person lifts {}, two together {}. Take off what comes off, and tip it and walk it on a blanket or a trolley, with help.",
			say.Kg(kg.V, 1), say.Kg(one, 0), say.Kg(one*reach.Two, 0))
	}
	return f, true
}

// presses judges what it stands on by the floor of the brief.
func presses(in Input) (work.Finding, bool) {
	if in.Design.Base.Kind == "wall" {
		return work.Finding{}, false
	}
	area, ns, least := 0.0, []trace.Num{}, math.Inf(1)
	for _, q := range in.Piece.Parts {
		if len(q.Run) > 0 {
			continue
		}
		lo, hi, y := footprint(q)
		if y > 1 {
			continue
		}
		a := (hi[0].V - lo[0].V) * (hi[1].V - lo[1].V)
		area, least = area+a, math.Min(least, a)
		ns = append(ns, q.Length, q.Width, q.Thick)
	}
	if area <= 0 || len(feetOf(in.Piece)) > 0 {
		return work.Finding{}, false
	}
	var kg trace.Num
	for _, m := range append(append([]work.MassLine(nil), in.Masses...), in.Contents...) {
		kg = kg.Add(m.Mass)
	}
	may := frame.FloorMay(in.Design.Brief.Place.Floor)
	p := frame.Pressure(kg.V, area)
	f := work.Finding{ID: "floor", Rule: "FRAME-07", Verdict: work.Fine, Title: "pressure on the floor", Value: trace.Step(p, append(ns, kg)...), Limit: trace.Const(may), Unit: "MPa",
		Path: "brief.place", Chapter: "check", Text: say.F("Full it presses the floor with {} on the mean, where {} leave no mark.", kilopascals(p), kilopascals(may))}
	if p > may {
		f.Verdict = work.Look
		f.Mends = []work.Mend{{Text: say.F("broader feet, or a glide of felt under each")}}
	}
	return f, true
}

func kilopascals(p float64) say.Sentence { return say.F("{} kPa", say.Num(1000*p, 0)) }
