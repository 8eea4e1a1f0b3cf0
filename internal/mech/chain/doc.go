// Package chain finds the shape that a kerfed strip takes when it is pulled on
// a former: where it touches, what gap is left, and what each clamp must pull.
//
// # The strip
//
// The strip is a chain of stiff links. Between the ribs of a kerfed bend sits a
// hinge for each kerf: a spring of the skin's stiffness k = b·ΣEI/w, which
// turns freely until the kerf's mouth is shut; from there on the skin is pulled
// as a tie, some thousand times as stiff (Plan.PastShut of package bend), or,
// where that is not known, it turns no further. Flats
// between bends are beams: they are cut into short links with springs of
// stiffness EI/ℓ between them. So the chain's shape is told by where it starts
// and by the direction θ of each link.
//
// A hinge is an arc of the kerf's width in truth, and a point here. The point
// stands where the tangents of the two ribs meet, so the link is longer than
// the rib by (w/α)·tan(α/2) on each side; at the turn α that the plan wants,
// the chain closes exactly as the folded strip does.
//
// # Least energy
//
// Of all shapes the strip takes the one of least energy (Lagrange and
// Dirichlet): springs, less the work of loads,
//
//	E = Σ ½·k_j·(θ_j − θ_{j−1})² − Σ F_i·p_i
//
// among those that enter no former and turn no shut kerf further (rule
// CHAIN-01 for one end load). Both limits are held by stiff springs that only
// push, and what such a spring pushes is the force of the contact. A clamp is a
// point that is drawn on the former's face until it touches; the pull that
// takes is the least that the clamp must give.
//
// The minimum is found by Newton's method: gradient and second derivatives are
// exact, a step that would climb is shortened, and where the second derivatives
// have no Cholesky factor their diagonal is raised. Each step lowers the
// energy; that, and that equal inputs give equal shapes, is tested.
//
// # Many kerfs
//
// With many kerfs and no stops the chain is Euler's elastica. The package is
// held against printed tables of it: the cantilever with a weight at its end
// (Bisshopp & Drucker 1945, Mattiasson 1981) and the column bent far over
// (Timoshenko & Gere 1961). With 200 kerfs it comes within half a percent.
//
// # What is out
//
// The strip's weight, friction on the former, shear and compression of ribs,
// and the way in which the strip is bent on; only the end of it is found.
// Stresses where a rib tip bears are not found either.
package chain
