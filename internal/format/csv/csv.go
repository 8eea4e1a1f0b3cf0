// Package csv writes a table as comma-separated values (RFC 4180): one line of
// heads, then one line for each row, lines ended by CR LF, in UTF-8 without a
// byte-order mark.
//
// # Numbers and texts
//
// A number is written bare, with a point, in the unit that its column's head
// names, and with as many digits as it has. Every text is quoted, even where it
// need not be. So a reader can tell '42', a name, from 42, a number (Python's
// csv.QUOTE_NONNUMERIC does), and a spreadsheet that splits lines at semicolons
// finds no line to split. An empty cell is nothing between two commas.
//
// # What a spreadsheet would run
//
// A spreadsheet takes a text that begins with = + - @, or with a tab or a
// carriage return before these, for a formula, and a formula can call programs
// and fetch addresses. A piece file may come from a stranger, so such a text is
// written with an apostrophe before it ('=1+1), which spreadsheets show as text.
// The full-width forms of these signs count too, as some programs narrow them,
// and so does such a sign after a semicolon, a tab or a line end within the
// text, where a careless reader would start a new cell. A program that reads the
// file back may take the apostrophe away again: Unescape does.
//
// Control characters other than tab and line ends become U+FFFD.
package csv

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/table"
	"rodwork/internal/units"
)

// Render returns the table as a file. The caption and the note are left out.
func Render(t table.Table, sys units.System) []byte {
	heads, rows := t.Plain(sys)
	var b bytes.Buffer
	for i, h := range heads {
		separate(&b, i)
		quote(&b, h)
	}
	b.WriteString("\r\n")
	for _, r := range rows {
		for i, v := range r {
			separate(&b, i)
			switch {
			case v.IsNumber:
				b.Write(number(v.Number))
			case v.Text != "" || len(r) == 1: // a line of nothing would be no row
				quote(&b, v.Text)
			}
		}
		b.WriteString("\r\n")
	}
	return b.Bytes()
}

func separate(b *bytes.Buffer, i int) {
	if i > 0 {
		b.WriteByte(',')
	}
}

func number(v float64) []byte {
	if a := math.Abs(v); a >= 1e15 || a != 0 && a < 1e-6 {
		return strconv.AppendFloat(nil, v, 'g', -1, 64)
	}
	return strconv.AppendFloat(nil, v, 'f', -1, 64)
}

func quote(b *bytes.Buffer, text string) {
	b.WriteByte('"')
	b.WriteString(strings.ReplaceAll(Escape(text), `"`, `""`))
	b.WriteByte('"')
}

// guard is put before what a spreadsheet would run.
const guard = '\''

// runs tells whether a spreadsheet may take a text for a formula if its first
// character that is no blank is this one.
func runs(r rune) bool { return strings.ContainsRune("=+-@＝＋－＠", r) }

// parts tells whether a reader may start a new cell after this character.
func parts(r rune) bool { return r == ';' || r == '\t' || r == '\n' || r == '\r' }

// Escape returns the text with an apostrophe before each place from which a
// spreadsheet may run it as a formula, and before each run of apostrophes that
// already stands before such a place, so that Unescape can tell them apart.
func Escape(text string) string {
	var b strings.Builder
	rs := []rune(strings.ToValidUTF8(text, "\ufffd"))
	start := true // of a cell
	for i, r := range rs {
		if r < ' ' && !parts(r) || r == 0x7f {
			r = '\ufffd'
		}
		if start && leads(rs[i:]) {
			b.WriteRune(guard)
		}
		start = parts(r)
		b.WriteRune(r)
	}
	return b.String()
}

// leads tells whether the rest of a text begins a formula: blanks, apostrophes
// of the text's own, then a sign that runs; or a tab or carriage return, which
// are dangerous by themselves at a cell's start.
func leads(rest []rune) bool {
	if rest[0] == '\t' || rest[0] == '\r' {
		return true
	}
	for i, r := range rest {
		switch {
		case r == guard && i == 0 && len(rest) > 1:
			return leads(rest[1:])
		case r == ' ' || r == '\u00a0':
		default:
			return runs(r)
		}
	}
	return false
}

// Unescape takes away what Escape put in.
func Unescape(text string) string {
	var b strings.Builder
	rs := []rune(text)
	start := true
	for i := 0; i < len(rs); i++ {
		if start && rs[i] == guard && i+1 < len(rs) && leads(rs[i+1:]) {
			i++
		}
		b.WriteRune(rs[i])
		start = parts(rs[i])
	}
	return b.String()
}
