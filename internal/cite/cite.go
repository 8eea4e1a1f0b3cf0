// Package cite makes a rule one value: what it asks, its formula as printed,
// its symbols with units, where it comes from, for what it holds, what it
// assumes, an example worked in the source, and what would mend a failure. The
// docs, the book, `rodwork rules` and `rodwork rule` all read the same value.
package cite

import "fmt"

// Label tells how a number was come by.
type Label string

const (
	Read       Label = "read"            // in the source itself
	Quoted     Label = "quoted"          // in another text that quotes it
	FromMemory Label = "from memory"     // not looked up
	Practice   Label = "common practice" // of the trade, no source
	Derived    Label = "derived"         // by us, from the formulas named
)

// Source is one place in one text.
type Source struct {
	Text    string // author, title, edition, year
	Locator string // clause, table, equation, page
	Label   Label
}

// Symbol is one letter of a formula.
type Symbol struct {
	Letter  string // as printed: "h"
	Name    string // as it is written at the command line: "skin"
	Meaning string
	Unit    string // "mm", "MPa", "kg/m", "1"
	// Min and Max bound the range of validity; both zero: the source gives none.
	Min, Max float64
	Why      string // of the range
	// Whole is set for counts.
	Whole bool
	// Optional symbols may be left out; Else says what is taken then.
	Optional bool
	Else     string
}

// Result is one value that a rule gives.
type Result struct {
	Name  string
	Unit  string
	Value float64
}

// Example is a case worked in the source (or by hand, and said so).
type Example struct {
	In   map[string]float64
	Out  map[string]float64
	From string
}

// Rule is one computed rule.
type Rule struct {
	ID       string // "SHELF-01", never reused
	Title    string
	Question string // what the maker learns from it
	Formula  string
	Symbols  []Symbol
	Sources  []Source
	Assumes  []string // each with the way it errs
	Accuracy string
	Remedies []string
	Example  Example
	// Eval computes the results from the symbols by Name, without checking the
	// range.
	Eval func(in map[string]float64) []Result
}

// RangeError says that a rule does not cover a value: no number is given.
type RangeError struct {
	Rule, Symbol string
	Value        float64
	Min, Max     float64
	Unit         string
}

// Error names rule, symbol, value and range.
func (e *RangeError) Error() string {
	return fmt.Sprintf("rule %s does not cover %s = %g %s: it holds from %g to %g",
		e.Rule, e.Symbol, e.Value, e.Unit, e.Min, e.Max)
}
