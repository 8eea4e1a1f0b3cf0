// Package outside is where Rodwork's numbers meet the world: the register of
// the rules of mechanics and material, and a hand-kept file of published cases
// that each rule is held against.
//
// A case gives a rule its inputs and the digits that a standard, a handbook, a
// paper or a magazine printed, with the place in its text and how the number
// was come by. It passes if the rule comes within the case's tolerance of the
// print. That alone proves little, as a wide tolerance would pass anything; so
// the same case must fail as soon as the rule's result is moved by twice the
// tolerance, either way, and a tolerance may not be wider than a hundredth of
// the print or than what rounding to the printed digits explains, unless the
// case says why.
package outside

//go:generate go test . -update
