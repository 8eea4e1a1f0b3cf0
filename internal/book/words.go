package book

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/units"
)

// number is a whole number in a sentence.
func number(n int) say.Quantity {
	return say.Quantity{V: float64(n), Dim: units.Count, Bare: true}
}

// plural is a number with the word that fits it.
func plural(n int, one, many string) say.Sentence {
	word := many
	if n == 1 {
		word = one
	}
	return say.F("{} {}", number(n), word)
}

// list joins sentences as a person does: 'a, b and c'.
func list(ss []say.Sentence) say.Sentence {
	var out say.Sentence
	for i, s := range ss {
		switch {
		case i == 0:
		case i == len(ss)-1:
			out = append(out, say.Span{Text: " and "})
		default:
			out = append(out, say.Span{Text: ", "})
		}
		out = append(out, s...)
	}
	return out
}

// names joins names in italics.
func names(ss []string) say.Sentence {
	out := make([]say.Sentence, len(ss))
	for i, s := range ss {
		out[i] = say.Sentence{say.Name(s)}
	}
	return list(out)
}

// join puts sentences after each other with a space; empty ones are left out.
func join(ss ...say.Sentence) say.Sentence {
	var out say.Sentence
	for _, s := range ss {
		if len(s) == 0 {
			continue
		}
		if len(out) > 0 {
			out = append(out, say.Span{Text: " "})
		}
		out = append(out, s...)
	}
	return out
}

// upper makes the first letter a capital.
func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// article puts 'a' or 'an' before a word, by its first letter.
func article(s string) string {
	if s != "" && strings.ContainsRune("aeiou", rune(strings.ToLower(s)[0])) {
		return "an " + s
	}
	return "a " + s
}

// sortedKeys returns the keys of a map in order.
func sortedKeys[V any](m map[string]V) []string {
	return slices.Sorted(maps.Keys(m))
}

// digits writes a whole number into a key or a caption, where no unit is meant.
func digits(n int) string { return strconv.Itoa(n) }

// choices joins words that the maker chose in one list of the file.
func choices(ss []string, path string) say.Sentence {
	out := make([]say.Sentence, len(ss))
	for i, s := range ss {
		out[i] = say.Sentence{say.Choice(s, path)}
	}
	return list(out)
}

// capital returns the sentence with a capital at its start, where it starts
// with a word. The spans given are not changed.
func capital(s say.Sentence) say.Sentence {
	if len(s) == 0 || s[0].Q != nil {
		return s
	}
	out := slices.Clone(s)
	out[0].Text = upper(out[0].Text)
	return out
}
