package units

import (
	"math"
	"strconv"
	"unicode"
)

// Quantity is a written amount with its unit, in Rodwork's own units.
type Quantity struct {
	V   float64
	Dim Dim
	// Unit is false for a number that was written without one.
	Unit bool
	// Currency is the ISO 4217 code of money.
	Currency string
}

// IsSpace reports whether the rune is one of the spaces that may stand inside
// a quantity: the common one, the no-break and the narrow no-break space.
func IsSpace(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' }

func skipSpace(r []rune, i int) int {
	for i < len(r) && IsSpace(r[i]) {
		i++
	}
	return i
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// ScanError tells what is wrong with a written amount, at runes From to To.
type ScanError struct {
	From, To int
	Msg      string
	Mend     string // what should stand there instead; "" where that is not sure
}

// Error returns the sentence.
func (e *ScanError) Error() string { return e.Msg }

// Scan reads the longest quantity that begins at rune i, which must be a digit
// or a point, and returns it with the index behind it. A run 'n/n' or 'n n/n'
// is one amount only where a unit follows, else Scan stops behind the first
// number: what comes then is a formula's business.
func Scan(r []rune, i int) (Quantity, int, *ScanError) {
	q, end, u, err := scanOne(r, i)
	if err != nil || u.chain == "" {
		return q, end, err
	}
	// '4 ft 6 1/2 in': smaller units of the same chain may follow.
	for last := u; ; {
		next := skipSpace(r, end)
		if next >= len(r) || !isDigit(r[next]) {
			return q, end, nil
		}
		p, e, v, err := scanOne(r, next)
		if err != nil || v.chain != last.chain || v.factor >= last.factor {
			return q, end, nil
		}
		q.V += p.V
		end, last = e, v
	}
}

func scanOne(r []rune, i int) (Quantity, int, unit, *ScanError) {
	for _, shape := range []func([]rune, int) (float64, int, bool){scanMixed, scanFraction} {
		v, end, ok := shape(r, i)
		if !ok {
			continue
		}
		u, uend, ok := scanUnit(r, skipSpace(r, end))
		if !ok {
			continue
		}
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return Quantity{}, uend, u, &ScanError{From: i, To: end, Msg: "a fraction over nought is no amount"}
		}
		return quantity(v, u, r, uend), uend, u, nil
	}
	v, end, err := scanNumber(r, i)
	if err != nil {
		return Quantity{}, end, unit{}, err
	}
	if u, uend, ok := scanUnit(r, skipSpace(r, end)); ok {
		return quantity(v, u, r, uend), uend, u, nil
	}
	return Quantity{V: v}, end, unit{}, nil
}

func quantity(v float64, u unit, r []rune, end int) Quantity {
	q := Quantity{V: v*u.factor + u.offset, Dim: u.dim, Unit: true}
	if u.dim.Money != 0 {
		q.Currency = currencyIn(r, end)
	}
	return q
}

// currencyIn finds the currency word that a unit ending at end began with.
func currencyIn(r []rune, end int) string {
	for i := end - 3; i >= 0 && i > end-12; i-- {
		if w := string(r[i : i+3]); currencySet[w] {
			return w
		}
	}
	return ""
}

func scanDigits(r []rune, i int) int {
	for i < len(r) && isDigit(r[i]) {
		i++
	}
	return i
}

// scanFraction reads 'n/n', scanMixed 'n n/n'.
func scanFraction(r []rune, i int) (float64, int, bool) {
	a := scanDigits(r, i)
	if a == i || a >= len(r) || r[a] != '/' && r[a] != '⁄' {
		return 0, i, false
	}
	b := scanDigits(r, a+1)
	if b == a+1 || b-i > 30 {
		return 0, i, false
	}
	n, _ := strconv.ParseFloat(string(r[i:a]), 64)
	d, _ := strconv.ParseFloat(string(r[a+1:b]), 64)
	return n / d, b, true
}

func scanMixed(r []rune, i int) (float64, int, bool) {
	a := scanDigits(r, i)
	f := skipSpace(r, a)
	if a == i || f == a || a-i > 15 {
		return 0, i, false
	}
	frac, end, ok := scanFraction(r, f)
	if !ok {
		return 0, i, false
	}
	whole, _ := strconv.ParseFloat(string(r[i:a]), 64)
	return whole + frac, end, true
}

// scanNumber reads '12', '12.5', '.5', '1e3'. A decimal comma is answered with
// the mend where it can be nothing else: digits on both sides of it, and not
// in a formula's list of arguments, which the caller tells apart.
func scanNumber(r []rune, i int) (float64, int, *ScanError) {
	end := scanDigits(r, i)
	digits := end - i
	if end < len(r) && r[end] == '.' {
		e := scanDigits(r, end+1)
		digits += e - end - 1
		end = e
	}
	if digits == 0 {
		return 0, end, &ScanError{From: i, To: max(end, i+1), Msg: "here a number was expected"}
	}
	if e, ok := scanExponent(r, end); ok {
		end = e
	}
	if end < len(r) && r[end] == '.' && end+1 < len(r) && isDigit(r[end+1]) {
		return 0, end, &ScanError{From: i, To: scanDigits(r, end+1), Msg: "a number has one decimal point"}
	}
	v, err := strconv.ParseFloat(string(r[i:end]), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, end, &ScanError{From: i, To: end, Msg: "the number is too large"}
	}
	return v, end, nil
}

func scanExponent(r []rune, i int) (int, bool) {
	if i >= len(r) || r[i] != 'e' && r[i] != 'E' {
		return i, false
	}
	j := i + 1
	if j < len(r) && (r[j] == '+' || r[j] == '-') {
		j++
	}
	end := scanDigits(r, j)
	if end == j || end < len(r) && unicode.IsLetter(r[end]) {
		return i, false
	}
	return end, true
}

// scanUnit reads a unit at i: atoms with powers, divided by '/' without spaces.
func scanUnit(r []rune, i int) (unit, int, bool) {
	u, end, ok := scanAtom(r, i)
	if !ok {
		return unit{}, i, false
	}
	for end < len(r) && r[end] == '/' {
		v, e, ok := scanAtom(r, end+1)
		if !ok || v.offset != 0 || u.offset != 0 {
			break
		}
		u = unit{factor: u.factor / v.factor, dim: u.dim.Div(v.dim)}
		end = e
		if !u.dim.reasonable() {
			return unit{}, i, false
		}
	}
	return u, end, true
}

func scanAtom(r []rune, i int) (unit, int, bool) {
	if i >= len(r) {
		return unit{}, i, false
	}
	switch r[i] {
	case '\'', '"', '′', '″', '%':
		return table[string(r[i])], i + 1, true
	case '°':
		if i+1 < len(r) && (r[i+1] == 'C' || r[i+1] == 'F') && !wordAt(r, i+2) {
			return table[string(r[i:i+2])], i + 2, true
		}
		return table["°"], i + 1, true
	}
	end := i
	for end < len(r) && unicode.IsLetter(r[end]) {
		end++
	}
	word := string(r[i:end])
	u, ok := table[word]
	if !ok && currencySet[word] {
		u, ok = unit{factor: 1, dim: Money}, true
	}
	if !ok {
		return unit{}, i, false
	}
	return scanPower(r, u, end)
}

func scanPower(r []rune, u unit, end int) (unit, int, bool) {
	power := 1
	if end < len(r) {
		switch r[end] {
		case '2', '²':
			power = 2
		case '3', '³':
			power = 3
		}
	}
	if power > 1 {
		end++
		base := u
		u.chain = ""
		for range power - 1 {
			u.factor *= base.factor
			u.dim = u.dim.Mul(base.dim)
		}
	}
	if wordAt(r, end) {
		return unit{}, end, false
	}
	return u, end, true
}

// wordAt reports whether a letter or digit stands at i, so that a unit word
// does not end there.
func wordAt(r []rune, i int) bool {
	return i < len(r) && (unicode.IsLetter(r[i]) || isDigit(r[i]) || r[i] == '_')
}
