package cli

import "rodwork/internal/export"

type buyCmd struct{ dataArgs }

// Help tells more of the command.
func (*buyCmd) Help() string {
	return `Lists the sheets, sticks and fittings that the piece takes, what of them is in the shop, and what the rest costs at the shop file's prices.

Example:

  rodwork buy sideboard.yaml`
}

func (*buyCmd) exits() string { return exitOfPiece }

// Run prints the buying list.
func (c *buyCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.BuyOf(p.Plan) },
		inChapter("buy"))
}
