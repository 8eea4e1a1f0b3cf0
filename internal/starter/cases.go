package starter

import (
	"fmt"
	"math"
	"strings"
)

// room is the clear height inside, mm, and thick the boards round it.
func (s *script) room() (clear, thick float64) {
	thick = s.w.sheet.thick
	clear = s.a.Height - 2*thick
	if s.f.Stands {
		clear -= plinth
	}
	return clear, thick
}

// tallest is the height of the tallest thing, or of nothing in particular.
func (s *script) tallest() float64 {
	high := 0.0
	for _, h := range s.a.Holds {
		t, _ := thingOf(h.Thing)
		high = max(high, t.Height)
	}
	if high == 0 {
		return 290
	}
	return high
}

// leastLevel is the lowest that a drawn shelf may lie over its floor, mm.
const leastLevel = 30.0

// finger is what is left over a thing, so that it can be taken out.
const finger = 14.0

// pitch is that of the holes for pins.
const pitch = 32.0

// pinned is how many shelves on pins a space takes so that the tallest thing
// stands under each, and where their lowest hole is.
func (s *script) pinned(clear float64) (count int, first float64) {
	high := s.tallest() + finger
	first = math.Ceil(high/4) * 4
	each := math.Ceil((high+s.w.sheet.thick)/pitch) * pitch
	for count < 8 && first+pitch/2+float64(count)*each+s.w.sheet.thick+high <= clear {
		count++
	}
	return count, first
}

// bayNames are what the bays are called, from left to right.
func bayNames(n int) []string {
	switch n {
	case 1:
		return []string{"inside"}
	case 2:
		return []string{"left", "right"}
	case 3:
		return []string{"left", "middle", "right"}
	}
	var names []string
	for i := range n {
		names = append(names, fmt.Sprintf("bay %d", i+1))
	}
	return names
}

// shelf writes shelves on pins for one space.
//
// In every other bay they begin half a pitch higher: so the holes in the two
// faces of an upright do not meet in its middle.
func (s *script) shelf(in string, bay, count int, first float64) {
	if count == 0 {
		return
	}
	first += float64(bay%2) * pitch / 2
	if s.shelves == 0 {
		s.block("shelves:")
	}
	s.shelves++
	s.line("  - {in: %s, on: pins, above floor: %s, pitch: 32 mm, to: auto, count: %d, set back: 5 mm%s}", in, s.l(first), count, s.edge())
}

// fixed writes shelves at the heights that were drawn.
func (s *script) fixed(in string, heights []float64) {
	for _, at := range heights {
		if s.shelves == 0 {
			s.block("shelves:")
		}
		s.shelves++
		s.line("  - {in: %s, fixed at: %s, set back: 5 mm%s}", in, s.l(at), s.edge())
	}
}

// edge is the strip before a shelf, where it has one.
func (s *script) edge() string {
	if s.w.edged {
		return ", edging: {stock: edging, height: 30 mm}"
	}
	return ""
}

// bays writes the inside where there is more than one space.
func (s *script) bays(names []string, levels func(name string) string) {
	if len(names) == 1 && levels == nil {
		return
	}
	s.block("inside:%s# bays from left to right", strings.Repeat(" ", 28))
	if len(names) > 1 {
		s.line("  uprights: divider")
	}
	s.line("  bays:")
	for i, n := range names {
		width := "equal"
		if len(names) == 1 {
			width = "rest"
		}
		if len(s.a.Uprights) > 0 {
			width = s.bayWidth(i)
		}
		in := ""
		if levels != nil {
			in = ", levels: " + levels(n)
		}
		s.line("    - {name: %s, width: %s%s}", n, width, in)
	}
}

// bayWidth is the clear width of a bay between the drawn middles of uprights;
// the last one takes what is left.
func (s *script) bayWidth(i int) string {
	t := s.w.sheet.thick
	if i == len(s.a.Uprights) {
		return "rest"
	}
	from := t
	if i > 0 {
		from = s.a.Uprights[i-1] + t/2
	}
	return s.l(s.a.Uprights[i] - t/2 - from)
}

// drawnIn are the heights drawn in one bay, of the undersides over its floor.
func (s *script) drawnIn(bay int) []float64 {
	floor := 1.5 * s.w.sheet.thick // the bottom, and half of the shelf
	if s.f.Stands {
		floor += plinth
	}
	var at []float64
	for _, l := range s.a.Levels {
		if h := l.At - floor; l.Bay == bay && h > leastLevel {
			at = append(at, h)
		}
	}
	return at
}

// body writes a carcase with square corners.
func (s *script) body(height, through string) {
	s.block("body:")
	s.line("  kind: box")
	s.line("  width: width")
	s.line("  height: %s", height)
	s.line("  depth: depth")
	s.line("  corners:")
	for _, c := range []string{"top left", "top right", "bottom left", "bottom right"} {
		run := through
		if strings.HasPrefix(c, "bottom") {
			run = "side"
		}
		s.line("    %s: {square: rabbet, runs through: %s}", c, run)
	}
}

// bent writes a carcase whose upper corners are bent from one strip.
func (s *script) bent() {
	s.block("body:")
	s.line("  kind: bent shell%s# one strip: side, top and side", strings.Repeat(" ", 19))
	for _, l := range []string{"bends in: front view", "width: width", "height: height - plinth", "depth: depth", "corners:",
		"  top left: {radius: turn}", "  top right: {radius: turn}",
		"  bottom left: {square: rabbet, runs through: side}", "  bottom right: {square: rabbet, runs through: side}",
		"bend: kerfed", "open: [front]"} {
		s.line("  %s", l)
	}
}

// standing writes a sideboard or a bookcase.
func (s *script) standing() {
	through := "side"
	if s.a.Kind == Sideboard {
		through = "top"
	}
	if s.w.turn > 0 {
		s.bent()
	} else {
		s.body("height - plinth", through)
	}
	names := bayNames(s.w.bays)
	clear, thick := s.room()
	switch {
	case s.a.Traced():
		s.bays(names, nil)
		for i, n := range names {
			s.fixed(n, s.drawnIn(i))
		}
	case s.a.Kind == Bookcase && clear > 1300:
		s.tall(names, clear, thick)
	default:
		s.bays(names, nil)
		count, first := s.pinned(clear)
		for i, n := range names {
			s.shelf(n, i, count, first)
		}
	}
	if s.a.Kind == Sideboard {
		s.doors(names)
	}
	follow := ""
	if s.w.turn > 0 {
		follow = ", follow: shell"
	}
	s.block("back: {set: rabbet, depth: 8 mm}")
	s.line("rails:")
	s.line("  - {at: top back, height: %s%s}%s# to anchor it by", s.l(80), follow, strings.Repeat(" ", 6))
	s.line("base: {kind: plinth, height: plinth, set back: %s}", s.l(30))
}

// tall writes bays with a fixed board half way up, which keeps the sides from
// bowing; the other shelves stand on pins.
func (s *script) tall(names []string, clear, thick float64) {
	high := s.tallest() + finger
	each := math.Ceil((high+thick)/pitch) * pitch
	lower := high + max(0, math.Floor((clear/2-high)/each))*each
	upper := clear - lower - thick
	s.bays(names, func(n string) string {
		return fmt.Sprintf("[{name: %s, height: %s}, {name: %s, height: rest}]", part("lower", n), s.l(lower+1), part("upper", n))
	})
	for i, n := range names {
		count, first := s.pinned(lower + 1)
		s.shelf(part("lower", n), i, count, first)
		count, first = s.pinned(upper - 1)
		s.shelf(part("upper", n), i, count, first)
	}
}

// part names a level of a bay.
func part(which, bay string) string {
	if bay == "inside" {
		return which
	}
	return which + " " + bay
}

// doors writes a pair for each two bays, and one door for a bay that is left.
func (s *script) doors(names []string) {
	if s.g.inset == "" {
		return
	}
	follow, at := "", s.l(80)+", "+s.l(-80)
	if s.w.turn > 0 {
		follow, at = ", follow: shell", s.l(80)+", "+s.l(-s.w.turn-16)
	}
	s.block("fronts:")
	if len(names) == 1 {
		s.line("  - {name: doors, covers: [%s], as: pair, set: inset, gap: %s mm%s, hinge: %s, at: [%s], pull: finger hole 30 mm, late: after carcase}",
			names[0], num(gap), follow, s.g.inset, at)
		return
	}
	for i := 0; i < len(names); i += 2 {
		name := "doors"
		if len(names) > 3 {
			name = fmt.Sprintf("doors %d", i/2+1)
		}
		if i+1 == len(names) {
			s.line("  - {name: last door, covers: [%s], as: door, set: inset, gap: %s mm%s, hinge: %s, hang on: [right], at: [%s], pull: finger hole 30 mm, late: after carcase}",
				names[i], num(gap), follow, s.g.inset, at)
			continue
		}
		on := []string{"divider", "divider"}
		if i == 0 {
			on[0] = "side"
		}
		if i+2 == len(names) {
			on[1] = "side"
		}
		s.line("  - {name: %s, covers: [%s, %s], as: pair, set: inset, gap: %s mm%s, hinge: %s, hang on: [%s, %s], at: [%s], pull: finger hole 30 mm, late: after carcase}",
			name, names[i], names[i+1], num(gap), follow, s.g.inset, on[0], on[1], at)
	}
}

func num(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0") }
