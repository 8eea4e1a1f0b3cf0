package design

import (
	"rodwork/internal/diag"
	"rodwork/internal/trace"
)

// The ways of bending.
const (
	Kerfed    = "kerfed"
	Laminated = "laminated" // thin plies, glued to each other on a former
	Cold      = "cold"      // one thin sheet, bent and held
)

// BendWish is how bends are to be made. Kerfed: the saw by name, the count of
// kerfs (0: choose), the skin left.
type BendWish struct {
	Way     string // Kerfed, Laminated, Cold; "" where nothing is bent
	Saw     *Saw
	Kerfs   int // 0: chosen by the program
	Skin    trace.Num
	Outside bool // kerfs on the convex face
	// AcrossGrain tells that the face grain lies along the kerfs (a weak skin).
	AcrossGrain bool
	Soaked      bool
	Fill        bool // with glue
	InnerPly    Role // no stock: none
	Plies       int  // of a laminated bend; 1 of a cold one
	At          diag.Range
	Path        string
}

// FreeStrip is a bent strip that is placed by itself.
type FreeStrip struct {
	Name  string
	Role  Role
	Width trace.Num
	// Place is where its outer face begins, on its rear edge; of one that bends
	// in plan, on its lower edge.
	Place   [3]trace.Num
	InPlan  bool
	Heading trace.Num // rad, anticlockwise in its view from a run to the right
	Run     []StripStretch
	Fix     string // "glued", "screwed", "loose"
	At      diag.Range
	Path    string
}

// StripStretch is one stretch of a strip: Flat where it is straight, else
// Radius of its convex face, Angle, and the side that it turns to.
type StripStretch struct {
	Flat, Radius, Angle trace.Num
	Left, Outside       bool // turns to the left; kerfs on the convex face
	Path                string
}
