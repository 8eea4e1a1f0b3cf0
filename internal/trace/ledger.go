package trace

import (
	"encoding/json"
	"fmt"
	"math"

	"rodwork/internal/units"
)

// Value is a named result: what it is called, what it is, the formula in words
// that made it, and the rule behind the formula, if one has an id.
type Value struct {
	ID      string    `json:"id"`    // "divider 1/length"
	Title   string    `json:"title"` // "divider 1, length"
	Dim     units.Dim `json:"-"`
	Num     Num       `json:"-"`
	Formula string    `json:"formula,omitempty"` // "top, underside - bottom, upper face + two housings"
	Rule    string    `json:"rule,omitempty"`
}

// Ledger holds every input and every named value of one plan, in the order in
// which they arose. It is written by the stages in one thread, and read after.
type Ledger struct {
	inputs []Input
	values []Value
	byID   map[string]int

	constants map[string]InputID
}

// Var books an input and returns the Num that stands for it.
func (l *Ledger) Var(v float64, in Input) Num {
	in.ID = InputID(len(l.inputs))
	l.inputs = append(l.inputs, in)
	return Num{V: v, terms: []term{{in.ID, 1}}}
}

// Constant returns the number that a rule or the program brings, booked once
// under its path, however often it is asked for: reason says where it is from.
func (l *Ledger) Constant(path string, v float64, reason string) Num {
	if id, ok := l.constants[path]; ok {
		return Num{V: v, terms: []term{{id, 1}}}
	}
	if l.constants == nil {
		l.constants = map[string]InputID{}
	}
	n := l.Var(v, Input{Kind: Rule, Path: path, Text: reason})
	l.constants[path] = n.terms[0].id
	return n
}

// Own books an input of its own for a number that is itself a formula, and
// returns the number with that input added: 'sizes.inner' can be moved as such.
func (l *Ledger) Own(n Num, in Input) Num {
	v := n.V
	out := n.Add(l.Var(0, in))
	out.V = v
	return out
}

// Record books a named value and returns its number, so that a stage can write
// x := led.Record(trace.Value{…}). A second value of the same id is a broken
// promise inside the program.
func (l *Ledger) Record(v Value) Num {
	if l.byID == nil {
		l.byID = map[string]int{}
	}
	if _, dup := l.byID[v.ID]; dup {
		panic(fmt.Sprintf("trace: value %q recorded twice", v.ID))
	}
	l.byID[v.ID] = len(l.values)
	l.values = append(l.values, v)
	return v.Num
}

// Inputs returns the inputs in order. The slice is shared: do not change it.
func (l *Ledger) Inputs() []Input { return l.inputs }

// Values returns the named values in order. The slice is shared: do not change it.
func (l *Ledger) Values() []Value { return l.values }

// Find returns the value with the id.
func (l *Ledger) Find(id string) (Value, bool) {
	i, ok := l.byID[id]
	if !ok {
		return Value{}, false
	}
	return l.values[i], true
}

func marshalFloat(v float64) ([]byte, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return json.Marshal(v)
}
