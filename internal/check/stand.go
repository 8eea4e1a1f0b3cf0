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
	all := stances(in, g)
	out := []work.Finding{}
	if f, ok := worst(in, all, "stand/alone", "stands by itself", func(s stance) bool { return s.own }); ok {
		out = append(out, f)
	}
	if f, ok := worst(in, all, "stand/people", "stands with people near", func(s stance) bool { return !s.own }); ok {
		out = append(out, f)
	}
	return append(out, anchor(in))
}

// stances lists the states: contents × doors and drawers × floor, alone, pulled,
// leaned on, and with a child on it.
func stances(in Input, g ground) []stance {
	ds := append(doorsOf(in.Piece), drawersOf(in)...)
	var out []stance
	for _, load := range loadsOf(in, partMasses(in, ds), ds) {
		for _, o := range openings(ds) {
			for _, floor := range []struct {
				word  string
				block float64
			}{{"on a flat floor", 0}, {"with a carpet’s edge under its rear", carpet}} {
				s := stance{name: load.word + ", " + o.word + ", " + floor.word, ground: g, load: load, doors: o.doors, block: floor.block, own: true}
				out = append(out, s)
				out = append(out, withPeople(in, s, o.doors)...)
			}
		}
	}
	return out
}

// loadsOf are the ways in which it can be filled: empty, full, full in its upper
// half alone, and full with its drawers full as of clothes. The brief puts
// nothing into drawers.
func loadsOf(in Input, parts []mass, ds []door) []*loading {
	out := []*loading{newLoading("empty", parts)}
	full := contentMasses(in.Contents)
	all := append(append([]mass(nil), parts...), full...)
	if len(full) > 0 {
		out = append(out, newLoading("full", all))
	}
	half := append([]mass(nil), parts...)
	for _, m := range full {
		if m.at[1].V > in.Piece.Height.V/2 {
			half = append(half, m)
		}
	}
	if n := len(half) - len(parts); n > 0 && n < len(full) {
		out = append(out, newLoading("full in its upper half alone", half))
	}
	if clothes := clothesIn(ds); len(clothes) > 0 {
		word := "its drawers full"
		if len(full) > 0 {
			word = "full, its drawers too"
		}
		out = append(out, newLoading(word, append(append([]mass(nil), all...), clothes...)))
	}
	return out
}

type openingState struct {
	word  string
	doors []door
}

// openings: shut, each door or drawer open alone, all doors, all drawers, all of
// both.
func openings(ds []door) []openingState {
	out := []openingState{{word: "shut"}}
	var doors, drawers []door
	for _, d := range ds {
		out = append(out, openingState{d.id + " " + d.openWord(), []door{d}})
		if d.drawer {
			drawers = append(drawers, d)
		} else {
			doors = append(doors, d)
		}
	}
	if len(doors) > 1 {
		out = append(out, openingState{"all doors open", doors})
	}
	if len(drawers) > 1 {
		out = append(out, openingState{"all drawers pulled out", drawers})
	}
	if len(doors) > 0 && len(drawers) > 0 {
		out = append(out, openingState{"all doors and drawers open", ds})
	}
	return out
}

// withPeople adds to a state what a person does: pulls at the top edge, leans on
// the top, hangs on the outer edge of what is open, stands on the front edge.
func withPeople(in Input, s stance, open []door) []stance {
	high := in.Piece.Height
	if high.V > handHigh {
		high = trace.Step(handHigh, high)
	}
	p := s
	p.own, p.name = false, s.name+", pulled forward at its top"
	p.pulls = []pull{{"a hand", handPull, high}}
	out := []stance{p}
	if len(open) == 0 && in.Piece.Height.V <= leanHigh && s.block == 0 {
		p := s.with("", lean/stability.Gravity, in.Piece.Height, in.Piece.Depth.Plus(-leanIn), s.middle())
		p.name += ", leaned on at its top"
		out = append(out, p)
	}
	for _, kg := range children(in) {
		for _, d := range open {
			out = append(out, s.with("hanging on "+d.id, kg, d.head, d.edgeZ(), d.edgeX))
		}
		if len(open) == 0 {
			out = append(out, s.with("standing on its front edge", kg, in.Piece.Height.Scale(0.5), in.Piece.Depth, s.middle()))
		}
	}
	return out
}

// middle is half way between left and right on the ground.
func (s stance) middle() trace.Num { return s.ground.left.Add(s.ground.right).Scale(0.5) }

// with adds a person to the state, and what a child does there.
func (s stance) with(act string, kg float64, y, z, x trace.Num) stance {
	s.own, s.act = false, act
	s.person = &mass{name: "a person", kg: trace.Const(kg), at: [3]trace.Num{x, y, z}}
	return s
}

// words tell the state.
func (s stance) words() say.Sentence {
	if s.act == "" {
		return say.F("{}", s.name)
	}
	return say.F("{}, a child of {} {}", s.name, say.Kg(s.person.kg.V, 1), s.act)
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

// worst finds the least margin of the states that the filter takes.
func worst(in Input, all []stance, id, title string, take func(stance) bool) (work.Finding, bool) {
	at, edge, n := gravest(all, take)
	if n == 0 {
		return work.Finding{}, false
	}
	o, err := at.state().About(edge)
	if err != nil {
		return work.Finding{}, false
	}
	least := o.Margin
	f := work.Finding{
		ID: id, Rule: "STAND-01", Verdict: work.Fine, Title: title, Value: at.used(edge), Limit: trace.Const(1), Unit: "1",
		Path: "base", Chapter: "check",
	}
	f.Text = say.F("The worst of {} states: {}, about its {} edge. {}", n, at.words(), edge, ratioWords(f.Value.V))
	if math.IsInf(least, 1) {
		f.Text = say.F("In all of {} states its weight lies over its feet: nothing tips it.", n)
	}
	if kg, ok := at.tipLoad(edge); ok {
		f.Text = append(f.Text, say.F(" {} in that place would be enough to tip it.", say.Kg(kg, 1))...)
	}
	judge(in, &f, at, least)
	if at.own {
		f.Text = append(f.Text, drawerNote(in)...)
	}
	return f, true
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

// gravest finds the state and the edge at which most tips of what holds, of the
// states that the filter takes, and their number.
func gravest(all []stance, take func(stance) bool) (at stance, edge string, n int) {
	most := -1.0
	var buf []stability.Mass
	for _, s := range all {
		if !take(s) {
			continue
		}
		n++
		for e, used := range s.quick(&buf) {
			if used > most {
				most, at, edge = used, s, edgeNames[e]
			}
		}
	}
	return at, edge, n
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
func anchor(in Input) work.Finding {
	f := work.Finding{ID: "stand/anchor", Rule: "STAND-01", Verdict: work.Fine, Title: "anchoring", Value: in.Piece.Height,
		Limit: trace.Const(scopeHigh), Unit: "mm", Path: "brief.place.wall", Chapter: "check"}
	what := "It is lower than {}, from where rules against tipping take in furniture for clothes."
	if in.Piece.Height.V >= scopeHigh {
		what = "It is over {} high, from where rules against tipping take in furniture for clothes."
	}
	f.Text = say.F(what, say.Len(scopeHigh, 0))
	f.Text = append(f.Text, say.F(" The states tried here are taken from such rules as a screen; they are no test to them, and shelves are outside their scope. "+
		"Low pieces tip too, and children climb: fix it to the wall as local rules ask, with fixings that suit the wall.")...)
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

// hangs says what a wall fixing must carry.
func hangs(in Input) work.Finding {
	var own, load trace.Num
	for _, m := range in.Masses {
		own = own.Add(m.Mass)
	}
	for _, m := range in.Contents {
		load = load.Add(m.Mass)
	}
	return work.Finding{
		ID: "stand/wall", Rule: "STAND-01", Verdict: work.Look, Title: "hanging on the wall", Value: own.Add(load), Unit: "kg",
		Path: "base", Chapter: "check",
		Text: say.F("It hangs on the wall: the fixings carry {} of its own and {} of what is in it, and a child may hang on it. "+
			"What the wall bears is not computed: follow local rules, or ask who is licensed to say.", say.Kg(own.V, 1), say.Kg(load.V, 1)),
		Mends: []work.Mend{{Text: say.F("fix it through a solid rail at two points or more, into studs or masonry")}},
	}
}
