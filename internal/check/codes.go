package check

import (
	"math"

	"rodwork/internal/mech/stability"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// published are the tests that the parties of a search stand for.
var published = []struct{ key, words string }{
	{"child", "ASTM F2057-23’s load of 60 lb on what is open, with a carpet’s edge under the rear"},
	{"pull", "ASTM F2057-23’s pull of 10 lbf at the highest hand-hold"},
	{"lean", "EN 16122’s force on the top, 50 mm behind its edge"},
}

// codes tells the worst state of each published test, and the moment of the
// American rule of 2022, beside each other. They say what was computed with
// their figures, no more.
func (a *arena) codes(ps []party) (work.Finding, bool) {
	f := work.Finding{ID: "stand/codes", Rule: "STAND-04", Verdict: work.Fine, Title: "standing, by published figures", Limit: trace.Const(1), Unit: "1", Path: "base", Chapter: "check"}
	said := false
	for _, t := range published {
		w, _, ok := a.gravest(ps, t.key)
		if !ok {
			continue
		}
		if used := w.stance.used(w.edge); !said || used.V > f.Value.V {
			f.Value = used
		}
		if said {
			f.Text = append(f.Text, say.Span{Text: "; "})
		} else {
			f.Text = say.F("With the figures of published tests, in the worst state of each, what tips over what holds is: ")
		}
		f.Text = append(f.Text, say.F("{}: {}", t.words, say.Num(w.used, 2))...)
		said = true
	}
	m, need, ok := a.moments()
	if ok {
		f.Text = append(f.Text, say.F("; the moment of 16 CFR 1261 of 2022, which never took effect: {} N·m where it has {}", say.Num(need/1000, 0), say.Num(m/1000, 0))...)
	}
	f.Text = append(f.Text, a.scope()...)
	f.Text = append(f.Text, say.F(" Under {} it holds. Tests are made on the finished piece, by their whole text; shelves, benches and chests lie outside some of them.", say.Num(1, 0))...)
	if f.Value.V >= 1 {
		f.Verdict = work.Look
		f.Mends = []work.Mend{{Text: say.F("anchor it to the wall through a solid rail, at two points or more, as local rules ask")}}
	}
	return f, said
}

// scope says whether the American standard speaks of a piece of this size at all
// (STAND-05).
func (a *arena) scope() say.Sentence {
	shut := map[string]float64{} // share of a space's room that counts
	for i := range a.in.Design.Fronts {
		for _, c := range a.in.Design.Fronts[i].Covers {
			if shut[c] = 0.5; a.in.Design.Fronts[i].As == "drawer" {
				shut[c] = 1
			}
		}
	}
	volume, kg := 0.0, 0.0
	for i := range a.in.Piece.Spaces {
		s := &a.in.Piece.Spaces[i]
		volume += shut[s.Name] * s.Size[0].V * s.Size[1].V * s.Size[2].V * 1e-6
	}
	for _, m := range a.in.Masses {
		kg += m.Mass.V
	}
	switch {
	case volume == 0:
		return say.F(". It has neither doors nor drawers: ASTM F2057-23 leaves such pieces out (clause 1.2).")
	case stability.InScope(a.in.Piece.Height.V, kg, volume):
		return say.F(". With {} of height, {} and {} dm³ behind doors and in drawers it is of the size that ASTM F2057-23 takes in, if it is for clothes (clause 1.1).",
			say.Len(a.in.Piece.Height.V, 0), say.Kg(kg, 1), say.Num(volume, 0))
	}
	return say.F(". With {} of height, {} and {} dm³ behind doors and in drawers it is under the size from which ASTM F2057-23 takes in furniture for clothes (clause 1.1); low pieces tip too.",
		say.Len(a.in.Piece.Height.V, 0), say.Kg(kg, 1), say.Num(volume, 0))
}

// moments are the least moment, N·mm, that holds the piece with all open and a
// carpet's edge under its rear, and what the rule of 2022 would ask of it.
func (a *arena) moments() (holds, asks float64, ok bool) {
	s := a.stance(alone, floors[1], a.allOpen())
	o, err := s.state().About("front")
	if err != nil {
		return 0, 0, false
	}
	in := map[string]float64{"hold": math.Min(a.in.Piece.Height.V, 5000)}
	for _, t := range a.things {
		for _, c := range t.choices {
			if c.door == nil || !c.door.drawer && c.door.angle != math.Pi/2 {
				continue
			}
			_, z := c.door.edge()
			key := "door"
			if c.door.drawer {
				key = "drawer"
			}
			in[key] = math.Max(in[key], math.Max(0, z.V-a.ground.front.V))
		}
	}
	r, err := stability.Rules[3].Run(in)
	if err != nil || stability.Rules[3].ID != "STAND-04" {
		return 0, 0, false
	}
	for _, x := range r {
		if x.Name == "moment" {
			return math.Max(0, o.Net), 1000 * x.Value, true
		}
	}
	return 0, 0, false
}

// allOpen picks every leaf square and every drawer out, empty.
func (a *arena) allOpen() []int {
	picks := make([]int, len(a.things))
	for i, t := range a.things {
		for k, c := range t.choices {
			if c.door != nil && (c.door.drawer || c.door.angle == math.Pi/2) {
				picks[i] = k
				break
			}
		}
	}
	return picks
}

// anchorHigh is how far under the top the anchor sits, mm.
const anchorHigh = 50.0

// anchorWords say what the anchor must hold against the worst state.
func anchorWords(in Input, at found) say.Sentence {
	o, err := at.stance.state().About(at.edge)
	if err != nil || at.edge != "front" {
		return nil
	}
	force := stability.Anchor(o.Holds, o.Tips, in.Piece.Height.V-anchorHigh)
	least := 60 * 0.45359237 * stability.Gravity
	if force <= 0 {
		return say.F(" In the worst state found it stands without an anchor; one should hold {} all the same (ASTM F3096-23, abstract).", newtons(math.Ceil(least)))
	}
	return say.F(" In the worst state found an anchor {} under the top must hold {}, at one and a half times what is needed to balance it; each should bear no less than {} (ASTM F3096-23, abstract).",
		say.Len(anchorHigh, 0), newtons(math.Ceil(force)), newtons(math.Ceil(least)))
}
