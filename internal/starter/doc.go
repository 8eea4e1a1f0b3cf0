// Package starter turns a few sentences of choice into a piece file to start
// from.
//
// A maker who begins knows what the piece is, about how large, what it must
// hold, who uses it and where it stands; not yet how many uprights it takes,
// or whether the shelves want a strip before them. [Begin] settles these: it
// writes the piece file for one way of building after the other, cheapest
// first, has the whole plan made of each, and takes the first that no check
// stops:
//
//	as few bays as a span of three quarters of a metre asks for
//	→ the same with a strip of solid wood before each shelf
//	→ one bay more, and so on
//	→ the next thicker sheet of the shop
//	→ square corners where bent ones would not do
//
// What had to be chosen otherwise than was asked is said in a sentence. Sizes
// outside of what a kind of piece can be are brought to the nearest that it
// can. If nothing of it is sound, sizes are changed in steps until it is;
// only what was traced from a picture is left as drawn, with its findings.
//
// The text is one that a person would have written: in the words of the piece
// file, with its reasons as comments, and every size named once.
//
// The package is pure: the same answers and the same shop give the same text.
package starter
