package fit

import (
	"math"

	"rodwork/internal/mech/learn"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Step is one slot of a step test piece.
type Step struct {
	Clearance, Width float64 // mm
	From             float64 // near side, from the piece's datum end, mm
	// Move is how far the fence is moved for the last run; 0 where one run makes
	// the slot.
	Move float64
}

// Steps are the slots of a step test piece: five side by side, the wanted one in
// the middle, a tenth of a millimetre apart (half of that for a press fit).
// None where the cutter is wider than the narrowest of them: such a slot is as
// wide as its cutter, and cannot be stepped.
func (in Input) Steps(t *work.TestPiece) []Step {
	u := in.setUp(t.SetUp)
	step := 0.1
	if t.Fit == "press" {
		step = 0.05
	}
	panel := t.Want.V - t.Clearance.V
	cs := learn.Steps(t.Clearance.V, step, t.Clearance.V-2*step, 5)
	cutter := u.Cutter.V
	if panel <= 0 || cutter > panel+cs[0] {
		return nil
	}
	room := t.Length.V / float64(len(cs))
	if room < panel+8 {
		return nil
	}
	out := make([]Step, len(cs))
	for i, c := range cs {
		w := panel + c
		out[i] = Step{Clearance: c, Width: w, From: room*(float64(i)+0.5) - w/2}
		if u.Across > 1 {
			out[i].Move = w - cutter*math.Floor(w/cutter)
			if u.Across == 2 {
				out[i].Move = w - cutter
			}
		}
	}
	return out
}

// HingeKerf is one kerf of the piece that tells the hinge.
type HingeKerf struct {
	At     float64 // centre, from the datum end, mm
	Width  float64
	Double bool
	// Factor is the turn for each millimetre that its mouth closes, rad/mm, as if
	// the pull were as far from it as from the mean of all kerfs.
	Factor float64
}

// HingePiece is the test piece that tells how long the hinge under a kerf is:
// single and doubled kerfs in the order 1 2 2 1, so that both are as far from the
// pull on the mean; clamped at its datum end and pulled up at the other.
type HingePiece struct {
	Length, Width float64
	Kerfs         []HingeKerf
	Move          float64 // of the stop for the second pass of a doubled kerf
	// Grip is how much of the datum end is clamped, Weight where it is pulled.
	Grip, Weight float64
	// Turn is the turn of a kerf that is a fair try: half of what the part needs;
	// Closing how much a mouth closes for each radian, mm.
	Turn, Closing float64
}

// Hinge lays the piece out for a bend.
func Hinge(b piece.Bend) HingePiece {
	const kerfs, grip = 12, 70.0
	p := b.Plan
	w := p.Spec.Kerf
	pitch := math.Max(20, 2*w+12)
	h := HingePiece{Width: 100, Grip: grip, Move: math.Round(w*0.85*20) / 20, Turn: p.Alpha / 2, Closing: p.Spec.Thick - p.NeutralY}
	for i := range kerfs {
		k := HingeKerf{At: grip + 20 + float64(i)*pitch, Width: w, Double: i%4 == 1 || i%4 == 2}
		if k.Double {
			k.Width = w + h.Move
		}
		h.Kerfs = append(h.Kerfs, k)
	}
	last := h.Kerfs[len(h.Kerfs)-1].At
	h.Weight = math.Ceil((last+140)/10) * 10
	h.Length = h.Weight + 20
	mean := h.Weight - (h.Kerfs[0].At+last)/2
	for i := range h.Kerfs {
		h.Kerfs[i].Factor = mean / (h.Weight - h.Kerfs[i].At) / h.Closing
	}
	return h
}
