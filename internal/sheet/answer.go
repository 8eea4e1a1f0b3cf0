package sheet

// Placement is one copy of a part on a sheet, µm from the sheet's corner: X
// along its length, Y along its width.
type Placement struct {
	Part, Copy int // index in Problem.Parts; copies count from 0
	X, Y       int64
	DX, DY     int64
	Turned     bool // the part's length lies along the sheet's width
}

// Axis is the direction along which a cut parts a piece.
type Axis uint8

const (
	// X: the saw runs along the sheet's width and parts its length: a cross cut.
	X Axis = iota
	// Y: the saw runs along the sheet's length and parts its width: a rip.
	Y
)

// Cut is one saw cut, edge to edge of the piece in hand. The piece falls in
// two: what lies before the line At, and what lies beyond the kerf. Only a trim
// cut has its kerf before the line, as there the far side is kept.
type Cut struct {
	Number int
	Axis   Axis
	// At is the finished edge that the cut makes, µm from the sheet's corner
	// along Axis; From and To bound the saw's run along the other axis.
	At, From, To int64
	// Fence is what is set: how wide is what comes off, from the edge of the
	// piece in hand nearest to the sheet's corner; of a trim cut, the trim. µm.
	Fence int64
	// Stage counts how often the saw has changed direction, from 0.
	Stage int
	Trim  bool
}

// Rect is a rectangle on a sheet, µm from the sheet's corner.
type Rect struct{ X, Y, DX, DY int64 }

// Area in µm².
func (r Rect) Area() int64 { return r.DX * r.DY }

// Layout is one sheet with what is cut from it.
type Layout struct {
	Stock      int // index in Problem.Stocks
	Placements []Placement
	Cuts       []Cut  // in the order of sawing
	Offcuts    []Rect // the remainders that are kept, largest first
}

// Family names a family of dual feasible functions; package bound says what
// each is.
type Family string

const (
	Identity  Family = "identity"  // the length itself: with it the bound is by area
	Rounding  Family = "rounding"  // Fekete and Schepers' u(k), Param k
	Threshold Family = "threshold" // small lengths dropped, large ones filled up, Param the threshold in µm
	Division  Family = "division"  // Carlier, Clautiaux and Moukrim's, Param the divisor in µm
	Counting  Family = "counting"  // how many of the lengths from Param µm to half go in
	Slope     Family = "slope"     // Burdett and Johnson's, Param the divisor in µm
)

// Func is one dual feasible function. Where Floor is set, lengths go through
// Threshold with that parameter first, µm.
type Func struct {
	Family Family
	Param  int64
	Floor  int64
}

// Lift says that a copy of a part may be taken for longer along an axis, in one
// way of lying: no choice of the other parts, each in any of its ways and as
// long as the lifts before have made it, fills what it leaves beside it better
// than To allows. All lengths are enlarged by the kerf.
type Lift struct {
	Part, Copy int
	Turned     bool
	Axis       Axis
	To         int64 // µm
}

// Certificate is a proof that at least Least sheets are needed. Each part
// weighs F of its length times G of its width (both enlarged by the kerf), no
// layout of one sheet, edge to edge or not, weighs more than 1, and all parts
// together weigh Sum. A part free to turn weighs the less of its two ways; or,
// if Mean is set, which only a square sheet allows, every part weighs the mean
// of both ways. With several stocks the sheet is the smallest that covers all
// of them. Offcuts at hand are taken off: by their area for the area bound,
// one each for others. Lifts are made first, in their order; they make the
// bound one of others, as a lifted part is as long as the largest sheet wants.
// With Mean all parts are free to turn, also for the lifts.
type Certificate struct {
	F, G  Func
	Mean  bool
	Lifts []Lift
	Sum   float64 // what the parts weigh together, for people; the proof recomputes it
	Less  float64 // what offcuts at hand may carry
	Least int
}

// Answer is a set of layouts that gives every part.
type Answer struct {
	Sheets []Layout
	Cost   int64 // cents
	// Full is the number of sheets that are not offcuts.
	Full int
	// Proof says why fewer than Proof.Least full sheets cannot do; LeastCost is
	// a bound of the cost, cents.
	Proof     Certificate
	LeastCost int64
	// Proven that no cheaper answer exists, or, where there is one price, no
	// answer with fewer sheets.
	Proven bool
	// SetUps is the number of fence settings in all sheets.
	SetUps int
	// Trials is the work that was done: parts tried in free places.
	Trials int64
}

// Beyond returns the number of cuts that run further than the problem's reach,
// trim cuts left out.
func (l Layout) Beyond(p Problem) int {
	n := 0
	for _, c := range l.Cuts {
		if p.Reach > 0 && !c.Trim && c.To-c.From > p.Reach {
			n++
		}
	}
	return n
}

// Largest returns the largest kept offcut's area in µm², 0 for none.
func (a Answer) Largest() int64 {
	best := int64(0)
	for _, s := range a.Sheets {
		for _, r := range s.Offcuts {
			best = max(best, r.Area())
		}
	}
	return best
}

// Proven tells whether an answer of so many full sheets and that cost is the
// best there is, given the two bounds: the cost meets its bound; or, where all
// full sheets have one price and offcuts cost nothing, the number meets its.
func Proven(p Problem, full int, cost int64, least int, leastCost int64) bool {
	if leastCost > 0 && cost <= leastCost || cost == 0 && full == 0 {
		return true
	}
	price := int64(-1)
	for _, s := range p.Stocks {
		switch {
		case s.Available == 0:
		case s.Offcut && s.Price > 0:
			return false
		case s.Offcut:
		case price < 0:
			price = s.Price
		case price != s.Price:
			return false
		}
	}
	return full <= least
}
