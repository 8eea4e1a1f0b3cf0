package cli

import (
	"rodwork/internal/book"
	"rodwork/internal/export"
)

type sheetsCmd struct{ dataArgs }

// Help tells more of the command.
func (*sheetsCmd) Help() string {
	return `Lays the blanks on sheets and sticks, with the kerf of the saw, the trim of the edges and the way of the grain, and numbers the saw cuts in an order that a saw can follow, edge to edge. Each layout is checked by a routine of its own, and says whether fewer sheets are proven impossible. More effort may find a better one.

Example:

  rodwork sheets sideboard.yaml --effort 2000`
}

func (*sheetsCmd) exits() string { return exitOfPiece }

// Run prints the layouts.
func (c *sheetsCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.SheetsOf(p.Plan) },
		func(_, heading string, _ book.Block) bool { return heading == "cut/layouts" })
}
