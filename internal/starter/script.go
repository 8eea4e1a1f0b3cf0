package starter

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/units"
)

// way is one way of building what was asked.
type way struct {
	bays  int
	edged bool
	sheet sheet
	turn  float64 // of the bent upper corners; 0: square
}

// script writes a piece file, line by line.
type script struct {
	b strings.Builder
	a Answers
	f Form
	g goods
	w way

	shelves int // lines of shelves written
}

func (s *script) line(format string, args ...any) {
	fmt.Fprintf(&s.b, format+"\n", args...)
}

// block begins a new paragraph of the file.
func (s *script) block(format string, args ...any) {
	s.b.WriteByte('\n')
	s.line(format, args...)
}

// l writes a length in the file's unit.
func (s *script) l(mm float64) string {
	if !inches(s.a.System) {
		return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64)
	}
	text := strings.ReplaceAll(units.FormatBare(snap(mm, units.Inch), units.Length, units.Inch, 0), "−", "-")
	if strings.Contains(text, "/") {
		text += " in" // a fraction is one amount only where a unit follows it
	}
	return text
}

// text writes the whole file.
func (s *script) text() string {
	s.head()
	s.brief()
	s.sizes()
	s.stock()
	switch s.a.Kind {
	case Chest:
		s.chest()
	case LidBox, Bench:
		s.lidded()
	case Table:
		s.table()
	case WallCabinet, WallShelf:
		s.hung()
	default:
		s.standing()
	}
	s.block("finish: {kind: hardwax oil, coats: 2, before: glue-up}")
	return s.b.String()
}

func (s *script) head() {
	s.line("# Begun from a few sentences of choice: a %s, %s wide, %s high and %s deep.", s.a.Kind,
		shown(s.a.Width, s.a.System), shown(s.a.Height, s.a.System), shown(s.a.Depth, s.a.System))
	s.line("# A bare number is a length in the units named below; '3/4 in' or '4 cm' work too.")
	s.line("# Any number may be a formula of the sizes.")
	s.line("rodwork: 1")
	if s.a.ID != "" {
		s.line("id: %s", s.a.ID)
	}
	s.line("piece: %s", s.name())
	if s.a.ShopLine != "" {
		s.line("shop: %s%s# the tools and the stock, as measured", s.a.ShopLine, strings.Repeat(" ", max(1, 30-len(s.a.ShopLine))))
	}
	s.line("units: %s", s.a.System)
	if s.g.currency != "" {
		s.line("price in: %s", s.g.currency)
	}
}

// name is what the piece is called, as YAML reads it.
func (s *script) name() string {
	name := strings.Join(strings.Fields(strings.Map(printable, s.a.Name)), " ")
	if r := []rune(name); len(r) > 60 {
		name = strings.TrimSpace(string(r[:60]))
	}
	if name == "" {
		k := string(s.a.Kind)
		return strings.ToUpper(k[:1]) + k[1:]
	}
	for _, r := range name {
		if !(r == ' ' || r == '-' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z') || name[0] < 'A' {
			return "'" + strings.ReplaceAll(name, "'", "''") + "'"
		}
	}
	switch strings.ToLower(name) {
	case "true", "false", "null", "yes", "no", "on", "off", "y", "n":
		return "'" + name + "'"
	}
	return name
}

func printable(r rune) rune {
	if strconv.IsPrint(r) && r != '"' && r != '\\' {
		return r
	}
	return ' '
}

func (s *script) brief() {
	place := "{wall: " + s.a.Wall + "}"
	if s.f.Stands {
		place = "{floor: " + s.a.Floor + ", wall: " + s.a.Wall + "}"
	}
	s.block("brief:")
	s.line("  place: %s", place)
	if s.a.Youngest > 0 {
		s.line("  people: {youngest: %s years, also: adults}", strconv.FormatFloat(math.Round(s.a.Youngest*2)/2, 'f', -1, 64))
	} else {
		s.line("  people: {also: adults}")
	}
	if len(s.a.Holds) == 0 {
		return
	}
	s.line("  holds:%s# usual sizes of such things: measure yours", strings.Repeat(" ", 27))
	for _, h := range s.a.Holds {
		t, _ := thingOf(h.Thing)
		s.line("    - {what: %s, count: %d, height: %s, depth: %s, thickness: %s, mass: %s kg}", t.Name, h.Count,
			s.thing(t.Height), s.thing(t.Depth), s.thing(t.Thickness), strconv.FormatFloat(t.Mass, 'f', -1, 64))
	}
}

// thing writes a size of a thing: in millimetres whatever the file is in, where
// a sixteenth of an inch would say it wrong over a long row.
func (s *script) thing(mm float64) string {
	if inches(s.a.System) {
		return strconv.FormatFloat(mm, 'f', -1, 64) + " mm"
	}
	return s.l(mm)
}

func (s *script) sizes() {
	s.block("sizes:")
	s.line("  width: %-28s# outside", s.l(s.a.Width))
	s.line("  height: %s", s.l(s.a.Height))
	s.line("  depth: %s", s.l(s.a.Depth))
	switch s.a.Kind {
	case Sideboard, Bookcase:
		s.line("  plinth: %s", s.l(plinth))
		if s.w.turn > 0 {
			s.line("  turn: %-29s# outside radius of the bent corners", s.l(s.w.turn))
		}
	case Chest:
		s.line("  toe: %-30s# the sides run on below the bottom by this", s.l(toe))
	case Bench:
		s.line("  leg height: %s", s.l(legHigh))
		s.line("  box height: height - leg height - thickness(shell)")
	case Table:
		s.line("  over: %-29s# how far the top stands out", s.l(20))
	case LidBox:
		s.line("  box height: height - thickness(shell)")
	}
}

func (s *script) stock() {
	thin := s.g.thin(s.w.sheet)
	s.block("stock:%s# roles: what the shop has", strings.Repeat(" ", 29))
	s.line("  shell: %s", s.w.sheet.name)
	s.line("  panels: %s", s.w.sheet.name)
	switch s.a.Kind {
	case Table:
		s.line("  posts: %s", s.w.sheet.name)
		s.line("  rails: %s%s# thinner than the posts, to stand behind them", s.g.about(12, s.w.sheet).name, strings.Repeat(" ", 10))
		return
	case Chest:
		s.line("  drawers: %s", s.g.about(12, s.w.sheet).name)
		s.line("  drawer floors: %s", thin.name)
	case Bench, LidBox:
		thin = s.g.about(12, s.w.sheet)
		s.line("  front panel: %s", thin.name)
	}
	s.line("  back: %s", thin.name)
	if s.w.edged {
		s.line("  edging: %s", s.g.edging)
	}
}

// The measures that a piece begins with, mm: common practice of ours.
const (
	plinth  = 80.0
	toe     = 80.0
	legHigh = 140.0
	gap     = 2.5
)
