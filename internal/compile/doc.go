// Package compile builds the piece: from a design, in which every name and
// formula is a number, to parts with their outlines, cuts, bends and poses,
// and the joints between them.
//
// # How a carcase is found
//
// The body's outside, seen from the front, is a rectangle of four members:
// left side, top, right side and bottom, taken clockwise. Where two members
// meet at a bent corner they are one strip; where they meet at a square corner
// one of them runs through and the other enters it, as far as the joint is
// deep. So the members fall into strips, and each strip is a row of straight
// stretches and bends that can be laid flat.
//
// Inside, dividers stand between bottom and top, and boards lie between
// uprights. Each of them is held by what bounds it: a panel knows no more than
// its two ends, the surfaces that they enter, and how deep. A Surface is one
// face of one part, with the way from a place in the piece to a place on that
// face; housings, holes and rabbets are cut through it, whether the part is a
// plain panel or a stretch of a strip.
//
// # Other bodies
//
// A shell that bends in plan is one strip round the front of level plates: the
// same row of stretches and bends, its section seen from above. A frame is four
// posts with rails between them; a body of kind 'none' has free parts alone.
//
// # Shapes, legs, free parts
//
// An outline is corners with roundings, or an SVG drawing. Legs stand in planes:
// leg and leg rail are flat parts of one thickness in one plane, and where their
// outlines cross each gives half of it, from opposite faces. A free part is
// placed by the corner of its box, and is joined to every part whose faces lie
// on its own; where two would share wood, that is an error.
//
// # Sizes
//
// Every size is a trace.Num, so that a part's length knows that it comes from
// the piece's height, the stock's measured thickness and the housing's share of
// it, and from nothing else.
//
// Make never fails: what cannot be built is left out and said in a located
// diagnostic.
package compile
