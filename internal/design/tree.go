package design

import (
	"strings"

	"rodwork/internal/diag"
)

// shape is what a node of a document is.
type shape int

const (
	scalar shape = iota
	mapping
	sequence
	absent // nothing stands behind the key, or '~'
)

// node is a value of a document with its place: what is left of YAML once it
// has been read. A scalar's text is as written, without quotes; numbers are not
// interpreted ('010' stays so).
type node struct {
	shape   shape
	text    string
	quoted  bool
	flow    bool // a mapping or sequence in brackets
	at      diag.Range
	end     diag.Pos // of the closing bracket of a mapping or sequence in brackets
	entries []entry
	items   []*node
}

// entry is one key of a mapping with its value.
type entry struct {
	key   string
	keyAt diag.Range
	val   *node
	// broken says that a comma cut the value short, and that it was told.
	broken bool
}

// get returns the entry with the key.
func (n *node) get(key string) (*entry, bool) {
	if n == nil {
		return nil, false
	}
	for i := range n.entries {
		if n.entries[i].key == key {
			return &n.entries[i], true
		}
	}
	return nil, false
}

// keys returns the keys in the order of the file.
func (n *node) keys() []string {
	out := make([]string, len(n.entries))
	for i, e := range n.entries {
		out[i] = e.key
	}
	return out
}

// within returns the place of runes from to to of a scalar. Behind an escape
// in quotes, or on the second line of a text, the count no longer holds, and
// the whole scalar is named.
func (n *node) within(from, to int) diag.Range {
	r := n.at
	start := r.Start.Col
	if n.quoted {
		start++
	}
	width := len([]rune(n.text))
	if n.quoted {
		width += 2
	}
	if r.End.Line != r.Start.Line || r.End.Col-r.Start.Col != width {
		return r
	}
	r.End.Col = start + max(to, from+1)
	r.Start.Col = start + from
	if r.End.Col > n.at.End.Col {
		r.End.Col = max(n.at.End.Col, r.Start.Col+1)
	}
	return r
}

// describe says what a node is, for 'expected …, found …'.
func (n *node) describe() string {
	switch n.shape {
	case mapping:
		return "several keys"
	case sequence:
		return "a list"
	case absent:
		return "nothing"
	}
	return "'" + clip(n.text) + "'"
}

// clip shortens a text for messages.
func clip(s string) string {
	r := []rune(s)
	if len(r) > 60 {
		return string(r[:57]) + "…"
	}
	return s
}

// placeOf returns the place of a path, or of its nearest parent with one.
func placeOf(places map[string]diag.Range, path string) diag.Range {
	for {
		if r, ok := places[path]; ok {
			return r
		}
		i := strings.LastIndexByte(path, '.')
		if i < 0 {
			return places[""]
		}
		path = path[:i]
	}
}

// join adds a key to a path.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
