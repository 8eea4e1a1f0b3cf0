package design

import "strings"

// Choices returns the words that may stand at a path of the piece file, in the
// order of the reference and of the shop file, and whether one of a set of
// words is wanted there at all.
func (d *Design) Choices(path string) ([]string, bool) {
	f := fieldAt(&field{kind: anObject, sub: pieceSchema}, path)
	if f == nil {
		return nil, false
	}
	switch f.kind {
	case aWord:
		return f.words, true
	case aName, nameTable:
		names := d.namesOf(f.of)
		return names, len(names) > 0
	case anObject:
		if f.sub.short != "" { // 'bend: kerfed'
			return d.Choices(path + "." + f.sub.short)
		}
	}
	return nil, false
}

// Types reports whether anything that a person types may stand at a path of the
// piece file: an amount, a count, a text.
func Types(path string) bool {
	f := fieldAt(&field{kind: anObject, sub: pieceSchema}, path)
	return f != nil && (f.kind == aQuantity || f.kind == aCount || f.kind == aText)
}

// fieldAt follows the schema along a path; nil where it knows no such value. A
// name that the writer chose ends at the next point.
func fieldAt(f *field, rest string) *field {
	for rest != "" && f != nil {
		switch f.kind {
		case anObject:
			var next *field
			for i := range f.sub.fields {
				k := &f.sub.fields[i]
				if (rest == k.key || strings.HasPrefix(rest, k.key+".")) && (next == nil || len(k.key) > len(next.key)) {
					next = k
				}
			}
			if next == nil {
				return nil
			}
			rest = strings.TrimPrefix(strings.TrimPrefix(rest, next.key), ".")
			f = next
		case aList, aTable:
			_, rest, _ = strings.Cut(rest, ".")
			f = &field{kind: anObject, sub: f.sub}
		case nameTable:
			return f
		default:
			return nil
		}
	}
	return f
}

// namesOf lists what a field's names may refer to.
func (d *Design) namesOf(of string) []string {
	var out []string
	shop := d.Shop
	if shop == nil {
		return nil
	}
	if of == "role or stock" {
		out = append(out, sortedKeys(d.Roles)...)
	}
	switch of {
	case "stock of the shop", "role or stock":
		for _, s := range shop.Stocks {
			out = append(out, s.Name)
		}
	case "saw of the shop", "saw or bit of the shop":
		for _, s := range shop.Saws {
			out = append(out, s.Name)
		}
	case "hinge of the shop":
		for _, h := range shop.Hinges {
			out = append(out, h.Name)
		}
	case "slide of the shop":
		for _, s := range shop.Slides {
			out = append(out, s.Name)
		}
	case "hardware of the shop":
		for _, h := range shop.Hardware {
			out = append(out, h.Name)
		}
	}
	if of == "saw or bit of the shop" {
		for _, b := range shop.Bits {
			out = append(out, b.Name)
		}
	}
	return out
}
