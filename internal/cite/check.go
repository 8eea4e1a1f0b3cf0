package cite

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/diag"
)

// NameError says that a rule has no symbol of that name.
type NameError struct {
	Rule, Name string
	Nearest    string // "" where none is near
	Known      []string
}

// Error names the rule, the name and what was expected.
func (e *NameError) Error() string {
	s := fmt.Sprintf("rule %s has no symbol %q", e.Rule, e.Name)
	if e.Nearest != "" {
		return s + fmt.Sprintf(": did you mean %q?", e.Nearest)
	}
	return s + ": it takes " + strings.Join(e.Known, ", ")
}

// MissingError says that a value which the rule needs was not given.
type MissingError struct {
	Rule   string
	Symbol Symbol
}

// Error names the rule and the symbol with its unit.
func (e *MissingError) Error() string {
	return fmt.Sprintf("rule %s needs %s=… (%s, %s)", e.Rule, e.Symbol.Name, e.Symbol.Meaning, e.Symbol.Unit)
}

// WholeError says that a count was not a whole number.
type WholeError struct {
	Rule, Symbol string
	Value        float64
}

// Error names the rule, the symbol and the value.
func (e *WholeError) Error() string {
	return fmt.Sprintf("rule %s takes a whole number for %s, not %g", e.Rule, e.Symbol, e.Value)
}

// Symbol returns the symbol that is written so at the command line.
func (r *Rule) Symbol(name string) (Symbol, bool) {
	for _, s := range r.Symbols {
		if s.Name == name {
			return s, true
		}
	}
	return Symbol{}, false
}

// Names lists the symbols' names in the rule's order.
func (r *Rule) Names() []string {
	names := make([]string, len(r.Symbols))
	for i, s := range r.Symbols {
		names[i] = s.Name
	}
	return names
}

// Check tells whether the rule covers the values: no unknown name
// (*NameError), none missing (*MissingError), counts whole (*WholeError), each
// inside its range (*RangeError). The first trouble in the rule's own order is
// returned. NaN and infinities lie outside every range.
func (r *Rule) Check(in map[string]float64) error {
	if err := r.checkNames(in); err != nil {
		return err
	}
	for _, s := range r.Symbols {
		v, given := in[s.Name]
		if !given {
			if s.Optional {
				continue
			}
			return &MissingError{Rule: r.ID, Symbol: s}
		}
		if err := s.check(r.ID, v); err != nil {
			return err
		}
	}
	return nil
}

func (r *Rule) checkNames(in map[string]float64) error {
	unknown := ""
	for name := range in {
		if _, ok := r.Symbol(name); !ok && (unknown == "" || name < unknown) {
			unknown = name // the first by the alphabet, so that the text is always the same
		}
	}
	if unknown == "" {
		return nil
	}
	return &NameError{Rule: r.ID, Name: unknown, Nearest: diag.Nearest(unknown, r.Names()), Known: r.Names()}
}

func (s Symbol) check(rule string, v float64) error {
	low, high := s.Min, s.Max
	if !s.Bounded() {
		low, high = math.Inf(-1), math.Inf(1)
	}
	if math.IsNaN(v) || math.IsInf(v, 0) || v < low || v > high {
		return &RangeError{Rule: rule, Symbol: s.Name, Value: v, Min: low, Max: high, Unit: s.Unit}
	}
	if s.Whole && v != math.Trunc(v) {
		return &WholeError{Rule: rule, Symbol: s.Name, Value: v}
	}
	return nil
}

// Bounded tells whether the symbol has a range of validity.
func (s Symbol) Bounded() bool { return s.Min != 0 || s.Max != 0 }

// Run checks the range and then computes: outside the range there is no number.
// A result that is not a finite number is a broken promise of the rule, and is
// answered with an error too, never printed.
func (r *Rule) Run(in map[string]float64) ([]Result, error) {
	if err := r.Check(in); err != nil {
		return nil, err
	}
	out := r.Eval(in)
	for _, x := range out {
		if math.IsNaN(x.Value) || math.IsInf(x.Value, 0) {
			return nil, &NoNumberError{Rule: r.ID, Result: x.Name}
		}
	}
	return out, nil
}

// NoNumberError says that values which are each inside their range have no
// result together: kerfs wider than their pitch, say.
type NoNumberError struct{ Rule, Result string }

// Error names the rule and the result.
func (e *NoNumberError) Error() string {
	return fmt.Sprintf("rule %s: these values together give no %s", e.Rule, e.Result)
}

// Value returns the result of that name.
func Value(rs []Result, name string) (float64, bool) {
	for _, r := range rs {
		if r.Name == name {
			return r.Value, true
		}
	}
	return 0, false
}
