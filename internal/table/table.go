// Package table says what a table is: a caption, columns with heads and units,
// and rows of cells that are words, quantities or sentences. It knows no trade
// and prints nothing: renderers (a page, a terminal, a sheet of numbers) turn
// the same Table into their own marks, and only they round and write numbers.
//
// A column measures one thing. Its Dim puts the unit once in the head ('mm' or
// 'in', as the reader asked), and the quantities under it are printed bare. A
// cell whose quantity has another dimension than its column prints its own
// unit, so that nothing is ever misread for the column's.
package table

import (
	"fmt"

	"rodwork/internal/say"
	"rodwork/internal/units"
)

// Align is where the cells of a column stand.
type Align int

// Words stand at the left, numbers at the right.
const (
	Left Align = iota
	Right
)

// Column is one column's head.
type Column struct {
	Head string
	// Dim gives the unit in the head; the zero Dim has none.
	Dim units.Dim
	// Unit is a word for the head where no Dim says it: "%", "kg each".
	Unit  string
	Align Align
	// Decimals is used for plain numbers put in with N.
	Decimals int
	// Names marks the column that names its row: its cells are row heads.
	Names bool
}

// Cell is one of: words, a quantity, a sentence; or nothing, printed empty.
type Cell struct {
	Text string
	Q    *say.Quantity
	Say  say.Sentence
	// Mark is the key of a sign that goes before the cell's words, which must
	// say the same: a sign never stands alone.
	Mark string
}

// Row is the cells of one row, one for each column.
type Row struct {
	ID     string // stable, unique in the table; "" where nothing refers to it
	Anchor string // name of the place in a whole document; "" for none
	Cells  []Cell
	Picked bool // the row that is chosen among the others
	Total  bool // a sum of the rows above
}

// Table is one table.
type Table struct {
	Key     string // stable and unique in its book
	Caption string
	Columns []Column
	Rows    []Row
	// Note stands below: what an abbreviation means, what is not in the sum.
	Note string
}

// T is a cell of words.
func T(s string) Cell { return Cell{Text: s} }

// Q is a cell with a quantity.
func Q(q say.Quantity) Cell { return Cell{Q: &q} }

// S is a cell with a sentence.
func S(s say.Sentence) Cell { return Cell{Say: s} }

// Marked is a cell of words with a sign before them.
func Marked(mark, s string) Cell { return Cell{Text: s, Mark: mark} }

// Count is a cell with a whole number.
func Count(n int) Cell {
	return Q(say.Quantity{V: float64(n), Dim: units.Count, Bare: true})
}

// Words is a column of words.
func Words(head string) Column { return Column{Head: head} }

// Names is the column that names the rows.
func Names(head string) Column { return Column{Head: head, Names: true} }

// Numbers is a column of quantities of one dimension.
func Numbers(head string, d units.Dim) Column {
	return Column{Head: head, Dim: d, Align: Right}
}

// Add appends a row of cells.
func (t *Table) Add(cells ...Cell) { t.Rows = append(t.Rows, Row{Cells: cells}) }

// Empty reports whether the cell holds nothing.
func (c Cell) Empty() bool { return c.Text == "" && c.Q == nil && len(c.Say) == 0 }

// Check reports the first row that does not fit the columns, or a table
// without a key or a caption: a broken promise of whoever made the table.
func (t *Table) Check() error {
	if t.Key == "" || t.Caption == "" {
		return fmt.Errorf("table %q: key and caption are needed", t.Key)
	}
	for i, r := range t.Rows {
		if len(r.Cells) != len(t.Columns) {
			return fmt.Errorf("table %q: row %d has %d cells for %d columns",
				t.Key, i+1, len(r.Cells), len(t.Columns))
		}
	}
	return nil
}
