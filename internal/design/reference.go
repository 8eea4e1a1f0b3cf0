package design

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"rodwork/internal/units"
)

// The tables of docs/piece-file.md and docs/shop-file.md are made from the
// schema: between '<!-- keys: NAME -->' and '<!-- end -->' stands the table of
// the object of that name.

var marked = regexp.MustCompile(`(?s)<!-- keys: ([a-z ]+) -->\n.*?<!-- end -->`)

// Reference returns a document with the tables of keys in it made anew, and the
// names of objects that the schemas have and the document does not show. It
// fails if the document asks for an object that there is not.
func Reference(doc []byte, shop bool) ([]byte, []string, error) {
	top := pieceSchema
	if shop {
		top = shopSchema
	}
	objects := map[string]*object{}
	gather(top, objects)
	var err error
	shown := map[string]bool{}
	out := marked.ReplaceAllFunc(doc, func(m []byte) []byte {
		name := string(marked.FindSubmatch(m)[1])
		o := objects[name]
		if o == nil {
			err = fmt.Errorf("design: the document asks for the keys of %q, which is not in the schema", name)
			return m
		}
		shown[name] = true
		var b bytes.Buffer
		fmt.Fprintf(&b, "<!-- keys: %s -->\n%s<!-- end -->", name, keyTable(o))
		return b.Bytes()
	})
	var missing []string
	for _, n := range sortedKeys(objects) {
		if !shown[n] {
			missing = append(missing, n)
		}
	}
	return out, missing, err
}

func gather(o *object, into map[string]*object) {
	if into[o.name] != nil {
		return
	}
	into[o.name] = o
	for i := range o.fields {
		if sub := o.fields[i].sub; sub != nil {
			gather(sub, into)
		}
	}
}

// keyTable prints the keys of an object as a table in Markdown.
func keyTable(o *object) string {
	var b strings.Builder
	b.WriteString("| key | takes | where it is absent | meaning |\n| --- | --- | --- | --- |\n")
	for i := range o.fields {
		f := &o.fields[i]
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.key, f.takes(), f.absent(), cell(f.doc))
	}
	for _, k := range sortedKeys(o.later) {
		fmt.Fprintf(&b, "| `%s` | *not built yet* | | %s |\n", k, cell(capital(o.later[k])+"."))
	}
	if o.short != "" {
		fmt.Fprintf(&b, "\nA bare value stands for `%s`.\n", o.short)
	}
	return b.String()
}

func cell(s string) string { return strings.ReplaceAll(s, "|", "\\|") }

// takes says what stands behind a key.
func (f *field) takes() string {
	also := ""
	for _, w := range f.also {
		also += ", or `" + w + "`"
	}
	switch f.kind {
	case aQuantity:
		return f.dim.String() + also + "; " + bounds(f)
	case aCount:
		return "a whole number; " + bounds(f)
	case aWord:
		return f.wordList()
	case aName:
		return "a name: " + f.of
	case anObject:
		return "keys of *" + f.sub.name + "*"
	case aList:
		return "a list of *" + f.sub.name + "*"
	case aTable:
		return "names, behind each the keys of *" + f.sub.name + "*"
	case sizeTable:
		return "names, behind each a quantity"
	case nameTable:
		return "names, behind each a name: " + f.of
	case nameList:
		if len(f.words) > 0 {
			return "a list of " + f.wordList()
		}
		return "a list of names: " + f.of
	case amountList:
		return "a list, each " + f.dim.String()
	}
	return "a text"
}

func (f *field) wordList() string {
	if len(f.words) > 20 {
		return "a code of ISO 4217"
	}
	quoted := make([]string, len(f.words))
	for i, w := range f.words {
		quoted[i] = "`" + w + "`"
	}
	out := strings.Join(quoted, ", ")
	if len(f.later) > 0 {
		var later []string
		for _, w := range sortedKeys(f.later) {
			later = append(later, "`"+w+"`")
		}
		out += " (not built yet: " + strings.Join(later, ", ") + ")"
	}
	return out
}

// absent says what happens where a key is not written.
func (f *field) absent() string {
	switch {
	case f.need:
		return "**an error**"
	case f.habit != "":
		return "the shop's habit `" + f.habit + "`"
	case f.own != nil && f.own.word != "":
		return "`" + f.own.word + "`: " + cell(f.own.why)
	case f.own != nil && f.dim == units.None:
		return printed(f.own.v, f.dim) + ": " + cell(f.own.why)
	case f.own != nil:
		return cell(f.own.why)
	}
	return ""
}
