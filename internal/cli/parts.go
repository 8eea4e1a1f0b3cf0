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

// isPartsList tells the parts list from the layouts in the same chapter.
func isPartsList(chapter string, b book.Block) bool {
	return chapter == "cut" && b.BlockID() == "cut/parts"
}
