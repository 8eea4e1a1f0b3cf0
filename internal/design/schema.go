package design

import (
	"math"

	"rodwork/internal/units"
)

// A schema is the description of a document as data: what keys an object has,
// what stands behind each, what bounds it has, what fills it in where it is
// absent. Decoding, the nearest right name of a misspelt key, the published
// JSON Schema and the tables of the reference are all made from it.

// kind is what stands behind a key.
type kind int

const (
	aQuantity  kind = iota // a number of the field's dimension, or a formula
	aCount                 // a whole number, or a formula of plain numbers
	aWord                  // one of the field's words
	aText                  // any text
	aName                  // a name that is defined elsewhere
	anObject               // an object
	aList                  // a list of objects
	nameList               // a list of words or names
	amountList             // a list of quantities
	aTable                 // keys that the writer chooses, an object behind each
	sizeTable              // keys that the writer chooses, a quantity behind each
	nameTable              // keys that the writer chooses, a name behind each
)

// object describes a mapping.
type object struct {
	name   string // "corner", "bay": for messages and for the title of its table
	doc    string
	fields []field
	// short is the field that a bare value stands for: 'bend: kerfed' is
	// 'bend: {way: kerfed}'.
	short string
	// later are keys that are planned and not built, with what works instead.
	later map[string]string
	// item is how an object in a list is called by its name: the field.
	item string
}

// field describes one key.
type field struct {
	key  string
	kind kind
	doc  string
	need bool

	dim      units.Dim
	bare     string  // unit of a bare number; "" the dimension's own, see bareUnit
	min, max float64 // bounds in Rodwork's own units, inclusive
	words    []string
	later    map[string]string // words that are planned and not built
	also     []string          // words that a quantity may be replaced by: "auto"
	of       string            // what a name refers to: "stock of the shop"
	sub      *object
	whole    bool // a list of numbers that is booked as one input

	// habit is the habit of the shop that fills the field in where it is absent.
	habit string
	// own fills it in where there is no habit either.
	own *own
}

// own is a default of the program, with its reason.
type own struct {
	v    float64
	word string
	why  string
}

func (o *object) field(key string) *field {
	for i := range o.fields {
		if o.fields[i].key == key {
			return &o.fields[i]
		}
	}
	return nil
}

func (o *object) keys() []string {
	out := make([]string, len(o.fields))
	for i := range o.fields {
		out[i] = o.fields[i].key
	}
	return out
}

const (
	degree  = math.Pi / 180
	minute  = 60.0
	longest = 20_000 // mm: no piece and no sheet is longer
)

// Constructors keep the tables below readable.

func length(key string, lo, hi float64, doc string) field {
	return field{key: key, kind: aQuantity, dim: units.Length, min: lo, max: hi, doc: doc}
}

func amount(key string, d units.Dim, lo, hi float64, doc string) field {
	return field{key: key, kind: aQuantity, dim: d, min: lo, max: hi, doc: doc}
}

func count(key string, lo, hi int, doc string) field {
	return field{key: key, kind: aCount, dim: units.Count, min: float64(lo), max: float64(hi), doc: doc}
}

func word(key, doc string, words ...string) field {
	return field{key: key, kind: aWord, words: words, doc: doc}
}

func text(key, doc string) field { return field{key: key, kind: aText, doc: doc} }

func named(key, of, doc string) field { return field{key: key, kind: aName, of: of, doc: doc} }

func inner(key string, sub *object) field {
	return field{key: key, kind: anObject, sub: sub, doc: sub.doc}
}

func list(key string, sub *object, doc string) field {
	return field{key: key, kind: aList, sub: sub, doc: doc}
}

func table(key string, sub *object, doc string) field {
	return field{key: key, kind: aTable, sub: sub, doc: doc}
}

func (f field) required() field { f.need = true; return f }

func (f field) fromHabit(h string) field { f.habit = h; return f }

func (f field) orElse(v float64, why string) field { f.own = &own{v: v, why: why}; return f }

func (f field) orWord(w, why string) field { f.own = &own{word: w, why: why}; return f }

func (f field) except(word, instead string) field {
	later := map[string]string{word: instead}
	for k, v := range f.later {
		later[k] = v
	}
	f.later = later
	return f
}

func (f field) bareIn(unit string) field { f.bare = unit; return f }

func (f field) orSay(words ...string) field { f.also = words; return f }

// bareUnit is the unit that a bare number is taken in; "" where a unit must be
// written because none is more natural than another.
func (f *field) bareUnit(lengths string) string {
	if f.bare != "" {
		return f.bare
	}
	switch f.dim {
	case units.Length:
		return lengths
	case units.Mass:
		return "kg"
	case units.Angle:
		return "deg"
	case units.Temp:
		return "°C"
	}
	return ""
}
