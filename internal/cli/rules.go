package cli

import (
	"rodwork/internal/book"
	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/table"
)

type rulesCmd struct {
	JSON bool `name:"json" help:"print JSON"`
}

// Help tells more of the command.
func (*rulesCmd) Help() string {
	return `Lists the rules that numbers and findings come from, by their ids. Each has a formula, a source with its place in the text and how it was come by (read, quoted, from memory, common practice, derived), and a range outside of which it gives no number.

Example:

  rodwork rules`
}

func (*rulesCmd) exits() string { return exitOfPlain }

// Run prints the list.
func (c *rulesCmd) Run(s *session) error {
	rules := plan.Rules()
	if c.JSON {
		return export.Write(s.out, export.RulesOf(rules))
	}
	t := table.Table{Key: "rules", Columns: []table.Column{table.Names("rule"), table.Words("what it tells")}}
	for _, r := range rules {
		t.Rows = append(t.Rows, table.Row{ID: r.ID, Cells: []table.Cell{table.T(r.ID), table.T(r.Title)}})
	}
	return s.showBlocks("Rules", book.Table{ID: "rules", Table: t})
}
