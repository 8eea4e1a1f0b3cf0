// Package brief answers the first question of the piece: does it hold what it
// is for, and does it go where it is to stand?
//
// Things stand upright in rows along the width of a space, as books do: the
// height of a thing is upright, its depth goes into the piece, its thickness
// runs along the row. A row of n things of thickness t in a clear width w:
//
//	n = ⌊(w − f) / t⌋
//
// with f the room that a finger needs to tip the first one out; above the
// thing a finger must pass too. Behind the front row stand further rows where
// the depth has room, used only for what the front rows could not take. Under
// a bent corner the row is shorter, by what the arc takes at the height of the
// thing's top.
//
// Things are allotted in the order of the brief: the first named is put in
// first. A thing goes to the lowest level that it fits, so that tall levels
// are kept for tall things. Shelves on pins may stand at any pair of holes;
// all their heights are tried, and those that hold most are taken, the first
// thing of the brief counting before the second.
//
// The same walk gives the loads that other stages need. They are cautious: a
// surface is taken to be loaded from end to end with the heaviest row that
// fits on it anywhere in its space, whatever the allotment put there.
package brief

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// FingerAbove is the room over a thing that lets a finger reach its top edge,
// mm: our habit, and a tight one.
const FingerAbove = 10.0

// FingerAlong is the room left free in a row, mm: our habit.
const FingerAlong = 15.0

// Result is what the brief comes to.
type Result struct {
	// Fits tells for each thing of the brief, in its order, how many go in.
	Fits []work.Fit
	// Shelves are the heights chosen for the shelves on pins.
	Shelves []ShelfPlace
	// Findings on what does not fit, and on the place.
	Findings []work.Finding
	// Loads is the cautious line load of each surface, kg/m, by the id of the
	// part that carries it.
	Loads map[string]trace.Num
	// Contents are the masses that the allotment puts on each surface, with
	// their centres, drawn to the front edge; Part is the surface's part.
	Contents []work.MassLine
	// Load is the mass of all contents, kg.
	Load trace.Num
}

// ShelfPlace is where a shelf on pins stands.
type ShelfPlace struct {
	Part  string    // the shelf's id
	Space string    // the name of its space
	Hole  int       // which hole it stands on, from 1 at the bottom; 0: as built
	Under trace.Num // its underside over the floor of the space, mm
}

// Make allots the things of the brief to the spaces of the piece.
func Make(p *piece.Piece, d *design.Design) Result {
	rooms := roomsOf(p)
	things := d.Brief.Holds
	s := search(rooms, things)
	r := Result{Shelves: s.places(rooms), Loads: loads(rooms, things)}
	for i, t := range things {
		r.Fits = append(r.Fits, fitOf(i, t, s, rooms))
	}
	r.Contents, r.Load = contents(s, things)
	r.Findings = append(fitFindings(r.Fits, s, d), placeFindings(p, d)...)
	return r
}

// Holes returns the shelves that must move to hold what is told, by part id,
// with the hole that each is to stand on, from 1 at the bottom.
func (r Result) Holes() map[string]int {
	out := map[string]int{}
	for _, s := range r.Shelves {
		if s.Hole > 0 {
			out[s.Part] = s.Hole
		}
	}
	return out
}
