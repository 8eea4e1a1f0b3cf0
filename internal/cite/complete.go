package cite

import (
	"errors"
	"fmt"
	"math"
)

// Complete tells what a rule lacks to be shown to a maker: question, formula,
// symbols with meaning, unit and a reasoned range, a source with a place in
// its text (or the honest label 'common practice' or 'derived'), assumptions,
// an accuracy, remedies, and an example that the rule itself reproduces. All
// that is missing is told at once.
func (r *Rule) Complete() error {
	var errs []error
	lack := func(format string, args ...any) {
		errs = append(errs, fmt.Errorf("rule %s: "+format, append([]any{r.ID}, args...)...))
	}
	for _, part := range []struct{ name, text string }{
		{"id", r.ID}, {"title", r.Title}, {"question", r.Question}, {"formula", r.Formula},
		{"accuracy", r.Accuracy}, {"place the example is from", r.Example.From},
	} {
		if part.text == "" {
			lack("no %s", part.name)
		}
	}
	if len(r.Assumes) == 0 {
		lack("no assumptions")
	}
	if len(r.Remedies) == 0 {
		lack("no remedies")
	}
	if len(r.Symbols) == 0 {
		lack("no symbols")
	}
	r.lackingSymbols(lack)
	r.lackingSources(lack)
	if r.Eval == nil {
		lack("no function")
	} else {
		r.lackingExample(lack)
	}
	return errors.Join(errs...)
}

func (r *Rule) lackingSymbols(lack func(string, ...any)) {
	seen := map[string]bool{}
	for _, s := range r.Symbols {
		switch {
		case s.Letter == "" || s.Name == "" || s.Meaning == "" || s.Unit == "":
			lack("symbol %q lacks a letter, a name, a meaning or a unit", s.Name+s.Letter)
		case seen[s.Name]:
			lack("symbol %q twice", s.Name)
		case s.Bounded() && (s.Min >= s.Max || s.Why == ""):
			lack("symbol %q: the range is empty or has no reason", s.Name)
		case !s.Bounded() && s.Why == "":
			lack("symbol %q: neither a range nor the word that there is none", s.Name)
		case s.Optional && s.Else == "":
			lack("symbol %q may be left out, but nothing says what is taken then", s.Name)
		}
		seen[s.Name] = true
	}
}

func (r *Rule) lackingSources(lack func(string, ...any)) {
	if len(r.Sources) == 0 {
		lack("no source")
	}
	for _, s := range r.Sources {
		switch s.Label {
		case Read, Quoted, FromMemory:
			if s.Text == "" || s.Locator == "" {
				lack("a source lacks its text or the place in it")
			}
		case Practice, Derived:
			if s.Text == "" {
				lack("a source of label %q lacks its words", s.Label)
			}
		default:
			lack("a source has no label")
		}
	}
}

// lackingExample runs the example: it must hold to the digits that it prints,
// taken as half a unit in the fourth figure.
func (r *Rule) lackingExample(lack func(string, ...any)) {
	if len(r.Example.Out) == 0 {
		lack("no example")
		return
	}
	got, err := r.Run(r.Example.In)
	if err != nil {
		lack("its example does not run: %v", err)
		return
	}
	for _, s := range r.Symbols {
		if _, ok := r.Example.In[s.Name]; !ok && !s.Optional {
			lack("its example has no %s", s.Name)
		}
	}
	known := map[string]bool{}
	for _, g := range got {
		known[g.Name] = true
		if g.Unit == "" {
			lack("result %s has no unit", g.Name)
		}
		want, ok := r.Example.Out[g.Name]
		if ok && math.Abs(g.Value-want) > 5e-4*math.Max(math.Abs(want), 1e-9) {
			lack("its example gives %s = %.6g, not %.6g", g.Name, g.Value, want)
		}
	}
	for name := range r.Example.Out {
		if !known[name] {
			lack("its example tells of a result %q that the rule does not give", name)
		}
	}
}
