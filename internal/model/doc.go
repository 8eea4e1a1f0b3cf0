// Package model makes of a plan what a model of the piece needs that can be
// turned in the hand: the bodies of its parts as triangles and edges in their
// poses, what each is made of, how doors and drawers move, and where each part
// goes when the piece is taken apart. It is plain data, and the same plan gives
// the same bytes.
//
// # What is in it, and what is not
//
// Bodies are those of package piece with every cut that shows on a face; a bent
// part is bent, and its kerfs are left out, as they are in the drawings. Round
// faces are told by chords that lie at most Chord from them, with the normals of
// the true cylinder, so that they shade smooth. A part of which no sound body
// can be made is left out and named in Lost.
//
// # Wood
//
// Nothing is painted on the faces. A point of a part is told by where it lies in
// the stock: how far along the grain, how far across it, and how far from the
// lower face. A plywood edge shows its layers because the cut goes through them,
// and so does the floor of a housing, or any section that a reader chooses. For
// a bent part the same holds in the strip laid flat, so its stretches come along
// (see piece.Fold).
//
// # Doors and drawers
//
// A door is shown to turn about its hanging edge, at its front face, where a
// plain pin would stand; a cup hinge's own path is a few millimetres off that.
// How far a hinge opens and how far slides run out is not in a shop file: OpenTo
// and OutBy are the program's own, for showing, and no measure of any hinge.
// What a door meets on its way is not looked for.
//
// # The frame
//
// Millimetres; x to the right, y up, z towards the viewer, as everywhere in the
// program (see package r3). Places are rounded to a thousandth of a millimetre,
// so that the last bits of a processor's arithmetic do not show.
package model
