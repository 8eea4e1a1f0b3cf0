package hang

import (
	"fmt"
	"math"
)

// step says how many hinges a table gives up to a limit.
type step struct {
	upTo  float64
	count int
}

const (
	inch  = 25.4       // mm
	pound = 0.45359237 // kg, exact
)

// byHeight: under 40 in 2 hinges, 40 to 60 in 3, 60 to 80 in 4, 80 to 85 in 5
// (a trade guide to cabinet hinges). At a limit the larger number is taken.
var byHeight = []step{{40 * inch, 2}, {60 * inch, 3}, {80 * inch, 4}, {85 * inch, 5}}

// byMass: under 15 lb 2 hinges, 15 to 30 lb 3, 30 to 45 lb 4, 45 to 60 lb 5 (a
// hinge maker's chart).
var byMass = []step{{15 * pound, 2}, {30 * pound, 3}, {45 * pound, 4}, {60 * pound, 5}}

// byMassOther: up to 6 kg 2 hinges, up to 12 kg 3, doors up to 600 mm wide (a
// second maker's planning page).
var byMassOther = []step{{6, 2}, {12, 3}}

// Limits of what the tables cover.
const (
	HighestDoor  = 85 * inch  // mm
	HeaviestDoor = 60 * pound // kg
	WidestOther  = 600.0      // mm, of the second maker's page
)

// look returns the count of the first step that the value lies under.
func look(table []step, v float64) (count int, ok bool) {
	for _, s := range table {
		if v < s.upTo {
			return s.count, true
		}
	}
	last := table[len(table)-1]
	return last.count, v == last.upTo
}

// Count is how many hinges a door asks for, and by which table.
type Count struct {
	Hinges int
	// ByHeight, ByMass and ByMassOther are what each table gives; ByMassOther is
	// 0 where it does not cover the door.
	ByHeight, ByMass, ByMassOther int
	// Wide is set for a door wider than high: hang it from more hinges than the
	// tables say, or do not hang it so.
	Wide bool
}

// RangeError says that no table covers the door: no number is given.
type RangeError struct {
	What       string
	Value, Max float64
	Unit       string
}

// Error names what is out of range.
func (e *RangeError) Error() string {
	return fmt.Sprintf("hang: no hinge table covers a door's %s of %g %s (they end at %g)", e.What, e.Value, e.Unit, e.Max)
}

// Hinges returns the number of cup hinges for a door of the height and width
// (mm) and mass (kg), the largest that the tables give (HANG-01).
func Hinges(height, width, mass float64) (Count, error) {
	switch {
	case !(height > 0 && height <= HighestDoor):
		return Count{}, &RangeError{"height", height, HighestDoor, "mm"}
	case !(mass > 0 && mass <= HeaviestDoor):
		return Count{}, &RangeError{"mass", mass, HeaviestDoor, "kg"}
	case !(width > 0 && width <= 10000):
		return Count{}, &RangeError{"width", width, 10000, "mm"}
	}
	c := Count{Wide: width > height}
	c.ByHeight, _ = look(byHeight, height)
	c.ByMass, _ = look(byMass, mass)
	if n, ok := look(byMassOther, mass); ok && width <= WidestOther {
		c.ByMassOther = n
	}
	c.Hinges = max(c.ByHeight, c.ByMass, c.ByMassOther)
	return c, nil
}

// LeadingEdge returns how much wider than the door its opening must be, mm, so
// that the inner corner of the leading edge swings clear: the door's width W
// and thickness T, hinged at the front face (HANG-02):
//
//	√(W² + T²) − W
func LeadingEdge(width, thick float64) float64 { return math.Hypot(width, thick) - width }

// Mass returns a door's mass, kg, from its sizes (mm) and density (kg/m³).
func Mass(height, width, thick, density float64) float64 {
	return height * width * thick * density * 1e-9
}

// Ends are the distances, mm, from a door's end between which the first hinge
// is to sit: makers say both 'within 80' and 'at least 80', so 80 ± 20 (HANG-03).
const (
	NearestEnd  = 60.0
	FarthestEnd = 100.0
)

// Placed judges hinge places, mm from the door's foot, rising: the first and
// last within NearestEnd to FarthestEnd of their end, and the outer two further
// apart than the door is wide.
type Placed struct {
	First, Last float64 // from the foot and the head
	Apart       float64 // between the outer two
	EndsFine    bool
	ApartFine   bool
}

// Place measures hinge places on a door. Fewer than two places are no hanging:
// the zero Placed.
func Place(height, width float64, at []float64) Placed {
	if len(at) < 2 {
		return Placed{}
	}
	low, high := at[0], at[0]
	for _, y := range at {
		low, high = math.Min(low, y), math.Max(high, y)
	}
	p := Placed{First: low, Last: height - high, Apart: high - low}
	fine := func(d float64) bool { return d >= NearestEnd && d <= FarthestEnd }
	p.EndsFine = fine(p.First) && fine(p.Last)
	p.ApartFine = p.Apart > width
	return p
}
