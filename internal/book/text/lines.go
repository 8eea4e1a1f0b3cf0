package text

import (
	"strings"
	"unicode"
)

// clean makes text safe and single-lined: control characters, the marks that
// turn the direction of writing and broken bytes become '?', line ends a space.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\u00a0':
			return ' '
		case unicode.IsControl(r), r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r == 0x200e, r == 0x200f,
			r == 0x061c, r == unicode.ReplacementChar, r == 0x2028, r == 0x2029:
			return '?'
		}
		return r
	}, s)
}

// columns returns how many columns of a terminal the text takes: none for a
// mark that sits on the letter before it, two for the wide letters of East Asia.
func columns(s string) int {
	n := 0
	for _, r := range s {
		n += runeColumns(r)
	}
	return n
}

func runeColumns(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case r >= 0x1100 && unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul),
		r >= 0xff01 && r <= 0xff60, r >= 0x1f300 && r <= 0x1faff:
		return 2
	}
	return 1
}

// wrap breaks text into lines of at most width columns, at spaces; a word that
// is longer is cut.
func wrap(s string, width int) []string {
	width = max(width, 1)
	var lines []string
	line, used := "", 0
	flush := func() {
		lines = append(lines, line)
		line, used = "", 0
	}
	for _, word := range strings.Fields(s) {
		n := columns(word)
		if used > 0 && used+1+n > width {
			flush()
		}
		for n > width {
			head, rest := cut(word, width)
			line = head
			flush()
			word, n = rest, columns(rest)
		}
		if used > 0 {
			line += " "
			used++
		}
		line += word
		used += n
	}
	if used > 0 || len(lines) == 0 {
		flush()
	}
	return lines
}

// cut splits a word after width columns; at least one letter goes to the head.
func cut(word string, width int) (head, rest string) {
	n := 0
	for i, r := range word {
		c := runeColumns(r)
		if i > 0 && n+c > width {
			return word[:i], word[i:]
		}
		n += c
	}
	return word, ""
}

// pad fills text with spaces to a width, at its left where right is set.
func pad(s string, width int, right bool) string {
	fill := strings.Repeat(" ", max(0, width-columns(s)))
	if right {
		return fill + s
	}
	return s + fill
}
