// Package frame computes frames of bars: how far they give, and what their bars
// and joints bear, by the stiffness method, in a plane or in space.
//
// # The method
//
// Each bar is a straight elastic beam after Euler and Bernoulli. At each node
// its ends and the loads balance; that gives one set of linear equations for
// the moves of the nodes, K·u = F, which is solved as it stands (FRAME-01 is the
// portal frame, for which the answer is also in the handbooks).
//
// # Joints that give
//
// A glued corner is neither a hinge nor a weld. The end of a bar may turn
// against its node through a spring of k N·mm/rad. With the fixity factor
//
//	r = 1/(1 + 3·E·I/(k·L))
//
// which is 0 for a hinge and 1 for a rigid joint, the bar's own equations keep
// their form (G. R. Monforton and T. S. Wu, J. Struct. Div. ASCE 89(ST6), 1963,
// from memory): no nodes are added for the springs (FRAME-02).
//
// # Panels
//
// A thin back that is fastened all round keeps a carcase square: not by its
// bending, but as a field of shear G·t. A Panel adds just that: what it costs to
// turn its rectangle into a lozenge. The fastening gives too, and counts as a
// spring in a row with it (FRAME-03).
//
// # What is out
//
// Shear of the bars themselves (a few per cent in stout ones), large moves, and
// the slack before a joint bears. That load leans harder on a frame that already
// leans is looked at by its caller, by the ratio of the frame's stiffness to
// the weight over its height.
package frame
