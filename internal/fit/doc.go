// Package fit finds the fits of a built piece and what each hangs on: slots and
// the panels that go in, bends and the rails that they lie on, shelves between
// their uprights, drawers between their slides. Each is a function of measured
// things, with their spreads from the shop file, ready to be built ten thousand
// times over by mech/spread.
//
// # What is asked
//
// A slot: what binds is the thickest of three places along the panel, what
// rattles the thinnest. Its width is that of the cutter and of how far the fence
// is moved between two runs; a test piece of the same cutter in the same stock
// tells by how much that comes out wrong.
//
// A bend's mouths: each kerf has its own skin and thickness, all have one blade.
// The narrowest mouth is asked; under nought the bend stops before its angle.
//
// A bend on its rail: the strip is folded from the list of kerfs, each a little
// off its place, and laid with both flats on the flanks of the rail or former;
// where it would enter, it is lifted along the middle of the bend until it only
// touches. The largest gap at a rib's middle is asked. The edges of ribs stand
// off by more, always (rule BEND-09).
//
// What a bend measures outside does not hang on the blade, as long as the kerfs
// stay open: the rail and the thickness set it. Were they shut, one blade's
// error would come back in every kerf; the angle at which they all shut is
// reckoned too, to show how little can be relied on it.
//
// # What is meant by too tight
//
// The windows of the fits are common practice, and so are spreads that the shop
// file does not have. Each cause says where its number is from.
package fit
