// Package dryfit finds an order in which a piece goes together, and proves it
// by going through it again.
//
// # How an order is found
//
// A joint says how its parts may meet: B moves into A along Enter, or along one
// of the other ways in. Taken apart, the same joint lets B out along the
// opposite. So for one direction of travel every pair of parts gives arrows:
// 'if this part moves, that one must move with it'. A housing bars both its
// partners from leaving across it; a part that stands in the way of another
// bars it too. A set of parts that no arrow leaves can be taken off in that
// direction, in one piece. This is the directional blocking graph of
// R. H. Wilson and J.-C. Latombe, "Geometric reasoning about mechanical
// assembly", Artificial Intelligence 71 (1994) 371–396 (from memory).
//
// The search takes the finished piece apart: it tries each direction that a
// joint names, takes off the set that a joiner would put on last, and goes on
// with what is left and with what was taken off. What is free stays free when
// other parts are gone, so that nothing tried is ever to be taken back: if
// there is an order of straight moves, this finds one. Backwards it is the
// order of assembly.
//
// A bent strip has one more way: it is wrapped round what it encloses, each of
// its flats coming to rest square to itself. A joint whose way in is square to
// one of its flats closes by that.
//
// What hangs on pins, hinges or slides comes after the glue, and what is glued
// up on its own before, as an edging to its shelf.
//
// # The clock of a glue-up
//
// The glue's open time runs from the first spread to the last clamp. All its glue
// lines are spread, then its parts are brought together one by one, then the
// clamps put on; each takes what the shop's rates say. Joints that lie over each
// other along their way in are drawn together by one row of clamps. Where that is
// more than four fifths of the open time, the rest of the order becomes a glue-up
// of its own, and stays dry till the first is out of its clamps.
package dryfit

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// MostParts is the largest glued body that is searched: half a second's work. A
// larger one gets no order, which is said.
const MostParts = 200

// Result is the order of assembly and what is to be said of it.
type Result struct {
	Steps    []work.Step
	Findings []work.Finding
	// GlueUps are the glue-ups by the clock, from the first; none where the shop
	// names no glue.
	GlueUps []work.GlueUp
	// Stuck names the parts for which no order was found, in sets that do not
	// come apart; none where the piece goes together.
	Stuck [][]string
	// Large is set where a body has more than MostParts parts: then its parts
	// are listed in no order.
	Large bool
}

// Order finds the order of assembly, replays it, and groups it into glue-ups.
func Order(p *piece.Piece, d *design.Design) Result {
	s := newSearch(p)
	var r Result
	s.together()
	r.Steps, r.Stuck, r.Large = s.steps(), s.stuck, s.large
	s.group(r.Steps, d)
	if c, ok := newClock(s, d); ok {
		r.GlueUps = c.all(r.Steps)
	}
	r.Findings = append(findings(p, d, r), inWay(p, r.Steps)...)
	return r
}
