package drawing

import (
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/view"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Apart returns for each part of the piece, in their order, how far it stands
// from its place (mm, in the piece's frame) when the piece is taken apart: each
// part out along the way that it goes in, what goes in later further out, boxes
// of drawers whole. It is what Exploded draws. The bodies are those of the parts
// in their places, by id; a part without one is taken by its bounds.
func Apart(pc *piece.Piece, order []work.Step, bodies []view.Item) []r3.Vec {
	return takeApart(pc, order, bodies).off
}

// FromLeft tells from which end the piece is drawn in its picture: from where it
// is bent, else from the left.
func FromLeft(pc *piece.Piece) bool { return viewDrawing{pc: pc}.fromLeft() }
