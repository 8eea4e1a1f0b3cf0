package fit

import (
	"rodwork/internal/design"
	"rodwork/internal/mech/spread"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Kind is what sort of fit it is.
type Kind string

// The kinds.
const (
	Slot   Kind = "slot"   // a panel in its housing, groove or rabbet
	Mouth  Kind = "mouth"  // kerfs of a bend stay open
	OnRail Kind = "rail"   // a bend on its rail or former
	Shut   Kind = "shut"   // angle of the bend were its kerfs shut; asks nothing
	Shelf  Kind = "shelf"  // a pinned shelf between its uprights
	Drawer Kind = "drawer" // a box between its slides
)

// Fit is one fit of the piece.
type Fit struct {
	ID    string // "slot/…": stable while its test piece's or its part's name is
	Kind  Kind
	Title string
	Parts []string
	// Test is the test piece that proves it, if there is one; Bend the bend.
	Test   *work.TestPiece
	Corner string
	Path   string // in the piece file
	Stack  spread.Fit
	Limits spread.Limits
	// Origins tell for each cause of the stack where its spread is from.
	Origins []Origin
}

// Origin is where a cause's spread is from.
type Origin struct {
	Path     string // in the shop file, where it would be written
	Measured bool   // false: a habit of the program
	From     string // in words: "8 readings", "common practice"
}

// Build builds the fit n times. Its function keeps scratch of its own: one fit
// is built by one goroutine at a time.
func (f Fit) Build(n int) spread.Result { return f.Stack.Build(n, f.Limits) }

// Input is what fits are found in.
type Input struct {
	Piece  *piece.Piece
	Design *design.Design
	SetUps []work.SetUp
	Tests  []work.TestPiece
}

// All returns the fits of a piece, in the order of the work.
func All(in Input) []Fit {
	if in.Piece == nil || in.Design == nil || in.Design.Shop == nil {
		return nil
	}
	var out []Fit
	for i := range in.Tests {
		if t := &in.Tests[i]; t.Kind == "fit" {
			out = append(out, in.slot(t))
		}
	}
	for _, q := range in.Piece.Parts {
		for _, b := range q.Bends {
			if saw := in.Design.Body.Bend.Saw; kerfed(b) && saw != nil && q.Stock != nil {
				out = append(out, in.mouth(q, b, saw), in.shut(q, b, saw))
				if b.Plan.Spec.Angle <= mostTurn {
					out = append(out, in.onRail(q, b, saw))
				}
			}
		}
	}
	out = append(out, in.shelves()...)
	return append(out, in.drawers()...)
}

// kerfed tells whether a bend has kerfs on its inside.
func kerfed(b piece.Bend) bool { return b.Plan.Count > 1 && !b.Plan.Spec.Outside }

// causes gathers the causes of a stack with their origins.
type causes struct {
	list    []spread.Cause
	origins []Origin
	at      int // variables so far
}

// add adds a cause and returns where its variables begin.
func (c *causes) add(cause spread.Cause, o Origin) int {
	from := c.at
	c.list, c.origins = append(c.list, cause), append(c.origins, o)
	c.at += max(cause.Times, 1)
	return from
}

// swelling is by how much a panel's thickness moves for each point of moisture:
// plywood and solid wood across the grain about 0.3 % (from memory of handbooks;
// panels of chips and fibres move more).
const swelling = 0.003

// thickness adds what the thickness of a stock hangs on: the mean as measured,
// how it varies from place to place, and moisture. It returns a function that
// gives the thickness at place k of the places.
func (c *causes) thickness(in Input, s *design.Stock, places int) func(x []float64, k int) float64 {
	sp := s.Thickness
	mean := c.add(spread.Cause{Name: "mean thickness of " + s.Name, Mean: sp.Mean.V, SD: standardError(sp)},
		Origin{Path: s.Path + ".thickness", Measured: sp.Readings > 1, From: readings(sp)})
	place := c.add(spread.Cause{Name: "thickness of " + s.Name + " from place to place", SD: sp.SD.V, Times: places},
		Origin{Path: s.Path + ".thickness", Measured: sp.SD.V > 0, From: readings(sp)})
	wet := c.add(spread.Cause{Name: "moisture", SD: in.Design.Shop.Spreads.Moisture.V, Shape: spread.Even}, in.habit("moisture"))
	return func(x []float64, k int) float64 { return (x[mean] + x[place+k]) * (1 + swelling*x[wet]) }
}

// habit is the origin of one of the shop's spreads.
func (in Input) habit(key string) Origin {
	path := "spreads." + key
	_, written := in.Design.Shop.Places[path]
	o := Origin{Path: path, Measured: written, From: "common practice"}
	if written {
		o.From = "the shop file"
	}
	return o
}
