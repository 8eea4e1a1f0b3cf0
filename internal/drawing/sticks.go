package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// stickHigh is how high a stick is drawn, whatever its section.
const stickHigh = 8.0

// sticksLeaf draws all sticks of one stock, one below another, each with its
// running dimensions from the squared end.
func sticksLeaf(pc *piece.Piece, l work.Layout, opt Options) leaf.Leaf {
	d := &struct {
		pen
		ink
	}{ink: ink{systemOf(opt)}}
	longest := 1.0
	for _, s := range l.Sticks {
		longest = max(longest, s.Length)
	}
	const left = 18.0
	k := (210 - left - leaf.Margin) / longest
	y, label := 7.0, 0.0
	for i, s := range l.Sticks {
		f := frame{At: pt(left, y+stickHigh), K: k}
		label = stickDrawing(&d.pen, d.ink, f, pc, s)
		d.note(pt(leaf.Margin, y+stickHigh/2+0.9), leaf.Start, strconv.Itoa(s.Number))
		if i < len(l.Sticks)-1 {
			y += stickHigh + label + 6
		}
	}
	y += stickHigh + label + 8
	d.scaleBar(pt(left, y), k, 70, d.sys, "")
	d.accent(leaf.Saw, pt(left+90, y-0.9), pt(left+98, y-0.9))
	d.note(pt(left+99.5, y), leaf.Start, "cut")
	count := fmt.Sprintf("%d sticks", len(l.Sticks))
	if len(l.Sticks) == 1 {
		count = "One stick"
	}
	return leaf.Leaf{
		Key:   "sticks-" + slug(l.Stock),
		Title: count + " of " + l.Stock,
		Right: "blade " + d.fine(l.Sticks[0].Kerf, 1),
		Caption: "Square the end at the ring first, then cut from left to right. Places run from the squared end; each saw line is drawn beyond the length it parts. " +
			"Hatched: what is left.",
		Alt: sticksAlt(pc, l),
		W:   210, H: y + 3,
		Items: d.items,
	}
}

// stickDrawing draws one stick and returns how far its values reach down.
func stickDrawing(p *pen, k ink, f frame, pc *piece.Piece, s work.StickLayout) float64 {
	b := f.box(0, 0, s.Length, stickHigh/f.K)
	end, start := 0.0, 0.0
	if len(s.Lengths) > 0 {
		start = s.Lengths[0].X
		last := s.Lengths[len(s.Lengths)-1]
		end = last.X + last.Length
	}
	p.rect(leaf.Dimension, b)
	if rest := boxOf(f.x(end+s.Kerf), b.Min.Y, b.Max.X, b.Max.Y); rest.Size().X > 0.5 {
		p.hatch(leaf.Hatch, false, math.Pi/4, 1.0, corners(rest))
	}
	places := []place{{at: f.x(start), text: "0", origin: true}}
	deepest := 0.0
	for _, q := range s.Lengths {
		x0, x1 := f.x(q.X), f.x(q.X+q.Length)
		p.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: rectOf(boxOf(x0, b.Min.Y, x1, b.Max.Y))})
		saw := f.x(q.X + q.Length + s.Kerf/2)
		p.accent(leaf.Saw, pt(saw, b.Min.Y-1.6), pt(saw, b.Max.Y+1.6))
		name := stickName(pc, q.Part)
		mid := (b.Min.Y + b.Max.Y) / 2
		for i, s := range []string{leaf.Shorten(name, leaf.Note, true, false, x1-x0-1.5), leaf.Shorten(k.size(q.Length, 1), leaf.Note, false, false, x1-x0-1.5)} {
			p.add(leaf.Text{At: pt((x0+x1)/2, mid-0.5+3.1*float64(i)), S: s, Italic: i == 0, Anchor: leaf.Middle})
		}
		places = append(places, place{at: x1, text: k.size(q.X+q.Length-start, 1)})
	}
	for _, q := range places {
		deepest = max(deepest, leaf.Width(q.text, leaf.Name, false, false))
	}
	p.running(axis{Line: b.Max.Y + 4, Edge: b.Max.Y, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, places)
	return 4 + levelKneed + deepest
}

func stickName(pc *piece.Piece, id string) string {
	if part := pc.Part(id); part != nil {
		return strconv.Itoa(part.Number) + "  " + part.Name
	}
	return id
}

func sticksAlt(pc *piece.Piece, l work.Layout) string {
	var parts []string
	for _, s := range l.Sticks {
		var names []string
		for _, q := range s.Lengths {
			names = append(names, stickName(pc, q.Part))
		}
		parts = append(parts, fmt.Sprintf("stick %d: %s", s.Number, strings.Join(names, ", ")))
	}
	return "The sticks of " + l.Stock + " with the lengths cut from each; " + strings.Join(parts, "; ") + "."
}
