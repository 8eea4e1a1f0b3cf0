package check

import (
	"math"

	"rodwork/internal/mech/stability"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// uneven is how far a floor falls away under one side, mm (common practice; EN
// 14749's tests allow for sloping and uneven floors, its scope, read).
const uneven = 5.0

// alone is nobody near.
var alone = party{}

// partiesOf lists who can be near and what they do: a hand that pulls at the
// top, somebody who leans on it, a child that hangs on what is open, or stands
// on the front edge at the left, in the middle and at the right.
func partiesOf(in Input, a *arena) []party {
	high := in.Piece.Height
	if high.V > handHigh {
		high = trace.Step(handHigh, high)
	}
	out := []party{{words: "pulled forward at its top", test: "pull", pulls: []pull{{"a hand", handPull, high}}}}
	mid := a.ground.left.Add(a.ground.right).Scale(0.5)
	person := func(kg float64, x, y, z trace.Num) *mass {
		return &mass{name: "a person", kg: trace.Const(kg), at: [3]trace.Num{x, y, z}}
	}
	if in.Piece.Height.V <= leanHigh {
		out = append(out, party{words: "leaned on at its top", test: "lean", flat: true, shut: true,
			person: person(lean/stability.Gravity, mid, in.Piece.Height, in.Piece.Depth.Plus(-leanIn))})
	}
	for _, kg := range children(in) {
		for _, d := range append(doorsOf(in.Piece), drawersOf(in)...) {
			out = append(out, hanging(d, kg, person)...)
		}
		for _, at := range []struct {
			word string
			x    trace.Num
		}{{"at the left", trace.Num{}}, {"in the middle", mid}, {"at the right", in.Piece.Width}} {
			out = append(out, party{words: "standing on its front edge " + at.word, person: person(kg, at.x, in.Piece.Height.Scale(0.5), in.Piece.Depth)})
		}
	}
	return out
}

// hanging is a child on what is open.
func hanging(d door, kg float64, person func(kg float64, x, y, z trace.Num) *mass) []party {
	test := ""
	if kg >= testChild {
		test = "child"
	}
	if d.drawer {
		x, z := d.edge()
		half := d.width.Scale(0.5)
		return []party{{words: "hanging on " + d.id, test: test, door: d.id, person: person(kg, x, d.head, z)},
			{words: "hanging on the left end of " + d.id, door: d.id, person: person(kg, x.Sub(half), d.head, z)},
			{words: "hanging on the right end of " + d.id, door: d.id, person: person(kg, x.Add(half), d.head, z)}}
	}
	var out []party
	for _, a := range angles {
		d.angle = a
		x, z := d.edge()
		t := ""
		if a == math.Pi/2 {
			t = test
		}
		out = append(out, party{words: "hanging on " + d.id, test: t, door: d.id, angle: a, person: person(kg, x, d.head, z)})
	}
	return out
}

// words tell the state.
func (s stance) words() say.Sentence {
	switch {
	case s.act == "":
		return say.F("{}", s.name)
	case s.person == nil || s.test == "lean":
		return say.F("{}, {}", s.name, s.act)
	}
	return say.F("{}, a child of {} {}", s.name, say.Kg(s.person.kg.V, 1), s.act)
}
