// Package spread tells how a fit scatters: how often it comes out too tight,
// too loose, or with a gap that shows, and which cause is to blame.
//
// # Two ways of adding errors
//
// A fit is a function f of measured things x_1 … x_k, each with a mean μ_i and
// a standard deviation σ_i. Where f is straight near the means, and the causes
// do not know of each other, the old rule of the shop's statistics holds
// exactly (SPREAD-01):
//
//	mean f = f(μ),   var f = Σ (∂f/∂x_i)²·σ_i²
//
// and the share of cause i is its term over the sum. Joiners meet its two faces
// daily. A thing that is wrong once and is repeated N times adds N times its
// error: a blade that is a little wide is wide in every kerf. N things that are
// wrong each by itself add √N times theirs: N settings of a stop.
//
// Fits are seldom straight. What binds in a housing is the thickest place of a
// panel, what rattles is its thinnest; a kerf shuts or it does not. So a fit is
// also built, ten thousand times over, each time with other draws, and each
// time the fit's own function is asked again. Means, deviations and chances are
// counted from those builds, and each carries the standard error that a count
// of that many has.
//
// # Draws
//
// The draws come from a counter: build j of cause i with a seed has one number,
// the mixed bits of (seed, j, i), whatever else is drawn before or after it
// (Steele, Lea & Flood, 'Fast splittable pseudorandom number generators',
// OOPSLA 2014, whose mixing function is used). So the same shop gives the same
// book, and one cause more does not stir up the others. A draw is turned into a
// normal one by the inverse of the normal distribution.
//
// # Shares
//
// The share of a cause is what f scatters if that cause alone moves and all
// others stand at their means. For a cause of one variable it is found without
// lots, by asking f at the three places of a Gauss rule, which is exact for a
// straight and a bent (quadratic) f; for one of several (the thickness at three
// places, the width of each kerf) by draws of these alone. What the causes do
// only together is left over, and told as such, where it is large.
package spread
