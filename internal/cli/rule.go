package cli

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/cite"
	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

type ruleCmd struct {
	ID    string   `arg:"" name:"id" help:"the rule's id, as rodwork rules lists it"`
	Given []string `arg:"" optional:"" name:"given" placeholder:"name=value" help:"a value for each symbol, in its unit or with one of its own (18, '18 mm', '3/4 in'); none: show the rule"`
	JSON  bool     `name:"json" help:"print JSON"`
}

// Help tells more of the command.
func (*ruleCmd) Help() string {
	return `Shows one rule: what it answers, its formula and symbols, sources, range and assumptions. With a value for each symbol it is worked out. Outside of the rule's range no number is given.

Example:

  rodwork rule BEND-01
  rodwork rule BEND-01 --json`
}

func (*ruleCmd) exits() string {
	return `0  fine
1  the rule does not cover the given values: no number
2  an argument was wrong, or the output could not be written`
}

// Run shows the rule or works it out.
func (c *ruleCmd) Run(s *session) error {
	rule, err := findRule(c.ID)
	if err != nil {
		return err
	}
	given, err := parseGiven(rule, c.Given)
	if err != nil {
		return err
	}
	var results []cite.Result
	var outside error
	if given != nil {
		results, outside = rule.Run(given)
		if outside != nil && !notCovered(outside) {
			return outside
		}
	}
	s.stop = outside != nil
	if c.JSON {
		return export.Write(s.out, export.RuleRunOf(rule, given, results, outside))
	}
	if given == nil {
		return s.showBlocks(rule.ID+": "+rule.Title, book.RuleNote{ID: "rule", Rule: rule},
			book.Paragraph{ID: "call", Text: say.F("Its own example: {}", exampleCall(rule))})
	}
	return s.showResults(rule, results, outside)
}

// exampleCall is the command that works a rule out for its own example.
func exampleCall(rule *cite.Rule) string {
	args := []string{"rodwork", "rule", rule.ID}
	for _, sym := range rule.Symbols {
		if v, ok := rule.Example.In[sym.Name]; ok {
			args = append(args, sym.Name+"="+strconv.FormatFloat(v, 'g', -1, 64))
		}
	}
	return commandLine(args)
}

// notCovered tells a rule's refusal of a number from a fault in what was given.
func notCovered(err error) bool {
	var outside *cite.RangeError
	var none *cite.NoNumberError
	return errors.As(err, &outside) || errors.As(err, &none)
}

func findRule(id string) (*cite.Rule, error) {
	var known []string
	for _, r := range plan.Rules() {
		if strings.EqualFold(r.ID, id) {
			return r, nil
		}
		known = append(known, r.ID)
	}
	return nil, unknown("rule", id, known)
}

// parseGiven reads name=value arguments; nil where there are none.
func parseGiven(rule *cite.Rule, args []string) (map[string]float64, error) {
	if len(args) == 0 {
		return nil, nil
	}
	given := map[string]float64{}
	for _, a := range args {
		name, text, ok := strings.Cut(a, "=")
		if !ok {
			return nil, fmt.Errorf("%q is not name=value", a)
		}
		sym, err := symbolOf(rule, strings.TrimSpace(name))
		if err != nil {
			return nil, err
		}
		if _, twice := given[sym.Name]; twice {
			return nil, fmt.Errorf("%s is given twice", sym.Name)
		}
		v, err := parseIn(strings.TrimSpace(text), sym.Unit)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sym.Name, err)
		}
		given[sym.Name] = v
	}
	for _, sym := range rule.Symbols {
		if _, ok := given[sym.Name]; !ok && !sym.Optional {
			return nil, fmt.Errorf("rule %s needs %s too: %s, in %s", rule.ID, sym.Name, sym.Meaning, sym.Unit)
		}
	}
	return given, nil
}

func symbolOf(rule *cite.Rule, name string) (cite.Symbol, error) {
	var known []string
	for _, s := range rule.Symbols {
		if s.Name == name || s.Letter == name {
			return s, nil
		}
		known = append(known, s.Name)
	}
	return cite.Symbol{}, unknown("symbol", name, known)
}

// parseIn reads a number in the unit, or with a unit of its own.
func parseIn(text, unit string) (float64, error) {
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v, nil
	}
	factor, dim, ok := units.Factor(unit)
	if !ok {
		return 0, fmt.Errorf("%q is not a number of %s", text, unit)
	}
	v, err := units.Parse(text, dim, unit)
	if err != nil {
		return 0, err
	}
	return v / factor, nil
}

// showResults prints what the rule gave, or that it does not cover the values.
func (s *session) showResults(rule *cite.Rule, results []cite.Result, outside error) error {
	if outside != nil {
		return s.showBlocks(rule.ID+": "+rule.Title,
			book.Paragraph{ID: "outside", Text: say.F("Not covered: {}. No number is given.", outside.Error())})
	}
	t := table.Table{Key: "results", Columns: []table.Column{table.Names("result"), {Head: "value", Align: table.Right}, table.Words("unit")}}
	for _, r := range results {
		t.Rows = append(t.Rows, table.Row{ID: r.Name, Cells: []table.Cell{
			table.T(r.Name), table.T(strconv.FormatFloat(r.Value, 'g', 6, 64)), table.T(r.Unit)}})
	}
	blocks := []book.Block{
		book.Paragraph{ID: "formula", Text: say.F("{}", rule.Formula)},
		book.Paragraph{ID: "range", Text: say.F("The values lie within the rule’s range.")},
		book.Table{ID: "results", Table: t},
	}
	for i, src := range rule.Sources {
		blocks = append(blocks, book.Paragraph{ID: book.ID(fmt.Sprint("source ", i)),
			Text: say.F("Source: {} ({}).", strings.Join(notEmpty(src.Text, src.Locator), ", "), string(src.Label))})
	}
	return s.showBlocks(rule.ID+": "+rule.Title, blocks...)
}

func notEmpty(words ...string) []string {
	return slices.DeleteFunc(words, func(w string) bool { return w == "" })
}
