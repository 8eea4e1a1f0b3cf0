package web

import (
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/drawing"
	"rodwork/internal/format/svg"
	"rodwork/internal/plan"
	"rodwork/internal/starter"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// saidOnPage is what the start page says: the choices of its sentences, as they
// stand in the fields.
type saidOnPage struct {
	Kind     string      `json:"kind"`
	Width    string      `json:"width"`
	Height   string      `json:"height"`
	Depth    string      `json:"depth"`
	In       string      `json:"in"` // "mm" or "in"
	Holds    []heldThing `json:"holds"`
	Children bool        `json:"children"`
	Youngest string      `json:"youngest"`
	Floor    string      `json:"floor"`
	Wall     string      `json:"wall"`
	Sheet    string      `json:"sheet"`
	Bent     bool        `json:"bent"`
	Turn     string      `json:"turn"`
	Name     string      `json:"name"`
	// What was drawn over a picture, mm from the piece's left and lowest edge.
	Uprights []float64    `json:"uprights"`
	Levels   []drawnLevel `json:"levels"`
	Bare     bool         `json:"bare"`    // the front without dimensions too
	Picture  string       `json:"picture"` // its id
	Sample   string       `json:"sample"`  // an example to copy
}

type heldThing struct {
	Thing string `json:"thing"`
	Count string `json:"count"`
}

type drawnLevel struct {
	Bay int     `json:"bay"`
	At  float64 `json:"at"`
}

// fits bounds what is said beyond its size.
func (s *saidOnPage) fits() bool {
	for _, text := range []string{s.Kind, s.Width, s.Height, s.Depth, s.In, s.Youngest, s.Floor, s.Wall, s.Turn, s.Picture} {
		if len(text) > 60 {
			return false
		}
	}
	return len(s.Name) <= 200 && len(s.Sheet) <= 200 && len(s.Sample) <= 60 && len(s.Holds) <= 8 && len(s.Uprights) <= 50 && len(s.Levels) <= 200
}

// answers reads the fields; wrong says of each that cannot be read what is
// wrong with it.
func (s *saidOnPage) answers() (a starter.Answers, wrong map[string]string) {
	wrong = map[string]string{}
	a = starter.Answers{Name: s.Name, Kind: starter.Kind(s.Kind), System: units.MM, Floor: s.Floor, Wall: s.Wall, Sheet: s.Sheet, Uprights: s.Uprights}
	if s.In == string(units.Inch) {
		a.System = units.Inch
	}
	length := func(field, text string) float64 {
		v, err := units.Parse(strings.TrimSpace(text), units.Length, string(a.System))
		switch {
		case err != nil:
			wrong[field] = upper(err.Error())
		case v <= 0 || v > 20000:
			wrong[field] = "That is no size of a piece."
		}
		return v
	}
	a.Width, a.Height, a.Depth = length("width", s.Width), length("height", s.Height), length("depth", s.Depth)
	if s.Bent {
		a.Turn = length("turn", s.Turn)
	}
	for i, h := range s.Holds {
		if h.Thing == "" {
			continue
		}
		n, err := strconv.Atoi(strings.TrimSpace(h.Count))
		if err != nil || n < 1 || n > 2000 {
			wrong["count"+strconv.Itoa(i)] = "A whole number from 1 to 2000 is wanted."
		}
		a.Holds = append(a.Holds, starter.Hold{Thing: h.Thing, Count: n})
	}
	if s.Children {
		y, err := strconv.ParseFloat(strings.TrimSpace(s.Youngest), 64)
		if err != nil || !(y >= 0.5 && y <= 17) {
			wrong["youngest"] = "An age from half a year to 17 is wanted."
		}
		a.Youngest = y
	}
	for _, l := range s.Levels {
		a.Levels = append(a.Levels, starter.Level{Bay: l.Bay, At: l.At})
	}
	return a, wrong
}

// trial is what would come of the sentences.
type trial struct {
	Wrong    map[string]string `json:"wrong,omitempty"` // by field
	Figure   string            `json:"figure,omitempty"`
	Bare     string            `json:"bare,omitempty"`
	Said     []string          `json:"said,omitempty"`
	Sound    bool              `json:"sound"`
	Short    bool              `json:"short,omitempty"`  // not all of it finds room
	Counts   map[string]int    `json:"counts,omitempty"` // findings by verdict
	Findings []shortFinding    `json:"findings,omitempty"`
	Facts    []string          `json:"facts,omitempty"`
	Shown    map[string]string `json:"shown,omitempty"` // lengths as they were taken
	Width    float64           `json:"width"`           // mm, as taken
	Height   float64           `json:"height"`
	Text     string            `json:"text,omitempty"`
}

type shortFinding struct {
	Verdict string `json:"verdict"`
	Title   string `json:"title"`
	Text    string `json:"text"`
}

// mostShort is how many findings are told beside the sentences.
const mostShort = 6

func trialOf(b starter.Begun, bare bool) trial {
	sys := b.Answers.System
	t := trial{Said: b.Said, Sound: b.Sound, Text: b.Text, Width: b.Answers.Width, Height: b.Answers.Height, Counts: map[string]int{},
		Shown: map[string]string{"width": lengthText(b.Answers.Width, sys), "height": lengthText(b.Answers.Height, sys), "depth": lengthText(b.Answers.Depth, sys)}}
	if b.Answers.Turn > 0 {
		t.Shown["turn"] = lengthText(b.Answers.Turn, sys)
	}
	if b.Plan == nil {
		t.Said = append(t.Said, "It cannot be built so.")
		return t
	}
	opt := drawing.Options{System: sys}
	if l, ok := drawing.Face(b.Plan, opt, false); ok {
		t.Figure = string(svg.Inline(l, "face-"))
	}
	if bare {
		if l, ok := drawing.Face(b.Plan, opt, true); ok {
			t.Bare = string(svg.Inline(l, "over-"))
		}
	}
	words := &book.Book{System: sys}
	for _, f := range b.Plan.Findings {
		t.Counts[string(f.Verdict)]++
		if (f.Verdict == work.Stop || f.Verdict == work.NotCovered) && len(t.Findings) < mostShort {
			t.Findings = append(t.Findings, shortFinding{string(f.Verdict), f.Title, words.Plain(f.Text)})
		}
	}
	t.Short = !starter.HoldsAll(b.Plan)
	t.Facts = append(fitsTold(b.Plan, words), facts(b.Plan, sys)...)
	return t
}

func lengthText(mm float64, sys units.System) string { return units.Format(mm, units.Length, sys, 0) }

// fitsTold says of each thing whether all of it finds room.
func fitsTold(p *plan.Plan, words *book.Book) []string {
	var out []string
	for _, f := range p.Fits {
		if f.Fits >= f.Wanted {
			out = append(out, "Room for all: "+counted(f.Wanted, f.What, starter.Plural(f.What))+".")
			continue
		}
		text := "Room for " + strconv.Itoa(f.Fits) + " of " + counted(f.Wanted, f.What, starter.Plural(f.What)) + "."
		if len(f.Because) > 0 {
			text += " " + strings.TrimSuffix(upper(words.Plain(f.Because)), ".") + "."
		}
		out = append(out, text)
	}
	return out
}

// facts are what a maker asks next: how many parts, of how many sheets, for how
// much, how heavy.
func facts(p *plan.Plan, sys units.System) []string {
	s := sumsOf(p)
	text := counted(s.parts, "part", "parts") + ", " + counted(s.sheets, "sheet", "sheets")
	if s.currency != "" {
		text += ", " + units.FormatMoney(s.stock, s.currency, 0) + " of stock and fittings"
	}
	return []string{text + ", " + units.Format(s.mass, units.Mass, sys, 1) + " empty."}
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
