// Package meet asks the parts of a piece, as solids in their places, what they
// have to do with each other: whether two of them take the same room, whether
// the partners of a joint touch where they should and how much of them does,
// and whether anything is held by nothing.
//
// # What it is for
//
// The stages before this one compute a piece from sizes: a housing is so wide, a
// divider so long. Each formula can be right and the piece still wrong, where
// two formulas know nothing of each other. Here nothing is known of formulas. The
// parts are taken as they will be cut, put where they will stand, and looked at:
// a divider that is 0.1 mm too long for its housing reaches into the wood, and
// one that is too short leaves a gap at the bottom of it.
//
// # What counts as touching
//
// A part enters its partner along a direction that the joint names (or along one
// of several: a rabbet is open on two sides). Faces of the receiving part that
// look against that direction are where it should come to rest. There the gap is
// to be no more than Touch. At the cheeks, square to it, a fit has its clearance,
// and faces within the clearance are counted as touching: that is where the glue
// lies. What hangs on pins, hinges or slides touches nothing, and what floats in
// a groove need not reach its floor.
//
// Kerfs are left out of bent parts, and the bend's inside counts as smooth; what
// the rib tips do there is told by the bend's own plan. Hardware is not a solid
// here: a hinge cup is a hole, a screw is nothing.
//
// # What counts as held
//
// A joint that touches holds, and so does hardware. What stands on the floor, or
// rests on what is held, is held too; what only leans against a face is not.
package meet

import (
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Named margins, mm. A chord may lie 0.005 mm from its arc on both parts, so
// that less than twice that can't be told from touching; the rest is room for
// sums of lengths.
const (
	// Clear is how far one part may seem to reach into another.
	Clear = 0.02
	// Touch is how wide a gap may be where a joint should touch: the least glue
	// line that is written of (see GapRule).
	Touch = 0.05
	// Open is the gap from which on a joint that touches nowhere holds nothing: no
	// glue bridges it (common practice).
	Open = 0.5
	// Look is the widest gap that is still looked for: a joint whose faces are
	// further apart does not touch at all.
	Look = 2.0
)

// Clash is two parts that take the same room.
type Clash struct {
	A, B string // part ids
	solid.Shared
	// Allowed is the interference that a press fit between the two asks for, mm.
	Allowed float64
}

// Meeting is what the solids say of one joint.
type Meeting struct {
	Joint string // id
	A, B  string // part ids, as in the joint
	// Area of all faces that touch, to within the clearance, mm².
	Area float64
	// Gap is the widest gap where B should come to rest on A, mm: less than 0
	// where it reaches in. It has no meaning where Rests is false.
	Gap   float64
	Rests bool
	// Floats is true for a joint that need not touch: pins, hinges, slides, a
	// groove's floor.
	Floats  bool
	Patches []solid.Patch // normals look out of A
}

// Report is what the solids of a piece say.
type Report struct {
	Clashes  []Clash
	Meetings []Meeting // in the order of the piece's joints
	// Loose names parts that nothing holds, in sets that hold each other.
	Loose    [][]string
	Findings []work.Finding
}

// body is a part ready to be asked.
type body struct {
	part *piece.Part
	*solid.Ready
}

// Make asks the parts of a piece. A part whose solid can't be made is left out,
// and a finding says so.
func Make(p *piece.Piece) Report {
	m := meeting{piece: p, at: map[string]int{}}
	for _, q := range p.Parts {
		b, err := piece.Solid(q, leastHole)
		if err != nil {
			m.fail(q.ID, err)
			continue
		}
		m.at[q.ID] = len(m.bodies)
		m.bodies = append(m.bodies, body{q, solid.Prepare(b)})
	}
	m.near = m.neighbours()
	m.clashes()
	m.joints()
	m.held()
	m.Findings = append(m.Findings, m.findings()...)
	return m.Report
}

// leastHole is the diameter, mm, under which holes are taken as full: pins and
// plates fill them, and a row of them is under a hundredth of what it is bored in.
const leastHole = 12

// meeting is the work in hand.
type meeting struct {
	Report
	piece  *piece.Piece
	bodies []body
	at     map[string]int // place of a part among the bodies
	near   [][2]int
}

// neighbours returns the pairs of parts whose boxes come within Touch of each
// other, in the order of the parts.
func (m *meeting) neighbours() [][2]int {
	var out [][2]int
	for i := range m.bodies {
		for j := i + 1; j < len(m.bodies); j++ {
			if touches(m.bodies[i].Box(), m.bodies[j].Box()) {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}

func touches(a, b r3.Box) bool {
	return a.Min.X <= b.Max.X+Touch && b.Min.X <= a.Max.X+Touch &&
		a.Min.Y <= b.Max.Y+Touch && b.Min.Y <= a.Max.Y+Touch &&
		a.Min.Z <= b.Max.Z+Touch && b.Min.Z <= a.Max.Z+Touch
}
