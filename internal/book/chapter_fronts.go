package book

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// childUntil is the age in years under which the gaps of doors are warned of;
// common practice, on the cautious side: the rules for small fingers are
// written for younger ones.
const childUntil = 12

// fronts says how the doors hang and the drawers run.
func (w *writer) fronts() {
	if len(w.d.Fronts) == 0 && len(w.d.Drawers) == 0 {
		w.say("none", say.F("It stands open: there are no doors and no drawers."))
		return
	}
	if y := w.d.Brief.Youngest; y != nil && y.V < childUntil {
		w.caution(fingerCaution)
	}
	for _, f := range w.d.Fronts {
		w.say("front "+f.Name, w.frontSentence(f), append(w.partsAt(f.Path), f.Path)...)
	}
	for _, d := range w.d.Drawers {
		w.say("drawer "+d.In, w.drawerSentence(d), append(w.partsAt(d.Path), d.Path)...)
	}
	w.table(w.fittingTable())
}

func (w *writer) frontSentence(f design.Front) say.Sentence {
	what := f.As
	switch f.As {
	case "pair":
		what = "pair of doors"
	case "drawer":
		what = "drawer front"
	}
	s := say.F("The front {}: {} over {}", say.Name(f.Name), say.Choice(article(what), f.Path+".as"), names(f.Covers))
	if len(f.Covers) == 1 && len(w.pc.Spaces) == 1 { // the one room need not be named
		s = say.F("The front {}: {} over the inside", say.Name(f.Name), say.Choice(article(what), f.Path+".as"))
	}
	if f.Role.Stock != nil {
		s = say.F("{}, of {}", s, w.stockChoice(f.Role.Stock))
	}
	if f.As == "lid" {
		s = say.F("{}, on the rim; it stands out over front and sides by {}", s, w.at(f.Lid.Overhang, f.Path+".overhang"))
	} else {
		s = say.F("{}, {} with a reveal of {}", s, say.Choice(f.Set, f.Path+".set"), w.at(f.Gap, f.Path+".gap"))
	}
	if f.Follow {
		s = say.F("{}; its corners {} the bend of the shell", s, say.Choice("follow", f.Path+".follow"))
	}
	s = say.F("{}.", s)
	if f.Hinge != nil {
		s = join(s, w.hangSentence(f))
	}
	if f.PullDia.V > 0 {
		s = join(s, say.F("It is opened by a finger hole of {}.", w.at(f.PullDia, f.Path+".pull")))
	}
	if f.Late {
		s = join(s, say.F("It is late: cut it to the opening as measured, after the carcase stands; until then its "+
			"sizes are provisional and its stock is kept."))
	}
	return s
}

func (w *writer) hangSentence(f design.Front) say.Sentence {
	word := "It hangs by {}"
	if f.As == "pair" {
		word = "Each leaf hangs by {}"
	}
	s := say.F(word, say.Choice(f.Hinge.Name, f.Path+".hinge"))
	if len(f.HangOn) > 0 {
		s = say.F("{} on the {}", s, choices(f.HangOn, f.Path+".hang on"))
	}
	if len(f.HingeAt) > 0 {
		s = say.F("{}, {}", s, w.hingeWords(f))
	}
	return say.F("{}.", s)
}

// hingeWords tell where hinges sit, as the file counts them: from the foot, and
// below nought from the head.
func (w *writer) hingeWords(f design.Front) say.Sentence {
	var up, down []say.Sentence
	for i, n := range f.HingeAt {
		q := say.Sentence{{Q: ptr(w.at(n, f.Path+".at."+digits(i)))}}
		if n.V < 0 {
			down = append(down, q)
		} else {
			up = append(up, q)
		}
	}
	var out []say.Sentence
	if len(up) > 0 {
		out = append(out, say.F("{} up from the foot", list(up)))
	}
	if len(down) > 0 {
		out = append(out, say.F("counted down from the head, {}", list(down)))
	}
	return list(out)
}

func (w *writer) drawerSentence(d design.Drawer) say.Sentence {
	s := say.F("In {} runs a drawer", say.Name(d.In))
	if d.Role.Stock != nil {
		s = say.F("{}, its box of {}", s, w.stockChoice(d.Role.Stock))
	}
	if d.Joint != "" {
		s = say.F("{} with {} joints", s, say.Choice(d.Joint, d.Path+".box.joint"))
	}
	if d.Slide != nil {
		s = say.F("{}, on {}, which want {} on each side", s, say.Choice(d.Slide.Name, d.Path+".run"), w.bare(d.Slide.Side, ""))
	}
	if d.Stop.V > 0 {
		s = say.F("{}; it stops {} before the back", s, w.at(d.Stop, d.Path+".stop"))
	}
	return say.F("{}.", s)
}

// fittingTable lists what is bought and goes on the parts.
func (w *writer) fittingTable() table.Table {
	t := table.Table{Key: "fittings", Caption: "Fittings", Columns: []table.Column{table.Names("fitting"),
		table.Words("kind"), table.Words("on"), table.Numbers("needed", units.Count),
		table.Numbers("in hand", units.Count), table.Words("state")},
		Note: "In hand counts all that the shop has of this fitting."}
	for _, f := range w.pc.Fittings {
		state := table.Marked("fine", "in hand")
		if f.Planned || f.InHand < f.Count {
			state = table.Marked("look", "only planned")
		}
		t.Add(table.T(f.What), table.T(f.Kind), table.T(w.partName(f.On)), table.Count(f.Count), table.Count(f.InHand), state)
	}
	return t
}

// partName returns the name of the part with the id, or the id.
func (w *writer) partName(id string) string {
	if q := w.pc.Part(id); q != nil {
		return q.Name
	}
	return id
}

// partRef is a part in a sentence: its name, and the number on its label.
func (w *writer) partRef(q *piece.Part) say.Sentence {
	return say.F("{} ({})", say.Name(q.Name), number(q.Number))
}
