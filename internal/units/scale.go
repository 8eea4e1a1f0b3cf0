package units

import "strings"

// Scale returns the unit that numbers of a dimension are handed to other
// programs in: its word, and how many of Rodwork's own units are in one. It is
// the unit that Format prints, but inches are decimal, and a time, which Format
// prints in the unit that its size asks for, is in minutes. Plain numbers,
// counts and money have the factor 1 and no word.
func Scale(d Dim, s System) (factor float64, word string) {
	switch {
	case d == Length && s == Inch:
		return inch, "in"
	case d == Time:
		return 60, "min"
	}
	if p, ok := unitFor(d, s); ok {
		return p.factor, p.name
	}
	return 1, strings.TrimSpace(oddUnit(d))
}
