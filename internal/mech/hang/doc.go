// Package hang computes what a door asks of its hinges: how many, where they
// may sit, and how much room its leading edge needs to swing clear.
//
// Makers of cup hinges print two sorts of tables for the number of hinges: by
// the height of the door and by its mass. They disagree, and neither tells the
// other; the larger number of all that cover the door is taken. A door that is
// wider than high pulls harder on its upper hinge than the tables reckon with,
// and the package says so.
package hang
