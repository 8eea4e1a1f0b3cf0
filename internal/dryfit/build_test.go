package dryfit

import (
	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

func n(v float64) trace.Num { return trace.Const(v) }

var (
	right = r3.Vec{X: 1}
	left  = r3.Vec{X: -1}
	up    = r3.Vec{Y: 1}
	down  = r3.Vec{Y: -1}
	front = r3.Vec{Z: 1}
	back  = r3.Vec{Z: -1}
)

// bench gathers a small piece by hand.
type bench struct{ p piece.Piece }

// part adds a block between two corners of the piece.
func (b *bench) part(id string, x0, y0, z0, x1, y1, z1 float64) *piece.Part {
	q := &piece.Part{ID: id, Name: id, Length: n(x1 - x0), Width: n(y1 - y0), Thick: n(z1 - z0), Pose: r3.Identity()}
	q.Pose.O = r3.Vec{X: x0, Y: y0, Z: z0}
	b.p.Parts = append(b.p.Parts, q)
	return q
}

func (b *bench) joint(kind, in, into string, enter r3.Vec, also ...r3.Vec) {
	b.p.Joints = append(b.p.Joints, piece.Joint{ID: in + " / " + into, Kind: kind, A: into, B: in, Enter: enter, Also: also,
		Depth: n(6), Glued: kind != "pins" && kind != "hinges" && kind != "screwed", Area: n(1e4)})
}

// carcase is a box of 800 × 600 × 300 with two dividers, a board housed between
// them, and a back in a rabbet: the board bars its neighbours from being stood
// one after the other between bottom and top, unless it is there in time.
func carcase() *bench {
	var b bench
	b.part("bottom", 10, 0, 0, 790, 18, 300)
	b.part("left side", 0, 0, 0, 18, 591, 300)
	b.part("right side", 782, 0, 0, 800, 591, 300)
	b.part("top", 0, 582, 0, 800, 600, 300)
	b.part("divider 1", 250, 12, 6, 268, 588, 300)
	b.part("divider 2", 530, 12, 6, 548, 588, 300)
	b.part("board", 262, 300, 6, 536, 318, 300)
	b.part("back", 8, 8, 0, 792, 592, 6)
	b.joint("rabbet", "bottom", "left side", left, up)
	b.joint("rabbet", "bottom", "right side", right, up)
	b.joint("rabbet", "left side", "top", up)
	b.joint("rabbet", "right side", "top", up)
	for _, d := range []string{"divider 1", "divider 2"} {
		b.joint("housing", d, "bottom", down)
		b.joint("housing", d, "top", up)
	}
	b.joint("housing", "board", "divider 1", left)
	b.joint("housing", "board", "divider 2", right)
	for _, a := range []string{"left side", "right side", "top", "bottom"} {
		b.joint("rabbet", "back", a, front)
	}
	return &b
}

// shop is a design whose shop spreads glue at 1000 s/m² and has 500 s for it.
func shop(rate, open float64) *design.Design {
	return &design.Design{Shop: &design.ShopFile{Glues: []design.Glue{{Name: "white", Open: n(open)}}, Rates: design.Rates{SpreadPerM2: n(rate)}}}
}
