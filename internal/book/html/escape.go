package html

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// words escapes text for the page's content and for attributes in double
// quotes. What HTML and XML can't hold (most control characters, broken UTF-8)
// becomes a replacement character. Text with letters or controls that run from
// right to left is set apart, so that it can't turn what stands around it.
func words(s string) string {
	e := escape(s)
	if turns(s) {
		return "<bdi>" + e + "</bdi>"
	}
	return e
}

// escape is words without the setting apart: for attributes.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// turns reports whether a text could change the direction of what follows it.
func turns(s string) bool {
	for _, r := range s {
		if unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko, unicode.Adlam) ||
			r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200f || r == 0x061c {
			return true
		}
	}
	return false
}

// anchor makes an id of a block an id of the page: ASCII letters, digits and
// hyphens stay, a space is a hyphen and a slash a point, all else is its number, so that two
// ids never become one.
func anchor(id string) string {
	var b strings.Builder
	b.WriteString("b-")
	for _, r := range id {
		switch {
		case r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case r == ' ':
			b.WriteByte('-')
		case r == '/':
			b.WriteByte('.')
		default:
			fmt.Fprintf(&b, "_%x.", r)
		}
	}
	return b.String()
}

// tight keeps a number and its unit on one line.
func tight(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }
