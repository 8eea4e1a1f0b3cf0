package book

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// inside says how the room is parted, and what stands in it.
func (w *writer) inside() {
	w.say("bays", w.baySentence(), append(ids(partsWhere(w.pc.Parts, structural)), "inside", "inside.bays")...)
	w.table(w.spaceTable(), "inside.bays")
	for i, s := range w.d.Shelves {
		w.say("shelf "+s.In+trailer(i, w.d.Shelves), w.shelfSentence(s), append(w.partsAt(s.Path), s.Path)...)
	}
	for _, r := range w.d.Rails {
		w.say("rail "+r.Where, w.railSentence(r), append(w.partsAt(r.Path), r.Path)...)
	}
	w.say("back", w.backSentence(), append(w.partsAt("back"), "back")...)
}

// structural parts are those that make the room: findings on them stand by the
// sentence about the bays.
func structural(q *piece.Part) bool {
	switch q.Role {
	case piece.Side, piece.Top, piece.Bottom, piece.Divider, piece.Board, piece.Strip:
		return true
	}
	return false
}

// trailer tells apart shelves that stand in the same space.
func trailer(i int, all []design.Shelf) string {
	for _, o := range all[:i] {
		if o.In == all[i].In {
			return " " + all[i].Path
		}
	}
	return ""
}

// partsAt returns the ids of the parts that come from a path of the piece file.
func (w *writer) partsAt(path string) []string {
	var ids []string
	for _, q := range w.pc.Parts {
		if q.Path != "" && under(q.Path, path) {
			ids = append(ids, q.ID)
		}
	}
	return ids
}

func (w *writer) baySentence() say.Sentence {
	bays := w.d.Bays
	if len(bays) < 2 {
		return say.F("The inside is one room.")
	}
	uprights := 0
	for _, q := range w.pc.Parts {
		if q.Role == piece.Divider {
			uprights++
		}
	}
	var each []say.Sentence
	for _, b := range bays {
		each = append(each, w.bayWords(b))
	}
	word := w.d.Uprights
	if word == "" {
		word = "divider"
	}
	part := "part"
	if uprights == 1 {
		part = "parts"
	}
	return say.F("{} {} the inside into {}, from the left: {}.", plural(uprights, word, word+"s"), part,
		plural(len(bays), "bay", "bays"), list(each))
}

func (w *writer) bayWords(b design.Bay) say.Sentence {
	s := say.Sentence{say.Name(b.Name)}
	switch {
	case b.Kind == design.Given:
		s = append(s, say.F(" {} wide", w.at(b.Width, b.Path+".width"))...)
	default:
		if sp := w.space(b.Name); sp != nil {
			s = append(s, say.F(" {} wide", w.bare(sp.Size[0], "space "+sp.Name))...)
		}
		s = append(s, say.F(" ({})", say.Choice(string(b.Kind), b.Path+".width"))...)
	}
	if len(b.Levels) > 0 {
		var up []string
		for _, l := range b.Levels {
			up = append(up, l.Name)
		}
		s = append(s, say.F(", with {} from the floor up", names(up))...)
	}
	return s
}

func (w *writer) space(name string) *piece.Space {
	for i := range w.pc.Spaces {
		if s := &w.pc.Spaces[i]; s.Name == name || s.Inside == name {
			return s
		}
	}
	return nil
}

// spaceTable lists the clear room of every bay and level.
func (w *writer) spaceTable() table.Table {
	t := table.Table{Key: "spaces", Caption: "Clear room inside", Columns: []table.Column{table.Names("space"),
		table.Words("in"), table.Numbers("width", units.Length), table.Numbers("height", units.Length),
		table.Numbers("depth", units.Length), table.Numbers("shelves", units.Count)}}
	for _, s := range w.pc.Spaces {
		mm := func(n trace.Num) table.Cell {
			return table.Q(w.quantity(n, units.Length, onWood, "space "+s.Name).Plain())
		}
		t.Rows = append(t.Rows, table.Row{ID: s.Name, Cells: []table.Cell{table.T(s.Name), table.T(s.Inside),
			mm(s.Size[0]), mm(s.Size[1]), mm(s.Size[2]), table.Count(len(s.Shelves))}})
	}
	return t
}

func (w *writer) shelfSentence(s design.Shelf) say.Sentence {
	n := number(s.Count)
	n.Path = s.Path + ".count"
	word := "shelves"
	if s.Count == 1 {
		word = "shelf"
	}
	on := "fixed in housings"
	if s.Pins {
		on = "on pins"
	}
	lie := "lie"
	if s.Count == 1 {
		lie = "lies"
	}
	out := say.F("In {} {} {} {}", say.Name(s.In), lie, n, word)
	if len(w.d.Bays) < 2 { // the one room need not be named
		out = say.F("It has {} {}", n, word)
	}
	if s.Role.Stock != nil {
		out = say.F("{} of {}", out, w.stockChoice(s.Role.Stock))
	}
	out = say.F("{} {}", out, say.Choice(on, s.Path+onKey(s)))
	switch {
	case s.Pins:
		out = say.F("{}; the pin holes start {} above the floor of the bay and go up by {}", out,
			w.at(s.FirstHole, s.Path+".above floor"), w.at(s.Pitch, s.Path+".pitch"))
		if s.LastHole != nil {
			out = say.F("{} as far as {}", out, w.at(*s.LastHole, s.Path+".to"))
		}
		out = say.F("{}{}", out, w.standsAt(s))
	case s.FixedAt.V > 0:
		out = say.F("{}, its underside {} above the floor of the bay", out, w.at(s.FixedAt, s.Path+".fixed at"))
	}
	if s.SetBack.V > 0 {
		out = say.F("{}. {} {} back from the front", out, keeps(s.Count), w.at(s.SetBack, s.Path+".set back"))
	}
	if s.EdgingRole != nil {
		out = say.F("{}. Along its front edge runs a strip {} high", out, w.at(s.EdgingHigh, s.Path+".edging.height"))
		if s.EdgingRole.Stock != nil {
			out = say.F("{} of {}", out, w.stockChoice(s.EdgingRole.Stock))
		}
	}
	return say.F("{}.", out)
}

// onKey is the key of the file that says what a shelf lies on.
func onKey(s design.Shelf) string {
	if s.Pins {
		return ".on"
	}
	return ".fixed at"
}

// standsAt says where the shelves on pins stand, as the things of the brief
// want them.
func (w *writer) standsAt(s design.Shelf) say.Sentence {
	sp := w.space(s.In)
	var at []say.Sentence
	for _, q := range w.pc.Parts {
		if sp != nil && q.Role == piece.Shelf && q.Path != "" && under(q.Path, s.Path) {
			at = append(at, say.Sentence{{Q: new(w.bare(q.Origin[1].Sub(sp.Min[1]), q.ID))}})
		}
	}
	if len(at) == 0 {
		return nil
	}
	what := "its underside is"
	if len(at) > 1 {
		what = "their undersides are"
	}
	return say.F("; drawn here, {} at {} over that floor", what, list(at))
}

func (w *writer) railSentence(r design.Rail) say.Sentence {
	s := say.F("A rail {} high ties the body at the {}", w.at(r.Height, r.Path+".height"), say.Choice(r.Where, r.Path+".at"))
	if r.Follow {
		s = say.F("{}; its ends follow the shell", s)
	}
	return say.F("{}.", s)
}

func (w *writer) backSentence() say.Sentence {
	b := w.d.Back
	if b == nil {
		return say.F("It has no back: nothing but its joints keeps it square.")
	}
	s := say.F("The back is ")
	if b.Role.Stock != nil {
		s = say.F("{}{}, {} thick, and is ", s, w.stockChoice(b.Role.Stock), w.at(b.Role.Stock.Thickness.Mean, thicknessPath(b.Role.Stock)))
	}
	if b.Set == "on" {
		return say.F("{}laid {} the rear edges.", s, say.Choice("on", "back.set"))
	}
	return say.F("{}set in {} that reaches in by {}.", s, say.Choice(article(b.Set), "back.set"), w.at(b.Depth, "back.depth"))
}

func keeps(n int) string {
	if n > 1 {
		return "They keep"
	}
	return "It keeps"
}
