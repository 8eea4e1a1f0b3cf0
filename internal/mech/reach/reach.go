// Package reach has the measures of people: how high a child sits, how far up a
// hand gets, how much one person lifts.
//
// Seats and tables follow the lower leg, which grows with the body: school
// furniture comes in sizes (ERGO-01). Reach over a shelf is taken from the bands
// of an accessibility standard: they are for people who sit in a wheelchair, so
// that nearly everybody reaches what lies inside (ERGO-02). What may be lifted
// follows the lifting equation of the American institute for occupational
// safety: 23 kg close to the body at knuckle height, less for every way in which
// a lift is worse (LIFT-01).
package reach

import (
	"math"

	"rodwork/internal/cite"
)

// Size is a size of school furniture: the ages and statures that it is for, and
// its heights, mm.
type Size struct {
	Number             int
	FromAge, ToAge     float64
	Seat, Table, Stand float64
}

// sizes of EN 1729-1, as three guides to school furniture print them (quoted).
var sizes = []Size{{1, 3, 4, 260, 460, 590}, {2, 4, 6, 310, 530, 710}, {3, 6, 8, 350, 590, 760}, {4, 8, 11, 380, 640, 800}, {5, 11, 14, 430, 710, 850}, {6, 14, 200, 460, 760, 900}}

// SeatFor returns the size for an age in years; ages under three take the
// smallest that is known, which is too high for them: ok is then false.
func SeatFor(years float64) (Size, bool) {
	for _, s := range sizes {
		if years < s.ToAge {
			return s, years >= s.FromAge
		}
	}
	return sizes[len(sizes)-1], true
}

// Band returns the lowest and highest reach, mm, by age (ERGO-02): ADA Standards
// 2010, advisory 308.1 for children, 308.2.1 and 308.3.1 for adults (read). ok
// is false under three.
func Band(years float64) (low, high float64, ok bool) {
	const inch = 25.4
	switch {
	case years < 3:
		return 20 * inch, 36 * inch, false
	case years < 5:
		return 20 * inch, 36 * inch, true
	case years < 9:
		return 18 * inch, 40 * inch, true
	case years < 13:
		return 16 * inch, 44 * inch, true
	}
	return 15 * inch, 48 * inch, true
}

// Lift is a lift with both hands, lengths in mm: how far the hands are before
// the ankles, how high they start, how far they go up, how far the body twists,
// rad; Often and Grip are the tables' factors, 1 at best.
type Lift struct{ Before, High, Up, Twist, Often, Grip float64 }

// Limit returns the recommended weight limit, kg, and its factors in the order
// H, V, D, A (LIFT-01).
func (l Lift) Limit() (kg float64, factors [4]float64) {
	h, v, d := math.Max(l.Before/10, 25), l.High/10, math.Max(l.Up/10, 25)
	a := l.Twist * 180 / math.Pi
	factors = [4]float64{25 / h, 1 - 0.003*math.Abs(v-75), 0.82 + 4.5/d, 1 - 0.0032*a}
	if h > 63 || v > 175 || d > 175 || a > 135 {
		return 0, factors
	}
	kg = 23 * l.Often * l.Grip
	for _, f := range factors {
		kg *= f
	}
	return kg, factors
}

// Two is by what two people who lift together lift more than one: less than
// twice (common practice: two thirds of the sum).
const Two = 4.0 / 3

// OneLifts is what one person may lift of a sheet or a carcase, kg: held 30 cm
// before the body at the height of the knuckles, a fair grip, now and then.
func OneLifts() float64 {
	kg, _ := Lift{Before: 300, High: 750, Up: 250, Often: 1, Grip: 0.95}.Limit()
	return kg
}

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleSeat, ruleBand, ruleLift}

func symbol(letter, name, meaning, unit string, lo, hi float64) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: unit, Min: lo, Max: hi, Why: "people"}
}

var ruleSeat = &cite.Rule{
	ID: "ERGO-01", Title: "Heights of seats and tables",
	Question: "How high should a seat and a table be for a child of this age?",
	Formula:  "the size of school furniture for the age",
	Symbols:  []cite.Symbol{symbol("a", "years", "age", "years", 3, 100)},
	Sources:  []cite.Source{{Text: "EN 1729-1, School furniture, as three guides of the trade print it", Locator: "sizes 1 to 6", Label: cite.Quoted}},
	Assumes:  []string{"a child of usual growth for its age: measure the child where it is at hand", "shoes on"},
	Accuracy: "10 mm; children of one age differ by 60",
	Remedies: []string{"a seat for the youngest that uses it, a footrest for none", "for a growing child, legs that can be shortened or raised"},
	Example:  cite.Example{In: map[string]float64{"years": 5}, Out: map[string]float64{"seat": 310, "table": 530, "size": 2}, From: "size 2, ages 4 to 6"},
	Eval: func(in map[string]float64) []cite.Result {
		s, _ := SeatFor(in["years"])
		return []cite.Result{{Name: "seat", Unit: "mm", Value: s.Seat}, {Name: "table", Unit: "mm", Value: s.Table}, {Name: "size", Unit: "1", Value: float64(s.Number)}}
	},
}

var ruleBand = &cite.Rule{
	ID: "ERGO-02", Title: "Reach over shelves",
	Question: "Between which heights can somebody of this age reach?",
	Formula:  "the band for the age",
	Symbols:  []cite.Symbol{symbol("a", "years", "age", "years", 3, 100)},
	Sources: []cite.Source{{Text: "2010 ADA Standards for Accessible Design", Locator: "advisory 308.1, children", Label: cite.Read},
		{Text: "2010 ADA Standards for Accessible Design", Locator: "308.2.1 and 308.3.1, unobstructed", Label: cite.Read}},
	Assumes:  []string{"reach from a wheelchair: who stands reaches higher, so that a place outside the band may still be reached", "nothing stands before the piece"},
	Accuracy: "as printed",
	Remedies: []string{"what is used daily inside the band, what is seldom used above it"},
	Example:  cite.Example{In: map[string]float64{"years": 4}, Out: map[string]float64{"low": 508, "high": 914.4}, From: "20 and 36 in"},
	Eval: func(in map[string]float64) []cite.Result {
		lo, hi, _ := Band(in["years"])
		return []cite.Result{{Name: "low", Unit: "mm", Value: lo}, {Name: "high", Unit: "mm", Value: hi}}
	},
}

var ruleLift = &cite.Rule{
	ID: "LIFT-01", Title: "What one person lifts",
	Question: "How heavy may a thing be that one person lifts with both hands?",
	Formula:  "RWL = 23·(25/H)·(1 − 0.003·|V − 75|)·(0.82 + 4.5/D)·(1 − 0.0032·A)·F·C (cm, °)",
	Symbols: []cite.Symbol{symbol("H", "before", "hands before the ankles", "mm", 0, 630), symbol("V", "high", "hands over the floor at the start", "mm", 0, 1750),
		symbol("D", "up", "how far it goes up", "mm", 0, 1750), symbol("A", "twist", "turn of the body", "deg", 0, 135),
		symbol("F", "often", "factor of the tables for how often", "1", 0, 1), symbol("C", "grip", "factor for the grip: 1 good, 0.95 fair, 0.9 poor", "1", 0.9, 1)},
	Sources: []cite.Source{{Text: "T. R. Waters, V. Putz-Anderson and A. Garg, Applications Manual for the Revised NIOSH Lifting Equation, NIOSH 94-110, rev. 2021", Locator: "the equation", Label: cite.Quoted},
		{Text: "Canadian Centre for Occupational Health and Safety, NIOSH lifting equation (web pages)", Locator: "the equation and 23 kg", Label: cite.Read}},
	Assumes:  []string{"a healthy grown-up, firm footing, a load that does not shift: sheets catch the wind and carcases tip in the hands"},
	Accuracy: "for nearly all healthy workers; the law of the place may ask for less",
	Remedies: []string{"lift with two, or slide and tip", "take off what comes off first", "a trolley, a helper under the far edge"},
	Example: cite.Example{In: map[string]float64{"before": 400, "high": 300, "up": 450, "twist": 0, "often": 1, "grip": 0.95}, Out: map[string]float64{"limit": 10.871, "H": 0.625, "V": 0.865, "D": 0.92},
		From: "by hand: 23·0.625·0.865·0.92·0.95"},
	Eval: func(in map[string]float64) []cite.Result {
		kg, f := Lift{in["before"], in["high"], in["up"], in["twist"] * math.Pi / 180, in["often"], in["grip"]}.Limit()
		return []cite.Result{{Name: "limit", Unit: "kg", Value: kg}, {Name: "H", Unit: "1", Value: f[0]}, {Name: "V", Unit: "1", Value: f[1]}, {Name: "D", Unit: "1", Value: f[2]}, {Name: "A", Unit: "1", Value: f[3]}}
	},
}
