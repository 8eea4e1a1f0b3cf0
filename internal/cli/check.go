package cli

import "rodwork/internal/export"

type checkCmd struct{ dataArgs }

// Help tells more of the command.
func (*checkCmd) Help() string {
	return `Says what the checks found, gravest first: stop (don't cut yet), look (your decision), fine, or not covered where a rule's range does not reach. Each finding names its limit, the rule and source behind it, and what would mend it. A check is no approval: local codes and licensed practice come first.

Example:

  rodwork check sideboard.yaml && rodwork book sideboard.yaml -o sideboard-book`
}

func (*checkCmd) exits() string { return exitOfPiece }

// Run prints the findings.
func (c *checkCmd) Run(s *session) error {
	doc := func(p made) any {
		d := export.CheckOf(p.Plan)
		d.Warnings = export.DiagnosticsOf(p.warnings).Diagnostics
		return d
	}
	return s.data(c.dataArgs, doc, inChapter("check"))
}
