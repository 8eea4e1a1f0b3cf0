package making

import (
	"slices"

	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// edges is the last set-up: the edges that can be reached, after the glue, with
// a bit that runs on its own bearing. What keeps its edges, and what has none
// that show, is left out.
func (g *gatherer) edges() {
	e := g.d.Edges
	if e == nil {
		return
	}
	size := e.Size()
	up := work.SetUp{Tool: work.Router, Kind: "edges", Depth: size, Width: size, From: "bearing", Across: 1, Deep: passes(size.V)}
	what := "rounded"
	if e.Round == nil {
		what = "chamfered"
	}
	for _, q := range g.p.Parts {
		switch {
		case q.Role == piece.Tongue, q.Role == piece.DrawerFloor, slices.Contains(e.Sharp, q.EdgeRole()):
		case q.Role == piece.BackPanel && g.d.Back != nil && g.d.Back.Set == "rabbet":
		default:
			g.add(rankEdges, up, work.SetUpCut{Part: q.ID, Count: 1, For: what})
		}
	}
}
