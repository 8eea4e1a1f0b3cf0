package web

import (
	"fmt"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// filler makes values of what the book shows and the files do not have as one
// amount or word: what a habit or a rule filled in, means of readings, lists.
type filler struct {
	d           *design.Design
	sys         units.System
	piece, shop []string          // lines
	why         map[string]string // what filled a path in, by path
	fixed       bool              // the shop file
}

func newFiller(p *plan.Plan, sys units.System, shopFixed bool) *filler {
	f := &filler{d: p.Design, sys: sys, piece: strings.Split(string(p.Source.Piece), "\n"), shop: strings.Split(string(p.Source.Shop), "\n"),
		why: map[string]string{}, fixed: shopFixed}
	for _, in := range p.Ledger.Inputs() {
		if in.Kind == trace.Habit || in.Kind == trace.Rule || in.Kind == trace.Shop {
			f.why[in.Path] = in.Text
		}
	}
	return f
}

// value is what can be changed at a path; false where nothing can.
func (f *filler) value(path string, s book.Shown) (Value, bool) {
	if f.d.Shop != nil {
		if text := design.ListText(f.shop, f.d.Shop.Places, path+".readings"); text != "" { // a mean is changed by its readings
			v := f.list(path+".readings", text, s)
			v.File, v.Fixed, v.From = ShopFile, f.fixed, f.why[path]
			return v, true
		}
		if at, ok := f.d.Shop.Places[path]; ok {
			want, ok := f.d.Shop.Wants(path)
			v := Value{Path: path, Label: label(path), File: ShopFile, Fixed: f.fixed, Choices: want.Words, From: fromLine(f.d.Shop.File, at)}
			v.Text = textAt(f.shop, at)
			if want.List {
				v.Text = design.ListText(f.shop, f.d.Shop.Places, path)
			}
			v.Shown, v.Plain = v.Text, len(want.Words) == 0
			return v, ok && v.Text != ""
		}
	}
	want, ok := f.d.Wants(path)
	if !ok && f.d.Shop != nil {
		if want, ok = f.d.Shop.Wants(path); ok { // named by a finding that asks for it to be measured
			v := f.absent(path, want, s)
			v.File, v.Fixed = ShopFile, f.fixed
			return v, true
		}
	}
	if !ok {
		return Value{}, false
	}
	if at, written := f.d.Places[path]; written && want.List {
		v := f.list(path, design.ListText(f.piece, f.d.Places, path), s)
		v.From = fromLine(f.d.File, at)
		return v, v.Text != ""
	}
	return f.absent(path, want, s), true
}

// list is a list in brackets, typed as a text.
func (f *filler) list(path, text string, s book.Shown) Value {
	v := Value{Path: path, Label: label(path), File: PieceFile, Plain: true, Text: text}
	v.Shown = s.Word
	if s.Q != nil {
		v.Shown = units.Format(s.Q.V, s.Q.Dim, f.sys, s.Q.Decimals)
	}
	return v
}

// absent is a value that stands in no file yet: it is written into the piece
// file where it is changed, and from then on the habit has no say in it.
func (f *filler) absent(path string, want design.Want, s book.Shown) Value {
	why := f.why[path]
	v := Value{Path: path, Label: label(path), File: PieceFile, Filled: true, From: why, Shown: s.Word}
	switch {
	case want.Amount && s.Q != nil:
		w := design.Written{Path: path, Num: trace.Const(s.Q.V), Dim: want.Dim, Min: want.Min, Max: want.Max}
		w.Text = units.Format(s.Q.V, want.Dim, f.d.Units, decimals(s.Q.V))
		v = amount(w, f.sys, f.d)
		v.File, v.Filled, v.From = PieceFile, true, why
	case len(want.Words) > 0:
		v.Choices = want.Words
		for _, word := range want.Words {
			if strings.HasSuffix(why, ": "+word) || strings.HasPrefix(why, word+":") || s.Word == word {
				v.Text = word
			}
		}
	case want.Amount: // no number is known
		v.Plain = true
	default:
		v.Plain, v.Text = true, s.Word
	}
	return v
}

func fromLine(file string, at diag.Range) string {
	if at.Start.Line == 0 {
		return ""
	}
	return fmt.Sprintf("line %d of %s", at.Start.Line, file)
}
