// Package material knows what stock is made of: density, stiffness, strength
// and how it moves and creeps, each number with the place it was taken from.
// Plywood is a stack of veneers, and its stiffness along and across is computed
// from them.
//
// # A plate of veneers
//
// A veneer is stiff along its grain (E_L) and soft across (E_T). Bent along the
// face grain, the veneers that run with it carry nearly everything:
//
//	E·I = Σ E_i·(h_i³/12 + h_i·d_i²)
//
// with d_i the distance of a veneer's middle from the neutral line. Three plies
// of birch are sixteen times as stiff along as across; thirteen plies one and a
// third. The published table of birch plywood (1.4 mm veneers, sanded faces of
// 1.1 mm) comes out to the last digit with E_L = 17 500 MPa and E_T = 0, so
// that is how it was made. For a kerf's skin, where a sliver of crossband is
// all there is beside the face, E_T counts and is taken as 600 MPa.
//
// # Numbers
//
// Values are means at about 12 % moisture unless they are called characteristic
// (5 % of pieces are weaker). A label says how each was come by. A real sheet
// may differ by a third; a load test of an offcut beats every table.
package material
