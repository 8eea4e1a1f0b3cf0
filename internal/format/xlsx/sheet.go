package xlsx

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"rodwork/internal/table"
	"rodwork/internal/units"
)

// sheet returns the XML of one table's sheet.
func sheet(t table.Table, sys units.System, styles *formats, first bool) string {
	heads, rows := t.Plain(sys)
	var b strings.Builder
	b.WriteString(`<worksheet xmlns="` + main + `"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><sheetViews><sheetView workbookViewId="0"`)
	if first {
		b.WriteString(` tabSelected="1"`)
	}
	b.WriteString(`><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>`)
	for i, w := range widths(heads, rows) {
		fmt.Fprintf(&b, `<col min="%d" max="%d" width="%d" customWidth="1"/>`, i+1, i+1, w)
	}
	b.WriteString(`</cols><sheetData><row r="1">`)
	for i, h := range heads {
		text(&b, cellName(i, 0), styles.index(look{head: true, right: t.Columns[i].Align == table.Right}), h)
	}
	b.WriteString(`</row>`)
	for i, r := range rows {
		fmt.Fprintf(&b, `<row r="%d">`, i+2)
		for j, v := range r {
			cell(&b, cellName(j, i+1), v, look{sum: t.Rows[i].Total, strong: t.Rows[i].Picked,
				right: t.Columns[j].Align == table.Right}, styles)
		}
		b.WriteString(`</row>`)
	}
	if t.Note != "" {
		n := len(rows) + 2 // after an empty row
		fmt.Fprintf(&b, `<row r="%d">`, n+1)
		text(&b, cellName(0, n), styles.index(look{note: true}), t.Note)
		b.WriteString(`</row>`)
	}
	b.WriteString(`</sheetData><pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/>` +
		`<pageSetup orientation="landscape" fitToHeight="0"/><headerFooter><oddHeader>` + escape(headerText(t.Caption)) +
		`</oddHeader><oddFooter>&amp;P / &amp;N</oddFooter></headerFooter></worksheet>`)
	return b.String()
}

// headerText is a text of a printed page's head, in which & begins a code.
func headerText(s string) string {
	if utf8.RuneCountInString(s) > 100 {
		s = string([]rune(s)[:99]) + "…"
	}
	return strings.ReplaceAll(s, "&", "&&")
}

func cell(b *strings.Builder, ref string, v table.Value, l look, styles *formats) {
	switch {
	case v.IsNumber:
		l.number, l.decimals = true, min(v.Decimals, 9)
		fmt.Fprintf(b, `<c r="%s" s="%d"><v>%s</v></c>`, ref, styles.index(l), strconv.FormatFloat(v.Number, 'g', -1, 64))
	case v.Text != "":
		text(b, ref, styles.index(l), v.Text)
	case l.sum:
		fmt.Fprintf(b, `<c r="%s" s="%d"/>`, ref, styles.index(l))
	}
}

func text(b *strings.Builder, ref string, style int, s string) {
	if utf8.RuneCountInString(s) > maxText {
		s = string([]rune(s)[:maxText-1]) + "…"
	}
	fmt.Fprintf(b, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, ref, style, escape(s))
}

// cellName returns the name of a cell, both counted from 0: 'B3'.
func cellName(column, row int) string {
	name := ""
	for c := column + 1; c > 0; c = (c - 1) / 26 {
		name = string(rune('A'+(c-1)%26)) + name
	}
	return name + strconv.Itoa(row+1)
}

// The least and greatest width of a column, in digits of the text face.
const (
	narrowest = 6
	widest    = 60
)

// widths returns how wide the columns are, by their longest content.
func widths(heads []string, rows [][]table.Value) []int {
	out := make([]int, len(heads))
	for i, h := range heads {
		out[i] = utf8.RuneCountInString(h) + 2
	}
	for _, r := range rows {
		for i, v := range r {
			n := utf8.RuneCountInString(v.Text)
			if v.IsNumber {
				n = len(strconv.FormatFloat(v.Number, 'f', v.Decimals, 64))
			}
			out[i] = max(out[i], n+2)
		}
	}
	for i, w := range out {
		out[i] = min(max(w, narrowest), widest)
	}
	return out
}

// escape makes a text fit for XML and for the strings of SpreadsheetML, where
// _xHHHH_ stands for a character (ECMA-376 22.9.2.19): an underscore that would
// begin one is itself written so. What XML cannot hold becomes U+FFFD.
func escape(s string) string {
	var b strings.Builder
	for i, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '_' && coded(s[i:]):
			b.WriteString("_x005F_")
		case r == '\n' || r == '\t':
			b.WriteRune(r)
		case r < ' ' || r == 0xfffe || r == 0xffff:
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func coded(s string) bool {
	if len(s) < 7 || s[1] != 'x' || s[6] != '_' {
		return false
	}
	_, err := strconv.ParseUint(s[2:6], 16, 16)
	return err == nil
}

// maxName is the length of a sheet's name in UTF-16, as readers demand.
const maxName = 31

// sheetNames makes a name for each table: its caption without the signs that
// no sheet's name may have, short enough, and unlike all others.
func sheetNames(tables []table.Table) []string {
	taken := map[string]bool{}
	out := make([]string, len(tables))
	for i, t := range tables {
		clean := strings.TrimFunc(strings.Map(func(r rune) rune {
			switch {
			case strings.ContainsRune(`[]:*?/\`, r), r < ' ', r == 0xfffe || r == 0xffff:
				return ' '
			}
			return r
		}, strings.ToValidUTF8(t.Caption, " ")), outer)
		if clean == "" || strings.EqualFold(clean, "history") { // that name is kept by one reader
			clean = strings.TrimSpace("Table " + clean)
		}
		name := clip(clean, maxName)
		for n := 2; taken[strings.ToLower(name)]; n++ {
			tail := " " + strconv.Itoa(n)
			name = clip(clean, maxName-len(tail)) + tail
		}
		taken[strings.ToLower(name)] = true
		out[i] = name
	}
	return out
}

// outer tells what a sheet's name may not end in: blanks of any kind, and '.
func outer(r rune) bool { return r == '\'' || unicode.IsSpace(r) }

// clip cuts a text to n units of UTF-16.
func clip(s string, n int) string {
	for i, r := range s {
		n -= max(1, utf16.RuneLen(r))
		if n < 0 {
			return strings.TrimRightFunc(s[:i], outer)
		}
	}
	return s
}
