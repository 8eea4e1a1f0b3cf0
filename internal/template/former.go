package template

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/work"
)

// former is the board of a former at full size.
func (m *maker) former(a work.Aid) (Sheet, bool) {
	id, _, _ := strings.Cut(a.Bend, "/bend ")
	q := m.p.Piece.Part(id)
	if a.Kind != "former" || q == nil || len(a.Outline) == 0 {
		return Sheet{}, false
	}
	s := Sheet{
		Key: fmt.Sprintf("former-%d-%s", q.Number, strings.ReplaceAll(strings.TrimPrefix(a.Bend, id+"/bend "), " ", "-")), Part: q.Number,
		Title: fmt.Sprintf("Former, %d %s", q.Number, strings.TrimPrefix(a.Name, "former ")),
		Right: fmt.Sprintf("%d boards · %s", a.Count, m.by(a.Length.V, a.Width.V)),
		Alt:   fmt.Sprintf("One board of the former for part %d at full size: radius %s, %.2f°, with straight legs before and behind.", q.Number, m.mm(a.Radius.V, 1), a.Angle.V*180/math.Pi),
	}
	s.closed(Outline, a.Outline.Loops()...)
	s.mean(Outline, "finished outline of one board; the round is what the strip lies on")
	s.fact(fmt.Sprintf("Radius %s, %.2f°. %d boards stand across the strip with blocks between them; saw them together, or one first and the others by a pattern bit.", m.mm(a.Radius.V, 1), a.Angle.V*180/math.Pi, a.Count))
	s.fact("Wax the round, or lay paper over it, so that no glue holds the strip to it. Bore holes for clamps behind the round where yours do not reach.")
	return s, true
}

// formers are the templates of all formers.
func (m *maker) formers() []Sheet {
	var out []Sheet
	for _, a := range m.p.Aids {
		if s, ok := m.former(a); ok {
			out = append(out, s)
		}
	}
	return out
}
