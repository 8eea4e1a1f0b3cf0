package design

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/diag"
)

// SpliceError tells why an edit was refused. The file is as it was.
type SpliceError struct {
	Path   string
	Reason string
	At     diag.Range // zero where the path is not written
}

// Error names the path and the reason.
func (e *SpliceError) Error() string {
	if e.At.IsZero() {
		return fmt.Sprintf("%s: %s", e.Path, e.Reason)
	}
	return fmt.Sprintf("%s: %s: %s", e.At, e.Path, e.Reason)
}

// Splice returns the file with the value at a path ("sizes.width",
// "fronts.0.gap") replaced by new text, or written there where the path was
// absent and its parent can take it. Nothing else moves: comments, order and
// spacing stay. The result is read again, and it is proved that exactly that
// path changed; an edit of which that cannot be shown is refused with a
// *SpliceError. Whether the new value is right is for Resolve to say.
func Splice(file string, src []byte, path, newText string) ([]byte, error) {
	root, remarks := readTree(file, src)
	if root == nil || remarks.HasErrors() {
		return nil, &SpliceError{Path: path, Reason: "the file cannot be read as it is"}
	}
	if strings.ContainsAny(newText, "\n\r\t") || strings.TrimSpace(newText) == "" {
		return nil, &SpliceError{Path: path, Reason: "a value is a text on one line"}
	}
	s := &splicer{path: path, text: strings.TrimSpace(newText), lines: strings.Split(string(src), "\n")}
	o := shopSchema
	if _, ok := root.get("piece"); ok {
		o = pieceSchema
	}
	if err := s.edit(root, &field{kind: anObject, sub: o}, path, ""); err != nil {
		return nil, err
	}
	out := []byte(strings.Join(s.lines, "\n"))
	if err := s.prove(file, root, out); err != nil {
		return nil, err
	}
	return out, nil
}

// splicer edits the lines of one file.
type splicer struct {
	path, text string
	lines      []string
	// target is the path of the value as the tree spells it, and moved the
	// paths that the edit renames: 'body.bend' to 'body.bend.way'.
	target string
	moved  map[string]string
}

func (s *splicer) refuse(n *node, reason string) error {
	e := &SpliceError{Path: s.path, Reason: reason}
	if n != nil {
		e.At = n.at
	}
	return e
}

// sep parts the keys of a path inside: keys may have points in them.
const sep = "\x00"

// edit walks down the tree along the path, and the schema with it.
func (s *splicer) edit(n *node, f *field, rest, at string) error {
	if rest == "" {
		s.target = at
		return s.replace(n)
	}
	switch n.shape {
	case mapping:
		if e, tail, ok := longestKey(n, rest); ok {
			return s.edit(e.val, step(f, e.key), tail, at+sep+e.key)
		}
		return s.insert(n, f, rest, at)
	case sequence:
		head, tail, _ := strings.Cut(rest, ".")
		i, err := strconv.Atoi(head)
		if err != nil || i < 0 || i >= len(n.items) {
			return s.refuse(n, "the list has no such entry")
		}
		return s.edit(n.items[i], step(f, head), tail, at+sep+head)
	case scalar:
		return s.unfold(n, f, rest, at)
	}
	return s.refuse(n, "nothing stands there to add to")
}

// longestKey finds the entry whose key begins the path.
func longestKey(n *node, path string) (*entry, string, bool) {
	var best *entry
	for i := range n.entries {
		e := &n.entries[i]
		if (path == e.key || strings.HasPrefix(path, e.key+".")) && (best == nil || len(e.key) > len(best.key)) {
			best = e
		}
	}
	if best == nil {
		return nil, "", false
	}
	return best, strings.TrimPrefix(strings.TrimPrefix(path, best.key), "."), true
}

// step follows the schema by one key or index; nil where it does not know it.
func step(f *field, key string) *field {
	switch {
	case f == nil:
		return nil
	case f.kind == aList || f.kind == aTable:
		return &field{kind: anObject, sub: f.sub}
	case f.kind == sizeTable || f.kind == nameTable || f.kind == nameList || f.kind == amountList:
		return &field{kind: aText}
	case f.kind == anObject:
		return f.sub.field(key)
	}
	return nil
}

func (s *splicer) replace(n *node) error {
	at := n.at
	switch {
	case n.shape == absent:
		return s.refuse(n, "nothing stands there to replace")
	case at.Start.Line != at.End.Line || !n.quoted && n.shape == scalar && len([]rune(n.text)) != at.End.Col-at.Start.Col:
		return s.refuse(n, "the value runs over several lines")
	case n.shape != scalar && !n.flow:
		return s.refuse(n, "several keys or a list stand there, not one value")
	}
	s.put(at.Start.Line, at.Start.Col, at.End.Col, s.quote(s.text, true))
	return nil
}

// put replaces the runes of a line from one column up to another.
func (s *splicer) put(line, from, to int, text string) {
	r := []rune(s.lines[line-1])
	s.lines[line-1] = string(r[:from-1]) + text + string(r[to-1:])
}

// unfold turns 'bend: kerfed' into 'bend: {way: kerfed, skin: 1.6}'.
func (s *splicer) unfold(n *node, f *field, rest, at string) error {
	if f == nil || f.sub == nil || f.sub.short == "" || f.sub.field(rest) == nil || n.at.Start.Line != n.at.End.Line {
		return s.refuse(n, "there is no such value")
	}
	short := f.sub.short
	if rest == short {
		s.target = at
		return s.replace(n)
	}
	s.target, s.moved = at+sep+rest, map[string]string{at: at + sep + short}
	old := string([]rune(s.lines[n.at.Start.Line-1])[n.at.Start.Col-1 : n.at.End.Col-1])
	if !n.quoted {
		old = s.quote(n.text, true)
	}
	s.put(n.at.Start.Line, n.at.Start.Col, n.at.End.Col, fmt.Sprintf("{%s: %s, %s: %s}", short, old, rest, s.quote(s.text, true)))
	return nil
}

// insert writes an absent key into a mapping.
func (s *splicer) insert(n *node, f *field, rest, at string) error {
	keys, ok := newKeys(f, rest)
	if !ok {
		reason := "there is no such value"
		if near := diag.Nearest(strings.SplitN(rest, ".", 2)[0], n.keys()); near != "" {
			reason += ", but there is '" + near + "'"
		}
		return s.refuse(n, reason)
	}
	s.target = at + sep + strings.Join(keys, sep)
	value := s.quote(s.text, n.flow || len(keys) > 1)
	for i := len(keys) - 1; i > 0; i-- {
		value = "{" + s.quote(keys[i], true) + ": " + value + "}"
	}
	pair := s.quote(keys[0], n.flow) + ": " + value
	if n.flow {
		if len(n.entries) > 0 {
			pair = ", " + pair
		}
		s.put(n.end.Line, n.end.Col, n.end.Col, pair)
		return nil
	}
	line := n.lastLine()
	indent := strings.Repeat(" ", n.entries[0].keyAt.Start.Col-1)
	cr := ""
	if strings.HasSuffix(s.lines[0], "\r") {
		cr = "\r"
	}
	s.lines = slices.Insert(s.lines, line, indent+pair+cr)
	return nil
}

// newKeys spells a path that is to be written, by the schema. Sizes, roles and
// the like are named by who writes the file: a name that is not there is taken
// for a slip, and refused.
func newKeys(f *field, rest string) ([]string, bool) {
	var keys []string
	for rest != "" {
		if f == nil {
			return nil, false
		}
		if f.kind != anObject {
			return nil, false
		}
		key := ""
		for _, k := range f.sub.keys() {
			if (rest == k || strings.HasPrefix(rest, k+".")) && len(k) > len(key) {
				key = k
			}
		}
		if key == "" {
			return nil, false
		}
		keys = append(keys, key)
		rest = strings.TrimPrefix(strings.TrimPrefix(rest, key), ".")
		f = f.sub.field(key)
	}
	return keys, true
}

// lastLine is the last line that a node's text reaches.
func (n *node) lastLine() int {
	last := max(n.at.End.Line, n.end.Line)
	for _, e := range n.entries {
		last = max(last, e.keyAt.End.Line, e.val.lastLine())
	}
	for _, it := range n.items {
		last = max(last, it.lastLine())
	}
	return last
}

// quote puts a text in quotes where YAML would read it as something else. A
// list or set of keys in brackets stays as it is.
func (s *splicer) quote(t string, flow bool) string {
	if t[0] == '[' && t[len(t)-1] == ']' || t[0] == '{' && t[len(t)-1] == '}' {
		return t
	}
	special := strings.ContainsRune("!&*|>%@`\"'{}[]#,?:", rune(t[0])) || strings.HasPrefix(t, "- ") || t == "-" || t == "~" ||
		strings.Contains(t, ": ") || strings.Contains(t, " #") || strings.HasSuffix(t, ":") ||
		flow && strings.ContainsAny(t, ",[]{}")
	if !special {
		return t
	}
	return "'" + strings.ReplaceAll(t, "'", "''") + "'"
}

// prove reads the result and compares it, value by value, with what it was.
func (s *splicer) prove(file string, before *node, out []byte) error {
	after, remarks := readTree(file, out)
	if after == nil || remarks.HasErrors() {
		return &SpliceError{Path: s.path, Reason: "the file could not be read with this value"}
	}
	was, is := map[string]string{}, map[string]string{}
	flatten(before, "", was)
	flatten(after, "", is)
	for from, to := range s.moved {
		was[to] = was[from]
		delete(was, from)
	}
	within := func(p string) bool {
		return p == s.target || strings.HasPrefix(p, s.target+sep) || strings.HasPrefix(s.target, p+sep)
	}
	changed := false
	for _, p := range sortedKeys(merge(was, is)) {
		if was[p] == is[p] {
			continue
		}
		if !within(p) {
			return &SpliceError{Path: s.path, Reason: "the edit would change " + strings.ReplaceAll(strings.TrimPrefix(p, sep), sep, ".") + " too"}
		}
		changed = true
	}
	if got, ok := is[s.target]; !changed && (!ok || got != "="+s.text) && !strings.HasPrefix(s.text, "[") && !strings.HasPrefix(s.text, "{") {
		return &SpliceError{Path: s.path, Reason: "the edit would change nothing"}
	}
	return nil
}

func merge(a, b map[string]string) map[string]bool {
	out := map[string]bool{}
	for k := range a {
		out[k] = true
	}
	for k := range b {
		out[k] = true
	}
	return out
}

// flatten lists every value of a tree under its path: scalars by their text,
// others by their shape.
func flatten(n *node, path string, into map[string]string) {
	switch n.shape {
	case scalar:
		into[path] = "=" + n.text
	case mapping:
		into[path] = "{}"
		for _, e := range n.entries {
			flatten(e.val, path+sep+e.key, into)
		}
	case sequence:
		into[path] = "[]"
		for i, it := range n.items {
			flatten(it, path+sep+strconv.Itoa(i), into)
		}
	default:
		into[path] = "~"
	}
}
