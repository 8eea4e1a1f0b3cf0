package book

import (
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/drawing"
	"rodwork/internal/leaf"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// bend says how the strips are bent.
func (w *writer) bend() {
	strips := w.strips()
	if len(strips) == 0 {
		w.say("none", say.F("Nothing is bent in this piece."))
		return
	}
	if w.d.Body.Bend.Saw != nil {
		w.caution(kerfCaution)
	}
	w.cannot()
	for _, q := range strips {
		for i, b := range q.Bends {
			w.force(q, b)
			if b.Stack != nil {
				w.stackSteps(q, b)
				continue
			}
			w.bendSteps(q, b)
			w.table(w.kerfTable(q, b), q.ID, b.Path)
			w.clamped(q, i)
		}
	}
	w.blades()
	w.aids()
	w.ways()
}

// cannot says first of all which bends are not to be made as they are written,
// with what binds and what would work.
func (w *writer) cannot() {
	for _, f := range w.p.Findings {
		if f.Verdict == work.Stop && (strings.HasPrefix(f.ID, "bend/")) {
			s := join(say.F("Don’t cut this yet: {} (rule {}).", say.Name(f.Title), f.Rule), f.Text)
			if len(f.Mends) > 0 {
				all := say.F("What would mend it: {}", f.Mends[0].Text)
				for _, m := range f.Mends[1:] {
					all = say.F("{}; or {}", all, m.Text)
				}
				s = join(s, say.F("{}.", all))
			}
			w.say("cannot "+f.ID, s, f.Part, f.Path)
		}
	}
}

// bendSpot names a bend: a corner of the piece, or one in the row of a strip.
func bendSpot(b piece.Bend) string {
	if strings.Contains(b.Corner, "left") || strings.Contains(b.Corner, "right") {
		return "the " + b.Corner + " corner"
	}
	return "the " + b.Corner + " bend"
}

// handPull is what one person pulls with a hand and a clamp, N (common practice,
// no source: two thirds of a person's weight).
const handPull = 500

// force says how hard a bend is pulled, what it gives back, and what fills it.
func (w *writer) force(q *piece.Part, b piece.Bend) {
	if b.Stack != nil {
		w.stackForce(q, b)
		return
	}
	p := b.Plan
	if p.Moment <= 0 {
		return
	}
	if _, early := p.Shut(); early {
		w.shut(q, b)
		return
	}
	before, after := flats(q, b)
	arm := max(before, after)
	s := say.F("To bring {} round takes a moment of {} to {} N·m, as the hinge is longer or shorter", bendSpot(b), say.Num(p.MomentLow/1000, 1), say.Num(p.Moment/1000, 1))
	if f := bend.CloseForce(p.Moment, arm); f > 0 {
		who := "which a hand and a clamp can give"
		if f > handPull {
			who = "more than one person gives by hand: pull it on with clamps; a thinner skin takes far less"
		}
		s = say.F("{}: a pull of {} N at most at the end of its longer straight stretch, {}", s, say.Num(f, 0), who)
	}
	s = say.F("{}. Let go bare, it gives all of it back.", s)
	s = join(s, w.kept(b))
	w.say("force "+q.ID+"/"+b.Corner, s, b.Path, "body.bend")
}

// shut says how far a bend comes whose kerfs shut on the way, and what it would
// take to force it on.
func (w *writer) shut(q *piece.Part, b piece.Bend) {
	p := b.Plan
	angle, _ := p.Shut()
	s := say.F("{} comes to {} of its {} only: there its {} kerfs are shut, at {} each. Up to there it takes {} N·m at most.", capital(say.F("{}", bendSpot(b))),
		say.Angle(angle, 0), say.Angle(b.Angle.V, 0), p.Count, say.Angle(p.ClosedAt, 2), say.Num(p.Stiffness*p.ClosedAt/1000, 1))
	const on = 1.0 // degree, for the whole bend
	m, strain := p.PastShut(on * math.Pi / 180 / float64(p.Count))
	if p.ShutStiffness() > 0 {
		s = join(s, say.F("From there the rib tips bear on each other and the skin is pulled as a tie: one more degree for the whole bend would take {} N·m, and stretch the skin by {} in all. It tears: don’t force it.",
			say.Num(twoDigits(m/1000), 0), say.Percent(strain, 1)))
	}
	w.say("force "+q.ID+"/"+b.Corner, s, b.Path, "body.bend")
}

// kept says what holds the bend's shape once it is off the former.
func (w *writer) kept(b piece.Bend) say.Sentence {
	p, wish := b.Plan, w.d.Body.Bend
	var out say.Sentence
	if st := wish.InnerPly.Stock; st != nil {
		if b.LostPly > 0 {
			out = say.F("With the inner ply of {}, {} thick, glued over the rib tips it gives back {} of its bend only.",
				say.Choice(st.Name, "body.bend.inner ply"), say.Len(st.Thickness.Mean.V, 2), say.Percent(b.LostPly, 2))
		}
	}
	if wish.Fill {
		out = join(out, say.F("Filling all {} kerfs to the brim takes {} litres of glue; hard, it keeps all but {} of the bend. It cures slowly between ribs that give no air: leave it on the former for a day. "+
			"Water in it swells the ribs and prints through the skin: try it on the test strip.", p.Count, say.Num(p.Filling()*1e-6, 2), say.Percent(b.LostFill, 2)))
	}
	if len(out) == 0 {
		out = say.F("So it stays on its former, or under its clamps, until what it is glued to has cured. Its kerfs stay empty.")
	}
	return out
}

func (w *writer) stackForce(q *piece.Part, b piece.Bend) {
	s := b.Stack
	if s.Stack.Count == 1 {
		w.say("force "+q.ID+"/"+b.Corner, say.F("{} is one sheet of {}, bent cold to {} outside. It pulls with {} N·m and gives all back: whatever it is fixed to along its bend holds it for good.",
			capital(say.F("{}", bendSpot(b))), say.Len(s.Stack.Ply, 2), say.LenN(b.Radius, onWood), say.Num(s.Moment/1000, 1)), b.Path)
		return
	}
	text := say.F("{} is {} plies of {} glued to each other, {} thick in all. They keep {} of their curvature and give back {}: the former is made to {} and {}, "+
		"so that the outside comes out at {} and {}.", capital(say.F("{}", bendSpot(b))), s.Stack.Count, say.Len(s.Stack.Ply, 2), say.Len(s.Thick, 1),
		say.Percent(1-s.Lost, 1), say.Percent(s.Lost, 1), say.Len(s.FormerRadius, 1), say.Angle(s.FormerAngle, 2), say.LenN(b.Radius, onWood), say.Angle(b.Angle.V, 0))
	w.say("force "+q.ID+"/"+b.Corner, text, b.Path)
}

// flats are the straight stretches before and behind a bend, mm.
func flats(q *piece.Part, b piece.Bend) (before, after float64) {
	end := b.Start.V + b.Length.V
	before, after = b.Start.V, q.Length.V-end
	for _, o := range q.Bends {
		if x := o.Start.V + o.Length.V; x <= b.Start.V+1e-6 {
			before = min(before, b.Start.V-x)
		}
		if o.Start.V >= end-1e-6 {
			after = min(after, o.Start.V-end)
		}
	}
	return before, after
}

// bendSteps is the work at one kerfed bend, in the order of common practice:
// what stiffens the strip is cut last.
func (w *writer) bendSteps(q *piece.Part, b piece.Bend) {
	wish := w.d.Body.Bend
	own := bendOwner(q, b)
	from, index, saw := "from the kerfed face", "Set every cut from the datum end, not from the last kerf: errors of single placings then do not add up.", ""
	if wish.Saw != nil {
		saw = wish.Saw.Kind
		if wish.Saw.DepthFrom == "show face" {
			from = "gauged from the show face, which lies on the bed"
		}
		if wish.Saw.Index == "pin" {
			index = "This saw is indexed by a pin in the last kerf: its errors add up, so measure the last kerf from the datum end."
		}
	}
	up := kerfedUp(q, saw, depthFrom(wish))
	if b.Face == piece.FaceA {
		up = say.F("This bend is kerfed from the other face: face A, the {}, is up, unless the blade comes from below.", q.NameA)
	}
	acts := []act{
		{text: up},
		do("Cut all housings, grooves and holes of {} first; once it is kerfed it is limp. Leave its ends a little long.", w.partRef(q)),
		do("Set the depth to {}, {}, as it was for the test strip: it must have left a skin of {}.",
			w.quantity(b.Depth, units.Length, onSteel, own), from, say.Len(b.Plan.Spec.Skin, onSteel)),
		{text: join(say.F("Cut {} at the places of the table (set-up {}).", plural(b.Plan.Count, "kerf", "kerfs"), number(w.setupNumber(own))), say.F("{}", index))},
		habit("Before it leaves the saw, screw a straight batten along its back edge, into what is trimmed off, or tape it to a board: a strong-back. Two people carry it; nobody lifts it by one end."),
		habit("Tape right across the show face over the bend, or a strap of thin metal with a stop at each end, takes the pull from the skin. Damp the show face with a hot wet cloth for ten minutes where the strain says look; let it dry on the former before any glue."),
		do("The former has a radius of {} and is {} wide, as the strip is.", w.quantity(b.RailRadius, units.Length, onWood, own), w.length(q.Width, q.ID)),
		do("Bend it dry round the former first, from one end, and look along the show face in raking light, before any glue."),
	}
	acts = append(acts, w.holding(b)...)
	acts = append(acts, habit("Trim the ends last, with the bend held: square to the datum edge, from the marks on the rod."))
	w.acts("steps "+q.ID+" "+b.Corner, "The bend at "+bendSpot(b), acts, q.ID, b.Path)
}

// holding is how a kerfed bend is held, and what is glued to it.
func (w *writer) holding(b piece.Bend) []act {
	wish := w.d.Body.Bend
	var out []act
	if b.Plan.Spec.Outside {
		out = append(out, do("Its kerfs lie outside and open to {}: cover them with a veneer, or fill them, once the bend is fixed.", say.Len(b.Plan.Mouth, onSteel)))
	}
	if wish.Fill {
		out = append(out, do("With the strip on its former, run glue into each kerf, {} litres in all; scrape off what rises.", say.Num(b.Plan.Filling()*1e-6, 2)))
	}
	if st := wish.InnerPly.Stock; st != nil {
		out = append(out, do("Glue the inner ply of {} over the rib tips, a caul as wide as the strip at each end. Clamp lightly: the tips touch on lines.", say.Choice(st.Name, "body.bend.inner ply")))
	}
	return append(out, do("Hold the bend at {} by the former until it is fixed to its rails; the kerfs do not stop it there.", say.Angle(b.Angle.V, 0)))
}

func depthFrom(wish design.BendWish) string {
	if wish.Saw == nil {
		return ""
	}
	return wish.Saw.DepthFrom
}

// stackSteps is the work at a bend of thin plies, or of one.
func (w *writer) stackSteps(q *piece.Part, b piece.Bend) {
	s := b.Stack
	grain := "round the bend"
	if w.d.Body.Bend.AcrossGrain {
		grain = "across the bend"
	}
	acts := []act{do("Cut {} of {}, face grain {}, a little long and wide.", plural(s.Stack.Count, "ply", "plies"), w.stockChoice(q.Stock), grain)}
	if w.d.Body.Bend.Soaked {
		acts = append(acts, habit("Soak them in hot water, bend them round the former without glue, and leave them there until they are dry."))
	}
	acts = append(acts, do("Bend one ply dry round the former, {} in radius: it must neither crack nor want more force than your clamps give ({} N·m for all).",
		say.Len(s.FormerRadius, onWood), say.Num(s.Moment/1000, 1)))
	if s.Stack.Count > 1 {
		acts = append(acts,
			do("Rehearse with all plies and all clamps, without glue. Lay out clamps, cauls and paper in the order that they are taken."),
			do("Spread glue on one face of each ply but the last: {} lines, {} m², about {}.", number(s.GlueLines), say.Num(s.GlueArea*1e-6, 2), say.Quantity{V: s.GlueTime, Dim: units.Time}),
			do("Lay them on the former, clamp from the middle of the bend outwards, a caul under every clamp."),
			do("Leave it a day. Then take it off: it opens from {} to {}.", say.Angle(s.FormerAngle, 2), say.Angle(b.Angle.V, 0)).
				with("glue makers ask for a day where the joint is under strain (read)"),
			habit("Plane one edge, rip the other parallel to it, and trim the ends last."))
	} else {
		acts = append(acts, do("Bend it into place, and fix it along the whole bend before you let go."))
	}
	w.acts("steps "+q.ID+" "+b.Corner, "The bend at "+bendSpot(b), acts, q.ID, b.Path)
}

// blades tells what each saw of the shop would make of each bend, at its best
// skin; bends that are alike once.
func (w *writer) blades() {
	t := table.Table{Key: "blades", Caption: "The shop’s blades, each with the skin and the kerfs that suit it best",
		Columns: []table.Column{table.Names("bend"), table.Words("saw"), table.Numbers("cuts", units.Length), table.Numbers("skin", units.Length),
			table.Numbers("kerfs", units.Count), table.Numbers("mouth", units.Length), table.Numbers("rib", units.Length),
			{Head: "strain, most", Unit: "%", Align: table.Right}, table.Words("verdict")},
		Note: "Skins from the face veneer to the middle of the crossband were tried. A count that the piece file gives is kept. The bend itself is cut as the file says."}
	seen := map[*bend.Sought]bool{}
	for _, q := range w.strips() {
		for _, b := range q.Bends {
			if b.Sought == nil || seen[b.Sought] {
				continue
			}
			seen[b.Sought] = true
			for _, x := range b.Sought.ByBlade {
				mm := func(v float64, decimals int) table.Cell { return table.Q(say.Len(v, decimals).Plain()) }
				p := x.Plan
				t.Rows = append(t.Rows, table.Row{Picked: p.Spec.Kerf == b.Plan.Spec.Kerf && p.Spec.Skin == b.Plan.Spec.Skin && p.Count == b.Plan.Count,
					Cells: []table.Cell{table.T(b.Corner), table.T(x.Blade.Name), mm(x.Blade.Kerf, onSteel), mm(p.Spec.Skin, 1), table.Count(p.Count),
						mm(p.Mouth, onSteel), mm(p.Rib, onSteel), table.Q(say.Num(100*p.StrainHigh, 2)), table.T(string(x.Worst))}})
			}
		}
	}
	w.table(t, "body.bend")
}

// aids lists formers, blocks and cauls, and where they are cut from.
func (w *writer) aids() {
	if len(w.p.Aids) == 0 {
		return
	}
	w.head("on what", "Formers, blocks and cauls")
	w.say("on what it is bent", say.F("They are cut for the job and are no part of the piece. A stock under the role {} puts them on the layouts; else they come from offcuts that are kept.", say.Name("formers")))
	w.table(w.aidTable())
	w.acts("cut what it is bent on", "Cut formers, blocks and cauls", w.aidActs())
	w.leaves(w.group("formers", func() []leaf.Leaf {
		var out []leaf.Leaf
		for _, a := range w.p.Aids {
			if a.Kind == "former" {
				out = append(out, drawing.Former(a, w.drawn()))
			}
		}
		return out
	}))
}

// aidActs are the set-ups of formers, blocks and cauls: one for each width that
// is ripped and each length that is cut to, those alike together.
func (w *writer) aidActs() []act {
	var out []act
	for _, a := range w.p.Aids {
		name, pieces := say.Name(a.Name), plural(a.Count, "piece", "pieces")
		switch a.Kind {
		case "former":
			out = append(out, do("{}: rip {} with the fence at {}, and cut them to {} at a stop. Screw them together, edges flush, with the template on top; saw the outline beside the line, and bring it to the line: all boards at once, so that they are alike.",
				name, plural(a.Count, "board", "boards"), say.LenN(a.Width, onWood), say.LenN(a.Length, onWood)))
		case "inner ply":
			out = append(out, do("{}: cut {} {} long round the bend and {} wide, its face grain along its length.", name, pieces, say.LenN(a.Length, onWood), say.LenN(a.Width, onWood)))
		default:
			out = append(out, do("{}: rip with the fence at {}; {} with the stop at {}.", name, say.LenN(a.Width, onWood), pieces, say.LenN(a.Length, onWood)))
		}
	}
	return append(out, habit("Put the former together on a flat bench: a board, two blocks, a board; screw through the boards. Lay a straight edge across the rounds: it must touch all of them. Mark the middle of the bend on each."))
}

func (w *writer) aidTable() table.Table {
	t := table.Table{Key: "aids", Caption: "What is cut to bend on", Columns: []table.Column{table.Names("what"), table.Numbers("count", units.Count),
		table.Numbers("long", units.Length), table.Numbers("wide", units.Length), table.Numbers("radius", units.Length), table.Words("from")}}
	for _, a := range w.p.Aids {
		mm := func(v float64) table.Cell { return table.Q(say.Len(v, 0).Plain()) }
		radius := table.Cell{}
		if a.Radius.V > 0 {
			radius = table.Q(say.LenN(a.Radius, onWood).Plain())
		}
		from := "no kept offcut is large enough: a board " + w.thickOf(a)
		switch {
		case a.Chosen:
			from = "the layout of " + a.Stock
		case a.At != nil:
			from = "an offcut of sheet " + digits(a.Sheet) + " of " + a.Stock
		}
		t.Rows = append(t.Rows, table.Row{ID: a.ID, Cells: []table.Cell{table.T(a.Name), table.Count(a.Count), mm(a.Length.V), mm(a.Width.V), radius, table.T(from)}})
	}
	return t
}

// ways compares the ways to make each bend.
func (w *writer) ways() {
	if len(w.p.Ways) < 2 {
		return
	}
	w.head("other ways", "Other ways round the corner")
	t := table.Table{Key: "ways", Caption: "The ways to make each bend, with what this shop has",
		Columns: []table.Column{table.Names("bend"), table.Words("way"), table.Words("sheet"), table.Numbers("kerfs or plies", units.Count),
			table.Numbers("least radius", units.Length), table.Numbers("work", units.Time), table.Numbers("on the former", units.Time), {Head: w.d.Currency, Unit: "money", Align: table.Right},
			table.Words("verdict"), table.Words("why")},
		Note: "Least radius: outside, with this sheet and blade, before anything says stop. Work: sawing, and spreading glue. Money: the strip’s share of its sheets, and the glue."}
	for _, x := range w.p.Ways {
		q := w.pc.Part(x.Part)
		if q == nil {
			continue
		}
		least, wait := table.Cell{}, table.Cell{}
		if x.Least > 0 {
			least = table.Q(say.Len(x.Least, 0).Plain())
		}
		if x.Wait > 0 {
			wait = table.Q(say.Quantity{V: x.Wait, Dim: units.Time})
		}
		t.Rows = append(t.Rows, table.Row{Picked: x.Picked, Cells: []table.Cell{table.T(x.Corner), table.T(x.Way), table.T(x.Stock), table.Count(x.Count), least,
			table.Q(say.Quantity{V: x.Work, Dim: units.Time}), wait, table.Q(say.Num(x.Cost, 2)), table.T(string(x.Verdict)), table.T(x.Why)}})
	}
	w.table(t)
}

// thickOf tells how thick the boards of an aid are.
func (w *writer) thickOf(a work.Aid) string {
	return units.Format(a.Thick.V, units.Length, w.sys, onWood) + " thick"
}
