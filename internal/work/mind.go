package work

// Mind is what a step or a set-up must mind: the hazard that belongs to it.
type Mind string

// The hazards, in the order in which they are named.
const (
	Kickback  Mind = "kickback"         // a blade or a bit throws the work back
	Hidden    Mind = "a hidden blade"   // a cut that does not go through
	Climb     Mind = "a climb cut"      // feeding with the turn of the bit
	Catching  Mind = "a bit that grabs" // a drill turns the work
	EdgeTools Mind = "edge tools"       // jigsaw and chisel
	SmallPart Mind = "a small part"     // too small to be held by hand
	Dust      Mind = "dust"
	Vapour    Mind = "glue and vapour"
	Rags      Mind = "oily rags"
	TwoPeople Mind = "two people"   // too heavy or too large for one
	Lifting   Mind = "a heavy load" // too heavy for two: slid, tipped or taken apart
)
