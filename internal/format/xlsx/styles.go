package xlsx

import (
	"fmt"
	"strings"
)

// look is how a cell is shown.
type look struct {
	head, sum, strong, note, right bool
	number                         bool
	decimals                       int
}

// formats collects the looks that a workbook uses, in the order of their first
// use: a cell names its look by its place in the list.
type formats struct {
	looks []look
	at    map[look]int
}

// index returns the place of a look; 0 is the plain one, which every workbook
// must begin with.
func (f *formats) index(l look) int {
	if f.at == nil {
		f.looks, f.at = []look{{}}, map[look]int{{}: 0}
	}
	i, ok := f.at[l]
	if !ok {
		i = len(f.looks)
		f.looks, f.at[l] = append(f.looks, l), i
	}
	return i
}

// The fonts and borders that looks choose from, by index.
const (
	fontPlain = iota
	fontBold
	fontNote
)
const (
	lineNone = iota
	lineBelow
	lineAbove
)

// firstOwn is the least id of a number format that is not one of the standard's
// own (ECMA-376 18.8.30); the one with n decimals has the id firstOwn + n.
const firstOwn = 164

func (f *formats) xml() string {
	f.index(look{})
	var b strings.Builder
	b.WriteString(`<styleSheet xmlns="` + main + `"><numFmts count="10">`)
	for n := range 10 {
		code := "0"
		if n > 0 {
			code += "." + strings.Repeat("0", n)
		}
		fmt.Fprintf(&b, `<numFmt numFmtId="%d" formatCode="%s"/>`, firstOwn+n, code)
	}
	const face = `<sz val="11"/><name val="Liberation Sans"/><family val="2"/>`
	b.WriteString(`</numFmts><fonts count="3"><font>` + face + `</font><font><b/>` + face + `</font><font><i/>` + face + `</font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="3"><border><left/><right/><top/><bottom/><diagonal/></border>` +
		`<border><left/><right/><top/><bottom style="thin"/><diagonal/></border>` +
		`<border><left/><right/><top style="thin"/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>`)
	fmt.Fprintf(&b, `<cellXfs count="%d">`, len(f.looks))
	for _, l := range f.looks {
		b.WriteString(l.xml())
	}
	b.WriteString(`</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`)
	return b.String()
}

func (l look) xml() string {
	format, font, line := 0, fontPlain, lineNone
	if l.number {
		format = firstOwn + l.decimals
	}
	switch {
	case l.head:
		font, line = fontBold, lineBelow
	case l.sum:
		font, line = fontBold, lineAbove
	case l.strong:
		font = fontBold
	case l.note:
		font = fontNote
	}
	align := `vertical="top"`
	if l.right {
		align += ` horizontal="right"`
	}
	if !l.number && !l.note {
		align += ` wrapText="1"`
	}
	return fmt.Sprintf(`<xf numFmtId="%d" fontId="%d" fillId="0" borderId="%d" xfId="0" applyNumberFormat="1" applyFont="1" applyBorder="1" applyAlignment="1"><alignment %s/></xf>`,
		format, font, line, align)
}
