package units

import (
	"fmt"
	"strings"

	"rodwork/internal/diag"
)

// ParseError tells why a text is not the quantity that was wanted. From and To
// bound the offending runes of the text.
type ParseError struct {
	From, To int
	Msg      string
	Expected string
	Nearest  string
	// Mend is the whole text as it was probably meant, "" where that is unsure.
	Mend string
}

// Error returns the sentence.
func (e *ParseError) Error() string {
	if e.Mend != "" {
		return e.Msg + "; write " + e.Mend
	}
	return e.Msg
}

// Parse reads one quantity of the wanted dimension, with a sign if need be. A
// bare number is taken in the bare unit ("mm", "kg"); "" refuses it where the
// dimension is not a plain number or a count. It also reads what Format prints,
// thousandths behind an inch included. Money may be in any currency.
func Parse(text string, want Dim, bare string) (float64, error) {
	r := []rune(text)
	i, sign := scanSign(r)
	if i >= len(r) || !isDigit(r[i]) && r[i] != '.' {
		return 0, &ParseError{From: 0, To: len(r), Msg: fmt.Sprintf("%q is not a quantity", text), Expected: Example(want)}
	}
	q, end, serr := Scan(r, i)
	if serr != nil {
		return 0, &ParseError{From: serr.From, To: serr.To, Msg: serr.Msg, Expected: Example(want)}
	}
	rest, end2 := scanRest(r, end, q)
	if skipSpace(r, end2) != len(r) {
		return 0, trailing(r, end, want)
	}
	return finish(q, sign*q.V+rest, r, want, bare)
}

func finish(q Quantity, v float64, r []rune, want Dim, bare string) (float64, error) {
	if !q.Unit && want.Plain() != None {
		f, d, ok := Factor(bare)
		if !ok || d != want {
			return 0, &ParseError{To: len(r), Msg: "a unit is missing", Expected: Example(want)}
		}
		return v * f, nil
	}
	if q.Dim.Plain() != want.Plain() {
		return 0, &ParseError{To: len(r), Msg: fmt.Sprintf("%s was written where %s is wanted", q.Dim, want), Expected: Example(want)}
	}
	return v, nil
}

func scanSign(r []rune) (int, float64) {
	i := skipSpace(r, 0)
	if i < len(r) {
		switch r[i] {
		case '-', '−':
			return skipSpace(r, i+1), -1
		case '+':
			return skipSpace(r, i+1), 1
		}
	}
	return i, 1
}

// scanRest reads '+0.003' behind an inch: thousandths that Format leaves over.
func scanRest(r []rune, end int, q Quantity) (float64, int) {
	if q.Dim != Length || end == 0 || r[end-1] != 'n' && r[end-1] != '"' {
		return 0, end
	}
	i := skipSpace(r, end)
	if i >= len(r) || r[i] != '+' && r[i] != '-' && r[i] != '−' {
		return 0, end
	}
	v, e, err := scanNumber(r, i+1)
	if err != nil || v >= 1.0/64 {
		return 0, end
	}
	if r[i] != '+' {
		v = -v
	}
	return v * inch, e
}

// trailing explains what follows a quantity: a decimal comma, an unknown unit.
func trailing(r []rune, end int, want Dim) error {
	if end+1 < len(r) && r[end] == ',' && isDigit(r[end+1]) {
		return &ParseError{From: end, To: end + 1, Msg: "the decimal sign is a point", Expected: Example(want),
			Mend: string(r[:end]) + "." + string(r[end+1:])}
	}
	i := skipSpace(r, end)
	word := strings.TrimSpace(string(r[i:]))
	e := &ParseError{From: i, To: len(r), Msg: fmt.Sprintf("%q is not a unit", word), Expected: Example(want)}
	if e.Nearest = NearestUnit(word, want); e.Nearest != "" {
		e.Mend = string(r[:i]) + e.Nearest
	}
	return e
}

// NearestUnit returns the unit word that a misspelt one was most likely meant
// to be, first among those of the wanted dimension, or "".
func NearestUnit(word string, want Dim) string {
	if n := diag.Nearest(word, Words(want)); n != "" {
		return n
	}
	return diag.Nearest(word, allWords)
}

// Example returns how a quantity of the dimension may be written, for
// messages: "a length, such as 18 mm, 3/4 in or 4' 6\"".
func Example(d Dim) string {
	examples := map[Dim]string{
		Length: `18 mm, 1.2 m, 3/4 in or 4' 6 1/2"`, Mass: "0.9 kg or 2 lb", Angle: "90 deg or 1.57 rad",
		Count: "3", None: "0.5, 50 % or 2/3", Money: "89 EUR", Time: "30 s, 12 min or 2 h", Force: "900 N or 200 lbf",
		Stress: "12 N/mm2 or 1700 psi", Density: "680 kg/m3", Spread: "180 g/m2", Temp: "20 °C",
		TimePerLength: "2 min/m", TimePerArea: "6 min/m2", MoneyPerMass: "9 EUR/kg",
	}
	if e, ok := examples[d]; ok {
		return d.String() + ", such as " + e
	}
	return d.String()
}
