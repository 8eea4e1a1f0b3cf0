package design

import (
	"fmt"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/expr"
	"rodwork/internal/trace"
)

// decoder reads one document against its schema. The first pass (form) checks
// keys, kinds and words and leaves a tree of recs; the second (reckon, in
// value.go) turns every written quantity into a number; what the numbers mean
// is then read off the recs by the builders.
type decoder struct {
	file     string
	src      []byte
	lines    [][]rune   // of src, split when a remark needs them
	kind     trace.Kind // of written inputs: Field or Shop
	led      *trace.Ledger
	scope    *expr.Scope
	env      expr.Env
	lengths  string // unit of a bare length
	currency string
	unsure   bool // the file's unit of length could not be read
	root     *rec
	slots    []*slot // every written quantity, in the order of the file
	places   map[string]diag.Range
	out      diag.List
	habits   map[string]habit
	// held are remarks about unknown names, until it is known whether the name
	// was misspelt where it is used or where it is defined.
	held []heldName
	// lost are the objects in which a key was not understood: what is missing
	// there may stand behind it, and is not held against other places.
	lost map[string]bool
	// written has every written value, for Design.Written.
	written []Written
}

// What the register of tests names, among held names.
const heldTool, heldStock = "tool of a test", "stock of a test"

// heldName is the use of a name that is not defined.
type heldName struct {
	known bool   // it is defined: only that it is used counts
	table string // "size", "role", "bay or level"
	name  string
	d     diag.Diagnostic
}

// rec is an object of the document.
type rec struct {
	d     *decoder
	obj   *object
	path  string
	name  string // its key in a table
	at    diag.Range
	vals  map[string]*slot
	subs  map[string]*rec
	lists map[string][]*rec
}

// slot is a value that stands behind a key, or one of a list of them.
type slot struct {
	f     *field
	n     *node
	path  string
	keyAt diag.Range
	lo,
	hi float64
	items []*slot // of a list

	formula *expr.Formula
	val     expr.Value
	ok      bool // val holds
	input   trace.InputID
}

func newDecoder(file string, src []byte, kind trace.Kind, led *trace.Ledger) *decoder {
	return &decoder{file: file, src: src, kind: kind, led: led, lengths: "mm",
		scope: &expr.Scope{BareUnit: "mm"}, places: map[string]diag.Range{}, habits: map[string]habit{}, lost: map[string]bool{}}
}

// textAt returns what stands at a range of one line.
func (d *decoder) textAt(at diag.Range) string {
	if d.lines == nil {
		d.lines = splitLines(d.src)
	}
	return textIn(d.lines, at)
}

func (d *decoder) add(x diag.Diagnostic) {
	if x.Offending == "" {
		x.Offending = d.textAt(x.At)
	}
	d.out = append(d.out, x)
}

// form reads an object; at is where it is spoken of: its key, or its brackets.
func (d *decoder) form(n *node, o *object, path string, at diag.Range) *rec {
	r := &rec{d: d, obj: o, path: path, at: at, vals: map[string]*slot{}, subs: map[string]*rec{}, lists: map[string][]*rec{}}
	d.places[path] = at
	switch {
	case n.shape == scalar && o.short != "":
		d.value(r, o.field(o.short), &entry{key: o.short, keyAt: at, val: n}, path)
		return r
	case n.shape == sequence && o.short == "mean":
		d.value(r, o.field("readings"), &entry{key: "readings", keyAt: at, val: n}, path)
		return r
	case n.shape != mapping:
		d.lost[path] = true
		d.add(diag.Diagnostic{Code: "wrong-kind", At: n.at, Path: path, Summary: fmt.Sprintf("%s is a set of keys", upper(o.name)),
			Detail: "Found " + n.describe() + ".", Expected: "keys: " + strings.Join(o.keys(), ", ")})
		return r
	}
	for i := range n.entries {
		if n.flow && d.split(n, i) {
			n.entries[i].broken = true
		}
	}
	for i := range n.entries {
		e := &n.entries[i]
		if !e.broken {
			d.entry(r, n, i)
		} else if f := o.field(e.key); f != nil { // written, and told
			r.vals[f.key] = &slot{f: f, n: e.val, path: join(path, e.key), keyAt: e.keyAt}
		}
	}
	for i := range o.fields {
		if f := &o.fields[i]; f.need && !r.has(f.key) {
			if _, written := n.get(f.key); !written && !d.misspeltIn(n, f.key, o) {
				d.missing(r, f)
			}
		}
	}
	return r
}

// misspeltIn tells that a missing key stands there under a name that is near
// it, which was reported already.
func (d *decoder) misspeltIn(n *node, key string, o *object) bool {
	for _, e := range n.entries {
		if o.field(e.key) == nil && diag.Nearest(e.key, o.keys()) == key {
			return true
		}
	}
	return false
}

func (d *decoder) missing(r *rec, f *field) {
	d.add(diag.Diagnostic{Code: "missing-key", At: r.at, Path: join(r.path, f.key), Expected: f.expected(d),
		Summary: fmt.Sprintf("%s has no '%s'", upper(r.obj.name), f.key), Detail: f.doc})
}

func (d *decoder) entry(r *rec, n *node, i int) {
	e := &n.entries[i]
	f := r.obj.field(e.key)
	path := join(r.path, e.key)
	switch {
	case f != nil:
		d.places[path] = e.keyAt
		d.value(r, f, e, path)
	case r.obj.later[e.key] != "":
		if emptyNode(e.val) {
			return
		}
		d.add(diag.Diagnostic{Code: "not-yet", At: e.keyAt, Path: path, Summary: fmt.Sprintf("'%s' is not built yet", e.key),
			Detail: "What works instead: " + r.obj.later[e.key] + "."})
	default:
		d.unknownKey(r, e, path)
	}
}

func emptyNode(n *node) bool {
	return n.shape == absent || n.shape == sequence && len(n.items) == 0 || n.shape == mapping && len(n.entries) == 0
}

func (d *decoder) unknownKey(r *rec, e *entry, path string) {
	x := diag.Diagnostic{Code: "unknown-key", At: e.keyAt, Path: path, Offending: clip(e.key),
		Summary:  fmt.Sprintf("There is no key '%s' in the %s", clip(e.key), r.obj.name),
		Expected: "one of: " + strings.Join(r.obj.keys(), ", ")}
	// A key that is written elsewhere in the object is not meant.
	var free []string
	for _, k := range r.obj.keys() {
		if !r.has(k) {
			free = append(free, k)
		}
	}
	if x.Nearest = diag.Nearest(e.key, free); x.Nearest == "" {
		x.Nearest = diag.Nearest(e.key, r.obj.keys())
	}
	if x.Nearest != "" {
		x.Mend = &diag.Edit{At: e.keyAt, New: x.Nearest}
	}
	d.add(x)
	// What stands behind a misspelt key is read as what was meant, so that one
	// slip gives one remark.
	if f := r.obj.field(x.Nearest); f != nil && !r.has(f.key) && f.key != "units" {
		d.places[join(r.path, f.key)] = e.keyAt
		d.value(r, f, e, join(r.path, f.key))
		return
	}
	d.lost[r.path] = true
}

// split finds a formula that a comma cut in two inside { }: its rest stands
// there as a key with nothing behind it.
func (d *decoder) split(n *node, i int) bool {
	if i == 0 || n.entries[i].val.shape != absent {
		return false
	}
	first := i - 1
	for first > 0 && n.entries[first].val.shape == absent && n.entries[first].broken {
		first--
	}
	head := n.entries[first].val
	if head.shape != scalar || head.quoted {
		return false
	}
	rest := n.entries[i].key
	open := strings.Count(head.text, "(") > strings.Count(head.text, ")")
	comma := strings.ContainsAny(lastOf(head.text), "0123456789") && rest != "" && strings.ContainsAny(rest[:1], "0123456789")
	if !open && !comma {
		return false
	}
	if first != i-1 {
		return true // told at the first comma
	}
	at := head.at
	if n.entries[i].keyAt.Start.Line == at.Start.Line {
		at.End = n.entries[i].keyAt.End
	}
	x := diag.Diagnostic{Code: "comma-splits", At: at, Summary: "A comma inside { } ends the value",
		Detail: "A formula with a comma must stand in quotes here.", Offending: d.textAt(at)}
	if comma && !open {
		x.Detail = "The decimal sign is a point."
		x.Mend = &diag.Edit{At: at, New: head.text + "." + rest}
	} else if strings.HasSuffix(rest, ")") {
		x.Mend = &diag.Edit{At: at, New: `"` + head.text + ", " + rest + `"`}
	}
	d.add(x)
	n.entries[first].broken = true
	return true
}

func lastOf(s string) string {
	if s == "" {
		return ""
	}
	return s[len(s)-1:]
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return "The " + s
}

// has reports whether the key is written in the object.
func (r *rec) has(key string) bool {
	return r != nil && (r.vals[key] != nil || r.subs[key] != nil || r.lists[key] != nil)
}

// value reads what stands behind a known key.
func (d *decoder) value(r *rec, f *field, e *entry, path string) {
	switch f.kind {
	case anObject:
		if e.val.shape == absent {
			d.nothing(f, e, path)
			return
		}
		sub := d.form(e.val, f.sub, path, e.keyAt)
		if f.max > 0 {
			sub.bind(f)
		}
		r.subs[f.key] = sub
	case aList:
		r.lists[f.key] = d.list(f, e, path)
	case aTable:
		r.lists[f.key] = d.table(f, e, path)
	case sizeTable, nameTable:
		d.pairs(r, f, e, path)
	default:
		d.plain(r, f, e, path)
	}
}

// bind sets the bounds of the lengths of a sub-object from the field that it
// stands behind.
func (r *rec) bind(f *field) {
	for _, k := range []string{"mean", "readings"} {
		if s := r.vals[k]; s != nil {
			s.lo, s.hi = f.min, f.max
			for _, it := range s.items {
				it.lo, it.hi = f.min, f.max
			}
		}
	}
}

// gone reports whether what stands under a top-level key was not understood, so
// that names which it should define may be missing for that reason.
func (d *decoder) gone(key string) bool {
	if d.lost[""] && !d.root.has(key) {
		return true
	}
	for p := range d.lost {
		if p == key || strings.HasPrefix(p, key+".") {
			return true
		}
	}
	return false
}

func (d *decoder) nothing(f *field, e *entry, path string) {
	d.lost[path] = true
	d.add(diag.Diagnostic{Code: "nothing", At: e.keyAt, Path: path, Summary: fmt.Sprintf("Nothing stands behind '%s'", e.key),
		Detail: f.doc, Expected: f.expected(d)})
}

func (d *decoder) list(f *field, e *entry, path string) []*rec {
	out := []*rec{}
	if e.val.shape != sequence {
		if e.val.shape == absent {
			d.nothing(f, e, path)
		} else {
			d.lost[path] = true
			d.add(diag.Diagnostic{Code: "wrong-kind", At: e.val.at, Path: path, Summary: fmt.Sprintf("'%s' is a list", e.key),
				Detail: "Found " + e.val.describe() + ". Begin each line with '- '.", Expected: "a list"})
		}
		return out
	}
	if d.crowded(e, path, len(e.val.items)) {
		return out
	}
	for i, it := range e.val.items {
		at := it.at
		if it.flow { // a row of braces is named by its first key: tight enough to find
			if len(it.entries) > 0 {
				at = it.entries[0].keyAt
			}
		}
		out = append(out, d.form(it, f.sub, fmt.Sprintf("%s.%d", path, i), at))
	}
	return out
}

// maxEntries bounds a list or a table: what comes of it grows with its square.
const maxEntries = 500

// crowded reports a list or table that is too long.
func (d *decoder) crowded(e *entry, path string, n int) bool {
	if n <= maxEntries {
		return false
	}
	d.add(diag.Diagnostic{Code: "too-many", At: e.keyAt, Path: path, Summary: fmt.Sprintf("'%s' is too long", e.key),
		Detail: fmt.Sprintf("It has %d entries; %d are read.", n, maxEntries), Expected: fmt.Sprintf("%d entries at most", maxEntries)})
	return true
}

func (d *decoder) table(f *field, e *entry, path string) []*rec {
	out := []*rec{}
	if e.val.shape != mapping {
		if e.val.shape == absent {
			d.nothing(f, e, path)
		} else {
			d.lost[path] = true
			d.lost[path] = true
			d.add(diag.Diagnostic{Code: "wrong-kind", At: e.val.at, Path: path, Summary: fmt.Sprintf("'%s' is a set of names", e.key),
				Detail: "Found " + e.val.describe() + ".", Expected: "a name, a colon, and what it is"})
		}
		return out
	}
	if d.crowded(e, path, len(e.val.entries)) {
		return out
	}
	for _, c := range e.val.entries {
		r := d.form(c.val, f.sub, join(path, c.key), c.keyAt)
		r.name = c.key
		out = append(out, r)
	}
	return out
}

// pairs reads a table of names with a plain value behind each.
func (d *decoder) pairs(r *rec, f *field, e *entry, path string) {
	s := &slot{f: f, n: e.val, path: path, keyAt: e.keyAt, items: []*slot{}}
	r.vals[f.key] = s
	if e.val.shape == absent && f.kind == sizeTable {
		return
	}
	if e.val.shape != mapping {
		d.lost[path] = true
		d.add(diag.Diagnostic{Code: "wrong-kind", At: e.val.at, Path: path, Summary: fmt.Sprintf("'%s' is a set of names", e.key),
			Detail: "Found " + e.val.describe() + ".", Expected: "a name, a colon, and a value"})
		return
	}
	if d.crowded(e, path, len(e.val.entries)) {
		return
	}
	for _, c := range e.val.entries {
		p := join(path, c.key)
		d.places[p] = c.val.at
		if c.val.shape != scalar {
			d.plainWrong(f, &c, p)
		}
		s.items = append(s.items, &slot{f: f, n: c.val, path: p, keyAt: c.keyAt, lo: f.min, hi: f.max})
	}
}
