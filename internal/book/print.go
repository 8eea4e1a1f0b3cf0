package book

import (
	"math"

	"rodwork/internal/cite"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// Printed returns a quantity as the reader's system prints it. It is the one
// place where renderers turn numbers into words.
func (b *Book) Printed(q say.Quantity) string {
	q.V = snap(q.V, q.Dim)
	if q.Bare {
		return units.FormatBare(q.V, q.Dim, b.System, q.Decimals)
	}
	return units.Format(q.V, q.Dim, b.System, q.Decimals)
}

// snap rounds to a millionth, so that two ways of reckoning the same number,
// which differ in the last bits, are never printed as two. Masses by length,
// area or volume are small numbers in kilograms and millimetres, and are rounded
// to a millionth of a millionth.
func snap(v float64, d units.Dim) float64 {
	if d.Mass > 0 && d.Length < 0 {
		return math.Round(v*1e12) / 1e12
	}
	return math.Round(v*1e6) / 1e6
}

// PrintedIn returns a quantity as it stands under a column's head: bare where
// the head has its unit, else with its own.
func (b *Book) PrintedIn(q say.Quantity, c table.Column) string {
	q.Bare = q.Bare || q.Dim == c.Dim
	return b.Printed(q)
}

// HeadUnit returns the unit that stands in a column's head, "" for none.
// Degrees stand beside each number.
func (b *Book) HeadUnit(c table.Column) string {
	if c.Unit != "" {
		return c.Unit
	}
	if c.Dim == units.Angle {
		return ""
	}
	return units.UnitWord(c.Dim, b.System)
}

// Plain returns a sentence as text alone.
func (b *Book) Plain(s say.Sentence) string {
	var out string
	for _, sp := range s {
		if sp.Q != nil {
			out += b.Printed(*sp.Q)
		} else {
			out += sp.Text
		}
	}
	return out
}

// Counts returns how many findings of each verdict stand in the chapter, as
// "stop", "look", "not covered" and "fine" come.
func (c Chapter) Counts() map[string]int {
	n := map[string]int{}
	for _, b := range c.Blocks {
		if f, ok := b.(Finding); ok {
			n[string(f.Finding.Verdict)]++
		}
	}
	return n
}

// SourceText returns a source as one line: text, place, label.
func SourceText(s cite.Source) string {
	out := s.Text
	if s.Locator != "" {
		out += ", " + s.Locator
	}
	return out + " (" + string(s.Label) + ")"
}

// RangeText returns the range of a rule's symbol in the rule's own unit, or
// that its source gives none. Rules keep the units of their source.
func RangeText(s cite.Symbol) string {
	if !s.Bounded() {
		return "no range given"
	}
	r := units.Format(s.Min, units.None, units.MM, significant(s.Min)) + " to " +
		units.Format(s.Max, units.None, units.MM, significant(s.Max))
	if s.Unit != "" && s.Unit != "1" {
		r += " " + s.Unit
	}
	return r
}

// significant returns the decimals that show a bound of a range as it is kept.
func significant(v float64) int {
	for d, p := 0, 1.0; d < 6; d, p = d+1, p*10 {
		if x := v * p; x == float64(int64(x)) {
			return d
		}
	}
	return 6
}
