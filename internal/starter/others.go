package starter

import (
	"fmt"
	"math"
	"strings"
)

// hung writes a cabinet or a shelf on a wall.
func (s *script) hung() {
	s.body("height", "side")
	names := bayNames(s.w.bays)
	clear, _ := s.room()
	s.bays(names, nil)
	count, first := s.pinned(clear)
	for i, n := range names {
		switch {
		case s.a.Traced():
			s.fixed(n, s.drawnIn(i))
		case s.a.Kind == WallCabinet:
			s.shelf(n, i, count, first)
		case count > 0:
			if s.shelves == 0 {
				s.block("shelves:")
			}
			s.shelves++
			s.line("  - {in: %s, fixed at: evenly, count: %d, set back: 3 mm%s}", n, count, s.edge())
		}
	}
	if s.a.Kind == WallCabinet && s.g.overlay != "" {
		s.overlays(names)
	}
	high, screws := 80.0, max(3, int(math.Ceil(s.a.Width/350))+1)
	if s.a.Kind == WallShelf {
		high = 60
	}
	s.block("back: {set: rabbet, depth: 8 mm}")
	s.line("base: {kind: wall, height: %s, use: %s, count: %d}  # a rail under the top, screwed through the back", s.l(high), s.g.screw, screws)
}

// overlays writes the doors before the edges of a wall cabinet: one of a narrow
// cabinet, else a pair before all of its bays, each leaf on its side.
func (s *script) overlays(names []string) {
	s.block("fronts:")
	inset := min(90, s.a.Height/4)
	if len(names) == 1 && s.a.Width < 460 {
		s.line("  - {name: door, covers: [%s], as: door, set: overlay, gap: 3 mm, hinge: %s, hang on: [left], at: [%s, %s], pull: finger hole 30 mm}",
			names[0], s.g.overlay, s.l(inset), s.l(-inset))
		return
	}
	s.line("  - {name: doors, covers: [%s], as: pair, set: overlay, gap: 3 mm, hinge: %s, at: [%s, %s], pull: finger hole 30 mm}",
		strings.Join(names, ", "), s.g.overlay, s.l(inset), s.l(-inset))
}

// chest writes drawers, each higher than the one over it.
func (s *script) chest() {
	s.body("height - toe", "top")
	thick := s.w.sheet.thick
	clear := s.a.Height - toe - 2*thick
	rows := int(min(max(math.Round(clear/190), 2), 6))
	mean := (clear - float64(rows-1)*thick) / float64(rows)
	step := min(20, (mean-90)*2/float64(rows))
	step = max(step, 0)
	names := bayNames(s.w.bays)
	var levels [][]string // by bay, from the floor up
	s.bays(names, func(n string) string {
		var own, text []string
		for i := range rows {
			name := part(fmt.Sprintf("drawer %d", rows-i), n)
			high := "rest"
			if i > 0 {
				high = s.l(math.Floor(mean + step*(float64(rows-1)/2-float64(i))))
			}
			own = append(own, name)
			text = append(text, fmt.Sprintf("{name: %s, height: %s}", name, high))
		}
		levels = append(levels, own)
		return "[" + strings.Join(text, ", ") + "]"
	})
	s.block("fronts:")
	for _, own := range levels {
		for _, n := range own {
			s.line("  - {name: %s front, covers: [%s], as: drawer, set: inset, gap: %s mm, pull: finger hole 32 mm, late: after carcase}", n, n, num(gap))
		}
	}
	s.block("drawers:")
	run := s.g.slideFor(s.a.Depth - thick - s.g.thin(s.w.sheet).thick - 12)
	for _, own := range levels {
		for _, n := range own {
			s.line("  - {in: %s, run: %s}", n, run)
		}
	}
	s.block("back: {set: rabbet, depth: 8 mm}")
	s.line("rails:")
	s.line("  - {at: top back, height: %s}%s# to anchor it by", s.l(70), strings.Repeat(" ", 10))
	s.line("base: {kind: sides, height: toe, set back: %s, kick: board}", s.l(40))
}

// lidded writes a box with a lid, on legs where it is a bench.
func (s *script) lidded() {
	s.block("body:")
	for _, l := range []string{"kind: box", "width: width", "height: box height", "depth: depth", "open: [top]", "corners:",
		"  bottom left: {square: rabbet, runs through: side}", "  bottom right: {square: rabbet, runs through: side}"} {
		s.line("  %s", l)
	}
	// Openings for air, where nothing closes them: a child may shut itself in.
	s.block("fronts:")
	s.line("  - {name: lid, covers: [inside], as: lid, overhang: %s, hinge: %s, stay: %s, vents: {in: sides, count: 4, diameter: 30 mm, below: %s}}",
		s.l(12), s.g.lidHinge, s.g.stay, s.l(60))
	s.block("back: {set: rabbet, depth: 8 mm}")
	s.line("rails:")
	s.line("  - {at: top back, height: %s}%s# the lid's hinges are screwed to it", s.l(60), strings.Repeat(" ", 10))
	if s.a.Kind != Bench {
		s.line("base: none")
		return
	}
	s.block("outlines:")
	s.line("  curved leg:%s# x inwards from the edge of the box, y up from the floor", strings.Repeat(" ", 24))
	s.line("    corners:")
	reach := min(150, s.a.Depth/2-20)
	for _, c := range []string{"{at: [0, 0]}", s.at(56, 0, 0), s.at(64, 84, 60), s.at(reach, 100, 20),
		fmt.Sprintf("{at: [%s, leg height]}", s.l(reach)), "{at: [0, leg height]}"} {
		s.line("      - %s", c)
	}
	s.block("base: {kind: legs, height: leg height, outline: curved leg, plane: end, at: [%s, %s], mirrored: yes, joint: lap, rail: {height: %s}}",
		s.l(90), s.l(-90), s.l(50))
}

// at writes a corner of an outline.
func (s *script) at(x, y, round float64) string {
	if round == 0 {
		return fmt.Sprintf("{at: [%s, %s]}", s.l(x), s.l(y))
	}
	return fmt.Sprintf("{at: [%s, %s], round: %s}", s.l(x), s.l(y), s.l(round))
}

// table writes four posts, their rails and a top.
func (s *script) table() {
	rail := s.l(min(110, s.a.Height/6.5)) // knees go below it
	s.block("body:")
	s.line("  kind: frame")
	s.line("  width: width")
	s.line("  height: height")
	s.line("  depth: depth")
	s.line("  frame:")
	s.line("    post width: %s", s.l(80))
	s.line("    rails:")
	for _, at := range []string{"top front", "top back", "top ends"} {
		s.line("      - {at: %s, height: %s}", at, rail)
	}
	s.line("      - {at: bottom ends, height: %s, up: %s}", s.l(80), s.l(s.a.Height*0.27))
	s.line("    top: {over: over}")
}
