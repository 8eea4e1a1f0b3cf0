package meet

import (
	"fmt"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// fail notes a part that could not be asked.
func (m *meeting) fail(part string, err error) {
	m.Findings = append(m.Findings, work.Finding{
		ID: fmt.Sprintf("meet/unasked %d", len(m.Findings)+1), Rule: ClashRule.ID, Verdict: work.NotCovered,
		Title: "a part that can't be looked at as a solid", Unit: "mm", Part: part, Chapter: "join",
		Text: say.F("{} can't be looked at as a solid, so that nothing is said of what it touches: {}.", m.name(part), err.Error()),
	})
}

func (m *meeting) findings() []work.Finding {
	return append(append(m.clashFindings(), m.gapFindings()...), m.looseFindings()...)
}

func (m *meeting) clashFindings() []work.Finding {
	var out []work.Finding
	for _, c := range m.Clashes {
		f := work.Finding{
			ID: "meet/" + c.A + " and " + c.B, Rule: ClashRule.ID, Verdict: work.Stop, Title: "two parts in one place",
			Value: trace.Const(c.Reach), Limit: trace.Const(Clear + c.Allowed), Unit: "mm", Part: c.B, Path: m.path(c.A, c.B), Chapter: "join",
			Text: say.F("{} and {} take the same room: they reach {} into each other, {} mm³ in all, about {}.",
				m.name(c.A), m.name(c.B), say.Len(c.Reach, 2), say.Num(c.Volume, 0), m.place(c.Center)),
		}
		if c.Allowed > 0 {
			f.Text = append(f.Text, say.F(" Their press fit asks for {}.", say.Len(c.Allowed, 2))...)
		}
		f.Mends = []work.Mend{{Text: say.F("make the cut in {} wider or deeper, or {} smaller, by {}", m.name(c.A), m.name(c.B), say.Len(c.Reach-c.Allowed, 2))}}
		out = append(out, f)
	}
	if len(out) == 0 && len(m.bodies) > 0 {
		out = append(out, work.Finding{
			ID: "meet/room", Rule: ClashRule.ID, Verdict: work.Fine, Title: "room for every part",
			Limit: trace.Const(Clear), Unit: "mm", Path: "joints", Chapter: "join",
			Text: say.F("No two of the {} parts take the same room: taken as solids with all their cuts, in their places, none reaches into another.", len(m.bodies)),
		})
	}
	return out
}

// gapFindings tells of each joint that is open, and of the rest in one line.
func (m *meeting) gapFindings() []work.Finding {
	var out []work.Finding
	rests, widest := 0, 0.0
	for _, w := range m.Meetings {
		j := &m.piece.Joints[m.joint(w.Joint)]
		switch {
		case w.Floats && (hangs(j.Kind) || w.Area > 0):
		case w.Rests && w.Gap > Touch:
			v := work.Look
			if w.Area == 0 && w.Gap > Open {
				v = work.Stop
			}
			out = append(out, m.gapFinding(w, j, v,
				say.F("{} stands off {} by {} where it should come to rest in its {} joint.", m.name(w.B), m.name(w.A), say.Len(w.Gap, 2), j.Kind)))
		case w.Area == 0:
			out = append(out, m.gapFinding(w, j, work.Stop,
				say.F("{} is to meet {} in a {} joint, and no face of the one touches a face of the other.", m.name(w.B), m.name(w.A), j.Kind)))
		default:
			rests++
			widest = max(widest, w.Gap)
		}
	}
	if rests > 0 {
		out = append(out, work.Finding{
			ID: "meet/joints", Rule: GapRule.ID, Verdict: work.Fine, Title: "joints that touch",
			Value: trace.Const(widest), Limit: trace.Const(Touch), Unit: "mm", Path: "joints", Chapter: "join",
			Text: say.F("In {} joints the parts come to rest on each other; the widest gap there is {}.", rests, say.Len(widest, 2)),
		})
	}
	return out
}

func (m *meeting) gapFinding(w Meeting, j *piece.Joint, v work.Verdict, text say.Sentence) work.Finding {
	return work.Finding{
		ID: "meet/" + w.Joint, Rule: GapRule.ID, Verdict: v, Title: "a joint that does not touch", Text: text,
		Value: trace.Const(max(0, w.Gap)), Limit: trace.Const(Touch), Unit: "mm", Part: w.B, Path: j.Path, Chapter: "join",
		Mends: []work.Mend{{Text: say.F("make {} longer, or the cut in {} less deep", m.name(w.B), m.name(w.A))}},
	}
}

func (m *meeting) looseFindings() []work.Finding {
	if len(m.bodies) == 0 {
		return nil
	}
	var out []work.Finding
	for _, ids := range m.Loose {
		names := say.Sentence{}
		for i, id := range ids {
			if i > 0 {
				names = append(names, say.F(", ")...)
			}
			names = append(names, say.F("{}", m.name(id))...)
		}
		words := "no joint of it touches, no hardware carries it, and it rests on nothing"
		if len(ids) > 1 {
			words = "no joint of theirs with other parts touches, no hardware carries them, and they rest on nothing"
		}
		out = append(out, work.Finding{
			ID: "meet/loose " + ids[0], Rule: HoldRule.ID, Verdict: work.Stop, Title: "a part in the air",
			Value: trace.Const(float64(len(ids))), Unit: "1", Part: ids[0], Path: m.part(ids[0]).Path, Chapter: "join",
			Text: say.F("Nothing holds {}: {}.", names, words),
		})
	}
	if len(out) == 0 {
		out = append(out, work.Finding{
			ID: "meet/held", Rule: HoldRule.ID, Verdict: work.Fine, Title: "nothing in the air", Unit: "1", Path: "joints", Chapter: "join",
			Text: say.F("Every part is held: by a joint that touches, by pins, hinges or slides, or by what it rests on."),
		})
	}
	return out
}

func (m *meeting) part(id string) *piece.Part { return m.piece.Part(id) }

func (m *meeting) name(id string) say.Span {
	if p := m.part(id); p != nil && p.Name != "" {
		return say.Name(p.Name)
	}
	return say.Name(id)
}

// path is where two parts are joined in the piece file, or the second's place.
func (m *meeting) path(a, b string) string {
	for i := range m.piece.Joints {
		if j := &m.piece.Joints[i]; j.A == a && j.B == b || j.A == b && j.B == a {
			return j.Path
		}
	}
	return m.part(b).Path
}

// place tells a point of the piece from its left, floor and back.
func (m *meeting) place(at r3.Vec) say.Sentence {
	return say.F("{} from the left, {} over the floor and {} from the back", say.Len(at.X, 0), say.Len(at.Y, 0), say.Len(at.Z, 0))
}
