// Package beam computes shelves: how far they sag under a load that is spread
// along them, at first and after years, and how hard they are stressed.
//
// # Sag
//
// A shelf is a beam of the span L under a line load q. On pins it turns freely
// at its ends and sags 5·q·L⁴/(384·E·I) (SHELF-01). Ends that could not turn at
// all would leave a fifth of that; no housing in a 18 mm side does that, and a
// shelf in housings is taken as if it lay on pins unless the caller says
// otherwise.
//
// # Creep
//
// Wood under load goes on bending for years. The long-term sag is the first
// one times 1 + k_def (SHELF-02); k_def hangs on the material and on how damp
// it stands. Published values for fibreboard differ by more than a factor of
// two; the larger is used and the other shown.
//
// # Edging
//
// A strip glued along the front edge is a second beam. Where the shelf can not
// twist the two act as one section (SHELF-03). But the load of books lies along
// the middle of the depth, and the stiff line is in front, so a shelf on four
// pins also twists: its back edge gains nearly nothing (SHELF-04). Rules of
// thumb for edged shelves look at the front; we show front, middle and back.
//
// # What is too much
//
// The published limits disagree: L/144 for casework, L/192 and at most a
// quarter of an inch for kitchen cabinets, L/200 in European furniture
// standards, L/384 for the eye. All are shown. A sag beyond the most lenient is
// 'stop', beyond any of them 'look'.
//
// # What is out
//
// Point loads, cantilevers, the give of pins and of sides, shear (under 2 % of
// the sag where the span is over 40 thicknesses), and buckling.
package beam
