// Package sheet states the problem of getting rectangles out of sheets, and
// lengths out of sticks, and what an answer to it is. It holds plain types
// only: pack searches, bound proves how few sheets can do, and verify, which
// knows nothing of either, checks.
//
// # Edge to edge
//
// A saw with a fence or a track cuts a panel from edge to edge; it does not
// turn a corner in the middle. So every layout here is a tree: the sheet is
// parted in two by one straight cut, each half again, until what is left is a
// part or a remainder. Such a layout is called guillotine in the literature. A
// cut along the sheet's length is a rip; a maker likes the rips first, as the
// strips are easier to handle than the sheet.
//
// # The kerf
//
// The blade turns a stripe of width k into dust at each cut. Edge-to-edge
// cutting allows an exact trick: make each part and the sheet larger by k in
// both directions and cut with a blade of no width. For if a stretch a holds
// two stretches and one kerf, a = a1 + k + a2, then a + k = (a1 + k) + (a2 + k),
// and so on down the tree. A remainder r of the enlarged sheet is a real one of
// r - k, or nothing if r is no wider than the kerf.
//
// # Trim
//
// The edges of a sheet as bought are neither straight nor clean. A margin Trim,
// the trim cut's kerf included, is not used at any edge. Two trim cuts, of one
// long edge and one end, make the corner from which all else is measured; on
// the two far sides the raw margin stays on until a cut takes it away together
// with whatever else is beyond the last part.
//
// # Whole numbers
//
// All lengths are whole micrometres and all money is whole cents. So sums are
// exact, two ways of reaching the same line meet there, and the answer is the
// same on every machine.
package sheet
