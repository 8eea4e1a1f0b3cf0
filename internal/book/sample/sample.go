// Package sample has one small book with a block of every kind, by which the
// renderers are tested. It is of a shelf for seed trays that nobody has built;
// its numbers are made up and mean nothing.
package sample

import (
	"rodwork/internal/book"
	"rodwork/internal/cite"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Book returns the book of a piece with the given name.
func Book(name string) *book.Book {
	width := say.Len(620, 0)
	width.Path, width.ID = "sizes.width", "piece/width"
	depth := say.Len(241.4, 1).Plain().As("shelf/width")
	return &book.Book{Title: name, System: units.MM, Currency: "EUR",
		Lead: say.F("Don’t cut yet: {} finding says stop.", 1),
		Chapters: []book.Chapter{
			{Key: "piece", Number: 1, Title: "The piece", Blocks: []book.Block{
				book.Paragraph{ID: "piece/size", Text: say.F("{} is {} wide and {} deep, of {}.", say.Name(name), width, depth,
					say.Choice("birch ply 18", "stock.panels"))},
				book.Finding{ID: "finding/sag/shelf 1", Beside: "piece/size", Rule: Rule(), Finding: work.Finding{ID: "sag/shelf 1",
					Rule: "TEST-01", Verdict: work.Stop, Title: "Sag of the shelf", Path: "sizes.width",
					Text: say.F("It would sag by {}; it may by {}.", say.Len(4.2, 1), say.Len(3.1, 1)),
					Mends: []work.Mend{{Text: say.F("width {}", say.Len(560, 0)), Path: "sizes.width", New: "560"},
						{Text: say.F("a deeper edging")}}}},
				book.Finding{ID: "finding/tip", Beside: "piece/size", Finding: work.Finding{ID: "tip", Rule: "GONE-01",
					Verdict: work.NotCovered, Title: "Tipping", Text: say.F("No rule covers a piece that hangs.")}},
				book.Figure{ID: "piece/figure front", Number: 1, Leaf: Leaf()},
			}},
			{Key: "cut", Number: 2, Title: "Cut", Blocks: []book.Block{
				book.Caution{ID: "cut/caution saw", Title: "At the saw", Text: []say.Sentence{say.F("Fit the guard.")},
					Sources: []cite.Source{{Text: "bench practice", Locator: "ripping", Label: cite.Practice}}},
				book.Heading{ID: "cut/parts", Text: "Parts"},
				book.Table{ID: "cut/list", Table: Table()},
				book.Steps{ID: "cut/steps", Title: "In this order", Steps: []book.Step{
					{ID: "cut/step 1", Number: 1, Text: say.F("Cut {} first.", say.Name("shelf")), Notes: []say.Sentence{say.F("from the datum edge")}},
					{ID: "cut/step 2", Number: 2, Text: say.F("Then the sides.")}}},
				book.NotYet{ID: "cut/not yet", Items: []string{"the time that it takes"}},
			}},
			{Key: "sources", Number: 3, Title: "Where these numbers come from", Blocks: []book.Block{
				book.RuleNote{ID: "sources/rule TEST-01", Rule: Rule(), Uses: 1}}},
		}}
}

// Table is a parts list with a chosen row, a sum, a mark and an empty cell.
func Table() table.Table {
	mm := func(v float64) table.Cell { return table.Q(say.Len(v, 1).Plain()) }
	return table.Table{Key: "cut/list", Caption: "Parts", Note: "Sizes are finished sizes.",
		Columns: []table.Column{table.Numbers("no.", units.Count), table.Names("part"), table.Numbers("length", units.Length),
			table.Numbers("mass", units.Mass), table.Words("state")},
		Rows: []table.Row{
			{ID: "shelf", Picked: true, Cells: []table.Cell{table.Count(1), table.T("shelf"), mm(620), table.Q(say.Kg(2.4, 2)), table.Marked("look", "look")}},
			{ID: "side", Cells: []table.Cell{table.Count(2), table.T("side"), mm(301.3), table.Q(say.Kg(1.15, 2)), {}}},
			{ID: "sum", Total: true, Cells: []table.Cell{{}, table.T("together"), {}, table.Q(say.Kg(3.55, 2)), {}}},
		}}
}

// Leaf is a figure of one line and one word.
func Leaf() leaf.Leaf {
	return leaf.Leaf{Key: "front", Title: "Seen from the front", Right: "birch ply 18", Caption: "A line stands for it.",
		Alt: "A straight line, 620 long.", W: 210, H: 40, Items: []leaf.Item{
			leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{{Op: leaf.Move, P: r2.Vec{X: 10, Y: 20}}, {Op: leaf.To, P: r2.Vec{X: 200, Y: 20}}}},
			leaf.Text{At: r2.Vec{X: 105, Y: 16}, S: "620", Size: leaf.Name, Anchor: leaf.Middle}}}
}

// Rule is a rule with every part.
func Rule() *cite.Rule {
	return &cite.Rule{ID: "TEST-01", Title: "Sag under an even load", Question: "How far does the middle go down?",
		Formula: "δ = 5·w·L⁴/(384·E·I)", Symbols: []cite.Symbol{
			{Letter: "L", Name: "span", Meaning: "span between supports", Unit: "mm", Min: 200, Max: 1200, Why: "shelves that were tried"},
			{Letter: "k", Name: "k", Meaning: "a number", Unit: "1"}},
		Sources: []cite.Source{{Text: "a handbook that does not exist", Locator: "p. 1", Label: cite.FromMemory}},
		Assumes: []string{"small bending; errs to the safe side"}, Accuracy: "a tenth"}
}
