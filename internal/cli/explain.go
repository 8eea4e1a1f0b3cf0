package cli

import (
	"fmt"
	"strings"
	"unicode"

	"rodwork/internal/book"
	"rodwork/internal/export"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

type explainCmd struct {
	dataArgs
	Value string `arg:"" optional:"" name:"value" help:"a value's id, the beginning of several ids, or the path of a size or field; none: list all values"`
}

// Help tells more of the command.
func (*explainCmd) Help() string {
	return `Tells where numbers come from. Without a value it lists all that have a name. With a value's id it gives the formula, the rule, and every size, written field, measure of the shop and habit behind it: where each is written, and how much the value moves with it. With the path of a size or a field it turns round and lists what that moves.

Example:

  rodwork explain sideboard.yaml
  rodwork explain sideboard.yaml 'divider 1/length'
  rodwork explain sideboard.yaml sizes.width`
}

func (*explainCmd) exits() string { return exitOfPiece }

// Run prints where numbers come from.
func (c *explainCmd) Run(s *session) error {
	p, err := s.plan(c.dataArgs)
	if err != nil {
		return err
	}
	sys := units.System(c.Units)
	if sys == "" {
		sys = p.Design.Units
	}
	ids, input, err := wanted(p.Ledger, c.Value)
	if err != nil {
		return err
	}
	switch {
	case c.JSON:
		return export.Write(s.out, export.ExplainOf(p.Plan, ids))
	case input != nil:
		return s.explainInput(p, *input, ids, sys)
	case c.Value == "":
		return s.listValues(p, sys)
	}
	for _, id := range ids {
		v, _ := p.Ledger.Find(id)
		if err := s.explainValue(p, v, sys); err != nil {
			return err
		}
	}
	return nil
}

// wanted finds what a person asks for: a value by its id, values by the part
// before the slash, or an input by its path, with what it moves.
func wanted(l *trace.Ledger, word string) (ids []string, input *trace.Input, err error) {
	if word == "" {
		return nil, nil, nil
	}
	if _, ok := l.Find(word); ok {
		return []string{word}, nil, nil
	}
	var known []string
	for _, v := range l.Values() {
		if strings.HasPrefix(v.ID, word+"/") {
			ids = append(ids, v.ID)
		}
		known = append(known, v.ID)
	}
	if len(ids) > 0 {
		return ids, nil, nil
	}
	for _, in := range l.Inputs() {
		if in.Path == word {
			return movedBy(l, in.ID), &in, nil
		}
		known = append(known, in.Path)
	}
	return nil, nil, unknown("value or path", word, known)
}

func movedBy(l *trace.Ledger, id trace.InputID) []string {
	ids := []string{}
	for _, v := range l.Values() {
		if v.Num.D(id) != 0 {
			ids = append(ids, v.ID)
		}
	}
	return ids
}

func (m made) printed(v trace.Value, sys units.System) string {
	if v.Dim == units.Money {
		return units.FormatMoney(v.Num.V, m.Design.Currency, 2)
	}
	return units.Format(v.Num.V, v.Dim, sys, decimalsFor(v.Dim))
}

// decimalsFor is the number of decimals in which a value is listed: a hundredth
// of a millimetre, a gram, and four for plain ratios.
func decimalsFor(d units.Dim) int {
	switch d {
	case units.Length, units.Angle, units.Money:
		return 2
	case units.Count, units.Area, units.Volume:
		return 0
	case units.Mass:
		return 3
	}
	return 4
}

func (s *session) listValues(p made, sys units.System) error {
	t := table.Table{Key: "values", Columns: []table.Column{table.Names("value"), {Head: "is", Align: table.Right}, table.Words("from")}}
	inputs := p.Ledger.Inputs()
	for _, v := range p.Ledger.Values() {
		var from []string
		for _, id := range v.Num.Sources() {
			from = append(from, inputs[id].Path)
		}
		t.Rows = append(t.Rows, table.Row{ID: v.ID, Cells: []table.Cell{
			table.T(v.ID), table.T(p.printed(v, sys)), table.T(someOf(from))}})
	}
	return s.showBlocks("Where the numbers come from", book.Table{ID: "values", Table: t})
}

func (s *session) explainValue(p made, v trace.Value, sys units.System) error {
	blocks := []book.Block{book.Paragraph{ID: "value", Text: say.F("{} is {}.", v.Title, p.printed(v, sys))}}
	if v.Formula != "" {
		blocks = append(blocks, book.Paragraph{ID: "formula", Text: say.F("Formula: {}.", v.Formula)})
	}
	if v.Rule != "" {
		blocks = append(blocks, book.Paragraph{ID: "rule", Text: say.F("Rule: {} (rodwork rule {}).", v.Rule, v.Rule)})
	}
	inputs := p.Ledger.Inputs()
	t := table.Table{Key: "from", Columns: []table.Column{
		table.Names("from"), table.Words("as"), table.Words("written"), table.Words("place"), {Head: "moves it by", Align: table.Right}}, Note: rateNote}
	row := func(id trace.InputID, by string) {
		in := inputs[id]
		t.Rows = append(t.Rows, table.Row{ID: fmt.Sprint(id), Cells: []table.Cell{
			table.T(in.Path), table.T(string(in.Kind)), table.T(in.Text), table.T(in.At.String()), table.T(by)}})
	}
	for _, id := range v.Num.Sources() {
		row(id, rate(v, inputs[id], v.Num.D(id)))
	}
	for _, id := range v.Num.Steps() {
		if v.Num.D(id) == 0 {
			row(id, "in steps")
		}
	}
	if len(t.Rows) == 0 {
		blocks = append(blocks, book.Paragraph{ID: "constant", Text: say.F("Nothing in the files moves it.")})
	} else {
		blocks = append(blocks, book.Table{ID: "from", Table: t})
	}
	return s.showBlocks(v.ID, blocks...)
}

func (s *session) explainInput(p made, in trace.Input, ids []string, sys units.System) error {
	first := book.Paragraph{ID: "input", Text: say.F("{}: {} ({}), {}.", in.Path, in.Text, string(in.Kind), in.At.String())}
	if len(ids) == 0 {
		return s.showBlocks(in.Path, first, book.Paragraph{ID: "none", Text: say.F("A small change of it moves no named value.")})
	}
	t := table.Table{Key: "moves", Columns: []table.Column{table.Names("moves"), {Head: "which is", Align: table.Right}, {Head: "by", Align: table.Right}}, Note: rateNote}
	for _, id := range ids {
		v, _ := p.Ledger.Find(id)
		t.Rows = append(t.Rows, table.Row{ID: id, Cells: []table.Cell{
			table.T(id), table.T(p.printed(v, sys)), table.T(rate(v, in, v.Num.D(in.ID)))}})
	}
	return s.showBlocks(in.Path, first, book.Table{ID: "moves", Table: t})
}

// rateNote says what 'per 1' is where a number was written without a unit.
const rateNote = "per 1: for each millimetre, kilogram or whole thing that it moves"

// rate prints how much a value moves: '+1.571 mm per 1', and where the input
// was written with a unit, for one of that: '+0.07299 kg per kg/m3'.
func rate(v trace.Value, in trace.Input, d float64) string {
	per := "1"
	text := []rune(strings.TrimSpace(in.Text))
	if len(text) > 0 {
		if q, end, err := units.Scan(text, 0); err == nil && end == len(text) && q.Unit && q.V != 0 {
			amount := strings.TrimRightFunc(strings.TrimLeft(in.Text, "0123456789.+- /"), unicode.IsSpace)
			if factor, _, ok := units.Factor(amount); ok {
				d, per = d*factor, amount
			}
		}
	}
	unit := export.Unit(v.Dim)
	if unit == "1" {
		return signed(d) + " per " + per
	}
	return signed(d) + " " + unit + " per " + per
}

// signed prints a rate of change: '+1', '−0.5'.
func signed(d float64) string {
	text := fmt.Sprintf("%+.4g", d)
	return strings.Replace(text, "-", "−", 1)
}
