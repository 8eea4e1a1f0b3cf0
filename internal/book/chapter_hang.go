package book

import (
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// hang is the work after the glue: doors, drawers, shelves, and the wall.
func (w *writer) hang() {
	if len(w.pc.Parts) == 0 {
		return
	}
	if slices.ContainsFunc(w.d.Fronts, func(f design.Front) bool { return f.As == "lid" }) {
		w.caution(lidCaution)
	}
	for _, f := range w.d.Fronts {
		w.acts("front "+f.Name, upper(f.Name), w.frontActs(f), w.partsAt(f.Path)...)
	}
	w.acts("drawers", "Drawers", w.drawerActs())
	w.acts("screws", "Screwed on", w.screwActs())
	if len(w.p.Screws) > 0 {
		w.say("screw sources", say.F("Screws of number 8. Their size is that of two trade tables of gauges (read); the pilot is nine tenths of the root, as "+
			"the National Design Specification for Wood Construction has it for hardwood (quoted). Count and places: {}.", unsourced))
	}
	w.acts("pins", "Shelves on pins", w.pinActs())
	w.caution(anchorCaution)
	w.table(w.wallTable())
	w.acts("wall", "To the wall", w.wallActs())
}

func (w *writer) at3(n trace.Num) say.Quantity { return say.LenN(n, onWood) }

// frontActs cut a front to its opening and hang it.
func (w *writer) frontActs(f design.Front) []act {
	if f.As == "lid" {
		return w.lidActs(f)
	}
	var leaves []*piece.Part
	for _, q := range w.pc.Parts {
		if q.Path == f.Path && (q.Role == piece.Door || q.Role == piece.DrawerFront) {
			leaves = append(leaves, q)
		}
	}
	if len(leaves) == 0 {
		return nil
	}
	wide, high := leaves[0].Width, leaves[0].Length
	if leaves[0].Role == piece.DrawerFront {
		wide, high = high, wide
	}
	gaps := float64(len(leaves) + 1)
	var out []act
	if f.Set == "inset" {
		open := wide.Scale(float64(len(leaves))).Add(f.Gap.Scale(gaps))
		out = append(out, do("Measure the opening at both ends and in the middle, and its diagonals. It should be {} wide and {} high.", w.at3(open), w.at3(high.Add(f.Gap.Scale(2)))))
		each := say.F("{} by {}", w.at3(wide), w.at3(high).Plain())
		out = append(out, do("Cut to what you measured, less {} all round{}. As drawn that is {} each.", w.at(f.Gap, f.Path+".gap"), between(leaves), each))
	}
	if f.Hinge != nil {
		out = append(out, w.hingeActs(f, leaves[0])...)
	}
	if leaves[0].Role == piece.DrawerFront {
		out = append(out, habit("Set it in the opening on strips as thick as the gap, hold it to the box with two dabs of tape, open, and screw it from inside."))
	}
	return out
}

// lidActs hang a lid.
func (w *writer) lidActs(f design.Front) []act {
	var out []act
	if h := f.Lid.Hinge; h != nil {
		out = append(out, do("Lay it in its place, even over its edges, mark the hinges ({}) and screw them to lid and rail.", say.Name(h.Name)))
	}
	if s := f.Lid.Stay; s != nil {
		out = append(out, do("Fit {}. Let the lid go at every height: it must stay there.", say.Name(s.Name)))
	} else {
		out = append(out, do("Its file names no stay: nothing holds the lid up. Have one before a child is near it."))
	}
	return out
}

func between(leaves []*piece.Part) string {
	if len(leaves) > 1 {
		return " and between them"
	}
	return ""
}

func (w *writer) hingeActs(f design.Front, q *piece.Part) []act {
	h := f.Hinge
	edge := cupEdge(q, h)
	var at []say.Sentence
	for _, n := range f.HingeAt {
		end, v := "foot", n
		if n.V < 0 {
			end, v = "head", n.Neg()
		}
		at = append(at, say.F("{} from its {}", say.LenN(v, written(v.V)), end))
	}
	out := []act{do("Bore the cups: {}, {} deep, their centres {} from the hanging edge.", say.LenN(h.CupDia, 0), say.LenN(h.CupDepth, 1), say.LenN(edge, 1))}
	if len(at) > 0 {
		out[0] = do("Bore the cups: {}, {} deep, their centres {} from the hanging edge, {}.", say.LenN(h.CupDia, 0), say.LenN(h.CupDepth, 1), say.LenN(edge, 1), list(at))
	}
	left := q.Thick.V - h.CupDepth.V
	return append(out, do("Stop the drill: {} is left under the cup.", say.Len(left, 1)),
		do("Hang it, and set the gap to {} with the hinge’s own screws: side, height, depth.", w.at(f.Gap, f.Path+".gap")),
		habit("Open and shut it slowly, and watch the gap at the hinge through the whole swing."))
}

// cupEdge is how far the cups' centres lie from the hanging edge: as the part is
// bored, or as the hinge's own measures have it.
func cupEdge(q *piece.Part, h *design.Hinge) trace.Num {
	for _, c := range q.Cuts {
		if c.Kind == piece.Hole && c.For == "hinge cup" {
			return trace.Min(c.Y0, q.Width.Sub(c.Y0))
		}
	}
	return h.CupEdge.Add(h.CupDia.Scale(0.5))
}

func (w *writer) drawerActs() []act {
	var out []act
	for _, d := range w.d.Drawers {
		if d.Slide == nil {
			continue
		}
		out = append(out, do("In {}: screw the slides level and square to the front, {} of room on each side. The box stops {} before the back.", say.Name(d.In),
			say.LenN(d.Slide.Side, written(d.Slide.Side.V)), w.at(d.Stop, d.Path+".stop")))
	}
	return out
}

// screwActs are the screws of each joint that is screwed.
func (w *writer) screwActs() []act {
	var out []act
	for _, s := range w.p.Screws {
		through, in := w.pc.Part(s.Through), w.pc.Part(s.In)
		if through == nil || in == nil {
			continue
		}
		into := say.F("{}", w.partRef(in))
		if s.Count > 1 && s.Every.V > 0 {
			into = say.F("{}, {} apart", into, say.LenN(s.Every, 0))
		}
		out = append(out, do("{} screws {} × {} through {} into {}. Holes {} in the first, {} in the second.", number(s.Count), say.LenN(s.Size, 1).Plain(),
			say.LenN(s.Length, 0), w.partRef(through), into, say.LenN(s.Clear, 1), say.LenN(s.Pilot, 1)))
	}
	return out
}

// screwKinds adds up screws of one size.
func screwKinds(lines []work.ScrewLine) []work.ScrewLine {
	var out []work.ScrewLine
next:
	for _, l := range lines {
		for i := range out {
			if out[i].Size.V == l.Size.V && out[i].Length.V == l.Length.V {
				out[i].Count += l.Count
				continue next
			}
		}
		out = append(out, l)
	}
	return out
}

// pinActs set the shelves where the things of the brief want them.
func (w *writer) pinActs() []act {
	var out []act
	for _, s := range w.pc.Spaces {
		for _, id := range s.Shelves {
			q := w.pc.Part(id)
			if q == nil || q.Role != piece.Shelf || !q.Loose {
				continue
			}
			up := q.Origin[1].Sub(s.Min[1])
			out = append(out, do("{}: four pins, its underside {} over the floor of {}.", capital(w.partRef(q)), w.at3(up), say.Name(s.Name)))
		}
	}
	return out
}

// fixing is what holds in one kind of wall; kinds are the words by which a piece
// file calls such a wall.
type fixing struct {
	kinds      []string
	wall, what string
}

// fixings by kind of wall: common practice, no source.
var fixings = []fixing{
	{[]string{"stud", "studs"}, "studs behind board", "wood screws into two studs, found with a fine drill, not by sound alone; never into the board only"},
	{[]string{"brick", "concrete", "stone", "masonry"}, "brick, concrete, stone", "screws in expansion plugs, in the brick and not in the joint"},
	{[]string{"block", "hollow"}, "hollow or aerated block", "plugs or resin anchors made for that block; try one first"},
	{[]string{"board", "plasterboard"}, "board with nothing behind it", "a batten across two studs first, then the piece to the batten"},
	{nil, "not known", "ask someone licensed before you drill"},
}

func (w *writer) wallTable() table.Table {
	t := table.Table{Key: "walls", Caption: "What holds in which wall", Columns: []table.Column{table.Names("wall"), table.Words("fixing")},
		Note: "Common practice, no source. The fixing’s own sheet and the rules of the place go before it."}
	for _, f := range fixings {
		t.Rows = append(t.Rows, table.Row{Picked: slices.Contains(f.kinds, w.d.Brief.Place.Wall), Cells: []table.Cell{table.T(f.wall), table.T(f.what)}})
	}
	return t
}

// rail is the solid board at the back that a screw to the wall goes through.
func (w *writer) wallRail() *piece.Part {
	for _, q := range w.pc.Parts {
		if q.Role == piece.Rail {
			return q
		}
	}
	return nil
}

// inStud is how deep a screw holds in a stud, mm, and wallLoad what each fixing
// of a restraint is tried with: 60 lb.
const (
	inStud   = 40.0
	wallLoad = 27.2
)

func (w *writer) wallActs() []act {
	var out []act
	r := w.wallRail()
	if r == nil {
		out = append(out, do("Its file gives it no rail for a screw to the wall. Screw through the back into a solid part only, or add a rail: a thin back tears."))
	} else {
		thick := r.Thick.V
		for _, q := range w.pc.Parts {
			if q.Role == piece.BackPanel {
				thick += q.Thick.V
			}
		}
		out = append(out, do("Fix it at two points or more, as far apart as the wall allows, through {}.", w.partRef(r)),
			do("The screw goes through {} of rail and back and then the lining; in a stud let {} more hold.", say.Len(thick, 1), say.Len(inStud, 0)).with("{}", unsourced))
	}
	for _, f := range w.pc.Fittings {
		if f.Kind == "wall screw" {
			out = append(out, do("{} × {}, {} in hand.", number(f.Count), say.Name(f.What), number(f.InHand)))
		}
	}
	if f := w.d.Brief.Place.Wall; f != "" {
		out = append(out, do("The file says the wall is {}: take that row of the table, if the wall agrees.", say.Choice(f, "brief.place.wall")))
	}
	return append(out, do("Each fixing should bear {}: restraints for clothes storage are tried with that.", say.Kg(wallLoad, 1)).
		with("ASTM F3096-23, Tipover restraints, abstract: 60 lb (read)"),
		habit("Look for cables and pipes before you drill. Pull at the top by hand when it is fixed; check again in a month."))
}

// living is what the one who uses it needs.
func (w *writer) living() {
	if len(w.pc.Parts) == 0 {
		return
	}
	w.table(w.loadTable())
	if len(w.p.Carries) > 0 {
		w.say("label", say.F("Write the loads on a label inside. They are what the sag was computed with, spread evenly; they are no test, and what "+
			"housings bear is not computed."))
	}
	w.acts("first", "Before it is used", w.firstActs())
	w.acts("later", "Later", w.laterActs())
}

// loadTable is the label: what each surface carries.
func (w *writer) loadTable() table.Table {
	t := table.Table{Key: "loads", Caption: "Load label", Columns: []table.Column{table.Names("surface"), table.Numbers("the brief puts there", units.Mass),
		table.Numbers("computed with", units.Mass), table.Numbers("to a metre", units.MassPerLength)}}
	for _, c := range w.p.Carries {
		q := w.pc.Part(c.Part)
		if q == nil {
			continue
		}
		all := table.Cell{}
		if len(q.Bends) == 0 && c.PerMetre.V > 0 {
			all = table.Q(say.Kg(c.PerMetre.V*q.Length.V/1000, 0).Plain())
		}
		t.Rows = append(t.Rows, table.Row{ID: "load " + c.Part, Cells: []table.Cell{table.T(q.Name), table.Q(say.Kg(c.Contents.V, 1).Plain()), all,
			table.Q(say.Quantity{V: c.PerMetre.V / 1000, Dim: units.MassPerLength, Decimals: 1, Bare: true})}})
	}
	return t
}

func (w *writer) firstActs() []act {
	var out []act
	if w.d.Shop != nil && len(w.d.Shop.Glues) > 0 && w.glueArea() > 0 {
		g := w.d.Shop.Glues[0]
		out = append(out, do("{} wants clamps for {}. Give it a day before it bears anything.", say.Name(upper(g.Name)), say.Quantity{V: g.ClampTime.V, Dim: units.Time}).with("the day: {}", unsourced))
	}
	if w.d.Finish.Kind != "" {
		out = append(out, do("Let {} cure as long as its tin says before things stand on it.", say.Name(w.d.Finish.Kind)))
	}
	out = append(out, do("Anchor it first, then fill it, heavy things low."))
	return out
}

func (w *writer) laterActs() []act {
	var out []act
	if hinges := w.fitted("hinge"); hinges > 0 {
		out = append(out, habit("After a month, then once a year: tighten {} and the fixings to the wall. Set the doors’ gaps again.", plural(hinges, "hinge", "hinges")))
	} else {
		out = append(out, habit("After a month, then once a year: check the fixings to the wall."))
	}
	if s := w.apart(); len(s) > 0 {
		out = append(out, act{text: s})
	}
	if w.p.Mass.V > 0 {
		out = append(out, do("To move it: empty it, take off what is loose, and lift it by the carcase; whole and empty it weighs {}.", say.Kg(w.p.Mass.V, 1)))
	}
	return append(out, w.repairActs()...)
}

func (w *writer) fitted(kind string) int {
	n := 0
	for _, f := range w.pc.Fittings {
		if f.Kind == kind {
			n += f.Count
		}
	}
	return n
}

// apart says what comes off again and what does not.
func (w *writer) apart() say.Sentence {
	glued, dry := 0, map[string]bool{}
	var kinds []say.Sentence
	for _, j := range w.pc.Joints {
		switch {
		case j.Glued:
			glued++
		case j.Kind != "groove" && !dry[j.Kind]:
			dry[j.Kind] = true
			word := j.Kind
			if word == "screwed" {
				word = "screws"
			}
			kinds = append(kinds, say.Sentence{say.Name(word)})
		}
	}
	if len(kinds) == 0 {
		return say.F("It does not come apart: {} glued.", plural(glued, "joint is", "joints are"))
	}
	return say.F("What is held by {} comes off again. {} glued and do not.", list(kinds), plural(glued, "joint is", "joints are"))
}

func (w *writer) repairActs() []act {
	out := []act{habit("Keep this book, a finger’s length of each stock and what is left of the finish: a repair needs the same.")}
	if len(w.strips()) > 0 {
		out = append(out, habit("A dent over the kerfs: no iron and no steam, the skin is thin. Fill and touch up."))
	}
	edged := map[string]bool{}
	for _, q := range w.pc.Parts {
		edged[q.Of] = true
	}
	for _, q := range w.pc.Parts {
		if q.Role == piece.Shelf && q.Loose && !edged[q.ID] {
			out = append(out, habit("A loose shelf that has sagged: turn it over."))
			break
		}
	}
	return out
}
