package check

import (
	"fmt"
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/stability"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// What the states are tried with.
const (
	// carpet is the block that stands for a carpet's edge under the rear, mm:
	// ASTM F2057-23 as told by a test laboratory (quoted).
	carpet = 10.9
	// handPull is the level pull of the same standard, N (from memory), at the
	// highest place a hand takes hold of, up to handHigh, mm.
	handPull = 44.5
	handHigh = 1422.0
	// testChild is its child, 60 lb in kg, as told by the same laboratory.
	testChild = 27.2
	// lean is a vertical force on the top, N, 50 mm behind its front edge
	// (EN 16122:2012, 11.2.1, the place read in an extract; 750 N for a piece up to
	// 1000 mm high from memory).
	lean, leanIn, leanHigh = 750.0, 50.0, 1000.0
)

// childMass is the mass of a heavy child of an age, kg (STAND-07); younger ones
// are taken as two, older ones as eight.
func childMass(years float64) float64 {
	kg, _ := stability.ChildMass(min(max(years, 2), 8))
	return kg
}

// stands tries the piece in every state, and reports the worst of those that it
// gets into alone, of those with a person near, and what keeps it up.
func stands(in Input) []work.Finding {
	if in.Design.Base.Kind == "wall" {
		return []work.Finding{hangs(in)}
	}
	g, ok := groundOf(in.Piece)
	if !ok {
		return []work.Finding{{ID: "stand", Rule: "STAND-01", Verdict: work.NotCovered, Title: "standing", Path: "base", Chapter: "check",
			Text: say.F("Nothing of it reaches the floor: whether it stands is not checked.")}}
	}
	a := arenaOf(in, g)
	out := []work.Finding{}
	if at, ok := a.search(alone); ok {
		out = append(out, worst(in, at, a.states(alone), "stand/alone", "stands by itself"))
	}
	people := partiesOf(in, &a)
	at, n, ok := a.gravest(people, "")
	if ok {
		out = append(out, worst(in, at, n, "stand/people", "stands with people near"))
	}
	if f, ok := a.codes(people); ok {
		out = append(out, f)
	}
	return append(out, anchor(in, at, ok))
}

// gravest is the worst state of all parties, or of those of one published test,
// and the number of states that were searched. Each party is searched once.
func (a *arena) gravest(ps []party, test string) (best found, n float64, ok bool) {
	if len(a.worst) != len(ps) {
		a.worst = make([]found, len(ps))
		for i, p := range ps {
			f, have := a.search(p)
			if !have {
				f.used = -1
			}
			a.worst[i] = f
		}
	}
	best.used = -1
	for i, p := range ps {
		if test != "" && p.test != test {
			continue
		}
		n += a.states(p)
		if a.worst[i].used > best.used+1e-9 {
			best, ok = a.worst[i], true
		}
	}
	return best, n, ok
}

// children are the masses tried: the youngest's, and the test's where that one
// is heavier and a child of that age is to be thought of; none where the brief
// tells of no child.
func children(in Input) []float64 {
	y := in.Design.Brief.Youngest
	if y == nil || y.V > 14 {
		return nil
	}
	kg := childMass(y.V)
	if kg < testChild {
		return []float64{kg, testChild}
	}
	return []float64{kg}
}

// worst tells the worst state of a search.
func worst(in Input, w found, n float64, id, title string) work.Finding {
	f := work.Finding{
		ID: id, Rule: "STAND-01", Verdict: work.Fine, Title: title, Value: w.stance.used(w.edge), Limit: trace.Const(1), Unit: "1",
		Path: "base", Chapter: "check",
	}
	f.Text = say.F("The worst of {} that were searched: {}, about its {} edge. {}", ways(n), w.stance.words(), w.edge, ratioWords(f.Value.V))
	least := math.Inf(1)
	if w.used > 0 {
		least = 1 / w.used
	} else {
		f.Text = say.F("In all of {} that were searched its weight lies over its feet: nothing tips it.", ways(n))
	}
	if kg, ok := w.stance.tipLoad(w.edge); ok {
		f.Text = append(f.Text, say.F(" {} in that place would be enough to tip it.", say.Kg(kg, 1))...)
	}
	judge(in, &f, w.stance, least)
	if w.stance.own {
		f.Text = append(f.Text, drawerNote(in)...)
	}
	return f
}

// ways counts states in words: each way to fill and to open it, on each floor.
func ways(n float64) say.Sentence {
	if n > 1e6 {
		return say.F("more than a million ways to fill it, open it and stand it")
	}
	return say.F("{} ways to fill it, open it and stand it", int(n))
}

// ratioWords tell what tips against what holds.
func ratioWords(used float64) say.Sentence {
	switch {
	case used < 0.01:
		return say.F("What tips it is less than {} of what holds it.", say.Percent(0.01, 0))
	case used < 1:
		return say.F("What tips it is {} of what holds it.", say.Percent(used, 0))
	case used >= nothingHolds:
		return say.F("Nothing holds it there.")
	}
	return say.F("What tips it is {} times what holds it.", say.Num(used, 2))
}

// tipLoad is the mass, kg, that in the person's place just tips the state.
func (s stance) tipLoad(edge string) (float64, bool) {
	if s.person == nil {
		return 0, false
	}
	without := s
	without.person = nil
	p := s.person.at
	kg, err := without.state().TipLoad(edge, r3.Vec{X: p[0].V, Y: p[1].V, Z: p[2].V})
	return kg, err == nil && kg > 0 && !math.IsInf(kg, 0)
}

// judge sets verdict and mends: what tips alone must not be built so; what a
// person can tip must be anchored.
func judge(in Input, f *work.Finding, at stance, least float64) {
	switch {
	case least < 1 && at.own:
		f.Verdict = work.Stop
		f.Text = append(f.Text, say.F(" It falls over by itself.")...)
	case least < 1:
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" So it tips: it must be anchored to the wall.")...)
	case least < 1.5:
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" That is a small margin: anchor it to the wall.")...)
	default:
		return
	}
	f.Mends = append(f.Mends, work.Mend{Text: say.F("anchor it to the wall through a solid rail, at two points or more, as local rules ask")})
	if m, ok := baseMend(in, at, least); ok {
		f.Mends = append(f.Mends, m)
	}
}

// baseMend looks for the set-back of a plinth, smaller than now, at which the
// same state has a margin of 1.5, in steps of 5 mm.
func baseMend(in Input, at stance, least float64) (work.Mend, bool) {
	b := in.Design.Base
	if b.Kind != "plinth" {
		return work.Mend{}, false
	}
	for s := math.Floor((b.SetBack.V-1e-9)/5) * 5; s >= 0; s -= 5 {
		t := at
		t.ground.front = at.ground.front.Plus(b.SetBack.V - s)
		o, err := t.state().About("front")
		if err == nil && o.Margin >= 1.5 && o.Margin > least {
			return work.Mend{Text: say.F("set the plinth back by {} only", say.Len(s, 0)), Path: "base.set back", New: fmt.Sprintf("%.0f mm", s)}, true
		}
	}
	return work.Mend{}, false
}

// anchor is the advice that goes with every piece that stands, in the words of
// the standard's scope.
func anchor(in Input, at found, ok bool) work.Finding {
	f := work.Finding{ID: "stand/anchor", Rule: "STAND-01", Verdict: work.Fine, Title: "anchoring", Value: in.Piece.Height,
		Limit: trace.Const(scopeHigh), Unit: "mm", Path: "brief.place.wall", Chapter: "check"}
	what := "It is lower than {}, from where rules against tipping take in furniture for clothes."
	if in.Piece.Height.V >= scopeHigh {
		what = "It is over {} high, from where rules against tipping take in furniture for clothes."
	}
	f.Text = say.F(what, say.Len(scopeHigh, 0))
	f.Text = append(f.Text, say.F(" The states tried here are taken from such rules as a screen; they are no test to them, and shelves are outside their scope. "+
		"Low pieces tip too, and children climb: fix it to the wall as local rules ask, with fixings that suit the wall.")...)
	if ok {
		f.Text = append(f.Text, anchorWords(in, at)...)
	}
	if y := in.Design.Brief.Youngest; y != nil && y.V < 6 {
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" The brief has a child under six about.")...)
		f.Mends = []work.Mend{{Text: say.F("anchor it to the wall before the child comes near it")}}
	}
	return f
}

// scopeHigh is the height from which ASTM F2057-23 takes free-standing clothing
// storage, mm: 27 in (clause 1.1, read).
const scopeHigh = 27 * 25.4

// hangs says what a wall fixing must carry: the piece, what is in it, and a child
// on its front edge where one is about.
func hangs(in Input) work.Finding {
	var own, load, moment trace.Num
	for _, m := range in.Masses {
		own, moment = own.Add(m.Mass), moment.Add(m.Mass.Mul(m.Z))
	}
	for _, m := range in.Contents {
		load, moment = load.Add(m.Mass), moment.Add(m.Mass.Mul(m.Z))
	}
	all := own.Add(load)
	f := work.Finding{
		ID: "stand/wall", Rule: "STAND-09", Verdict: work.Look, Title: "hanging on the wall", Value: all, Unit: "kg",
		Path: "base", Chapter: "check",
		Text:  say.F("It hangs on the wall: the fixings carry {} of its own and {} of what is in it.", say.Kg(own.V, 1), say.Kg(load.V, 1)),
		Mends: []work.Mend{{Text: say.F("fix it through a solid rail at two points or more, into studs or masonry")}},
	}
	high := in.Piece.Height.V - in.Design.Base.Height.V/2
	if all.V > 0 && high > 0 {
		child := 0.0
		for _, kg := range children(in) {
			child = math.Max(child, kg)
		}
		before := (moment.V + child*in.Piece.Depth.V) / (all.V + child)
		pull, hang := stability.WallPull(all.V+child, before, high)
		if child > 0 {
			f.Text = append(f.Text, say.F(" With a child of {} on its front edge", say.Kg(child, 1))...)
		} else {
			f.Text = append(f.Text, say.Span{Text: " So"})
		}
		f.Text = append(f.Text, say.F(" they hold {} down the wall and {} out of it, all together; reckon that half of them take it.", newtons(math.Round(hang)), newtons(math.Round(pull)))...)
	}
	f.Text = append(f.Text, say.F(" What the wall bears is not computed: follow local rules, or ask who is licensed to say.")...)
	return f
}
