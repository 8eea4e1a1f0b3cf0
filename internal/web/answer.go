package web

import "rodwork/internal/units"

// Answer is what a page needs to go from one revision to another, or to a
// preview of one.
type Answer struct {
	From     int               `json:"from"` // the revision that it is a change of; 0: of none, it holds everything
	Rev      int               `json:"rev"`  // the revision shown after it; of a preview, that it is based on
	Preview  bool              `json:"preview,omitempty"`
	Behind   bool              `json:"behind,omitempty"` // what is not told here is not worked out yet
	Whole    bool              `json:"whole"`            // the files could be used
	Title    string            `json:"title,omitempty"`
	Model    string            `json:"model,omitempty"` // the mark by which the model of this state is asked for
	System   units.System      `json:"system,omitempty"`
	Currency string            `json:"currency,omitempty"`
	Sections []section         `json:"sections,omitempty"` // where their order changed
	HTML     map[string]string `json:"html,omitempty"`
	Values   map[string]Value  `json:"values,omitempty"`
	Problems []Problem         `json:"problems"`
	Word     string            `json:"word,omitempty"`    // to be said in passing
	Changes  []string          `json:"changes,omitempty"` // what a kept change brought: "sheets 2 → 3"
	Undo     bool              `json:"undo"`
	Redo     bool              `json:"redo"`
	Piece    *string           `json:"piece,omitempty"` // the text, where it changed
	Shop     *string           `json:"shop,omitempty"`
}

// answer is what leads from one view to another. shown are fragments that the
// page has from elsewhere and that must be told whatever they are. The lock is
// held.
func (s *Session) answer(from, to *view, base int, shown []string) Answer {
	a := Answer{From: base, Rev: s.rev, Whole: to.whole, Title: to.title, System: to.system, Currency: to.currency, Problems: to.problems, Word: s.word,
		Undo: len(s.past) > 0, Redo: len(s.future) > 0, HTML: map[string]string{}, Values: map[string]Value{}}
	if a.Problems == nil {
		a.Problems = []Problem{}
	}
	if from == nil || from.texts.piece != to.texts.piece {
		a.Piece = &to.texts.piece
	}
	if from == nil || from.texts.shop != to.texts.shop {
		a.Shop = &to.texts.shop
	}
	if !to.whole {
		return a // the page goes on showing the last book that there was
	}
	a.Model = to.texts.mark()
	for id, h := range to.html { // into a map again: no order shows
		if from == nil || from.html[id] != h {
			a.HTML[id] = h
		}
	}
	for _, id := range shown {
		if h, ok := to.html[id]; ok {
			a.HTML[id] = h
		}
	}
	for path, v := range to.values {
		if from == nil || !sameValue(from.values[path], v) {
			a.Values[path] = v
		}
	}
	if from == nil || !sameOrder(from.sections, to.sections) || len(shown) > 0 {
		a.Sections = to.sections
	}
	return a
}

func sameOrder(a, b []section) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].ID != b[i].ID || !sameStrings(a[i].Rows, b[i].Rows) {
			return false
		}
	}
	return true
}

func sameStrings(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func sameValue(a, b Value) bool {
	return a.Text == b.Text && a.Shown == b.Shown && a.Number == b.Number && a.Range == b.Range &&
		a.Formula == b.Formula && a.From == b.From && a.Filled == b.Filled && sameStrings(a.Names, b.Names) && sameStrings(a.Choices, b.Choices)
}

// event is a new revision, told to the pages that watch.
type event struct {
	by     string // the page that brought it about; "" the world
	answer Answer
}
