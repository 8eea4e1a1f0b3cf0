// Package work has the plain types that stages hand on to each other through
// the plan: findings, placements on stock, steps. They know parts by id only.
package work

import (
	"rodwork/internal/diag"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Verdict is what a check says.
type Verdict string

const (
	Stop Verdict = "stop" // don't cut yet
	Look Verdict = "look" // your decision
	Fine Verdict = "fine"
	// NotCovered is said where a rule's range of validity does not reach: no
	// number is given.
	NotCovered Verdict = "not covered"
)

// Finding is what one check says of one place.
type Finding struct {
	ID      string       `json:"id"`   // "sag/shelf 1"
	Rule    string       `json:"rule"` // id of the rule: "SHELF-01"
	Verdict Verdict      `json:"verdict"`
	Title   string       `json:"title"`
	Text    say.Sentence `json:"-"` // what was found, against which limit
	// Value and Limit are the traced numbers behind the verdict, in Unit.
	Value trace.Num  `json:"value"`
	Limit trace.Num  `json:"limit"`
	Unit  string     `json:"unit"` // "mm", "kg", "1": the unit of both
	Part  string     `json:"part,omitempty"`
	Path  string     `json:"path,omitempty"` // where in the piece file it is caused
	At    diag.Range `json:"at"`
	// Chapter is the key of the book's chapter that it belongs to: "shell".
	Chapter string `json:"chapter"`
	Mends   []Mend `json:"mends,omitempty"`
}

// Mend is what would settle a finding: a sentence, and where it can be done by
// a change of the file, the path and the text to put there.
type Mend struct {
	Text say.Sentence `json:"-"`
	Path string       `json:"path,omitempty"`
	New  string       `json:"new,omitempty"`
}

// Placement is one part's blank on one sheet, mm from the sheet's corner.
type Placement struct {
	Part          string // part id
	X, Y          float64
	Length, Width float64 // of the blank, along the sheet's length and width
	Turned        bool    // the part's length lies along the sheet's width
}

// SheetCut is one saw cut of a layout, edge to edge of the piece in hand.
type SheetCut struct {
	Number         int
	X0, Y0, X1, Y1 float64 // the saw line on the sheet
	Fence          float64 // what is set: distance from the piece's datum edge
	Note           string
}

// Offcut is a remainder that is kept.
type Offcut struct{ X, Y, Length, Width float64 }

// SheetLayout is one sheet with what lies on it.
type SheetLayout struct {
	Number        int
	Stock         string
	Length, Width float64 // of the sheet
	Trim, Kerf    float64
	GrainAlong    string
	Placements    []Placement
	Cuts          []SheetCut
	Offcuts       []Offcut
	Used          float64 // share of the sheet's area that becomes parts
}

// StickLayout is one stick with the lengths cut from it.
type StickLayout struct {
	Number  int
	Stock   string
	Length  float64
	Kerf    float64
	Lengths []Placement // X and Length are used
	Left    float64
}

// Layout is all of one stock.
type Layout struct {
	Stock  string
	Sheets []SheetLayout
	Sticks []StickLayout
	// Least is the proven least number of sheets or sticks; Proof says why in
	// words; Proven that no fewer will do.
	Least  int
	Proof  string
	Proven bool
	// Checked is set after the independent checker has passed it.
	Checked bool
	// Count of sheets or sticks, hanging on the sizes in steps.
	Count trace.Num
}

// Step is one act of the assembly.
type Step struct {
	Number int
	Part   string   // the part that comes in
	Into   []string // the parts that it meets
	Move   string   // "down", "from the right", "wrapped round"
	Dir    [3]float64
	// Legs are the motion where it is no single straight one along Dir from
	// outside, in the order in which they are done; the last ends in place.
	Legs   []Leg
	Joints []string // joint ids closed by it
	Text   say.Sentence
	// Group: steps of one glue-up share it; 0 for what is done dry or after.
	Group int
	Mind  []Mind
}

// Leg is a part of a motion: a straight move, or a turn about an axis of the
// piece's frame.
type Leg struct {
	By    [3]float64 // mm; noughts for a turn
	About [3]float64 // a place on the axis, mm
	Axis  [3]float64 // its direction, of length 1
	Turn  float64    // rad, by the right hand about Axis; 0 for a straight move
}

// BuyLine is one thing to buy or to have ready.
type BuyLine struct {
	What   string
	Count  trace.Num
	InHand int
	Unit   string    // "sheet", "stick", "piece", "pair"
	Price  trace.Num // of one
	Cost   trace.Num // of what is missing
	Size   string    // "2440 × 1220"
	For    string
	// Length and Width are the numbers of Size, mm, where it has two; Area is
	// what a glue is for, mm².
	Length, Width, Area trace.Num
}

// Sized is Size, in the reader's own units.
func (b BuyLine) Sized() say.Sentence {
	switch {
	case b.Length.V > 0 && b.Width.V > 0:
		return say.F("{} × {}", say.LenN(b.Length, 0).Plain(), say.LenN(b.Width, 0).Plain())
	case b.Size == "":
		return nil
	}
	return say.F("{}", b.Size)
}

// Purpose is For, in the reader's own units.
func (b BuyLine) Purpose() say.Sentence {
	switch {
	case b.Area.V > 0:
		return say.F("{} of glue line", say.Quantity{V: b.Area.V, Dim: units.Area, Decimals: 2})
	case b.For == "":
		return nil
	}
	return say.F("{}", b.For)
}

// Fit tells how much of one thing of the brief goes in.
type Fit struct {
	What         string
	Wanted, Fits int
	Where        []FitPlace
	Why          string // what stops the rest
	// Because is Why with its lengths as numbers.
	Because say.Sentence
	Path    string
}

// FitPlace is a number of things in one space.
type FitPlace struct {
	Space string
	Rows  int
	Count int
}

// MassLine is the mass of one part, and where its centre is, mm.
type MassLine struct {
	Part    string
	Mass    trace.Num
	X, Y, Z trace.Num
}
