package drawing

import (
	"fmt"
	"strings"

	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Face returns the front of the piece alone, for a page that shows it while a
// number changes: with its running dimensions, or bare. A bare face is as wide
// and as high as the piece, so that it can be laid over a picture of it.
func Face(p *plan.Plan, opt Options, bare bool) (leaf.Leaf, bool) {
	if p == nil || p.Piece == nil || len(p.Piece.Parts) == 0 {
		return leaf.Leaf{}, false
	}
	d := viewDrawing{ink: ink{systemOf(opt)}, pc: p.Piece, p: p}
	w, h := p.Piece.Width.V, p.Piece.Height.V
	bodies, _ := bodiesOf(p.Piece)
	whole, _ := sceneOf(withFeet(p.Piece, bodies))
	boxes := whole.Only(func(id string) bool { return !isDrawerBox(p.Piece.Part(id)) })
	lines := boxes.Draw(view.Front(), view.Options{HiddenToo: true})
	inside := behind(p.Piece, piece.Shelf, piece.Divider, piece.Board)
	alt := fmt.Sprintf("The front of the %s, %s wide and %s high: %s.", p.Piece.Name, d.long(w), d.long(h), partsSeen(p.Piece))
	if bare {
		d.k, d.n = fit(w, h, 150, 110)
		d.draft(frame{At: pt(0, h*d.k), K: d.k}, lines, inside)
		return leaf.Leaf{Key: "face-bare", Title: "Front", Alt: alt, W: w * d.k, H: h * d.k, Items: d.items}, true
	}
	d.k, d.n = fit(w, h, 120, 105)
	front := frame{At: pt(viewLeft, viewTop+h*d.k), K: d.k}
	d.draft(front, lines, inside)
	if d.stands() {
		d.floor(viewLeft-6, viewLeft+w*d.k+6, front.y(0))
	}
	low := max(d.heights(front), d.widths(front))
	d.radii(front)
	return leaf.Leaf{Key: "face", Title: "Front", Right: d.right(), Alt: alt,
		Caption: "Heights from the lowest edge, widths from the left side. Dashed: what stands behind.",
		W:       viewLeft + w*d.k + 14, H: low + 3, Items: d.items}, true
}

// long is a length with its unit, for who hears it.
func (d viewDrawing) long(mm float64) string {
	return units.Format(mm, units.Length, d.sys, 0)
}

// partsSeen counts what an eye would count at a front.
func partsSeen(pc *piece.Piece) string {
	count := map[piece.Role]int{}
	for _, q := range pc.Parts {
		count[q.Role]++
	}
	var words []string
	for _, x := range []struct {
		role      piece.Role
		one, many string
	}{{piece.Divider, "divider", "dividers"}, {piece.Board, "fixed board", "fixed boards"}, {piece.Shelf, "shelf", "shelves"},
		{piece.Door, "door", "doors"}, {piece.DrawerFront, "drawer", "drawers"}, {piece.Lid, "lid", "lids"}, {piece.Leg, "leg", "legs"}, {piece.Post, "post", "posts"}} {
		switch n := count[x.role]; n {
		case 0:
		case 1:
			words = append(words, "1 "+x.one)
		default:
			words = append(words, fmt.Sprintf("%d %s", n, x.many))
		}
	}
	if len(words) == 0 {
		return "nothing inside"
	}
	return strings.Join(words, ", ")
}
