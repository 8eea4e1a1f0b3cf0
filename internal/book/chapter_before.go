package book

import (
	"math"
	"slices"

	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// before says what to look at, measure and have ready before the first cut.
func (w *writer) before() {
	if len(w.pc.Parts) == 0 {
		w.say("none", say.F("Nothing is known of the piece yet, so there is nothing to get ready."))
		return
	}
	w.say("why", say.F("Do this before the first cut. What it finds may change a file, and with it every number below."))
	w.table(w.readingsTable())
	w.acts("stock", "The stock", w.stockActs())
	w.acts("hardware", "In hand, before anything is machined", w.handActs())
	w.acts("place", "The place, at full size", w.placeActs())
	w.acts("room", "Room in the shop", w.roomActs())
}

// used are the stocks of the piece, in the order of its parts.
func (w *writer) used() []*design.Stock {
	var out []*design.Stock
	for _, g := range byStock(w.pc.Parts) {
		out = append(out, g.stock)
	}
	return out
}

// readingsTable shows what the file says of each stock, with room for today's.
func (w *writer) readingsTable() table.Table {
	t := table.Table{Key: "readings", Caption: "Thickness, as the file has it", Columns: []table.Column{table.Names("stock"),
		table.Numbers("readings", units.Count), table.Numbers("mean", units.Length), table.Numbers("spread", units.Length),
		table.Words("measured"), table.Words("today")}, Note: "Spread is one standard deviation of the readings."}
	for _, s := range w.used() {
		n := table.T("–")
		if s.Thickness.Readings > 0 {
			n = table.Count(s.Thickness.Readings)
		}
		t.Rows = append(t.Rows, table.Row{ID: "before " + s.Name, Cells: []table.Cell{table.T(s.Name), n, table.Q(say.LenN(s.Thickness.Mean, onSteel).Plain()),
			table.Q(say.LenN(s.Thickness.SD, onSteel).Plain()), table.T(s.Thickness.Measured), table.T("………")}})
	}
	return t
}

// tightest is the least clearance of a fit in the piece, with the fit's name.
func (w *writer) tightest() (trace.Num, string) {
	var least trace.Num
	name := ""
	for _, j := range w.pc.Joints {
		if j.Fit != "" && j.Clearance.V > 0 && (name == "" || j.Clearance.V < least.V) {
			least, name = j.Clearance, j.Fit
		}
	}
	return least, name
}

func (w *writer) stockActs() []act {
	out := []act{habit("Calliper every sheet and stick at eight places round its edge, clear of bruises. Compare with the table.")}
	if c, fit := w.tightest(); fit != "" {
		out = append(out, do("Where today’s mean is off by more than {}, half of the clearance of a {} fit, write the new readings into the shop file "+
			"and make the book again.", say.Len(c.V/2, onSteel), say.Name(fit)))
	}
	if saw := w.d.Body.Bend.Saw; saw != nil && len(w.strips()) > 0 {
		a := do("Cut one kerf with the {} in an offcut and measure it: the file says {}", say.Name(saw.Name), say.LenN(saw.Kerf.Mean, onSteel))
		if saw.Kerf.Measured != "" {
			a.text = join(a.text, say.F("on {}", saw.Kerf.Measured))
		}
		a.text = say.F("{}. Another blade or a sharpened one is another kerf.", a.text)
		out = append(out, a)
	}
	out = append(out, w.voidAct(), w.facesAct())
	return append(out, w.moistureActs()...)
}

// voidAct sends the knuckle over each sheet of plywood.
func (w *writer) voidAct() act {
	n := 0
	for _, l := range w.p.Layouts {
		n += len(l.Sheets)
	}
	a := habit("Tap all over {} with a knuckle and mark what sounds dull: a void. Keep it out of every housing", plural(n, "sheet", "sheets"))
	if n == 0 {
		a = habit("Tap all over each panel with a knuckle and mark what sounds dull: a void. Keep it out of every joint")
	}
	for _, q := range w.strips() {
		for _, b := range q.Bends {
			a.text = say.F("{}, and out of the {} that bend in {}", a.text, say.LenN(b.Length, onWood), w.partRef(q))
		}
	}
	a.text = say.F("{}.", a.text)
	return a
}

func (w *writer) facesAct() act {
	var show []say.Sentence
	for _, q := range w.pc.Parts {
		if q.Show != "" || len(q.Bends) > 0 {
			show = append(show, say.Sentence{{Q: ptr(number(q.Number))}})
		}
	}
	if len(show) == 0 {
		return habit("Choose the better face of each sheet and mark it.")
	}
	return habit("Choose the better face of each sheet and mark it. Parts with a show face: {}. Let neighbours match.", list(show))
}

func ptr(q say.Quantity) *say.Quantity { return &q }

func (w *writer) moistureActs() []act {
	out := []act{habit("Let the stock stand for a week in the room where it is worked, on edge, air on both faces.")}
	solid := slices.ContainsFunc(w.used(), func(s *design.Stock) bool { return s.Kind == design.Solid })
	text := "Measure its moisture. Plywood’s thickness is told at {}"
	args := []any{say.F("10 ± 2 %")}
	if solid {
		text += "; solid wood for a heated room wants about {}, between 6 and 10"
		args = append(args, say.F("8 %"))
	}
	a := do(text+".", args...).with("{}", SourceText(cite.Source{Text: "EN 315, Plywood: tolerances for dimensions", Locator: "conditioning", Label: cite.Quoted}))
	if solid {
		a = a.with("{}", SourceText(cite.Source{Text: "Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010)", Locator: "table 13–1", Label: cite.FromMemory}))
	}
	return append(out, a)
}

// handActs are the bought things to measure, and the cutters to lay out.
func (w *writer) handActs() []act {
	var out []act
	seen := map[string]bool{}
	for _, f := range w.pc.Fittings {
		if seen[f.What] {
			continue
		}
		seen[f.What] = true
		n := 0
		for _, g := range w.pc.Fittings {
			if g.What == f.What {
				n += g.Count
			}
		}
		s := say.F("{} × {}, {} in hand{}.", number(n), say.Name(f.What), number(f.InHand), w.geometry(f))
		if f.InHand < n {
			s = join(s, say.F("Buy it first: its holes are cut to its own measures."))
		}
		out = append(out, act{text: s})
	}
	if s := w.bits(); len(s) > 0 {
		out = append(out, act{text: s})
	}
	if s := w.drills(); len(s) > 0 {
		out = append(out, act{text: s})
	}
	for _, s := range screwKinds(w.p.Screws) {
		out = append(out, do("{} screws {} × {}.", number(s.Count), say.Len(s.Size.V, 1).Plain(), say.LenN(s.Length, 0)))
	}
	return out
}

// geometry says what of a fitting is to be measured against the file.
func (w *writer) geometry(f piece.Fitting) say.Sentence {
	mm := func(n trace.Num) say.Quantity { return say.LenN(n, written(n.V)) }
	for _, fr := range w.d.Fronts {
		if h := fr.Hinge; h != nil && h.Name == f.What {
			return say.F(". Measure: cup {}, {} deep; its plate’s holes {} behind the door’s back, {} apart", mm(h.CupDia), mm(h.CupDepth), mm(h.PlateLine), mm(h.PlatePitch))
		}
	}
	for _, dr := range w.d.Drawers {
		if s := dr.Slide; s != nil && s.Name == f.What {
			return say.F(". Measure: {} long, {} of room on each side", mm(s.Length), mm(s.Side))
		}
	}
	if w.d.Shop != nil {
		for _, p := range w.d.Shop.Pins {
			if p.Name == f.What {
				return say.F(". Measure: hole {}, {} deep", mm(p.Diameter), mm(p.Depth))
			}
		}
	}
	if w.d.Shop != nil {
		for _, h := range w.d.Shop.Hardware {
			switch {
			case h.Name != f.What:
			case h.Diameter.V > 0:
				return say.F(". Measure: {} thick, {} long", mm(h.Diameter), mm(h.Length))
			case h.Height.V > 0:
				return say.F(". Measure: {} high", mm(h.Height))
			}
		}
	}
	return nil
}

// bits names the router bits that the set-ups take, leanest first.
func (w *writer) bits() say.Sentence {
	var names []say.Sentence
	last := ""
	for _, u := range w.p.SetUps {
		if u.Tool == work.Router && u.With != "" && u.With != last {
			last = u.With
			names = append(names, say.F("{} ({})", say.Name(u.With), say.LenN(u.Cutter, onSteel)))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return say.F("Router bits: {}. Measure the slot that each cuts; that is its diameter.", list(names))
}

// drills names the drills that the set-ups take; the shop file lists none.
func (w *writer) drills() say.Sentence {
	var at []float64
	for _, u := range w.p.SetUps {
		if u.Tool == work.Drill && !slices.Contains(at, u.Cutter.V) {
			at = append(at, u.Cutter.V)
		}
	}
	if len(at) == 0 {
		return nil
	}
	slices.Sort(at)
	var each []say.Sentence
	for _, d := range at {
		each = append(each, say.Sentence{{Q: ptr(say.Len(d, written(d)))}})
	}
	return say.F("Drills, which the shop file does not list: {}.", list(each))
}

// placeActs puts the piece into its room before it is there.
func (w *writer) placeActs() []act {
	p := w.d.Brief.Place
	out := []act{do("Tape its outline on the floor, {} by {}, and {} up the wall.", w.rough(w.pc.Width.V), w.rough(w.pc.Depth.V).Plain(), w.rough(w.pc.Height.V))}
	if w.d.Base.Kind == "wall" {
		out[0] = do("Tape its outline on the wall where it is to hang, {} by {}; it stands off {}.", w.rough(w.pc.Width.V), w.rough(w.pc.Height.V).Plain(), w.rough(w.pc.Depth.V))
	}
	if p.Width != nil && p.Depth != nil {
		out = append(out, do("The place must measure {} wide and {} deep, at the floor and at the top, square or not.", w.field(*p.Width, units.Length, "brief.place.width"),
			w.field(*p.Depth, units.Length, "brief.place.depth")))
	}
	if p.SkirtingHigh != nil && p.SkirtingDeep != nil {
		a := do("Measure the skirting: the file says {} high and {} deep.", w.at(*p.SkirtingHigh, "brief.place.skirting.height"), w.at(*p.SkirtingDeep, "brief.place.skirting.depth"))
		out = append(out, a)
	}
	out = append(out, habit("Look for sockets, switches, pipes and radiators inside the outline, and for the room’s own door."))
	for _, q := range w.pc.Parts {
		if q.Role == piece.Door {
			out = append(out, do("Keep {} free before it: {} swings so far.", w.rough(q.Width.V), w.partRef(q)))
			break
		}
	}
	for _, d := range w.d.Drawers {
		if d.Slide != nil {
			out = append(out, do("The drawer in {} comes out by up to {}.", say.Name(d.In), w.rough(d.Slide.Length.V)))
		}
	}
	return append(out, w.carryAct())
}

func (w *writer) carryAct() act {
	wide, high, deep := w.pc.Width.V, w.pc.Height.V, w.pc.Depth.V
	s := []float64{wide, high, deep}
	slices.Sort(s)
	a := do("Walk the way in: every door must pass {} by {} with hands on it, every bend {} of length. To set it up on end takes {} under the ceiling.",
		w.rough(s[0]), w.rough(s[1]).Plain(), w.rough(s[2]), w.rough(math.Hypot(s[2], s[0])))
	for _, f := range w.p.Findings {
		if f.Rule == "LIFT-01" { // how many lift it is said in one place, and here
			a.text = join(a.text, f.Text)
		}
	}
	return a
}

// roomActs asks for room to turn what is long.
func (w *writer) roomActs() []act {
	var out []act
	for _, l := range w.p.Layouts {
		if len(l.Sheets) > 0 {
			s := l.Sheets[0]
			out = append(out, do("Clear the floor for one sheet of {} by {} and a person round it.", w.rough(s.Length), w.rough(s.Width).Plain()))
			break
		}
	}
	for _, q := range w.strips() {
		a := do("The strip is {} long: lay it on a flat bench or board of that length, and keep as much free where it will be swung round the former.", w.rough(q.Length.V))
		if saw := w.d.Body.Bend.Saw; saw != nil && len(q.Bends) > 0 {
			b := q.Bends[0]
			a = a.with("the kerfs lie {} from its datum end and {} from the other: both ends stand out past the {}", w.rough(b.Start.V),
				w.rough(q.Length.V-b.Start.V-b.Length.V), saw.Name)
		}
		out = append(out, a)
	}
	return out
}
