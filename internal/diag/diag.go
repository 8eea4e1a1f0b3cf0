// Package diag is the vocabulary of located remarks about a user's document:
// what is wrong, where, what was expected, and what would mend it. It knows
// neither YAML nor furniture; parsers and compilers return its values, and
// only the outermost packages print them.
//
// Three kinds of trouble are never mixed in Rodwork: a Diagnostic is about the
// user's document; an error is about the world outside (a file, a disk); a
// panic is about a broken promise inside the program.
package diag

import (
	"fmt"
	"io"
	"sort"
	"strings"
)

// Pos is a place in a text: line and column count from 1, columns in runes.
type Pos struct {
	Line int `json:"line"`
	Col  int `json:"col"`
}

// Before reports whether p stands before q.
func (p Pos) Before(q Pos) bool {
	return p.Line < q.Line || p.Line == q.Line && p.Col < q.Col
}

// Range is a stretch of one file, End exclusive. The zero Range is 'nowhere'.
type Range struct {
	File  string `json:"file"`
	Start Pos    `json:"start"`
	End   Pos    `json:"end"`
}

// IsZero reports whether the range names no place.
func (r Range) IsZero() bool { return r.Start.Line == 0 }

// String prints file:line:column, as editors follow it.
func (r Range) String() string {
	if r.IsZero() {
		return r.File
	}
	return fmt.Sprintf("%s:%d:%d", r.File, r.Start.Line, r.Start.Col)
}

// Severity tells whether a document can be used in spite of the remark.
type Severity int

const (
	// Error means that the value could not be used.
	Error Severity = iota
	// Warning means that the value was used, and may not be what was meant.
	Warning
)

// String returns "error" or "warning".
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// MarshalText writes the severity as its word.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Edit is a mend: the text that should stand in the range instead.
type Edit struct {
	At  Range  `json:"at"`
	New string `json:"new"`
}

// Diagnostic is one located remark.
type Diagnostic struct {
	// Code is the stable kebab-case name of this kind of remark.
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	// Summary is a title of a few words; Detail whole sentences: what is, what
	// was wanted, what to do.
	Summary string `json:"summary"`
	Detail  string `json:"detail,omitempty"`
	// At is the tight range of the offending text, and Offending that text.
	At        Range  `json:"at"`
	Offending string `json:"offending,omitempty"`
	Expected  string `json:"expected,omitempty"`
	// Nearest is the nearest right spelling, empty where none is near.
	Nearest string `json:"nearest,omitempty"`
	// Path names the value in the document: "body.corners.top left.radius".
	Path string `json:"path,omitempty"`
	Mend *Edit  `json:"mend,omitempty"`
}

// List is a set of remarks in the order found; Sort puts it in reading order.
type List []Diagnostic

// HasErrors reports whether any remark is an Error.
func (l List) HasErrors() bool {
	for _, d := range l {
		if d.Severity == Error {
			return true
		}
	}
	return false
}

// Sort orders by file, place and code, so that the same input gives the same text.
func (l List) Sort() {
	sort.SliceStable(l, func(i, j int) bool {
		a, b := l[i], l[j]
		if a.At.File != b.At.File {
			return a.At.File < b.At.File
		}
		if a.At.Start != b.At.Start {
			return a.At.Start.Before(b.At.Start)
		}
		return a.Code < b.Code
	})
}

// Write prints the list for a person: place, summary, the line with a caret
// under the offending text, the sentences, and the mend. Source returns a
// file's text by name, or nil where it is not at hand.
func (l List) Write(w io.Writer, source func(file string) []byte) error {
	for i, d := range l {
		if i > 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if _, err := io.WriteString(w, d.text(source)); err != nil {
			return err
		}
	}
	return nil
}

func (d Diagnostic) text(source func(string) []byte) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s: %s\n", d.At, d.Severity, d.Summary)
	if source != nil && !d.At.IsZero() {
		b.WriteString(snippet(source(d.At.File), d.At))
	}
	if d.Detail != "" {
		fmt.Fprintf(&b, "  %s\n", d.Detail)
	}
	if d.Expected != "" {
		fmt.Fprintf(&b, "  expected: %s\n", d.Expected)
	}
	if d.Nearest != "" {
		fmt.Fprintf(&b, "  nearest:  %s\n", d.Nearest)
	}
	if d.Mend != nil {
		fmt.Fprintf(&b, "  mend:     %s\n", d.Mend.New)
	}
	return b.String()
}

// snippet returns the line of the range and a caret line below it.
func snippet(src []byte, at Range) string {
	lines := strings.Split(string(src), "\n")
	if at.Start.Line > len(lines) {
		return ""
	}
	line := []rune(strings.TrimRight(strings.ReplaceAll(lines[at.Start.Line-1], "\t", " "), "\r"))
	from := min(max(at.Start.Col-1, 0), len(line))
	to := len(line)
	if at.End.Line == at.Start.Line {
		to = min(max(at.End.Col-1, from+1), max(len(line), from+1))
	}
	const window = 100 // a long line is shown round the place, not whole
	left := 0
	if len(line) > window {
		left = max(0, from-window/2)
		line = line[left:min(len(line), left+window)]
	}
	n := max(1, min(to-from, window))
	return fmt.Sprintf("  %4d | %s\n       | %s%s\n", at.Start.Line, string(line),
		strings.Repeat(" ", from-left), strings.Repeat("^", n))
}
