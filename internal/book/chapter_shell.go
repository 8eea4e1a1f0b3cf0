package book

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// strips are the parts with a bend.
func (w *writer) strips() []*piece.Part {
	var out []*piece.Part
	for _, q := range w.pc.Parts {
		if len(q.Bends) > 0 {
			out = append(out, q)
		}
	}
	return out
}

func (w *writer) shellTitle() string {
	if len(w.strips()) > 0 {
		return "The shell and its bend"
	}
	return "The body"
}

// shell says how the body goes round: its strips, their bends, its corners.
func (w *writer) shell() {
	strips := w.strips()
	if len(strips) == 0 {
		w.say("flat", say.F("Nothing is bent: the body is made of flat panels that meet in square corners."), "body")
	}
	for _, q := range strips {
		if len(strips) > 1 {
			w.head(q.ID, upper(q.Name))
		}
		w.strip(q)
	}
	w.say("corners", w.squareCorners(), "body.corners")
}

func (w *writer) strip(q *piece.Part) {
	grain := "its face grain running round the bend"
	if q.Grain == piece.AlongWidth {
		grain = "its face grain running along the kerfs"
	}
	w.say(q.ID, say.F("{} is one strip of {}, {} thick by the calliper, {}. Laid flat it is {} long and {} wide.",
		say.Name(upper(q.Name)), w.stockChoice(q.Stock), w.thickness(q.Thick, q.Stock), grain,
		w.length(q.Length, q.ID), w.bare(q.Width, q.ID)), q.ID, q.Path)
	for _, b := range q.Bends {
		if b.Stack != nil {
			continue // it is told in the chapter about bending
		}
		w.turn(q, b)
		w.mouth(q, b)
		w.skin(q, b)
		w.table(w.kerfChoice(b), q.ID, b.Path, "body.bend")
	}
	w.leaves(w.partLeaves(q), q.ID)
}

// turn says what is cut for a bend.
func (w *writer) turn(q *piece.Part, b piece.Bend) {
	wish := w.d.Body.Bend
	count := number(b.Plan.Count)
	chosen := "the fewest that every limit allows"
	if wish.Kerfs > 0 {
		count.Path, chosen = "body.bend.kerfs", ""
	}
	saw, kerf := say.Sentence{{Text: "the saw"}}, say.Quantity{V: b.Plan.Spec.Kerf, Dim: units.Length, Decimals: onSteel, Bare: true}
	if wish.Saw != nil {
		saw = say.F("the {}", say.Choice(wish.Saw.Name, "body.bend.saw"))
		kerf = w.at(wish.Saw.Kerf.Mean, wish.Saw.Path+".kerf")
		if t, _ := w.d.Shop.BendTest(wish.Saw.Name, q.Stock.Name); t != nil && t.Kerf != nil {
			kerf = w.at(t.Kerf.Mean, t.Path+".kerf") // as measured in this very stock
		}
	}
	side, skin := "from the inside", "They stop short of the show face and leave a skin of"
	if b.Plan.Spec.Outside {
		side, skin = "from the outside, where they open", "They leave on the inside a skin of"
	}
	s := say.F("At {} it turns at {} outside, {}: {} kerfs by {}, each {} wide, cut square across the strip "+
		"{}. {} {}.",
		spotName(b), w.at(b.Radius, b.Path+".radius"), say.Choice(wayOf(wish), "body.bend"), count, saw, kerf,
		side, skin, w.at(wish.Skin, "body.bend.skin"))
	if chosen != "" {
		s = join(s, say.F("The count is {}.", chosen))
	}
	w.say(q.ID+"/"+b.Corner, s, q.ID, b.Path, "body.bend", "body.corners."+b.Corner)
}

// spotName is a bend's name in a sentence, its own word set off.
func spotName(b piece.Bend) say.Sentence {
	word := "bend"
	if bendSpot(b) == "the "+b.Corner+" corner" {
		word = "corner"
	}
	return say.F("its {} {}", say.Name(b.Corner), word)
}

func wayOf(b design.BendWish) string {
	if b.Way == "" {
		return "kerfed"
	}
	return b.Way
}

// bendOwner is what the ledger files a bend's values under.
func bendOwner(q *piece.Part, b piece.Bend) string { return q.ID + "/bend " + b.Corner }

// mouth says what the kerfs do when the strip is bent.
func (w *writer) mouth(q *piece.Part, b piece.Bend) {
	p, own := b.Plan, bendOwner(q, b)
	if p.Count == 0 {
		return
	}
	turned := "closed"
	if p.Spec.Outside {
		turned = "opened"
	}
	s := say.F("Round at {} each kerf has {} by {}, and its mouth still stands {} open between ribs of {}. ",
		say.Angle(b.Angle.V, 0), turned, say.Angle(p.Alpha, 2), w.fine(b.Mouth, own), w.fine(b.Rib, own))
	if p.Mouth > 0 && !p.Spec.Outside {
		s = append(s, say.F("So the kerfs do not stop the bend at the right angle: the former does. ")...)
	}
	s = append(s, say.F("The kerfs stand {} apart, exact for this many, with half a rib before the first and after the last; the bend takes {} of the flat strip, from {} "+
		"to {} off its datum end.", w.fine(b.Pitch, own), w.fine(b.Length, own), w.bare(b.Start, own),
		w.bare(b.Start.Add(b.Length), own))...)
	w.say(q.ID+"/"+b.Corner+"/mouth", s, b.Path)
}

// skin says what the skin is, which way its grain lies, and what makes it thicker
// or thinner than it was set.
func (w *writer) skin(q *piece.Part, b piece.Bend) {
	p, wish := b.Plan, w.d.Body.Bend
	if p.Count == 0 || wish.Saw == nil {
		return
	}
	grain := "The kerfs lie across the face grain: the skin is stretched along its grain, where wood bears most, and the stiff face veneer draws the line that keeps its length"
	if !p.Spec.GrainAlong {
		grain = "The kerfs lie along the face grain: the face veneer is stretched across its grain, where it splits easily, and the crossband draws the line that keeps its length"
	}
	face := "show face"
	if p.Spec.Outside || b.Left != (b.Face == piece.FaceA) {
		face = "uncut face"
	}
	s := say.F("{} to {} off the {}.", grain, say.Len(p.NeutralY, onSteel), face)
	if sd := p.Spec.SkinSD; sd > 0 {
		from := "The saw rides on the kerfed face, so that all the spread of the sheet’s thickness falls on the skin"
		if wish.Saw.DepthFrom == "show face" {
			from = "The depth is gauged from the bed under the show face, so that the sheet’s thickness does not matter"
		}
		s = join(s, say.F("{}: of a thousand places all but three come out within {} of what is set.", from, say.Len(3*sd, onSteel)))
	}
	if r := p.Spec.FloorRise; r > 0 {
		s = join(s, say.F("Its bevel-ground teeth leave a floor like an M, {} higher in the middle: the skin is measured at the corners.", say.Len(r, onSteel)))
	}
	w.say(q.ID+"/"+b.Corner+"/skin", s, b.Path, "body.bend")
}

// kerfChoice plans the same bend with fewer and with more kerfs, so that the
// count can be weighed: more kerfs strain the skin less and show less, and
// leave thinner ribs and more work.
func (w *writer) kerfChoice(b piece.Bend) table.Table {
	t := table.Table{Key: "kerf choice " + b.Corner, Caption: "The same bend with other counts of kerfs: " + b.Corner,
		Columns: []table.Column{table.Numbers("kerfs", units.Count), table.Numbers("each turns", units.Angle),
			table.Numbers("pitch", units.Length), table.Numbers("mouth", units.Length), table.Numbers("rib", units.Length),
			table.Numbers("flats", units.Length), {Head: "strain, least", Unit: "%", Align: table.Right},
			{Head: "most", Unit: "%", Align: table.Right}},
		Note: "Flats are measured from peak to valley of the show face. Strain is of the outer skin; its two values are " +
			"for a hinge that reaches two skins past the slot, and for one that is no longer than the slot."}
	t.Columns[0].Names = true
	n := b.Plan.Count
	if n == 0 {
		return t
	}
	step := max(1, int(math.Round(float64(n)/5)))
	for k := -2; k <= 2; k++ {
		spec := b.Plan.Spec
		spec.Count = n + k*step
		p, err := bend.New(spec)
		if spec.Count < 3 || err != nil {
			continue
		}
		mm := func(v float64) table.Cell { return table.Q(say.Len(v, onSteel).Plain()) }
		t.Rows = append(t.Rows, table.Row{Picked: k == 0, Cells: []table.Cell{table.Count(p.Count),
			table.Q(say.Angle(p.Alpha, 2).Plain()), mm(p.Pitch), mm(p.Mouth), mm(p.Rib), mm(p.Facet),
			table.Q(say.Num(100*p.StrainLow, 2)), table.Q(say.Num(100*p.StrainHigh, 2))}})
	}
	return t
}

// squareCorners says how the corners that are not bent are joined.
func (w *writer) squareCorners() say.Sentence {
	var square []say.Sentence
	for _, name := range design.CornerNames {
		c, ok := w.d.Body.Corners[name]
		if !ok || c.Bent {
			continue
		}
		s := say.F("{} {}", say.Name(name), say.Choice(article(c.Joint), c.Path+".square"))
		if c.Through != "" {
			s = say.F("{}, where the {} runs through", s, say.Choice(c.Through, c.Path+".runs through"))
		}
		square = append(square, s)
	}
	if len(square) == 0 {
		return nil
	}
	head := "The square corners are joined"
	if len(square) == 1 {
		head = "The square corner is joined"
	}
	var out say.Sentence
	for i, s := range square {
		if i > 0 {
			out = append(out, say.Span{Text: "; "})
		}
		out = append(out, s...)
	}
	return say.F("{}: {}.", head, out)
}
