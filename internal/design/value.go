package design

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/expr"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// expected says what may stand behind a field.
func (f *field) expected(d *decoder) string {
	switch f.kind {
	case aQuantity:
		s := units.Example(f.dim)
		if len(f.also) > 0 {
			s += ", or " + strings.Join(f.also, ", ")
		}
		return s
	case aCount:
		return "a whole number"
	case aWord:
		if len(f.words) > 20 {
			return "a currency code of ISO 4217, such as EUR"
		}
		return "one of: " + strings.Join(f.words, ", ")
	case nameList:
		if len(f.words) > 0 {
			return "a list of: " + strings.Join(f.words, ", ")
		}
		return "a list of names: " + f.of
	case amountList:
		return "a list in brackets, each " + units.Example(f.dim)
	case aName:
		return "a name: " + f.of
	case sizeTable:
		return `a quantity, such as 18 mm, 3/4 in or 3 x, or a formula`
	case nameTable, aTable:
		return "names, each with a value"
	case anObject:
		return "keys: " + strings.Join(f.sub.keys(), ", ")
	case aList:
		return "a list"
	}
	return "a text"
}

// plain reads a value that is one scalar, or a list of scalars.
func (d *decoder) plain(r *rec, f *field, e *entry, path string) {
	s := &slot{f: f, n: e.val, path: path, keyAt: e.keyAt, lo: f.min, hi: f.max}
	if e.val.shape == absent {
		d.nothing(f, e, path)
		return
	}
	if f.kind == nameList || f.kind == amountList {
		d.plainList(r, s, e, path)
		return
	}
	if e.val.shape != scalar {
		d.plainWrong(f, e, path)
		return
	}
	d.places[path] = e.val.at
	r.vals[f.key] = s
	switch f.kind {
	case aQuantity, aCount:
		if !slices.Contains(f.also, e.val.text) {
			d.slots = append(d.slots, s)
		}
	case aWord:
		s.ok = d.word(f, e.val, path)
	default:
		s.ok = d.text(f, e.val, path)
	}
}

func (d *decoder) plainWrong(f *field, e *entry, path string) {
	if e.val.shape == absent {
		d.nothing(f, e, path)
		return
	}
	d.add(diag.Diagnostic{Code: "wrong-kind", At: e.val.at, Path: path, Summary: fmt.Sprintf("'%s' takes one value", e.key),
		Detail: "Found " + e.val.describe() + ".", Expected: f.expected(d)})
}

func (d *decoder) plainList(r *rec, s *slot, e *entry, path string) {
	items := e.val.items
	if e.val.shape == scalar {
		items = []*node{e.val}
	} else if e.val.shape != sequence {
		d.plainWrong(s.f, e, path)
		return
	}
	if len(items) > 200 {
		d.add(diag.Diagnostic{Code: "too-many", At: e.keyAt, Path: path, Summary: "The list is too long", Detail: "This list may have 200 entries.", Expected: "200 entries at most"})
		return
	}
	s.items = []*slot{}
	r.vals[s.f.key] = s
	for i, it := range items {
		p := fmt.Sprintf("%s.%d", path, i)
		if it.shape != scalar {
			d.add(diag.Diagnostic{Code: "wrong-kind", At: it.at, Path: p, Summary: "This list takes plain values",
				Detail: "Found " + it.describe() + ".", Expected: s.f.expected(d)})
			continue
		}
		d.places[p] = it.at
		c := &slot{f: s.f, n: it, path: p, keyAt: e.keyAt, lo: s.lo, hi: s.hi}
		if s.f.kind == amountList {
			d.slots = append(d.slots, c)
		} else if len(s.f.words) > 0 {
			c.ok = d.word(s.f, it, p)
		} else {
			c.ok = d.text(s.f, it, p)
		}
		s.items = append(s.items, c)
	}
}

// word checks one of a closed set of words.
func (d *decoder) word(f *field, n *node, path string) bool {
	if slices.Contains(f.words, n.text) {
		return true
	}
	if instead := f.later[n.text]; instead != "" {
		d.add(diag.Diagnostic{Code: "not-yet", At: n.at, Path: path, Summary: fmt.Sprintf("'%s: %s' is not built yet", f.key, n.text),
			Detail: "What works instead: " + instead + ".", Expected: f.expected(d)})
		return false
	}
	x := diag.Diagnostic{Code: "unknown-word", At: n.at, Path: path, Summary: fmt.Sprintf("'%s' cannot be '%s'", f.key, clip(n.text)),
		Detail: f.doc, Expected: f.expected(d)}
	known := slices.Clone(f.words)
	known = append(known, sortedKeys(f.later)...)
	if x.Nearest = diag.Nearest(n.text, known); x.Nearest != "" {
		x.Mend = &diag.Edit{At: n.at, New: x.Nearest}
	}
	d.add(x)
	return false
}

func sortedKeys[V any](m map[string]V) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// text checks a free text: some letters, one line, not too long.
func (d *decoder) text(f *field, n *node, path string) bool {
	t := strings.TrimSpace(n.text)
	if t != "" && len([]rune(t)) <= 200 && !strings.Contains(t, "\n") && n.at.Start.Line == n.at.End.Line {
		return true
	}
	d.add(diag.Diagnostic{Code: "text", At: n.at, Path: path, Summary: fmt.Sprintf("'%s' takes a short text", f.key),
		Detail: "It has one line of 1 to 200 letters.", Expected: f.expected(d)})
	return false
}

// Written is a value as it stands in a file: what a page shows in place and
// lets its reader change.
type Written struct {
	Path string
	Text string // as written
	// Formula is true where it speaks of names, so that a change of the number
	// must ask which to change.
	Formula bool
	Num     trace.Num
	Dim     units.Dim
	Min     float64 // bounds in Rodwork's own units
	Max     float64
	At      diag.Range
}

// reckon evaluates every written quantity.
func (d *decoder) reckon() {
	for _, s := range d.slots {
		d.evaluate(s)
	}
}

// evaluate finds the number of one slot, checks it against its field and books
// it: a written amount as an input of its own, a formula by what it hangs on.
func (d *decoder) evaluate(s *slot) {
	v, ok := d.quantity(s)
	if !ok {
		return
	}
	if s.formula.Literal() && !s.f.whole {
		v.Num = d.led.Var(v.Num.V, trace.Input{Kind: d.kind, Path: s.path, Text: s.n.text, At: s.n.at})
		if src := v.Num.Sources(); len(src) == 1 {
			s.input = src[0]
		}
	}
	s.val, s.ok = v, true
	d.written = append(d.written, Written{Path: s.path, Text: s.n.text, Formula: !s.formula.Literal(), Num: v.Num, Dim: s.f.dim,
		Min: s.lo, Max: s.hi, At: s.n.at})
}

// quantity parses and reckons a slot's text in its field's dimension, without
// booking it.
func (d *decoder) quantity(s *slot) (expr.Value, bool) {
	if s.formula == nil && !d.read(s) {
		return expr.Value{}, false
	}
	v, ok, problems := s.formula.Eval(d.scope, d.env)
	for _, p := range problems {
		d.problem(s, p)
	}
	if !ok {
		return v, false
	}
	want := s.f.dim.Plain()
	if n, bare := s.formula.Bare(); bare && want != units.None {
		f, _, ok := units.Factor(s.f.bareUnit(d.lengths))
		switch {
		case want == units.Money:
			f, ok = 1, true
		case !ok:
			d.wrongDim(s, "A unit is missing", "")
			return v, false
		}
		v = expr.Value{Num: trace.Const(n * f), Dim: want}
	}
	if v.Dim.Plain() != want {
		d.wrongDim(s, fmt.Sprintf("%s where %s is wanted", capital(v.Dim.String()), s.f.dim), d.because(s.formula))
		return v, false
	}
	return v, d.inBounds(s, v)
}

// read parses a slot's formula and holds its unknown names back.
func (d *decoder) read(s *slot) bool {
	f, problems := expr.Parse(s.n.text, d.scope)
	if bare := s.f.bareUnit(d.lengths); f == nil && bare != "" {
		// '5 3/4' is no formula; with its unit it would be an amount.
		if _, err := units.Parse(s.n.text+" "+bare, s.f.dim, ""); err == nil {
			d.add(diag.Diagnostic{Code: "unit-missing", At: s.n.at, Path: s.path, Summary: "A unit is missing",
				Detail: "A fraction is one amount only where a unit follows.", Expected: s.f.expected(d), Mend: &diag.Edit{At: s.n.at, New: s.n.text + " " + bare}})
			return false
		}
	}
	for _, p := range problems {
		d.problem(s, p)
	}
	s.formula = f
	return f != nil && len(problems) == 0
}

// problem turns a formula's remark into one about the file.
func (d *decoder) problem(s *slot, p expr.Problem) {
	x := diag.Diagnostic{Code: p.Code, At: s.n.within(p.From, p.To), Path: s.path, Summary: p.Summary, Detail: p.Detail,
		Expected: p.Expected, Nearest: p.Nearest}
	if p.Code == "unknown-name" || p.Code == "formula" || p.Code == "unknown-unit" || p.Code == "number" {
		if p.Expected == "" {
			x.Expected = s.f.expected(d)
		}
	}
	if p.HasMend {
		x.Mend = &diag.Edit{At: x.At, New: p.Mend}
	}
	r := []rune(s.n.text)
	if p.Code == "unknown-name" && s.f.also != nil && x.Nearest == "" {
		if x.Nearest = diag.Nearest(s.n.text, s.f.also); x.Nearest != "" {
			x.Mend, x.Expected = &diag.Edit{At: s.n.at, New: x.Nearest}, s.f.expected(d)
			d.add(x)
			return
		}
	}
	if p.Code == "unknown-name" && p.From < p.To && p.To <= len(r) {
		d.held = append(d.held, heldName{table: tableOf(p), name: string(r[p.From:p.To]), d: x})
		return
	}
	d.add(x)
}

// tableOf tells whether an unknown name of a formula is a size or the argument
// of a function over roles or saws.
func tableOf(p expr.Problem) string {
	switch {
	case strings.HasPrefix(p.Summary, "kerf("):
		return "saw"
	case strings.Contains(p.Summary, "("):
		return "role"
	}
	return "size"
}

// because tells what the names of a formula are, where its outcome is a riddle.
func (d *decoder) because(f *expr.Formula) string {
	var parts []string
	seen := map[string]bool{}
	for _, r := range f.Refs() {
		if v, ok := d.env.Value(r.Name); ok && !seen[r.Name] {
			seen[r.Name] = true
			parts = append(parts, fmt.Sprintf("'%s' is %s (line %d)", r.Name, v.Dim, d.places["sizes."+r.Name].Start.Line))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return capital(strings.Join(parts, "; ")) + "."
}

func (d *decoder) wrongDim(s *slot, summary, detail string) {
	d.add(diag.Diagnostic{Code: "dimension", At: s.n.at, Path: s.path, Summary: summary, Detail: detail, Expected: s.f.expected(d)})
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// inBounds checks a number against its field's bounds.
func (d *decoder) inBounds(s *slot, v expr.Value) bool {
	x := v.Num.V
	if s.f.kind == aCount && x != math.Trunc(x) {
		d.add(diag.Diagnostic{Code: "not-whole", At: s.n.at, Path: s.path, Summary: "A whole number is wanted",
			Detail: fmt.Sprintf("This comes to %s.", printed(x, units.None)), Expected: "a whole number"})
		return false
	}
	if x >= s.lo && x <= s.hi {
		return true
	}
	if d.unsure && s.f.dim == units.Length && x > 0 && x < longest {
		return true // the unit of a bare length is not known
	}
	d.add(diag.Diagnostic{Code: "out-of-bounds", At: s.n.at, Path: s.path,
		Summary:  fmt.Sprintf("%s is out of bounds", printed(x, s.f.dim)),
		Expected: fmt.Sprintf("from %s to %s", printed(s.lo, s.f.dim), printed(s.hi, s.f.dim)), Detail: s.f.doc})
	return false
}

// printed shows a number in the unit that its writer would use.
func printed(v float64, d units.Dim) string {
	decimals := 0
	for _, f := range []float64{1, 10, 100} {
		if unit, _, ok := units.Factor(units.UnitWord(d, units.MM)); ok && math.Abs(v/unit*f-math.Round(v/unit*f)) > 1e-6 || !ok && math.Abs(v*f-math.Round(v*f)) > 1e-6 {
			decimals++
		}
	}
	if math.Abs(v) > 1e15 {
		return fmt.Sprintf("%.3g", v)
	}
	return units.Format(v, d, units.MM, decimals)
}
