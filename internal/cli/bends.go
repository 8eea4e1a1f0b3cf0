package cli

import "rodwork/internal/export"

type bendsCmd struct{ dataArgs }

// Help tells more of the command.
func (*bendsCmd) Help() string {
	return `Lists every bend: radius, kerfs, pitch, depth, skin, the mouth left open, the strain in the skin with its bands, and the place of each kerf from one datum end. Places are running measures, never a chain.

A bend that cannot be made as it is written is refused: what binds it is told, and what would work, of the shop's blades and skins, or else the nearest radius and the nearest blade. What is cut to bend on, and the other ways round the corner, come last.

Example:

  rodwork bends sideboard.yaml`
}

func (*bendsCmd) exits() string { return exitOfPiece }

// Run prints the bends.
func (c *bendsCmd) Run(s *session) error {
	return s.data(c.dataArgs, func(p made) any { return export.BendsOf(p.Plan) },
		inChapter("bend"))
}
