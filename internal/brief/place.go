package brief

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// placeFindings tells whether the piece goes where it is to stand: its outside
// against the place, and its foot against the skirting.
func placeFindings(p *piece.Piece, d *design.Design) []work.Finding {
	pl := d.Brief.Place
	off := standOff(p, d)
	var out []work.Finding
	for _, m := range []struct {
		word, size string
		has        trace.Num
		room       *trace.Num
	}{
		{"width", "body.width", p.Width, pl.Width},
		{"height", "body.height", p.Height, pl.Height},
		{"depth", "body.depth", p.Depth.Add(off), pl.Depth},
	} {
		if m.room != nil {
			out = append(out, sizeFinding(d, m.word, m.size, m.has, *m.room))
		}
	}
	if pl.SkirtingHigh != nil && d.Base.Kind != "wall" {
		out = append(out, skirtingFinding(p, d, off))
	}
	return out
}

func sizeFinding(d *design.Design, word, size string, has, room trace.Num) work.Finding {
	path := "brief.place." + word
	f := work.Finding{
		ID: "place/" + word, Rule: PlaceRule.ID, Verdict: work.Fine, Title: word + " of its place",
		Value: has, Limit: room, Unit: "mm", Path: path, At: d.At(path), Chapter: "brief",
		Text: say.F("The {} of the piece is {}, of its place {}.", word, say.LenN(has, 0), say.LenN(room, 0)),
	}
	over := has.V - room.V
	if over > 0 {
		f.Verdict = work.Stop
		f.Text = say.F("It needs {} of {}, the place has {}: {} too much.", say.LenN(has, 0), word, say.LenN(room, 0), say.Len(over, 1))
		f.Mends = []work.Mend{{Text: say.F("make it {} smaller in {}", say.Len(over, 1), word), Path: sizePath(d, word, size)}}
		if v, ok := smaller(d, word, over); ok {
			f.Mends[0].New = v
		}
	}
	return f
}

// sizePath is where the size that sets a body's measure is written: the named
// size where the body is one plain name, else the body's own field.
func sizePath(d *design.Design, word, field string) string {
	for _, s := range d.Sizes {
		if s.Name == word && !s.Formula {
			return s.Path
		}
	}
	return field
}

// smaller is the new text for a size that must lose 'over', in whole mm; only
// where the size is a written length of that name.
func smaller(d *design.Design, word string, over float64) (string, bool) {
	for _, s := range d.Sizes {
		if s.Name == word && !s.Formula && s.Num.V > over {
			return fmt.Sprintf("%d mm", int(s.Num.V-over)), true
		}
	}
	return "", false
}

// standOff is how far the skirting keeps the piece from the wall: nothing where
// the foot clears it, its depth where it meets the piece.
func standOff(p *piece.Piece, d *design.Design) trace.Num {
	pl := d.Brief.Place
	if pl.SkirtingHigh == nil || pl.SkirtingDeep == nil || d.Base.Kind == "wall" {
		return trace.Num{}
	}
	free, high := behind(p, d)
	if high.V >= pl.SkirtingHigh.V && free.V >= pl.SkirtingDeep.V {
		return trace.Num{}
	}
	off := *pl.SkirtingDeep
	if high.V >= pl.SkirtingHigh.V { // only the foot meets it
		off = pl.SkirtingDeep.Sub(free)
	}
	return off.DecidedBy(high, *pl.SkirtingHigh)
}

// behind tells how much room the base leaves behind it and how high.
func behind(p *piece.Piece, d *design.Design) (free, high trace.Num) {
	if d.Base.Kind != "plinth" && d.Base.Kind != "feet" {
		return trace.Num{}, trace.Num{}
	}
	high = d.Base.Height
	first := true
	for _, q := range p.Parts {
		if q.Role != piece.Plinth {
			continue
		}
		if lo, _ := span(q, 2); first || lo.V < free.V {
			free, first = lo, false
		}
	}
	return free, high
}

func skirtingFinding(p *piece.Piece, d *design.Design, off trace.Num) work.Finding {
	pl := d.Brief.Place
	free, high := behind(p, d)
	path := "brief.place.skirting"
	f := work.Finding{
		ID: "place/skirting", Rule: PlaceRule.ID, Verdict: work.Fine, Title: "skirting",
		Value: high, Limit: *pl.SkirtingHigh, Unit: "mm", Path: path, At: d.At(path), Chapter: "brief",
		Text: say.F("The base is {} high and leaves {} behind it: the skirting of {} passes below, and the piece stands against the wall.",
			say.LenN(high, 0), say.LenN(free, 0), say.LenN(*pl.SkirtingHigh, 0)),
	}
	if off.V <= 0 {
		return f
	}
	f.Verdict = work.Look
	f.Text = say.F("The skirting, {} high, keeps the piece {} from the wall.", say.LenN(*pl.SkirtingHigh, 0), say.LenN(off, 0))
	if d.Base.Kind == "plinth" && high.V < pl.SkirtingHigh.V {
		f.Mends = append(f.Mends, work.Mend{
			Text: say.F("raise the plinth to clear it"), Path: "base.height", New: fmt.Sprintf("%.0f mm", pl.SkirtingHigh.V+5),
		})
	}
	f.Mends = append(f.Mends, work.Mend{Text: say.F("notch the rear edges round the skirting, as it really is (scribe them)")})
	return f
}
