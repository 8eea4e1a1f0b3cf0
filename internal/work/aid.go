package work

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/trace"
)

// Aid is a thing that is cut for the job and is no part of the piece: a former,
// a caul, a spacer block.
type Aid struct {
	ID   string // "former, shell top left"
	Kind string // "former", "caul", "spacer block"; "inner ply", which stays in the piece
	Name string // "former for the top left bend"
	Bend string // that it serves: "shell/bend top left"
	// Stock it is cut from; Chosen where the piece file names one under the role
	// 'formers': then it lies on the layouts among the parts. Else it comes from
	// a kept offcut: of sheet Sheet, at At; none is large enough where At is nil.
	Stock  string
	Chosen bool
	Sheet  int
	At     *Offcut
	// Count of like pieces, each Length × Width.
	Count         int
	Length, Width trace.Num
	Thick         trace.Num
	// Outline of a former's board; Radius and Angle (rad) of its curve.
	Outline       planar.Region
	Radius, Angle trace.Num
}

// BendWay is one way to make one bend, for comparison.
type BendWay struct {
	Part, Corner string
	Way          string // "kerfed", "laminated", "cold"
	Stock        string
	Count        int // kerfs or plies
	Picked       bool
	// Least is the least outside radius that this way allows; 0: none is known.
	Least float64
	// Work is the time of work in s, Wait the time on the former; Cost money.
	Work, Wait, Cost float64
	Verdict          Verdict
	Why              string
}
