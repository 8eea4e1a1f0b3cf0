package starter

import (
	"fmt"
	"math"
	"slices"

	"rodwork/internal/units"
)

// Kind is what the piece is.
type Kind string

// The kinds that there are.
const (
	Sideboard   Kind = "sideboard"
	Bookcase    Kind = "bookcase"
	Chest       Kind = "chest of drawers"
	WallCabinet Kind = "wall cabinet"
	WallShelf   Kind = "wall shelf"
	LidBox      Kind = "box with a lid"
	Bench       Kind = "bench"
	Table       Kind = "table"
)

// Range bounds one size of a kind, mm, and has the size to begin with.
type Range struct{ Least, Usual, Most float64 }

// Form is what a kind of piece can be.
type Form struct {
	Kind                 Kind
	Width, Height, Depth Range
	Holds                bool // the brief's things have room in it
	Stands               bool // on a floor, not on a wall
	Bends                bool // its upper corners may be bent
	Traced               bool // bays and levels may be drawn over a picture
	Thing                string
	Count                int
}

// Forms are the kinds in the order in which they are offered. The bounds are
// ours: a size beyond them is another piece, or longer than a common sheet.
func Forms() []Form {
	return []Form{
		{Kind: Sideboard, Width: Range{500, 1200, 2300}, Height: Range{450, 800, 1100}, Depth: Range{280, 400, 600},
			Holds: true, Stands: true, Bends: true, Traced: true, Thing: "record", Count: 120},
		{Kind: Bookcase, Width: Range{300, 800, 1180}, Height: Range{500, 1800, 2300}, Depth: Range{160, 280, 450},
			Holds: true, Stands: true, Traced: true, Thing: "novel", Count: 100},
		{Kind: Chest, Width: Range{360, 800, 1100}, Height: Range{350, 680, 1250}, Depth: Range{330, 480, 650}, Stands: true},
		{Kind: WallCabinet, Width: Range{250, 700, 1200}, Height: Range{250, 600, 1000}, Depth: Range{140, 250, 400},
			Holds: true, Traced: true, Thing: "storage jar", Count: 12},
		{Kind: WallShelf, Width: Range{250, 800, 1500}, Height: Range{180, 500, 1000}, Depth: Range{110, 200, 320},
			Holds: true, Traced: true, Thing: "paperback", Count: 30},
		{Kind: LidBox, Width: Range{350, 800, 1400}, Height: Range{250, 420, 650}, Depth: Range{280, 420, 600},
			Holds: true, Stands: true, Thing: "folded blanket", Count: 6},
		{Kind: Bench, Width: Range{500, 1000, 1400}, Height: Range{320, 420, 500}, Depth: Range{300, 360, 480},
			Holds: true, Stands: true, Thing: "folded blanket", Count: 4},
		{Kind: Table, Width: Range{400, 1100, 1800}, Height: Range{400, 740, 780}, Depth: Range{300, 600, 900}, Stands: true},
	}
}

// FormOf returns the form of a kind.
func FormOf(k Kind) (Form, bool) {
	for _, f := range Forms() {
		if f.Kind == k {
			return f, true
		}
	}
	return Form{}, false
}

// Level is a line from side to side of one bay, as drawn over a picture.
type Level struct {
	Bay int     // from 0, from the left
	At  float64 // mm over the lowest edge of the piece, to the middle of the shelf
}

// Hold is one kind of thing, by its name among [Things], and how many.
type Hold struct {
	Thing string
	Count int
}

// Answers are what the sentences say. Lengths are in mm.
type Answers struct {
	Name                 string // "" as the kind is called
	ID                   string // that ties the file to its trials; "" leaves it out
	ShopLine             string // the shop file's place relative to the piece file; "" leaves it out
	Kind                 Kind
	Width, Height, Depth float64
	System               units.System
	Holds                []Hold
	Youngest             float64 // age of the youngest in years; 0: adults alone
	Floor, Wall          string
	Sheet                string  // stock of the shop
	Turn                 float64 // outside radius of the bent upper corners; 0: square

	// Uprights are the middles of the uprights between the sides, from the left,
	// and Levels the shelves, as drawn over a picture; nil: as it comes best.
	Uprights []float64
	Levels   []Level
}

// Traced tells whether the inside was drawn.
func (a Answers) Traced() bool { return len(a.Uprights) > 0 || len(a.Levels) > 0 }

// The words of the floor and of the wall, as the piece file has them.
var (
	Floors = []string{"boards", "parquet", "tiles", "stone", "concrete", "carpet"}
	Walls  = []string{"stud", "brick", "block", "concrete", "stone"}
)

// The most that answers may hold: what comes from outside is bounded.
const (
	mostHolds    = 4
	mostUprights = 8
	mostLevels   = 40
	mostCount    = 2000
	leastTurn    = 100.0
)

// settle brings answers to the nearest that can be, and says what it changed.
func settle(a Answers) (Answers, Form, []string) {
	f, ok := FormOf(a.Kind)
	if !ok {
		f, _ = FormOf(Sideboard)
		a.Kind = f.Kind
	}
	if a.System != units.Inch {
		a.System = units.MM
	}
	var said []string
	for _, s := range []struct {
		name string
		v    *float64
		r    Range
	}{{"wide", &a.Width, f.Width}, {"high", &a.Height, f.Height}, {"deep", &a.Depth, f.Depth}} {
		asked := *s.v
		*s.v = within(asked, s.r)
		if math.Abs(asked-*s.v) > 0.5 {
			said = append(said, fmt.Sprintf("A %s is from %s to %s %s here: %s was taken.", a.Kind,
				shown(s.r.Least, a.System), shown(s.r.Most, a.System), s.name, shown(*s.v, a.System)))
		}
		*s.v = snap(*s.v, a.System)
	}
	a.Floor, a.Wall = oneOf(a.Floor, Floors), oneOf(a.Wall, Walls)
	if !(a.Youngest > 0) {
		a.Youngest = 0
	}
	a.Youngest = min(a.Youngest, 17)
	a.Holds = settledHolds(a.Holds, f)
	if !f.Bends || !(a.Turn > 0) {
		a.Turn = 0
	} else {
		a.Turn = snap(min(max(a.Turn, leastTurn), a.Width/3, a.Height/2.5), a.System)
	}
	return settledInside(a, f), f, said
}

func settledHolds(holds []Hold, f Form) []Hold {
	var out []Hold
	for _, h := range holds {
		if _, ok := thingOf(h.Thing); ok && f.Holds && h.Count > 0 && len(out) < mostHolds {
			out = append(out, Hold{h.Thing, min(h.Count, mostCount)})
		}
	}
	return out
}

// settledInside drops what was drawn where it cannot be: too near to a side or
// to its neighbour.
func settledInside(a Answers, f Form) Answers {
	if !f.Traced {
		a.Uprights, a.Levels = nil, nil
		return a
	}
	const room = 60.0 // the least clear width of a bay that is offered, with its upright
	ups := slices.Clone(a.Uprights)
	slices.Sort(ups)
	last := 0.0
	a.Uprights = nil
	for _, x := range ups {
		if x-last >= 2*room && a.Width-x >= 2*room && len(a.Uprights) < mostUprights {
			a.Uprights = append(a.Uprights, snap(x, a.System))
			last = x
		}
	}
	var levels []Level
	for _, l := range a.Levels {
		if l.Bay >= 0 && l.Bay <= len(a.Uprights) && l.At >= room && l.At <= a.Height-room && len(levels) < mostLevels {
			levels = append(levels, Level{l.Bay, snap(l.At, a.System)})
		}
	}
	slices.SortFunc(levels, func(x, y Level) int {
		if x.Bay != y.Bay {
			return x.Bay - y.Bay
		}
		return int(math.Copysign(1, x.At-y.At))
	})
	a.Levels = slices.CompactFunc(levels, func(x, y Level) bool { return x.Bay == y.Bay && math.Abs(x.At-y.At) < room })
	return a
}

func within(v float64, r Range) float64 {
	if math.IsNaN(v) {
		return r.Usual
	}
	return min(max(v, r.Least), r.Most)
}

func oneOf(word string, words []string) string {
	if slices.Contains(words, word) {
		return word
	}
	return words[0]
}

// snap rounds a length to what a person would write: a millimetre, or a
// sixteenth of an inch.
func snap(v float64, s units.System) float64 {
	if s == units.Inch {
		return math.Round(v/25.4*16) / 16 * 25.4
	}
	return math.Round(v)
}

// shown is a length with its unit.
func shown(v float64, s units.System) string {
	return units.Format(snap(v, s), units.Length, s, 0)
}
