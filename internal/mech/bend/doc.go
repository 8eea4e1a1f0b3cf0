// Package bend plans kerfed bends: a sheet that is sawn nearly through, many
// times side by side, and turned so that the slots close towards each other.
//
// # The chain
//
// A kerfed bend is a chain. The ribs between the kerfs are as stiff as the
// sheet and stay straight; the skins under the kerfs are hinges of the length
// of the slot, w, and each turns by α = θ/N. What keeps its length while a
// hinge turns is its neutral line, y_n behind the show face. So the strip, seen
// at that line, is straights of length s − w and arcs of length w and radius
// w/α, tangent to each other. Half a rib, an arc and half a rib turn the strip
// by α about the centre of the bend exactly as an arc of radius R_n = R_o − y_n
// would, if the two tangent legs are as long:
//
//	(s − w)/2 + (w/α)·tan(α/2) = R_n·tan(α/2)
//
// which is rule BEND-01, the exact pitch: s = w + 2(R_n − w/α)·tan(α/2). With
// many kerfs it becomes θ·R_n/N, the developed length shared out. With few it
// does not: nine kerfs at a radius of 150 mm, spaced by the shared-out length,
// fold 0.33 mm small. The first kerf stands half a pitch past the tangent
// point. The middle of each rib then lies on the circle that was asked for,
// with its direction; the show face stands over the circle only at the kerfs,
// by the facet (rule BEND-06).
//
// # The neutral line
//
// The skin is the face veneer and, usually, a sliver of the first crossband.
// The stiff layer takes the line: y_n = ΣE·h·y/ΣE·h over what is left. A saw
// that leaves 1.1 mm of veneer along the bend and 0.9 mm of crossband has its
// line at 0.58 mm, not at half of 2.0; turn the sheet, so that the face grain
// runs along the kerfs, and the line sinks to 1.51 mm, which stretches the
// outer fibre more than twice as much, and across its grain.
//
// # What limits a bend
//
// Closing: a kerf shuts at α = w/(t − y_n) (BEND-03). Strain: the outer fibre
// is stretched by y_n·α over the hinge's length (BEND-05). That length is not
// well known: the skin bends some way into the ribs. It is taken as w + β·h
// with β from 0 to 2 (rule of thumb, no source), or up to 2.9 under thin skins of
// plywood with its face grain round the bend, where finite elements gave 3.1, 2.0
// and 1.5 for skins of 1.1, 1.6 and 2.0 mm (computed, tools/fe-bend): the hinge
// reaches some 3.2 mm past the slot, whatever the skin. Every verdict is given at both ends. A test strip of
// this blade in this batch of sheet narrows β. Smoothness: facets (BEND-06).
// Ribs that do not break off (BEND-08). The rail inside (BEND-09).
//
// # Kerfs outside
//
// The other half of an S may have its kerfs on the convex face. The skin is then
// the inside of the bend, and its neutral line lies y_n over the inner face:
// R_n = R_o − t + y_n, and the same pitch (rule BEND-17). The mouths open to
// w + α·(t − y_n) and never shut; the floor of the kerf is stretched by
// (h − y_n)·α/w, and as that is often cross-grained crossband, strain alone
// limits the bend. What shows are rib tips with open slots: they want a veneer
// or a filling.
//
// # Force, and what stays
//
// A hinge is pulled by the moment k·α; a force at the end of a straight stretch
// of length L is that over L (BEND-18). Let go, a bare strip straightens: what
// holds its shape is what is bonded to it while it is bent. The share of the
// curvature that is given back is the stiffness before over the stiffness after
// (BEND-19): an inner ply glued over the rib tips makes of each slot a sandwich,
// hundreds of times as stiff as the skin.
//
// # Thin plies
//
// The other way round a corner (New and Spec are kerfed, Stack is this one):
// plies so thin that each takes the radius, bent with wet glue between and held
// till it has cured. A stack of n equal plies keeps 1 − 1/n² of its curvature,
// so the former is made tighter by that, and its angle larger (BEND-15): both,
// or the arms come out at the wrong angle. One ply alone is a cold bend: it
// gives all back, and lasts as long as what holds it.
//
// # When nothing fits
//
// Seek tries every blade of the shop with every skin that leaves the face
// veneer alone. Where none satisfies the limits it says which limit binds, and
// how far the radius, the skin, the blade or the number of kerfs would have to
// go for one that does.
//
// # What is out
//
// The shape under clamps is not computed here (package chain). What a shut kerf
// takes to turn on is (shut.go), with rib tips that do not crush. No measured breaking strains of saw-kerfed skins were found in print; the limits
// stand on published radii of thin plywood, and say so.
package bend
