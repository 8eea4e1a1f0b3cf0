package cli

import (
	"rodwork/internal/book"
	"rodwork/internal/export"
)

type partsCmd struct{ dataArgs }

// Help tells more of the command.
func (*partsCmd) Help() string {
	return `Lists every part with its number, finished size, stock, grain, and the blank to cut first. Thicknesses are those that were measured. Sizes of late parts are provisional until the opening is measured.

Example:

  rodwork parts sideboard.yaml --units in`
}

func (*partsCmd) exits() string { return exitOfPiece }

// Run prints the parts.
func (c *partsCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.PartsOf(p.Plan) }, isPartsList)
}

// isPartsList tells the parts lists, one for each stock, from what else stands
// in the chapter on cutting.
func isPartsList(chapter, heading string, b book.Block) bool {
	_, isTable := b.(book.Table)
	return chapter == "cut" && heading == "" && isTable
}
