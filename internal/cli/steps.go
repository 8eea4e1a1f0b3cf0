package cli

import "rodwork/internal/export"

type stepsCmd struct{ dataArgs }

// Help tells more of the command.
func (*stepsCmd) Help() string {
	return `Gives an order in which the piece goes together: which part comes in, which way, and which joints that closes. The order was replayed by a routine that checks that no part has to pass through another's joint.

Example:

  rodwork steps sideboard.yaml`
}

func (*stepsCmd) exits() string { return exitOfPiece }

// Run prints the steps.
func (c *stepsCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.StepsOf(p.Plan) },
		inChapter("assemble"))
}
