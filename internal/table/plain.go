package table

import (
	"math"
	"strconv"
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/units"
)

// Value is a cell as programs that reckon on take it: a number in the unit of
// its column's head, or a text.
type Value struct {
	Text     string  // where IsNumber is false
	Number   float64 // rounded to ten significant digits, in the head's unit
	IsNumber bool
	Decimals int // that the number deserves when it is shown
}

// significant digits of a number that is handed on: finer than a shop measures,
// coarser than the bits in which one processor's arithmetic differs from
// another's.
const significant = 10

// Plain returns the table as heads and rows for another program, all rows as
// long as the heads. A column's unit stands once, in its head: 'length (mm)'.
// Lengths in inches are decimal, times are in minutes; see units.Scale. A
// quantity of another dimension than its column's stays a text with its own
// unit, and so does a sentence, unless it is a single number.
func (t *Table) Plain(sys units.System) (heads []string, rows [][]Value) {
	for _, c := range t.Columns {
		heads = append(heads, c.plainHead(sys))
	}
	for _, r := range t.Rows {
		row := make([]Value, len(t.Columns))
		for i, c := range r.Cells {
			if i < len(row) {
				row[i] = c.plain(t.Columns[i], sys)
			}
		}
		rows = append(rows, row)
	}
	return heads, rows
}

func (c Column) plainHead(sys units.System) string {
	unit := c.Unit
	if _, word := units.Scale(c.Dim, sys); unit == "" {
		unit = word
	}
	switch {
	case unit == "":
		return c.Head
	case c.Head == "":
		return unit
	}
	return c.Head + " (" + unit + ")"
}

func (c Cell) plain(col Column, sys units.System) Value {
	q := c.Q
	if len(c.Say) == 1 && c.Say[0].Q != nil {
		q = c.Say[0].Q
	}
	switch {
	case q == nil && len(c.Say) > 0:
		return Value{Text: spoken(c.Say, sys)}
	case q == nil:
		return Value{Text: c.Text}
	case math.IsNaN(q.V) || math.IsInf(q.V, 0):
		return Value{Text: "—"}
	case q.Dim.Plain() != col.Dim.Plain():
		return Value{Text: units.Format(q.V, q.Dim, sys, q.Decimals)}
	}
	factor, _ := units.Scale(q.Dim, sys)
	v := Value{Number: rounded(q.V / factor), IsNumber: true, Decimals: max(0, q.Decimals)}
	switch {
	case q.Dim == units.Length && sys == units.Inch:
		v.Decimals = 4 // 0.0025 mm
	case q.Dim == units.Money && q.Decimals < 0:
		v.Decimals = 2
	}
	return v
}

// rounded keeps ten significant digits; what is smaller than a billionth is
// nought, and nought has no sign.
func rounded(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 0
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', significant, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// spoken prints a sentence as plain text.
func spoken(s say.Sentence, sys units.System) string {
	var b strings.Builder
	for _, sp := range s {
		switch {
		case sp.Q == nil:
			b.WriteString(sp.Text)
		case sp.Q.Bare:
			b.WriteString(units.FormatBare(sp.Q.V, sp.Q.Dim, sys, sp.Q.Decimals))
		default:
			b.WriteString(units.Format(sp.Q.V, sp.Q.Dim, sys, sp.Q.Decimals))
		}
	}
	return b.String()
}
