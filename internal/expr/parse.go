package expr

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"rodwork/internal/diag"
	"rodwork/internal/units"
)

// builtins are the functions over numbers: least and greatest number of
// arguments (0: no bound).
var builtins = map[string][2]int{
	"min": {2, 0}, "max": {2, 0}, "floor": {1, 1}, "ceil": {1, 1}, "round": {1, 1}, "abs": {1, 1},
}

// Functions returns the names of the functions over numbers, in order.
func Functions() []string { return []string{"abs", "ceil", "floor", "max", "min", "round"} }

// CheckName tells why a word cannot be the name of a size, "" if it can: a name
// is letters, digits and single spaces, begins with a letter, and is neither a
// unit nor a function.
func CheckName(n string) string {
	switch {
	case n == "" || len([]rune(n)) > 60:
		return "a name has 1 to 60 letters"
	case units.IsUnit(n):
		return "it is a unit"
	case builtins[n] != [2]int{}:
		return "it is a function"
	case strings.Contains(n, "  "):
		return "its words stand apart by one space"
	}
	for i, r := range n {
		if unicode.IsLetter(r) || i > 0 && (isWord(r) || r == ' ') {
			continue
		}
		return "a name has letters, digits and single spaces only, and begins with a letter"
	}
	if strings.HasSuffix(n, " ") {
		return "it ends in a space"
	}
	return ""
}

type parser struct {
	r     []rune
	i     int
	depth int
	args  int // how many lists of arguments are open
	sc    *Scope
	f     *Formula
	out   []Problem
}

// bail is what stops a parser at its first error of form.
type bail struct{ Problem }

// Parse reads a formula. An error of form ends the reading and gives no
// formula; unknown names are all reported, and the formula is given.
func Parse(text string, sc *Scope) (f *Formula, problems []Problem) {
	p := &parser{r: []rune(text), sc: sc, f: &Formula{Text: text}}
	defer func() {
		if e := recover(); e != nil {
			b, ok := e.(bail)
			if !ok {
				panic(e)
			}
			f, problems = nil, append(p.out, b.Problem)
		}
	}()
	if len(p.r) > MaxRunes {
		p.fail(Problem{Code: "formula-too-long", To: len(p.r), Summary: "The formula is too long",
			Detail: fmt.Sprintf("It has %d letters; %d are read.", len(p.r), MaxRunes)})
	}
	p.f.root = p.expression(0)
	p.space()
	if p.i < len(p.r) {
		p.leftover()
	}
	return p.f, p.out
}

func (p *parser) fail(b Problem) { panic(bail{b}) }

func (p *parser) space() {
	for p.i < len(p.r) && units.IsSpace(p.r[p.i]) {
		p.i++
	}
}

func (p *parser) peek() rune {
	if p.i < len(p.r) {
		return p.r[p.i]
	}
	return 0
}

func isWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' }

// operator returns the operator at hand in its plain form and its precedence.
func operator(r rune) (rune, int) {
	switch r {
	case '+':
		return '+', 1
	case '-', '−', '–':
		return '-', 1
	case '*', '×', '·':
		return '*', 2
	case '/', '÷':
		return '/', 2
	}
	return 0, 0
}

// expression is a Pratt parser: operators that bind tighter than prec.
func (p *parser) expression(prec int) node {
	p.depth++
	if p.depth > MaxDepth {
		p.fail(Problem{Code: "formula-too-deep", From: p.i, To: len(p.r), Summary: "The formula nests too deep",
			Detail: fmt.Sprintf("Brackets and signs may nest %d deep.", MaxDepth)})
	}
	left := p.primary()
	for {
		p.space()
		op, q := operator(p.peek())
		if q == 0 || q <= prec {
			break
		}
		p.i++
		right := p.expression(q)
		from, _ := left.span()
		_, to := right.span()
		left = &binary{at{from, to}, op, left, right}
	}
	p.depth--
	return left
}

func (p *parser) primary() node {
	p.space()
	start := p.i
	switch r := p.peek(); {
	case r == '(':
		p.i++
		n := p.expression(0)
		p.closing(start)
		return &unary{at{start, p.i}, 1, n}
	case r == '-' || r == '−' || r == '–' || r == '+':
		p.i++
		sign := 1.0
		if r != '+' {
			sign = -1
		}
		n := p.expression(2)
		_, to := n.span()
		return &unary{at{start, to}, sign, n}
	case r >= '0' && r <= '9' || r == '.':
		return p.number()
	case unicode.IsLetter(r):
		return p.word()
	}
	return p.nothing(start)
}

func (p *parser) nothing(start int) node {
	if start >= len(p.r) {
		from := max(0, len(strings.TrimRight(string(p.r), " "))-1)
		from = min(from, len(p.r)-1)
		p.fail(Problem{Code: "formula", From: max(0, from), To: len(p.r), Summary: "The formula breaks off",
			Detail: "A number, a name or a bracket should follow.", Expected: "a number, a name or a bracket"})
	}
	p.fail(Problem{Code: "formula", From: start, To: start + 1, Summary: fmt.Sprintf("%q has no meaning here", p.r[start]),
		Detail: "Here a number, a name or a bracket should stand.", Expected: "a number, a name or a bracket"})
	return nil
}

func (p *parser) closing(open int) {
	p.space()
	if p.peek() != ')' {
		if p.i < len(p.r) {
			p.leftover()
		}
		p.fail(Problem{Code: "formula", From: open, To: len(p.r), Summary: "A bracket is not closed",
			Detail: "The bracket that opens here has no ')'.", Expected: ")"})
	}
	p.i++
}

func (p *parser) number() node {
	start := p.i
	q, end, err := units.Scan(p.r, p.i)
	if err != nil {
		p.fail(Problem{Code: "number", From: err.From, To: err.To, Summary: "This is no amount", Detail: sentence(err.Msg)})
	}
	p.i = end
	if q.Dim.Money != 0 && p.sc.Currency != "" && q.Currency != p.sc.Currency {
		p.out = append(p.out, Problem{Code: "currency", From: start, To: end, Summary: "Another currency",
			Detail:   fmt.Sprintf("The file counts in %s, and no rate of exchange is known.", p.sc.Currency),
			Expected: "a sum in " + p.sc.Currency})
	}
	if !q.Unit && p.args == 0 && p.peek() == ',' && end+1 < len(p.r) && unicode.IsDigit(p.r[end+1]) {
		p.fail(p.comma(start, end))
	}
	if next := p.afterSpace(); !q.Unit && next < len(p.r) && unicode.IsLetter(p.r[next]) {
		p.afterNumber(start, end, next)
	}
	return &literal{at{start, end}, q.V, q.Dim, q.Unit}
}

// comma explains a comma in a number. Before three digits it may part thousands,
// as in 1,460: then the reading that makes sense of so large a number comes first.
func (p *parser) comma(start, end int) Problem {
	x := Problem{Code: "decimal-comma", From: end, To: end + 1, Summary: "A comma in a number",
		Detail: "The decimal sign is a point.", Expected: "a point", Mend: ".", HasMend: true}
	last := end + 1
	for last < len(p.r) && unicode.IsDigit(p.r[last]) {
		last++
	}
	if last-end-1 == 3 && p.r[end-1] != '.' {
		x.Detail = "The decimal sign is a point, and thousands are not parted."
		x.Expected = "no comma where thousands are meant, a point where a decimal is"
		x.From, x.To, x.Mend = start, last, string(p.r[start:end])+string(p.r[end+1:last])
	}
	return x
}

func (p *parser) afterSpace() int {
	i := p.i
	for i < len(p.r) && units.IsSpace(p.r[i]) {
		i++
	}
	return i
}

// afterNumber explains letters behind a number: a factor without its *, or a
// unit that there is not.
func (p *parser) afterNumber(start, end, next int) {
	if n, _ := p.longest(next); n != "" {
		p.fail(Problem{Code: "formula", From: start, To: next + len([]rune(n)), Summary: "Nothing between two values",
			Detail: "A number and a name need a sign between them.", Expected: "+ − * or /",
			Mend: string(p.r[start:end]) + " * " + n, HasMend: true})
	}
	stop := next
	for stop < len(p.r) && (isWord(p.r[stop]) || p.r[stop] == '/' && stop+1 < len(p.r) && unicode.IsLetter(p.r[stop+1])) {
		stop++
	}
	word := string(p.r[next:stop])
	pr := Problem{Code: "unknown-unit", From: next, To: stop, Summary: fmt.Sprintf("%q is not a unit", word),
		Detail: "Behind a number stands its unit.", Expected: "a unit: mm, cm, m, in, ft, deg, kg …"}
	if n := units.NearestUnit(word, units.Length); n != "" {
		pr.Nearest, pr.Mend, pr.HasMend = n, n, true
	}
	p.fail(pr)
}

// leftover explains what stands behind a whole formula.
func (p *parser) leftover() {
	r := p.r[p.i]
	pr := Problem{Code: "formula", From: p.i, To: p.i + 1, Expected: "+ − * or /, or the end"}
	switch {
	case r == ')':
		pr.Summary, pr.Detail = "A bracket too many", "This ')' has no '(' before it."
	case r == ',':
		pr.Summary, pr.Detail = "A comma in a formula", "A comma stands between the arguments of a function only; the decimal sign is a point."
	case isWord(r) || r == '.' || r == '(':
		pr.Summary, pr.Detail = "Nothing between two values", "Two values need a sign between them."
		for pr.To < len(p.r) && isWord(p.r[pr.To]) {
			pr.To++
		}
	default:
		pr.Summary, pr.Detail = fmt.Sprintf("%q has no meaning in a formula", r), "The signs are + − * / and brackets."
	}
	p.fail(pr)
}

func sentence(s string) string {
	if s == "" {
		return ""
	}
	r := []rune(s)
	return string(unicode.ToUpper(r[0])) + string(r[1:]) + "."
}

// longest returns the longest known name that stands at rune i as whole words,
// and the index behind it.
func (p *parser) longest(i int) (string, int) {
	best, end := "", i
	for _, n := range p.sc.Names {
		if len(n) > len(best) {
			if e, ok := p.standsAt(n, i); ok {
				best, end = n, e
			}
		}
	}
	return best, end
}

func (p *parser) standsAt(n string, i int) (int, bool) {
	for _, c := range n {
		if i >= len(p.r) || p.r[i] != c {
			return i, false
		}
		i++
	}
	return i, i >= len(p.r) || !isWord(p.r[i])
}

// run returns the end of the words that stand at i, parted by single spaces.
func (p *parser) run(i int) int {
	for i < len(p.r) && (isWord(p.r[i]) || p.r[i] == ' ' && i+1 < len(p.r) && isWord(p.r[i+1])) {
		i++
	}
	return i
}

func (p *parser) word() node {
	start := p.i
	end := p.run(start)
	words := string(p.r[start:end])
	p.i = end
	if p.afterSpace() < len(p.r) && p.r[p.afterSpace()] == '(' {
		return p.function(words, start, end)
	}
	known, e := p.longest(start)
	if known != "" && e == end {
		p.f.refs = append(p.f.refs, Ref{known, start, end})
		return &name{at{start, end}, known}
	}
	p.out = append(p.out, p.unknown(words, start, end))
	p.f.unknown = append(p.f.unknown, Ref{words, start, end})
	return &name{at{start, end}, words}
}

func (p *parser) unknown(words string, start, end int) Problem {
	pr := Problem{Code: "unknown-name", From: start, To: end, Summary: fmt.Sprintf("There is no size %q", words),
		Expected: "a size, or a number with its unit"}
	switch {
	case units.IsUnit(words):
		pr.Code, pr.Summary, pr.Detail = "unit-alone", fmt.Sprintf("The unit %q stands alone", words), "A unit stands behind a number."
		return pr
	case len(p.sc.Names) == 0:
		pr.Detail = "Here only written amounts can stand."
	default:
		pr.Detail = "It is not among the sizes of this file."
	}
	if n := diag.Nearest(words, p.sc.Names); n != "" {
		pr.Nearest, pr.Mend, pr.HasMend = n, n, true
	}
	return pr
}

// function reads the arguments of a function, whose name stands at start.
func (p *parser) function(fn string, start, end int) node {
	p.i = p.afterSpace()
	open := p.i
	p.i++
	if known, ok := p.sc.Calls[fn]; ok {
		return p.named(fn, known, start, open)
	}
	if _, ok := builtins[fn]; !ok {
		pr := Problem{Code: "unknown-function", From: start, To: end, Summary: fmt.Sprintf("There is no function %q", fn),
			Detail: "Before a bracket stands a function or a sign.", Expected: "one of: " + strings.Join(p.functions(), ", ")}
		if n := diag.Nearest(fn, p.functions()); n != "" {
			pr.Nearest, pr.Mend, pr.HasMend = n, n, true
		}
		p.fail(pr)
	}
	c := &call{fn: fn}
	p.args++
	for {
		c.args = append(c.args, p.expression(0))
		p.space()
		if p.peek() != ',' {
			break
		}
		p.i++
	}
	p.args--
	p.closing(open)
	c.at = at{start, p.i}
	if b := builtins[fn]; len(c.args) < b[0] || b[1] > 0 && len(c.args) > b[1] {
		p.fail(Problem{Code: "arguments", From: start, To: p.i, Summary: "A wrong number of arguments",
			Detail: fmt.Sprintf("%s takes %s.", fn, map[bool]string{true: "two values or more", false: "one value"}[b[1] == 0])})
	}
	return c
}

func (p *parser) functions() []string {
	out := Functions()
	for fn := range p.sc.Calls {
		out = append(out, fn)
	}
	slices.Sort(out)
	return out
}

// named reads the one argument of a function over named things: its words up
// to the bracket.
func (p *parser) named(fn string, known []string, start, open int) node {
	p.space()
	from := p.i
	for p.i < len(p.r) && p.r[p.i] != ')' {
		p.i++
	}
	if p.i >= len(p.r) {
		p.fail(Problem{Code: "formula", From: open, To: len(p.r), Summary: "A bracket is not closed",
			Detail: "The bracket that opens here has no ')'.", Expected: ")"})
	}
	to := p.i
	for to > from && units.IsSpace(p.r[to-1]) {
		to--
	}
	p.i++
	word := string(p.r[from:to])
	p.f.calls++
	if !slices.Contains(known, word) {
		pr := Problem{Code: "unknown-name", From: from, To: max(to, from+1), Summary: fmt.Sprintf("%s(%s): there is no such thing", fn, word),
			Detail: "The bracket of this function takes one of the names on the right.", Expected: "one of: " + strings.Join(known, ", ")}
		if n := diag.Nearest(word, known); n != "" {
			pr.Nearest, pr.Mend, pr.HasMend = n, n, true
		}
		p.out = append(p.out, pr)
		p.f.unknown = append(p.f.unknown, Ref{word, from, to})
	}
	return &call{at: at{start, p.i}, fn: fn, word: word, word0: from, word1: to, named: true}
}
