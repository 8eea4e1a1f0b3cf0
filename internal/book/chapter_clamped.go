package book

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/drawing"
	"rodwork/internal/fit"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// clamped says how a bend lies under its clamps: where they stand, what each
// must pull, what gap is left; and which rail suits it.
func (w *writer) clamped(q *piece.Part, i int) {
	b := q.Bends[i]
	l, err := fit.Load(q, i)
	if err != nil || len(l.Clamped.Clamps) == 0 {
		return
	}
	own := q.ID + "/" + b.Corner
	sh := l.Clamped.Shape
	s := say.F("On a former of {} {} hold {}, each over the whole width of the strip. Between them the inner face stands off by {} at most",
		say.LenN(b.RailRadius, onWood), plural(len(l.Clamped.Clamps), "line of clamps", "lines of clamps"), bendSpot(b), say.Len(sh.Worst.Off, 3))
	if l.Clamped.Enough {
		s = say.F("{}, less than the {} that they are set for.", s, say.Len(l.Limit, 2))
	} else {
		s = say.F("{}, more than the {} that is wanted: use a former with a caul of the whole bend’s shape.", s, say.Len(l.Limit, 2))
	}
	if sh.Shut > 0 {
		s = join(s, say.F("{} shut on the way, and hold it off.", plural(sh.Shut, "kerf", "kerfs")))
	}
	s = join(s, say.F("Reckoned as a chain of stiff ribs and of hinges, without friction (rule {}).", "CHAIN-01"))
	w.say("clamped "+own, s, b.Path)
	w.table(w.clampTable(q, b, l), q.ID, b.Path)
	w.leaves(w.group("clamped "+own, func() []leaf.Leaf { return []leaf.Leaf{drawing.Clamped(q, i, l, w.drawn())} }), q.ID, b.Path)
	w.suits(b)
}

// clampTable lists the lines of clamps along the strip.
func (w *writer) clampTable(q *piece.Part, b piece.Bend, l fit.Loaded) table.Table {
	t := table.Table{Key: "clamps " + q.ID + " " + b.Corner, Caption: "Clamps that hold the bend, " + b.Corner,
		Columns: []table.Column{table.Numbers("line", units.Count), table.Numbers("from the datum end", units.Length), table.Numbers("pull, at least", units.Force), table.Numbers("clamps across", units.Count)},
		Note:    "The pull is that of the whole line, for the skin at its stiffest. Clamps across: as many as give it, one for each 200 mm of width at least (common practice)."}
	t.Columns[0].Names = true
	for k, along := range l.Clamped.Along {
		pull := l.Clamped.Shape.Pulls[k]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Count(k + 1), table.Q(say.Len(l.From+along, 0).Plain()),
			table.Q(say.Quantity{V: twoDigits(pull), Dim: units.Force, Decimals: 0}), table.Count(across(w.d.Shop, pull, q.Width.V))}})
	}
	return t
}

// twoDigits rounds a force to what is known of it.
func twoDigits(v float64) float64 {
	if v < 10 {
		return math.Ceil(v)
	}
	step := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Ceil(v/step-1e-9) * step
}

// across is how many of the shop's weakest clamps a line takes.
func across(s *design.ShopFile, pull, width float64) int {
	n := max(1, int(math.Ceil(width/200-1e-9)))
	least := 0.0
	if s != nil {
		for _, c := range s.Clamps {
			if least == 0 || c.Force.V < least {
				least = c.Force.V
			}
		}
	}
	if least > 0 {
		n = max(n, int(math.Ceil(pull/least)))
	}
	return n
}

// suits tells the rail for this bend, what another would leave open, and how to
// find the rail for a shell that is bent already.
func (w *writer) suits(b piece.Bend) {
	p := b.Plan
	plain := p.Spec.Radius - p.Spec.Thick
	wrong := fit.Lay(p, plain)
	s := say.F("The rail’s end is cut to {}, the largest round that the rib tips take. ", say.LenN(b.RailRadius, onSteel))
	if wrong.Worst > 0.02 {
		s = append(s, say.F("Cut to the bend’s radius less the thickness, {}, it would leave {} open. ", say.Len(plain, onWood), say.Len(wrong.Worst, onSteel))...)
	}
	s = append(s, say.F("Has the shell been bent already, take the height of its show face over a chord within the bend: the table gives the rail.")...)
	w.say("suits "+b.Corner, s, b.Path)
	w.table(w.suitTable(b), b.Path)
}

func (w *writer) suitTable(b piece.Bend) table.Table {
	p := b.Plan
	chord := math.Round(p.Spec.Radius*math.Min(1, 2*math.Sin(p.Spec.Angle/2))*0.7/10) * 10
	t := table.Table{Key: "rails " + b.Corner, Caption: "The rail for a shell that is bent already, " + b.Corner + ", by the height over a chord of " + units.Format(chord, units.Length, w.sys, 0),
		Columns: []table.Column{table.Numbers("height", units.Length), table.Numbers("outside radius", units.Length), table.Numbers("rail", units.Length)},
		Note:    "The chord is the straight distance between two places of the show face within the bend; the height is how far the face stands over its middle. The thickness is that of the sheet."}
	r0 := p.Spec.Radius
	mid := r0 - math.Sqrt(r0*r0-chord*chord/4)
	for k := -2; k <= 2; k++ {
		h := mid + float64(k)*0.5
		rail, ok := fit.Suits(chord, h, p.Spec.Thick)
		if !ok {
			continue
		}
		t.Rows = append(t.Rows, table.Row{Picked: k == 0, Cells: []table.Cell{table.Q(say.Len(h, 1).Plain()), table.Q(say.Len(rail+p.Spec.Thick, 1).Plain()), table.Q(say.Len(rail, 1).Plain())}})
	}
	return t
}
