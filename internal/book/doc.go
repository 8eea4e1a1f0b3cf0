// Package book turns a plan into a book: chapters in the order of the work,
// each a list of blocks (sentences, tables, findings, figures, steps,
// cautions). A book is data. It holds no mark-up, no colour and no printed
// number: quantities stay quantities until a renderer prints them in the unit
// that the reader asked for, so the page and the terminal can't disagree.
//
// # Which words are alive
//
// A number that a maker wrote in the piece file or the shop file is alive: its
// quantity carries the Path at which it is written, and a page may let it be
// changed there. A number that was worked out has no Path; where the ledger
// knows it by name it carries that ID, by which one may ask where it came from.
//
// # Where findings stand
//
// A finding follows the block that causes it: first a block that shows the
// value at the finding's Path, else one about the finding's part, else the first
// of its chapter. The last but one chapter gathers them all, gravest first, so
// that a finding whose place is gone is still seen.
//
// # What is not said
//
// The book says what was computed and against which limit. It never says that
// a piece meets a standard or a law: that is for who tests it.
package book
