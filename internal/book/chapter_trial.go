package book

import (
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// trials says what to cut from offcuts before the parts, and what to measure.
func (w *writer) trials() {
	if len(w.p.Tests) == 0 {
		w.say("none", say.F("Nothing here wants a test piece: no joint has a fit, and nothing is bent."))
		return
	}
	w.say("how", say.F("A test piece is cut with the very set-up, cutter and stock that its joint or bend will have. Write down what it measures. "+
		"Another blade, bit or sheet makes it stale: cut it again."))
	for i, t := range w.p.Tests {
		if t.Kind == "bend" {
			w.bendTrial(i, t)
		} else {
			w.fitTrial(i, t)
			w.leaves(w.trialLeaves(i), t.For...)
		}
		w.proof(i, t)
	}
	w.section("fits", w.fits)
}

// offcut says where a test piece is cut from.
func (w *writer) offcut(t work.TestPiece) say.Sentence {
	if t.At == nil {
		return say.F("No offcut that is kept is large enough: cut it from another sheet of {}.", say.Name(t.Stock))
	}
	return say.F("Take it from the offcut of {} by {} of sheet {} of {}.", w.rough(t.At.Length), w.rough(t.At.Width).Plain(), number(t.Sheet), say.Name(t.Stock))
}

func (w *writer) setupOf(n int) work.SetUp {
	for _, u := range w.p.SetUps {
		if u.Number == n {
			return u
		}
	}
	return work.SetUp{}
}

// feels is how a fit feels in the hand.
var feels = map[string]string{"press": "it goes in under a few taps on a block", "snug": "it goes in by hand and stays when turned over",
	"sliding": "it moves freely and does not rattle", "loose": "it drops in"}

func (w *writer) fitTrial(i int, t work.TestPiece) {
	u := w.setupOf(t.SetUp)
	var ins []say.Sentence
	for _, id := range t.For {
		if q := w.pc.Part(id); q != nil {
			ins = append(ins, w.partRef(q))
		}
	}
	w.acts("fit "+digits(i+1), "The "+u.Kind+": "+t.Fit+" fit", []act{
		{text: join(say.F("Cut a piece {} by {}.", w.rough(t.Length.V), w.rough(t.Width.V).Plain()), w.offcut(t))},
		do("Cut the {} across it with set-up {}. It must measure {} wide and {} deep.", u.Kind, number(t.SetUp), say.LenN(t.Want, onSteel), say.LenN(t.Deep, onSteel)),
		do("Try a scrap of {} in it: {} means {} of play in all. It goes for {}.", say.Name(t.Other), say.Name(t.Fit), say.LenN(t.Clearance, onSteel), list(ins)).
			with("{}: {} ({})", t.Fit, feels[t.Fit], unsourced),
		habit("Too tight or too loose: move the second run, not the stop. Write down what fits."),
	}, t.For...)
}

// bendTrial is the strip that is bent before the real one.
func (w *writer) bendTrial(i int, t work.TestPiece) {
	q, b := w.bendNamed(t.Bend)
	if q == nil {
		return
	}
	grain := "its face grain along its length"
	if q.Grain == piece.AlongWidth {
		grain = "its face grain across its length"
	}
	acts := []act{
		{text: join(say.F("Cut a strip {} by {}, {}.", w.rough(t.Length.V), w.rough(t.Width.V).Plain(), grain), w.offcut(t))},
		do("Kerf it with set-up {}: {} deep, {} kerfs, {} apart, in its middle as the figure shows.", number(t.SetUp), say.LenN(t.Deep, onSteel), number(b.Plan.Count), say.LenN(b.Pitch, onSteel)),
		do("Calliper the skin at the numbered kerfs: it must measure {}.", say.LenN(t.Want, onSteel)),
		do("Bend it dry round a former of {} to {}. Look along the show face in raking light, and listen.", say.LenN(b.RailRadius, onWood), say.Angle(b.Angle.V, 0)).
			with("the skin is stretched by {} to {}; the show face is {} from peak to valley", say.Percent(b.StrainLow.V, 2), say.Percent(b.StrainHigh.V, 2), say.LenN(b.Facet, 3)),
		do("Measure the mouths of the kerfs in bold: {} is computed. Let go, and write down how far it springs back.", say.LenN(b.Mouth, onSteel)),
		habit("A crack in the face: more kerfs, or damp the face and bend a fresh strip. Don’t bend the part on hope."),
	}
	w.acts("bend "+digits(i+1), "The bend at the "+b.Corner+" corner, on a strip", acts, q.ID, b.Path)
	figures := w.trialLeaves(i)
	first := min(1, len(figures))
	w.leaves(figures[:first], q.ID, b.Path)
	w.hinge(i, q, b, figures[first:])
}

func (w *writer) bendNamed(id string) (*piece.Part, piece.Bend) {
	for _, q := range w.pc.Parts {
		for _, b := range q.Bends {
			if bendOwner(q, b) == id {
				return q, b
			}
		}
	}
	return nil, piece.Bend{}
}

// finish says what is sanded, how far, and what goes on.
func (w *writer) finishing() {
	if len(w.pc.Parts) == 0 {
		return
	}
	w.caution(sandCaution)
	w.acts("sanding", "Sand", w.sandActs())
	if w.d.Finish.Kind == "" {
		w.say("none", say.F("The piece file names no finish."))
		return
	}
	w.caution(glueCaution)
	w.caution(ragCaution)
	w.acts("coats", upper(w.d.Finish.Kind), w.finishActs(), "finish")
	if y := w.d.Brief.Youngest; y != nil && y.V < childUntil {
		w.caution(coatCaution)
	}
}

// edgeAge is the age in years under which edges are rounded as for day-care.
const edgeAge = 7

func (w *writer) sandActs() []act {
	out := []act{habit("Sand along the grain, 120, 150, 180; every face that will show, before the glue. Leave every glue face as it was cut.")}
	for _, g := range byStock(w.pc.Parts) {
		if f := g.stock.FaceVeneer; f.V > 0 && g.stock.Kind == design.Plywood {
			out = append(out, do("The face veneer of {} is {} thick: a few strokes by hand, no belt.", say.Name(g.stock.Name), say.LenN(f, 1)))
			break
		}
	}
	for _, q := range w.strips() {
		for _, b := range q.Bends {
			out = append(out, do("Over the kerfs of {} only {} of wood is left. Its flats are {} from peak to valley: sand no more than that takes, with a long soft block.",
				w.partRef(q), say.Len(b.Plan.Spec.Skin, onSteel), say.LenN(b.Facet, 3)))
		}
	}
	a := habit("Break every edge that a hand meets.")
	if e := w.d.Edges; e != nil {
		a = do("Round the edges that can be reached to {}, as the last set-up says, and break by hand what its bit does not reach.", w.field(e.Size(), units.Length, "edges.round"))
		if e.Round == nil {
			a = do("Chamfer the edges that can be reached by {}, as the last set-up says, and break by hand what its bit does not reach.", w.field(e.Size(), units.Length, "edges.chamfer"))
		}
	} else if y := w.d.Brief.Youngest; y != nil && y.V < edgeAge {
		a = do("Round every edge and corner that can be reached to {} or more: the youngest is {} years old.", say.Len(2, 0), w.field(*y, units.None, "brief.people.youngest")).
			with("rule of German day-care, DGUV Regel 102-602, from digests (quoted)")
	}
	out = append(out, a)
	for i := range out {
		out[i].notes = append(out[i].notes, mindNote(work.Dust))
	}
	return out
}

// coatMind is what putting the finish on must mind: what dries by heating up, or
// may, leaves rags that can burn.
func (w *writer) coatMind() []work.Mind {
	kind := strings.ToLower(w.d.Finish.Kind)
	for _, harmless := range []string{"soap", "shellac", "none"} {
		if strings.Contains(kind, harmless) {
			return []work.Mind{work.Vapour}
		}
	}
	return []work.Mind{work.Vapour, work.Rags}
}

func (w *writer) finishActs() []act {
	f := w.d.Finish
	word := "coats"
	if f.Coats == 1 {
		word = "coat"
	}
	n := number(f.Coats)
	when := "after the glue-up"
	if f.Before != "" {
		when = "before the " + f.Before
	}
	first := do("{} {} of {}, {}.", n, word, say.Name(f.Kind), when)
	first.notes = append(first.notes, mindNote(w.coatMind()...))
	out := []act{first}
	if f.Before != "" {
		out = append(out, do("Mask every glue face first: {} of glue line in all. Finish on it keeps the glue off the wood.",
			say.Quantity{V: w.glueArea(), Dim: units.Area, Decimals: 2}))
	}
	var loose []say.Sentence
	for _, q := range w.pc.Parts {
		if q.Late {
			loose = append(loose, w.partRef(q))
		}
	}
	if len(loose) > 0 {
		out = append(out, do("Finish {} after the cut to the opening.", list(loose)))
	}
	return append(out, habit("Treat both faces of every door and loose panel alike, so that it stays flat. Between coats a light rub with 320, along the grain."),
		habit("Let it dry as its tin says, by the calendar and not by touch. Nothing stands on it for two weeks."))
}

func (w *writer) glueArea() float64 {
	a := 0.0
	for _, j := range w.pc.Joints {
		if j.Glued {
			a += j.Area.V
		}
	}
	return a
}
