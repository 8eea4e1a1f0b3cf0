package cli

import "rodwork/internal/export"

type bendsCmd struct{ dataArgs }

// Help tells more of the command.
func (*bendsCmd) Help() string {
	return `Lists every bend: radius, kerfs, pitch, depth, skin, the mouth left open, the strain in the skin with its bands, and the place of each kerf from one datum end. Places are running measures, never a chain.

Example:

  rodwork bends sideboard.yaml`
}

func (*bendsCmd) exits() string { return exitOfPiece }

// Run prints the bends.
func (c *bendsCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.BendsOf(p.Plan) },
		inChapter("bend"))
}
