package design

import "rodwork/internal/units"

// Want is what a file takes at a path, whether or not something stands there.
type Want struct {
	Dim      units.Dim // of an amount or a count
	Min, Max float64   // its bounds, in Rodwork's own units
	Amount   bool      // an amount or a count
	List     bool      // a list in brackets, of amounts or of names
	Text     bool      // a short text
	Words    []string  // the words that may stand there, in the order of the reference
}

// Wants tells what the piece file takes at a path.
func (d *Design) Wants(path string) (Want, bool) {
	w, ok := wantOf(fieldAt(&field{kind: anObject, sub: pieceSchema}, path))
	if ok && !w.Amount && !w.List {
		w.Words, _ = d.Choices(path)
	}
	return w, ok
}

// Wants tells what the shop file takes at a path.
func (s *ShopFile) Wants(path string) (Want, bool) {
	f := fieldAt(&field{kind: anObject, sub: shopSchema}, path)
	w, ok := wantOf(f)
	if ok && f.kind == aName {
		w.Words = (&Design{Shop: s}).namesOf(f.of)
	}
	return w, ok
}

// wantOf is what a field takes. An object that may be written short takes what
// its short form takes.
func wantOf(f *field) (Want, bool) {
	if f == nil {
		return Want{}, false
	}
	w := Want{Dim: f.dim, Min: f.min, Max: f.max}
	switch f.kind {
	case aQuantity, aCount:
		w.Amount = true
	case amountList, nameList:
		w.List = true
	case aWord:
		w.Words = f.words
	case aName, nameTable, aText:
		w.Text = true
	case anObject:
		if f.sub == nil || f.sub.short == "" {
			return Want{}, false
		}
		return wantOf(f.sub.field(f.sub.short))
	default:
		return Want{}, false
	}
	return w, true
}
