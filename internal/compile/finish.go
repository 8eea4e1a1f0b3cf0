package compile

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// finish hands over the spaces and sums up the outside.
func (b *builder) finish() {
	for _, s := range b.spaces {
		b.out.Spaces = append(b.out.Spaces, b.spaceOut(s))
	}
	b.out.Width, b.out.Height, b.out.Depth = b.width, b.foot.Add(b.height), b.front
	b.outside()
}

func (b *builder) spaceOut(s *space) piece.Space {
	z1 := b.behindFront(s.covered)
	deep := z1.Sub(b.backThick)
	if b.d.Body.Plan != nil {
		deep = b.roundDepth()
	}
	out := piece.Space{Name: s.name, Min: [3]trace.Num{s.x0, s.y0, b.backThick},
		Size:    [3]trace.Num{s.x1.Sub(s.x0), s.y1.Sub(s.y0), deep},
		Inside:  b.d.Bays[s.bay].Name,
		Shelves: s.shelves, Holes: s.holes, Drawer: s.drawer, Path: s.path, Round: map[string]trace.Num{},
		Floor: s.floor.part.ID}
	if s.ceiling.part != nil {
		out.Ceiling = s.ceiling.part.ID
	}
	if s.level < 0 {
		out.Inside = ""
	}
	sides := [4]bool{b.uprights[s.bay].side, b.uprights[s.bay].side, b.uprights[s.bay+1].side, b.uprights[s.bay+1].side}
	for c, name := range design.CornerNames {
		k := b.corner(c)
		upper := c == 1 || c == 2
		if k.Bent && sides[c] && (upper && s.last || !upper && s.level <= 0) {
			out.Round[name] = k.Radius.Sub(b.inner[0])
		}
	}
	return out
}
