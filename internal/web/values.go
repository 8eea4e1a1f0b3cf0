package web

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Value is what a page must know to let a written value be changed in place.
type Value struct {
	Path  string `json:"path"`
	Label string `json:"label"` // as it is read out: "gap, fronts 1"
	File  File   `json:"file"`
	Fixed bool   `json:"fixed,omitempty"` // cannot be written
	Text  string `json:"text"`            // as it stands in the file
	// Formula is set where the text speaks of names; Names are the sizes among
	// them, any of which may be changed instead.
	Formula bool     `json:"formula,omitempty"`
	Names   []string `json:"names,omitempty"`
	// Number is the value in the unit that it is written in, and Suffix what
	// stands behind the number there; a bare number has none.
	Number float64 `json:"number"`
	Suffix string  `json:"suffix,omitempty"`
	Whole  bool    `json:"whole,omitempty"` // a count
	Inch   bool    `json:"inch,omitempty"`  // stepped in sixteenths
	// Min and Max are the bounds in the same unit; nil where they are so far off
	// that they say nothing.
	Min   *float64 `json:"min,omitempty"`
	Max   *float64 `json:"max,omitempty"`
	Shown string   `json:"shown"`           // as a sentence prints it
	Range string   `json:"range,omitempty"` // the bounds in words
	// Choices are the words that may stand there, where it is a word.
	Choices []string `json:"choices,omitempty"`
	// Plain is set where it is a word that one types: 'equal'.
	Plain bool `json:"plain,omitempty"`
	// From says where it stands, or what filled it in; Filled is set where it
	// stands in no file, and is written into one only when it is changed.
	From   string `json:"from,omitempty"`
	Filled bool   `json:"filled,omitempty"`
	before string // words that stand before the number in the file
}

// valuesOf lists the values of both files by their paths.
func valuesOf(p *plan.Plan, b *book.Book, shopFixed bool) map[string]Value {
	d, sys := p.Design, b.System
	out := map[string]Value{}
	if d.Shop != nil {
		for _, w := range d.Shop.Written {
			v := amount(w, sys, d)
			v.File, v.Fixed, v.From = ShopFile, shopFixed, fromLine(d.Shop.File, w.At)
			out[w.Path] = v
			if of, ok := strings.CutSuffix(w.Path, ".mean"); ok {
				v.Label = label(of)
				out[of] = v // what a sentence calls the kerf is written as its mean
			}
		}
	}
	lines := strings.Split(string(p.Source.Piece), "\n")
	narrow := boundsOfSizes(d)
	for _, w := range d.Written {
		if b, ok := narrow[w.Path]; ok {
			w.Min, w.Max = math.Max(w.Min, b[0]), math.Min(w.Max, b[1])
		}
		v := amount(w, sys, d)
		v.File, v.From = PieceFile, fromLine(d.File, w.At)
		if whole := textAt(lines, d.Places[w.Path]); whole != w.Text && strings.HasSuffix(whole, w.Text) {
			v.before = strings.TrimSuffix(whole, w.Text) // 'finger hole 30' is a word and a number
		}
		out[w.Path] = v
	}
	for path, at := range d.Places { // into a map again: no order shows
		if _, done := out[path]; done {
			continue
		}
		text := textAt(lines, at)
		if words, ok := d.Choices(path); ok {
			if !slices.Contains(words, text) {
				text = "" // its parent stands there, or what a newer program knows
			}
			out[path] = Value{Path: path, Label: label(path), File: PieceFile, Text: text, Shown: text, Choices: words, From: fromLine(d.File, at)}
		} else if text != "" && design.Types(path) {
			out[path] = Value{Path: path, Label: label(path), File: PieceFile, Text: text, Shown: text, Plain: true, From: fromLine(d.File, at)}
		}
	}
	f := newFiller(p, sys, shopFixed)
	for path, s := range b.Alive() { // into a map again: no order shows
		if _, done := out[path]; done {
			continue
		}
		if v, ok := f.value(path, s); ok {
			out[path], out[v.Path] = v, v
		}
	}
	return out
}

// boundsOfSizes finds, for sizes that a field takes as they are, the bounds of
// that field: a size may be anything, the width of a body may not.
func boundsOfSizes(d *design.Design) map[string][2]float64 {
	out := map[string][2]float64{}
	for _, w := range d.Written {
		path := "sizes." + strings.TrimSpace(w.Text)
		if !w.Formula || strings.HasPrefix(w.Path, "sizes.") {
			continue
		}
		b, ok := out[path]
		if !ok {
			b = [2]float64{math.Inf(-1), math.Inf(1)}
		}
		out[path] = [2]float64{math.Max(b[0], w.Min), math.Min(b[1], w.Max)}
	}
	return out
}

var written = regexp.MustCompile(`^\s*([-+−]?[0-9][0-9., ]*(?:[0-9]+/[0-9]+)?|[-+−]?[0-9]+/[0-9]+)\s*(.*)$`)

// far is the size, in the shown unit, from which a bound is no help.
const far = 30_000

func amount(w design.Written, sys units.System, d *design.Design) Value {
	v := Value{Path: w.Path, Label: label(w.Path), Text: w.Text, Formula: w.Formula, Whole: w.Dim.Count,
		Shown: units.Format(w.Num.V, w.Dim, sys, decimals(w.Num.V))}
	factor, word := units.Scale(w.Dim, sys)
	v.Suffix = word
	if m := written.FindStringSubmatch(w.Text); m != nil && !w.Formula {
		v.Suffix = strings.TrimSpace(m[2])
		if n, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(m[1]), "−", "-", 1), 64); err == nil && n != 0 {
			factor = w.Num.V / n
		} else if f, _, ok := units.Factor(v.Suffix); ok {
			factor = f
		}
	}
	v.Number = tidy(w.Num.V / factor)
	v.Inch = v.Suffix == "in" || v.Suffix == `"`
	if lo, hi := w.Min/factor, w.Max/factor; math.Abs(lo) < far && math.Abs(hi) < far {
		lo, hi = tidy(lo), tidy(hi)
		v.Min, v.Max = &lo, &hi
		v.Range = units.FormatBare(w.Min, w.Dim, sys, decimals(w.Min)) + " to " + units.Format(w.Max, w.Dim, sys, decimals(w.Max))
	}
	if w.Formula {
		v.Names = sizesIn(w.Num, d.Ledger, w.Path)
	}
	return v
}

// sizesIn lists the sizes that a number hangs on.
func sizesIn(n trace.Num, l *trace.Ledger, but string) []string {
	var out []string
	for _, id := range n.Sources() {
		if in := l.Inputs()[id]; in.Kind == trace.Size && in.Path != but {
			out = append(out, in.Path)
		}
	}
	return out
}

// tidy takes away what the division of units left.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// decimals are the least that show a number as it is, at most three.
func decimals(v float64) int {
	for n, p := 0, 1.0; n < 3; n, p = n+1, p*10 {
		if math.Abs(math.Round(v*p)/p-v) < 1e-9 {
			return n
		}
	}
	return 3
}

// label reads a path out: "fronts.0.gap" is "gap, fronts 1".
func label(path string) string {
	parts := strings.Split(strings.TrimPrefix(path, "sizes."), ".")
	var words []string
	for _, p := range parts {
		if n, err := strconv.Atoi(p); err == nil && len(words) > 0 {
			words[len(words)-1] += " " + strconv.Itoa(n+1)
			continue
		}
		words = append(words, p)
	}
	last := len(words) - 1
	out := words[last]
	for i := last - 1; i >= 0; i-- {
		out += ", " + words[i]
	}
	return out
}

// textAt is what stands in a range of one line, without quotes.
func textAt(lines []string, at diag.Range) string {
	if at.Start.Line < 1 || at.Start.Line > len(lines) || at.End.Line != at.Start.Line {
		return ""
	}
	r := []rune(lines[at.Start.Line-1])
	if at.Start.Col < 1 || at.End.Col-1 > len(r) || at.End.Col < at.Start.Col {
		return ""
	}
	return strings.Trim(string(r[at.Start.Col-1:at.End.Col-1]), `"'`)
}
