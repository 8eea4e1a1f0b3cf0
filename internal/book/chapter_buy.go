package book

import (
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// buy lists what is missing in the shop and what it costs.
func (w *writer) buy() {
	if len(w.p.Buying) == 0 {
		w.say("nothing", say.F("The buying list is empty: nothing was computed, or everything is in hand."))
		return
	}
	missing := 0
	for _, b := range w.p.Buying {
		if missingOf(b) > 0 {
			missing++
		}
	}
	if missing == 0 {
		w.say("sum", say.F("Everything that it needs is in hand. What goes into it is worth {}.", w.money(w.p.Stock)))
	} else {
		w.say("sum", say.F("{} to buy, for {}. All that goes into the piece, with what is in hand, is worth {}.",
			plural(missing, "thing is", "things are"), w.money(w.p.Cost), w.money(w.p.Stock)))
	}
	if n := len(w.p.Unpriced); n > 0 {
		w.say("unpriced", say.F("The shop file has no price for {}: the sums are too low by that.", names(w.p.Unpriced)))
	}
	if left := w.fitNoSheet(); len(left) > 0 {
		w.say("on-no-sheet", say.F("On no sheet at hand go {}: they are left out of the list and of its sums.", list(left)))
	}
	w.table(w.buyTable())
	w.say("late", w.lateNote())
	w.say("unlisted", w.unlisted())
	w.acts("choose", "When you buy", w.chooseActs())
}

// unlisted names what the piece takes and the list can't price, since the shop
// file has no place for it.
func (w *writer) unlisted() say.Sentence {
	var what []say.Sentence
	for _, s := range screwKinds(w.p.Screws) {
		what = append(what, say.F("{} screws {} × {}", number(s.Count), say.LenN(s.Size, 1).Plain(), say.LenN(s.Length, 0)))
	}
	if w.d.Finish.Kind != "" {
		what = append(what, say.Sentence{say.Name(w.d.Finish.Kind)})
	}
	what = append(what, say.Sentence{{Text: "abrasives"}}, say.Sentence{{Text: "what holds it to the wall"}})
	return say.F("Not in the list, since the shop file has no prices for it: {}.", list(what))
}

// chooseActs are what to look for in the stock that is missing.
func (w *writer) chooseActs() []act {
	var out []act
	for _, b := range w.p.Buying {
		n := missingOf(b)
		if n <= 0 || b.Unit != "sheet" && b.Unit != "stick" {
			continue
		}
		for _, s := range w.used() {
			if s.Name == b.What {
				out = append(out, do("{}: calliper it before you pay. The file has {}; another batch is another thickness, and every joint follows it.", say.Name(upper(s.Name)),
					say.LenN(s.Thickness.Mean, onSteel)))
			}
		}
	}
	if len(out) > 0 {
		out = append(out, habit("Take sheets of one batch, flat, with whole edges; look along them from a corner."))
	}
	return out
}

// missingOf is the number to buy of a line: whole things, since half a sheet
// is not sold; a glue by mass is bought as it is needed.
func missingOf(b work.BuyLine) float64 {
	return math.Max(0, b.Count.V-float64(b.InHand))
}

// money is a sum in a sentence, with its currency.
func (w *writer) money(n trace.Num) say.Sentence {
	return say.F("{} {}", w.d.Currency, w.quantity(n, units.Money, 2, "piece").Plain())
}

func (w *writer) buyTable() table.Table {
	cur := w.d.Currency
	t := table.Table{Key: "list", Caption: "What to buy", Columns: []table.Column{table.Names("what"), table.Words("size"),
		table.Words("for"), table.Numbers("needed", units.Count), table.Numbers("in hand", units.Count),
		table.Numbers("to buy", units.Count), table.Words("by the"), {Head: "one costs", Unit: cur, Align: table.Right},
		{Head: "cost", Unit: cur, Align: table.Right}}}
	for _, b := range w.p.Buying {
		dec := 0
		if b.Count.V != math.Trunc(b.Count.V) {
			dec = 2
		}
		n := func(v float64) table.Cell { return table.Q(say.Num(v, dec).Plain()) }
		t.Add(table.T(b.What), w.words(b.Sized()), w.words(b.Purpose()), n(b.Count.V), table.Count(b.InHand), n(missingOf(b)),
			table.T(b.Unit), w.price(b.Price, b), w.price(b.Cost, b))
	}
	sum := make([]table.Cell, len(t.Columns))
	sum[0], sum[len(sum)-1] = table.T("together"), sumCell(w.p.Cost)
	t.Rows = append(t.Rows, table.Row{ID: "sum", Total: true, Cells: sum})
	return t
}

// words is a cell of plain words, in the reader's units: a table of whole
// sentences is laid out otherwise.
func (w *writer) words(s say.Sentence) table.Cell {
	return table.T((&Book{System: w.sys}).Plain(s))
}

// price is a sum of a line, a dash where the line has no price.
func (w *writer) price(n trace.Num, b work.BuyLine) table.Cell {
	if b.Price.V == 0 {
		return table.T("–")
	}
	return sumCell(n)
}

func sumCell(n trace.Num) table.Cell {
	return table.Q(say.Quantity{V: n.V, Dim: units.Money, Decimals: 2, Bare: true})
}

// lateNote names the parts whose stock is kept until they can be measured.
func (w *writer) lateNote() say.Sentence {
	late := partsWhere(w.pc.Parts, func(q *piece.Part) bool { return q.Late })
	if len(late) == 0 {
		return nil
	}
	var refs []say.Sentence
	for _, q := range late {
		refs = append(refs, w.partRef(q))
	}
	return say.F("Stock for {} is on the list and is kept: their sizes are provisional until the opening is measured.",
		list(refs))
}

func partsWhere(parts []*piece.Part, ok func(*piece.Part) bool) []*piece.Part {
	var out []*piece.Part
	for _, q := range parts {
		if ok(q) {
			out = append(out, q)
		}
	}
	return out
}

// fitNoSheet names the parts whose blanks are larger than their stock.
func (w *writer) fitNoSheet() []say.Sentence {
	var out []say.Sentence
	for _, f := range w.p.Findings {
		if f.ID == "layout/"+f.Part && f.Verdict == work.Stop {
			if q := w.pc.Part(f.Part); q != nil {
				out = append(out, w.partRef(q))
			}
		}
	}
	return out
}
