// Package child judges openings, edges and lids by what can happen to a child
// at them: a finger, a hand or a head that goes in and does not come out, a
// small part in a throat, a lid on a neck, a chest without air.
//
// # Openings
//
// An opening is safe that is too small to go in, or so large that what goes in
// comes out. Between lies the band that standards bar. They do not agree, since
// they were written for different things: bunk beds bar 7 to 12 mm for fingers,
// play areas 9.5 to 25 mm; heads are held between 89 mm (the depth of a small
// child's chest) and 229 mm (the largest head). What every rule that was read
// bars is 'stop'; what one of them bars, or one from memory, is 'look'
// (CHILD-01). Toys have a rule for what moves: where a rod of 5 mm goes in,
// one of 12 must (CHILD-02).
//
// # What is out
//
// These rules are for bunk beds, toys and playgrounds. Cabinets have few of
// their own; the figures are borrowed, and said to be. An open compartment is
// no hole: it has no far side to be caught on.
package child
