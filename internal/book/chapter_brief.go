package book

import (
	"rodwork/internal/design"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// brief says what the piece is for, and what of that it can do.
func (w *writer) brief() {
	b := w.d.Brief
	place := w.placeSentence(b.Place)
	if len(b.Holds) == 0 && b.Youngest == nil && len(place) == 0 {
		w.say("nothing", say.F("The piece file has no brief: nothing says what the piece must hold or where it "+
			"stands, so neither can be checked."))
		return
	}
	w.say("place", place, "brief.place")
	if b.Youngest != nil {
		w.say("people", say.F("The youngest who will live with it is {} years old.",
			w.field(*b.Youngest, units.None, "brief.people.youngest")), "brief.people")
	}
	if a := b.Air; a != nil {
		w.say("air", say.F("The room’s air goes from {} to {} relative humidity over the year.", w.field(a.Dry, units.None, "brief.air.dry"),
			w.field(a.Damp, units.None, "brief.air.damp")), "brief.air")
	}
	w.table(w.holdsTable(b.Holds), "brief.holds")
	if w.p.Load.V > 0 {
		w.say("load", say.F("What fits of it weighs {}.", w.quantity(w.p.Load, units.Mass, 1, "piece")))
	}
	for _, f := range w.p.Fits {
		w.say("fit "+f.What, w.fitSentence(f), f.Path)
	}
}

// placeSentence says where the piece is to stand; nothing where the brief is
// silent.
func (w *writer) placeSentence(p design.Place) say.Sentence {
	var room []say.Sentence
	for _, m := range []struct {
		n          *trace.Num
		word, path string
	}{{p.Width, "wide", "width"}, {p.Height, "high", "height"}, {p.Depth, "deep", "depth"}} {
		if m.n == nil {
			continue
		}
		q := w.at(*m.n, "brief.place."+m.path)
		q.Bare = len(room) > 0
		room = append(room, say.F("{} {}", q, m.word))
	}
	var s say.Sentence
	if len(room) > 0 {
		s = say.F("The place that it is for is {}.", list(room))
	}
	var on []say.Sentence
	if p.Floor != "" {
		on = append(on, say.F("the floor is {}", say.Choice(p.Floor, "brief.place.floor")))
	}
	if p.Wall != "" {
		on = append(on, say.F("the wall behind is {}", say.Choice(p.Wall, "brief.place.wall")))
	}
	if p.SkirtingHigh != nil && p.SkirtingDeep != nil {
		on = append(on, say.F("its skirting is {} high and {} deep",
			w.at(*p.SkirtingHigh, "brief.place.skirting.height"), w.at(*p.SkirtingDeep, "brief.place.skirting.depth")))
	}
	if len(on) > 0 {
		about := list(on)
		about[0].Text = upper(about[0].Text)
		s = join(s, say.F("{}.", about))
	}
	return s
}

// holdsTable lists what the piece must hold, one thing a row.
func (w *writer) holdsTable(things []design.Thing) table.Table {
	t := table.Table{Key: "holds", Caption: "What it must hold", Columns: []table.Column{
		table.Names("thing"), table.Numbers("wanted", units.Count), table.Numbers("fit", units.Count),
		table.Numbers("height", units.Length), table.Numbers("depth", units.Length),
		table.Numbers("thickness", units.Length), table.Numbers("each", units.Mass),
	}}
	fits := map[string]work.Fit{}
	for _, f := range w.p.Fits {
		fits[f.Path] = f
	}
	for _, h := range things {
		in := table.T("")
		if f, ok := fits[h.Path]; ok {
			in = table.Count(f.Fits)
		}
		count := number(h.Count)
		count.Path = h.Path + ".count"
		t.Rows = append(t.Rows, table.Row{ID: h.Path, Cells: []table.Cell{table.T(h.What), table.Q(count), in,
			table.Q(w.at(h.Height, h.Path+".height")), table.Q(w.at(h.Depth, h.Path+".depth")),
			table.Q(w.at(h.Thickness, h.Path+".thickness")),
			table.Q(w.field(h.Mass, units.Mass, h.Path+".mass").Plain())}})
	}
	return t
}

// fitSentence says how many of a thing go in, where, and what stops the rest.
func (w *writer) fitSentence(f work.Fit) say.Sentence {
	var where []say.Sentence
	for _, p := range f.Where {
		in := say.F("{} in {}", number(p.Count), say.Name(p.Space))
		if len(w.pc.Spaces) == 1 {
			in = say.F("{} inside", number(p.Count))
		}
		if p.Rows > 1 {
			in = append(in, say.F(", in {} rows", number(p.Rows))...)
		}
		where = append(where, in)
	}
	head := say.F("Of {} × {} all fit", number(f.Wanted), say.Name(f.What))
	switch {
	case f.Fits == 0:
		head = say.F("Of {} × {} none fits", number(f.Wanted), say.Name(f.What))
	case f.Fits < f.Wanted:
		head = say.F("Of {} × {} only {} fit", number(f.Wanted), say.Name(f.What), number(f.Fits))
	}
	s := say.F("{}.", head)
	if len(where) > 0 {
		s = say.F("{}: {}.", head, list(where))
	}
	if f.Fits < f.Wanted && len(f.Because) > 0 {
		s = join(s, say.F("{}.", capital(f.Because)))
	}
	return s
}
