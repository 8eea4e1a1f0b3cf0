package book

import "rodwork/internal/say"

// act is one act of a list, with what is said below it, smaller.
type act struct {
	text  say.Sentence
	notes []say.Sentence
}

// unsourced marks what rests on the trade's habit alone.
var unsourced = say.Sentence{{Text: "common practice, no source"}}

// do is an act that the piece's own values call for.
func do(format string, args ...any) act { return act{text: say.F(format, args...)} }

// habit is an act that is good practice and no more, and says so.
func habit(format string, args ...any) act {
	return act{text: say.F(format, args...), notes: []say.Sentence{unsourced}}
}

// with adds a note to an act.
func (a act) with(format string, args ...any) act {
	a.notes = append(a.notes[:len(a.notes):len(a.notes)], say.F(format, args...))
	return a
}

// acts adds a numbered list; one without acts adds nothing.
func (w *writer) acts(id, title string, acts []act, about ...string) {
	w.actsFrom(1, id, title, acts, about...)
}

// actsFrom is acts whose first has the given number; it returns the next one.
func (w *writer) actsFrom(first int, id, title string, acts []act, about ...string) int {
	if len(acts) == 0 {
		return first
	}
	st := Steps{ID: ID(w.key + "/" + id), Title: title}
	for i, a := range acts {
		st.Steps = append(st.Steps, Step{ID: st.BlockID() + "/" + digits(i+1), Number: first + i, Text: w.alive(a.text), Notes: a.notes})
	}
	w.add(st, about...)
	return first + len(acts)
}
