package book

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/drawing"
	"rodwork/internal/fit"
	"rodwork/internal/leaf"
	"rodwork/internal/mech/learn"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// proof says how a test piece stands: tried, stale or not tried, what it taught,
// and which lines to write once it is measured.
func (w *writer) proof(i int, t work.TestPiece) {
	p := fit.Proofs(w.p.FitInput())[i]
	id := "proof " + digits(i+1)
	about := append([]string{}, t.For...)
	switch p.State {
	case fit.Fresh:
		w.say(id, join(say.F("Tried on {}, with this blade or bit and this batch: it counts.", p.Log.Measured), w.taught(t, p.Log)), append(about, p.Log.Path)...)
	case fit.Stale:
		w.say(id, say.F("Stale: it was tried on {}, but {}. Cut it again.", p.Log.Measured, p.Why), append(about, p.Log.Path)...)
	default:
		w.say(id, say.F("Not tried yet. Once it is measured, write this into the shop file, under {}: {}", say.Name("tests"), say.Name(w.entry(t))), about...)
	}
}

// taught is what a test that counts taught.
func (w *writer) taught(t work.TestPiece, log *design.Test) say.Sentence {
	var s say.Sentence
	if log.Slot != nil && log.Set != nil {
		off := log.Slot.Mean.V - log.Set.V
		switch {
		case off > 0.005:
			s = join(s, say.F("Slots come out {} wider than they are set: move the last run by that much less.", say.Len(off, onSteel)))
		case off < -0.005:
			s = join(s, say.F("Slots come out {} narrower than they are set: move the last run by that much more.", say.Len(-off, onSteel)))
		}
	}
	if log.Best != nil && log.Fit == t.Fit {
		s = join(s, say.F("The slot with {} of play felt as a {} fit should; the shop’s {} is {}.", say.LenN(*log.Best, onSteel), log.Fit, say.Name(log.Fit), say.LenN(t.Clearance, onSteel)))
	}
	if log.Feels != "" {
		s = join(s, say.F("It felt {}.", say.Name(log.Feels)))
	}
	if log.Kerf != nil {
		m := measured(log.Kerf)
		low, high := m.Interval(learn.LeastError)
		s = join(s, say.F("The blade cuts {} to {} in this stock; the bend is planned with {}.", say.Len(low, onSteel), say.Len(high, onSteel), say.LenN(log.Kerf.Mean, onSteel)))
	}
	if _, b := w.bendNamed(t.Bend); b.Plan.Spec.BetaHigh > 0 {
		s = join(s, say.F("The hinge under a kerf reaches {} to {} skins past the slot, where untried it might be 0 to 2 or a little more: the strain is told in that range.", say.Num(b.Plan.Spec.BetaLow, 2), say.Num(b.Plan.Spec.BetaHigh, 2)))
	}
	return s
}

func measured(s *design.Spread) learn.Measured {
	return learn.Measured{Mean: s.Mean.V, SD: s.SD.V, N: s.Readings}
}

// entry is the line of the shop file for a test piece, with dots to fill in.
func (w *writer) entry(t work.TestPiece) string {
	u := w.setupOf(t.SetUp)
	head := fmt.Sprintf("{kind: %s, tool: %s, stock: %s, measured: …", t.Kind, u.With, t.Stock)
	if t.Kind == "bend" {
		return head + ", kerf: [… , … , …], double: [… , … , …], skin: [… , … , …], turned once: {turn: …, spread: …, count: 6}, turned twice: {turn: …, spread: …, count: 6}, held to: …}"
	}
	if t.Other != t.Stock {
		head += ", other: " + t.Other
	}
	return head + fmt.Sprintf(", cut: %s, set: %s, slot: [… , … , …], feels: …, fit: %s, best: …}", u.Kind, strings.ReplaceAll(units.Format(t.Want.V, units.Length, units.MM, onSteel), "−", "-"), t.Fit)
}

// trialLeaves are the figures of one test piece.
func (w *writer) trialLeaves(i int) []leaf.Leaf {
	return w.group("test "+digits(i+1), func() []leaf.Leaf { return drawing.Trial(w.p, i, w.drawn()) })
}

// hinge says how the piece that tells the hinge is cut and measured.
func (w *writer) hinge(i int, q *piece.Part, b piece.Bend, figures []leaf.Leaf) {
	if b.Plan.Count < 2 || b.Plan.Spec.Outside {
		return
	}
	h := fit.Hinge(b)
	w.acts("hinge "+digits(i+1), "How long the hinge is, "+b.Corner, []act{
		do("Cut a second strip {} by {}, grain as above, and kerf it at the places of the figure with the same blade and depth; move every doubled kerf’s second pass by {}.",
			say.Len(h.Length, 0), say.Len(h.Width, 0).Plain(), say.Len(h.Move, onSteel)),
		do("Clamp {} of it to the bench, kerfs up. Calliper every mouth, and the skin under every kerf from the edges.", say.Len(h.Grip, 0)),
		do("Pull the free end up, by a weight over a roller at {} from the datum end, until the single kerfs turn about {}. Calliper the mouths again.", say.Len(h.Weight, 0), say.Angle(h.Turn, 1)),
		do("What a mouth closed, times the factor of the table, is the kerf’s turn. Write down the mean and the spread of the single ones and of the doubled ones.").
			with("the same skin under one pull turns as its hinge is long: so the two means tell how far it reaches into the ribs (rule LEARN-01)"),
		habit("Then bend the first strip on past its angle until it cracks, and write down how far each kerf had turned: it tells the reserve."),
	}, q.ID, b.Path)
	w.leaves(figures, q.ID, b.Path)
	t := table.Table{Key: "turns " + digits(i+1), Caption: "From a mouth’s closing to its turn, " + b.Corner,
		Columns: []table.Column{table.Numbers("kerf", units.Count), table.Numbers("from the datum end", units.Length), table.Numbers("passes", units.Count), {Head: "degrees for each mm closed", Unit: "", Align: table.Right}},
		Note:    "Kerfs nearer to the pull have a shorter arm and turn less; the factor allows for that."}
	t.Columns[0].Names = true
	for k, c := range h.Kerfs {
		passes := 1
		if c.Double {
			passes = 2
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Count(k + 1), table.Q(say.Len(c.At, 1).Plain()), table.Count(passes), table.Q(say.Num(c.Factor*180/math.Pi, 3))}})
	}
	w.table(t, q.ID)
}
