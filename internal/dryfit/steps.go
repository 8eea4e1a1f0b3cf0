package dryfit

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// steps writes the moves as steps. A set that did not come apart is told part
// by part, so that none is lost.
func (s *search) steps() []work.Step {
	var out []work.Step
	var moves []move
	for _, m := range s.moves {
		if m.how == first && len(m.parts) > 1 {
			for _, i := range m.parts {
				one := m
				one.parts = []int{i}
				moves = append(moves, one)
			}
			continue
		}
		moves = append(moves, m)
	}
	s.moves = moves
	for _, m := range moves {
		lead := s.lead(m)
		st := work.Step{Number: len(out) + 1, Part: s.p.Parts[lead].ID, Move: word(m), Text: s.text(m, lead)}
		if m.how == straight || m.how == hung {
			st.Dir = m.dir.vec()
		}
		for _, i := range m.into {
			st.Into = append(st.Into, s.p.Parts[i].ID)
		}
		for _, n := range m.joints {
			st.Joints = append(st.Joints, s.joints[n].ID)
		}
		out = append(out, st)
	}
	return out
}

// lead is the part that a move is told by: the one of a set with most joints in
// the move, the first of them.
func (s *search) lead(m move) int {
	count := map[int]int{}
	for _, n := range m.joints {
		count[s.joints[n].a]++
		count[s.joints[n].b]++
	}
	best := m.parts[0]
	for _, i := range m.parts {
		if q := s.p.Parts[i]; q.Of == "" && (count[i] > count[best] || s.p.Parts[best].Of != "") {
			best = i
		}
	}
	return best
}

// word names the way of a move as a joiner would.
func word(m move) string {
	switch m.how {
	case first:
		return "first"
	case wrapped:
		return "wrapped round"
	}
	switch m.dir {
	case dir{1, -1}:
		return "down"
	case dir{1, 1}:
		return "up"
	case dir{0, 1}:
		return "from the left"
	case dir{0, -1}:
		return "from the right"
	case dir{2, 1}:
		return "from behind"
	case dir{2, -1}:
		return "from the front"
	}
	return "into place"
}

// text is the one sentence of a step.
func (s *search) text(m move, lead int) say.Sentence {
	q := s.p.Parts[lead]
	what := say.Sentence{say.Name(q.Name)}
	if len(m.parts) > 1 {
		var with []int
		for _, i := range m.parts {
			if i != lead {
				with = append(with, i)
			}
		}
		what = say.F("{}, with {} on it,", what, s.names(with))
	}
	switch m.how {
	case first:
		return say.F("Begin with {}.", what)
	case wrapped:
		return say.F("{} is wrapped round: each flat comes to rest square on what it meets, {}{}.", what, s.names(m.into), s.depth(m))
	case hung:
		return s.hungText(m, what, q)
	}
	return say.F("{} goes {} {}{}.", what, word(m), s.meets(m), s.depth(m))
}

// meets tells what a move meets and how: into what receives it, over what it
// receives, against the rest.
func (s *search) meets(m move) say.Sentence {
	mine := newSet(len(s.p.Parts))
	for _, i := range m.parts {
		mine.add(i)
	}
	words := []string{"into", "over", "against"}
	by := map[string]set{}
	for _, n := range m.joints {
		j := s.joints[n]
		word, other := "into", j.a
		if mine.has(j.a) {
			word, other = "over", j.b
		}
		switch j.Kind {
		case "housing", "rabbet", "groove", "notch":
		default:
			word = "against"
		}
		if by[word] == nil {
			by[word] = newSet(len(s.p.Parts))
		}
		by[word].add(other)
	}
	var out say.Sentence
	for _, w := range words {
		if by[w] == nil {
			continue
		}
		if len(out) > 0 {
			out = append(out, say.Span{Text: ", "})
		}
		out = append(out, say.F("{} {}", w, s.names(by[w].sorted()))...)
	}
	return out
}

func (s *search) hungText(m move, what say.Sentence, q *piece.Part) say.Sentence {
	kind := 9
	for _, n := range m.joints {
		kind = min(kind, hangRank(s.joints[n].Kind))
	}
	late := say.Sentence{}
	if q.Late {
		late = say.F(" Measure the opening and cut it to that first.")
	}
	switch kind {
	case 0:
		return say.F("After the glue: {} is screwed to {}.{}", what, s.names(m.into), late)
	case 1:
		return say.F("After the glue: {} is laid on its pins.{}", what, late)
	case 2:
		return say.F("After the glue: {} is run in on its slides.{}", what, late)
	case 3:
		return say.F("After the glue: {} is hung on its hinges.{}", what, late)
	}
	if len(m.into) == 0 {
		return say.F("{} is set in place.{}", what, late)
	}
	return say.F("{} is set to {}.{}", what, s.names(m.into), late)
}

// names joins part names with commas and 'and'.
func (s *search) names(ix []int) say.Sentence {
	var out say.Sentence
	for k, i := range ix {
		switch {
		case k == 0:
		case k == len(ix)-1:
			out = append(out, say.Span{Text: " and "})
		default:
			out = append(out, say.Span{Text: ", "})
		}
		out = append(out, say.Name(s.p.Parts[i].Name))
	}
	return out
}

// depth tells how deep the joints of a move are, where they all are the same.
func (s *search) depth(m move) say.Sentence {
	var deep float64
	kind := ""
	for _, n := range m.joints {
		j := s.joints[n]
		if j.Depth.V <= 0 || deep > 0 && math.Abs(j.Depth.V-deep) > 0.05 || kind != "" && kind != j.Kind {
			return nil
		}
		deep, kind = j.Depth.V, j.Kind
	}
	if deep == 0 {
		return nil
	}
	return say.F(", {} deep in the {}", say.Len(deep, 1), kind)
}

// group numbers the glue-ups: each sub-assembly is one, a wrapped shell is one,
// and the body is one or, where the last clamp would be on too late, several.
func (s *search) group(steps []work.Step, d *design.Design) {
	n, last := 0, -1
	c, timed := newClock(s, d)
	var mine []work.Step
	fresh := true
	for i, m := range s.moves {
		if m.how == hung {
			continue
		}
		glued := gluedArea(s.p, steps[i].Joints) > 0
		late := timed && !fresh && glued && c.long(append(mine, steps[i]))
		if m.sub != last || m.how == wrapped && !fresh || late {
			n, last, mine, fresh = n+1, m.sub, nil, true
		}
		mine = append(mine, steps[i])
		fresh = fresh && !glued
		steps[i].Group = n
		if m.how == wrapped {
			last = -1 // what comes after the wrap is glued when it is dry
		}
	}
	unglueAlone(steps, s.p)
}

// unglueAlone takes the number off a group in which nothing is glued, and
// closes the gaps.
func unglueAlone(steps []work.Step, p *piece.Piece) {
	glued := map[int]bool{}
	for _, s := range steps {
		if gluedArea(p, s.Joints) > 0 {
			glued[s.Group] = true
		}
	}
	next := map[int]int{}
	for i := range steps {
		g := steps[i].Group
		switch {
		case g == 0:
		case !glued[g]:
			steps[i].Group = 0
		default:
			if next[g] == 0 {
				next[g] = len(next) + 1
			}
			steps[i].Group = next[g]
		}
	}
}

func gluedArea(p *piece.Piece, ids []string) float64 {
	area := 0.0
	for _, id := range ids {
		for i := range p.Joints {
			if p.Joints[i].ID == id && p.Joints[i].Glued {
				area += p.Joints[i].Area.V
			}
		}
	}
	return area
}

func stuckText(ids []string) string {
	if len(ids) > 6 {
		return fmt.Sprintf("%s and %d more", join(ids[:6]), len(ids)-6)
	}
	return join(ids)
}

func join(ids []string) string {
	out := ""
	for i, id := range ids {
		switch {
		case i == 0:
		case i == len(ids)-1:
			out += " and "
		default:
			out += ", "
		}
		out += id
	}
	return out
}
