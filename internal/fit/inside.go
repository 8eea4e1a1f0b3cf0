package fit

import (
	"math"
	"strings"

	"rodwork/internal/mech/spread"
	"rodwork/internal/piece"
)

// What a pinned shelf's play and a slide's room may come to, mm (common
// practice): a shelf with less than 0.3 catches on the way in, one with more
// than 4 may slip from a pin; slides of drawers want their room from nothing
// to a millimetre wide.
const (
	shelfLeast, shelfMost = 0.3, 4.0
	slideLeast, slideMost = -0.3, 1.0
)

// opening adds what the clear width between two uprights hangs on, and returns
// its error: each stands where a fence was set, and is as thick as its stock.
func (in Input) opening(c *causes, space *piece.Space) func(x []float64) float64 {
	at := c.add(spread.Cause{Name: "places of the uprights", SD: in.Design.Shop.Spreads.Fence.V, Times: 2}, in.habit("fence"))
	left := in.upright(space)
	if left == nil || left.Stock == nil {
		return func(x []float64) float64 { return x[at] + x[at+1] }
	}
	thick := c.thickness(in, left.Stock, 1)
	mean := left.Stock.Thickness.Mean.V
	return func(x []float64) float64 { return x[at] + x[at+1] - (thick(x, 0) - mean) }
}

// upright is the part at the left of a space: its right face bounds it.
func (in Input) upright(s *piece.Space) *piece.Part {
	var best *piece.Part
	off := 1.0
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Side && q.Role != piece.Divider && q.Role != piece.Strip {
			continue
		}
		for _, x := range []float64{q.Origin[0].V, q.Origin[0].V + q.Thick.V} {
			if d := math.Abs(x - s.Min[0].V); d < off {
				best, off = q, d
			}
		}
	}
	return best
}

// spaceOf is the space that a part stands in, by its middle.
func (in Input) spaceOf(q *piece.Part, drawer bool) *piece.Space {
	x, y := q.Origin[0].V, q.Origin[1].V
	for i := range in.Piece.Spaces {
		s := &in.Piece.Spaces[i]
		if s.Drawer != drawer {
			continue
		}
		if x > s.Min[0].V-2 && x < s.Min[0].V+s.Size[0].V && y > s.Min[1].V-2 && y < s.Min[1].V+s.Size[1].V {
			return s
		}
	}
	return nil
}

// shelves are the fits of shelves on pins.
func (in Input) shelves() []Fit {
	var out []Fit
	seen := map[string]bool{}
	for _, q := range in.Piece.Parts {
		if q.Role != piece.Shelf || !q.Loose {
			continue
		}
		s := in.spaceOf(q, false)
		if s == nil || seen[s.Name] {
			continue
		}
		seen[s.Name] = true // shelves of one space are alike
		f := Fit{ID: "shelf/" + q.ID, Kind: Shelf, Title: "play of the shelf in " + s.Name, Parts: []string{q.ID}, Path: q.Path,
			Limits: spread.Limits{Tight: shelfLeast, Loose: shelfMost, Gap: inf(1)}}
		var c causes
		open := in.opening(&c, s)
		long := c.add(spread.Cause{Name: "length of the shelf", SD: in.Design.Shop.Spreads.CutLength.V}, in.habit("cut length"))
		play := s.Size[0].V - q.Length.V
		f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
			v := play + open(x) - x[long]
			return spread.Outcome{Tight: v, Loose: v, Gap: v}
		}}
		f.Origins = c.origins
		out = append(out, f)
	}
	return out
}

// drawers are the fits of boxes between their slides.
func (in Input) drawers() []Fit {
	var out []Fit
	for _, left := range in.Piece.Parts {
		if left.Role != piece.DrawerSide || !strings.HasSuffix(left.ID, "left side") || left.Stock == nil {
			continue
		}
		right := in.Piece.Part(strings.TrimSuffix(left.ID, "left side") + "right side")
		s := in.spaceOf(left, true)
		if right == nil || s == nil {
			continue
		}
		f := Fit{ID: "drawer/" + left.ID, Kind: Drawer, Title: "room of the slides in " + s.Name, Parts: []string{left.ID, right.ID}, Path: left.Path,
			Limits: spread.Limits{Tight: slideLeast, Loose: slideMost, Gap: inf(1)}}
		var c causes
		open := in.opening(&c, s)
		thick := c.thickness(in, left.Stock, 2)
		end := c.add(spread.Cause{Name: "length of the box’s front", SD: in.Design.Shop.Spreads.CutLength.V}, in.habit("cut length"))
		deep := c.add(spread.Cause{Name: "depth of the box’s rabbets", SD: in.Design.Shop.Spreads.Depth.V, Times: 2}, in.habit("depth"))
		t := left.Stock.Thickness.Mean.V
		f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
			box := x[end] - x[deep] - x[deep+1] + thick(x, 0) + thick(x, 1) - 2*t
			v := open(x) - box
			return spread.Outcome{Tight: v, Loose: v, Gap: v}
		}}
		f.Origins = c.origins
		out = append(out, f)
	}
	return out
}
