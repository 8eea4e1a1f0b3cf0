// Package check judges a piece before it is cut: whether its bends can be bent,
// its shelves stay straight, it stands, its doors hang, its joints leave wood
// enough, and its hardware is there.
//
// Each judgement is a finding: what was found, against which limit, by which
// rule, where in the piece file it is caused, and what would mend it. A mend is
// never guessed: the value that it proposes has been put into the same rule and
// passes there.
//
// Loads are taken from the brief on the cautious side: each surface is loaded
// from end to end with the heaviest row that could stand on it. Standing is
// tried in every state that the piece can be in (empty or full, doors shut or
// open, carpet under its rear, a pull, a child), as which is the worst cannot
// be known beforehand.
//
// The checks are screens, not tests to a standard. Where someone can be hurt
// the findings defer to local rules and licensed practice.
package check

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Input is what the checks look at. Masses are of the parts, Contents what the
// brief puts on them; Loads are the cautious line loads, kg/m, by the id of the
// part that carries them.
type Input struct {
	Piece    *piece.Piece
	Design   *design.Design
	Masses   []work.MassLine
	Contents []work.MassLine
	Loads    map[string]trace.Num
}

// Make runs all checks. The findings come in the order of the work: shell,
// inside, fronts, buying, joining, the whole.
func Make(in Input) []work.Finding {
	var out []work.Finding
	for _, f := range []func(Input) []work.Finding{bends, clear, sags, pinned, sat, climbed, doors, hardware, joints, pegs, faces, crossing, crowded, racks, stands, kids, people, moves} {
		out = append(out, f(in)...)
	}
	for i := range out {
		out[i].At = in.Design.At(out[i].Path)
	}
	return out
}
