package design

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Another returns the file with an item of a list ("shelves.1") written once
// more behind itself. One that has a name gets another: 'scores 2'. As with
// Splice nothing else moves, and that is proved.
func Another(file string, src []byte, path string) ([]byte, error) {
	l, err := findItem(file, src, path)
	if err != nil {
		return nil, err
	}
	if err := l.double(); err != nil {
		return nil, err
	}
	out := []byte(strings.Join(l.lines, "\n"))
	if err := l.prove(file, out, func(j int) int {
		if j > l.index {
			return j - 1
		}
		return j
	}); err != nil {
		return nil, err
	}
	if name, ok := l.item().get("name"); ok && name.val.shape == scalar {
		return Splice(file, out, l.of+"."+strconv.Itoa(l.index+1)+".name", l.freeName(name.val.text))
	}
	return out, nil
}

// Without returns the file without an item of a list. The last one of a list
// stays, since an empty list says something else than no list.
func Without(file string, src []byte, path string) ([]byte, error) {
	l, err := findItem(file, src, path)
	if err != nil {
		return nil, err
	}
	if len(l.list.items) == 1 {
		return nil, l.refuse(l.list, "it is the only one of its list; take the list out of the text if none is wanted")
	}
	if err := l.remove(); err != nil {
		return nil, err
	}
	out := []byte(strings.Join(l.lines, "\n"))
	if err := l.prove(file, out, func(j int) int {
		if j >= l.index {
			return j + 1
		}
		return j
	}); err != nil {
		return nil, err
	}
	return out, nil
}

// lister edits one item of a list.
type lister struct {
	splicer
	root  *node
	list  *node
	of    string // path of the list
	at    string // the same as the tree spells it
	index int
}

func (l *lister) item() *node { return l.list.items[l.index] }

// findItem walks down to the list that a path's last index counts in.
func findItem(file string, src []byte, path string) (*lister, error) {
	root, remarks := readTree(file, src)
	l := &lister{splicer: splicer{path: path, lines: strings.Split(string(src), "\n")}, root: root}
	if root == nil || remarks.HasErrors() {
		return nil, l.refuse(nil, "the file cannot be read as it is")
	}
	cut := strings.LastIndexByte(path, '.')
	if cut < 0 {
		return nil, l.refuse(nil, "it is no item of a list")
	}
	i, err := strconv.Atoi(path[cut+1:])
	if err != nil {
		return nil, l.refuse(nil, "it is no item of a list")
	}
	n := root
	for rest := path[:cut]; rest != ""; {
		switch n.shape {
		case mapping:
			e, tail, ok := longestKey(n, rest)
			if !ok {
				return nil, l.refuse(n, "there is no such list")
			}
			n, rest, l.at = e.val, tail, l.at+sep+e.key
		case sequence:
			head, tail, _ := strings.Cut(rest, ".")
			j, err := strconv.Atoi(head)
			if err != nil || j < 0 || j >= len(n.items) {
				return nil, l.refuse(n, "the list has no such entry")
			}
			n, rest, l.at = n.items[j], tail, l.at+sep+head
		default:
			return nil, l.refuse(n, "there is no such list")
		}
	}
	if n.shape != sequence || i < 0 || i >= len(n.items) {
		return nil, l.refuse(n, "the list has no such entry")
	}
	l.list, l.of, l.index = n, path[:cut], i
	return l, nil
}

// lineSpan is the lines of an item that has lines of its own, from 1.
func (l *lister) lineSpan(i int) (from, to int, err error) {
	it := l.list.items[i]
	from, to = it.at.Start.Line, it.lastLine()
	if from < 1 || to > len(l.lines) || !strings.HasPrefix(strings.TrimSpace(l.lines[from-1]), "-") {
		return 0, 0, l.refuse(it, "the entry does not begin on a line of its own")
	}
	if i+1 < len(l.list.items) && l.list.items[i+1].at.Start.Line <= to {
		return 0, 0, l.refuse(it, "the entry has no lines of its own")
	}
	return from, to, nil
}

// runeSpan is the columns of an item of a list in brackets, the end not
// included.
func (l *lister) runeSpan(i int) (from, to int, err error) {
	it := l.list.items[i]
	from, to = it.at.Start.Col, it.at.End.Col
	if it.shape != scalar {
		to = it.end.Col + 1
	}
	line := l.list.at.Start.Line
	if l.list.end.Line != line || it.at.Start.Line != line || to > len([]rune(l.lines[line-1]))+1 || from >= to {
		return 0, 0, l.refuse(it, "the list runs over several lines")
	}
	return from, to, nil
}

func (l *lister) double() error {
	if !l.list.flow {
		from, to, err := l.lineSpan(l.index)
		if err != nil {
			return err
		}
		l.lines = slices.Insert(l.lines, to, slices.Clone(l.lines[from-1:to])...)
		return nil
	}
	from, to, err := l.runeSpan(l.index)
	if err != nil {
		return err
	}
	line := l.list.at.Start.Line
	l.put(line, to, to, ", "+string([]rune(l.lines[line-1])[from-1:to-1]))
	return nil
}

func (l *lister) remove() error {
	if !l.list.flow {
		from, to, err := l.lineSpan(l.index)
		if err != nil {
			return err
		}
		l.lines = slices.Delete(l.lines, from-1, to)
		return nil
	}
	from, to, err := l.runeSpan(l.index)
	if err != nil {
		return err
	}
	if l.index+1 < len(l.list.items) {
		to, _, err = l.runeSpan(l.index + 1)
	} else {
		_, from, err = l.runeSpan(l.index - 1)
	}
	if err != nil {
		return err
	}
	l.put(l.list.at.Start.Line, from, to, "")
	return nil
}

// freeName is a name that no item of the list has: 'scores' makes 'scores 2'.
func (l *lister) freeName(name string) string {
	taken := map[string]bool{}
	for _, it := range l.list.items {
		if e, ok := it.get("name"); ok {
			taken[e.val.text] = true
		}
	}
	stem := name
	if i := strings.LastIndexByte(name, ' '); i > 0 {
		if _, err := strconv.Atoi(name[i+1:]); err == nil {
			stem = name[:i]
		}
	}
	for n := 2; ; n++ {
		if s := fmt.Sprintf("%s %d", stem, n); !taken[s] {
			return s
		}
	}
}

// prove reads the result: each value there is the one that stood in the file
// before, under the index that before gives, and none but the item's is gone.
func (l *lister) prove(file string, out []byte, before func(int) int) error {
	after, remarks := readTree(file, out)
	if after == nil || remarks.HasErrors() {
		return l.refuse(l.list, "the file could not be read with this change")
	}
	was, is := map[string]string{}, map[string]string{}
	flatten(l.root, "", was)
	flatten(after, "", is)
	met := map[string]bool{}
	for _, p := range sortedKeys(is) {
		from := p
		if rest, ok := strings.CutPrefix(p, l.at+sep); ok {
			head, tail, more := strings.Cut(rest, sep)
			j, err := strconv.Atoi(head)
			if err != nil {
				return l.refuse(l.list, "the edit would change more than the list")
			}
			from = l.at + sep + strconv.Itoa(before(j))
			if more {
				from += sep + tail
			}
		}
		if text, ok := was[from]; !ok || text != is[p] {
			return l.refuse(l.list, "the edit would change more than one entry")
		}
		met[from] = true
	}
	gone := l.at + sep + strconv.Itoa(l.index)
	for _, p := range sortedKeys(was) {
		if !met[p] && p != gone && !strings.HasPrefix(p, gone+sep) {
			return l.refuse(l.list, "the edit would take more than one entry away")
		}
	}
	return nil
}
