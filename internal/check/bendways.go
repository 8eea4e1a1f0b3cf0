package check

import (
	"fmt"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// stack judges a bend without kerfs: its ply on the former, the glue's time, and
// that a sheet bent cold must be held. The glue is told at the strip's first bend.
func stack(q *piece.Part, b *piece.Bend, first bool) []work.Finding {
	var out []work.Finding
	s := b.Stack
	for _, v := range s.Verdicts() {
		if v.Key == bend.KeyOpen && !first {
			continue // the glue of the whole strip is told once
		}
		f := work.Finding{ID: fmt.Sprintf("bend/%s/%s/%s", q.ID, b.Corner, v.Key), Rule: v.Rule, Verdict: verdict(v.Level),
			Value: trace.Const(v.Value), Limit: trace.Const(v.Limit), Unit: v.Unit, Part: q.ID, Path: b.Path, Chapter: "shell"}
		switch v.Key {
		case bend.KeyPly:
			f.Title = "radius of a ply, " + b.Corner
			f.Text = say.F("A ply of {} lies round the former at {}; {}: {}.", say.Len(s.Stack.Ply, 2), say.Len(v.Value, 1), limitOf(v), v.Why)
			f.Mends = plyMends(b, v)
		case bend.KeyOpen:
			f.Title = "time to spread the glue, " + b.Corner
			f.Text = say.F("{} lines of glue, {} m² in all, take {} to spread; {} are given: {}.", s.GlueLines, say.Num(s.GlueArea*1e-6, 2), say.Quantity{V: v.Value, Dim: units.Time},
				say.Quantity{V: v.Limit, Dim: units.Time}, v.Why)
			if v.Level != bend.Fine {
				f.Mends = []work.Mend{{Text: say.F("glue it in two goes: half the plies first, the others on them when they have cured")}, {Text: say.F("take a glue that stays open longer, or more hands")}}
			}
		case bend.KeyHold:
			f.Title = "held for good, " + b.Corner
			f.Text = say.F("It pulls with {} N·m: {}.", say.Num(v.Value/1000, 1), v.Why)
		}
		out = append(out, f)
	}
	return out
}

func limitOf(v bend.Verdict) say.Sentence {
	if v.Limit <= 0 {
		return say.F("no radius is published for it")
	}
	return say.F("{} at least is wanted", say.Len(v.Limit, 1))
}

// plyMends offers the radius at which the ply is as recommended.
func plyMends(b *piece.Bend, v bend.Verdict) []work.Mend {
	if v.Level == bend.Fine || v.Level == bend.NotCovered {
		return nil
	}
	out := []work.Mend{{Text: say.F("take a thinner ply, and more of them")}, {Text: say.F("soak the plies, bend them round the former, and glue them when they are dry"), Path: "body.bend.bent", New: "soaked"}}
	if r, ok := b.Stack.LeastOutside(); ok {
		out = append([]work.Mend{{Text: say.F("turn it at {} outside", say.Len(r, 0)), Path: b.Path + ".radius", New: fmt.Sprintf("%.0f mm", r+0.5)}}, out...)
	}
	return out
}

// sought says of a bend that cannot be made as it is written what binds it, and
// what would work: another blade or skin of the shop, else the nearest radius
// and the nearest blade.
func sought(in Input, q *piece.Part, b *piece.Bend) (work.Finding, bool) {
	s := b.Sought
	if s == nil || !stops(b.Plan) {
		return work.Finding{}, false
	}
	f := work.Finding{ID: fmt.Sprintf("bend/%s/%s/search", q.ID, b.Corner), Rule: "BEND-22", Verdict: work.Stop,
		Title: "what would work, " + b.Corner, Value: trace.Const(float64(b.Plan.Count)), Limit: trace.Const(float64(s.MostCount)), Unit: "1",
		Part: q.ID, Path: b.Path, Chapter: "shell"}
	t := s.Best
	switch {
	case t.Plan.Count == 0:
		f.Text = say.F("None of the shop’s saws reaches {} deep right across a strip of {}.", say.Len(b.Plan.Depth, 1), say.Len(b.Plan.Spec.Width, 0))
		return f, true
	case t.Fits():
		f.Text = say.F("As it is written this bend cannot be made. With the {} ({} wide), a skin of {} and {} kerfs it can.",
			t.Blade.Name, say.Len(t.Blade.Kerf, 2), say.Len(t.Plan.Spec.Skin, 1), t.Plan.Count)
		f.Mends = fitMends(in, b, t)
		return f, true
	}
	f.Text = say.F("No blade of the shop makes this bend, with any skin or count of kerfs. {} binds (rule {}). The best try is the {}, {} kerfs, a skin of {}; "+
		"the most kerfs that leave ribs of {} are {}.", upper(bindWords[s.Binds.Key]), s.Binds.Rule, t.Blade.Name, t.Plan.Count, say.Len(t.Plan.Spec.Skin, 1),
		say.Len(leastRib(t.Plan), 1), s.MostCount)
	f.Text = append(f.Text, nearest2(s)...)
	if s.Radius > 0 {
		f.Mends = append(f.Mends, work.Mend{Text: say.F("turn the corner at {} outside", say.Len(s.Radius, 0)), Path: b.Path + ".radius", New: fmt.Sprintf("%.0f mm", s.Radius)})
	}
	f.Mends = append(f.Mends, work.Mend{Text: say.F("bend it another way: thin plies, glued to each other on a former")})
	return f, true
}

func stops(p bend.Plan) bool {
	return slices.ContainsFunc(p.Verdicts(), func(v bend.Verdict) bool { return v.Level == bend.Stop })
}

// nearest2 says which radius and which blade would work.
func nearest2(s *bend.Sought) say.Sentence {
	var out say.Sentence
	if s.Radius > 0 {
		out = append(out, say.F(" At {} outside it works, with the {} and {} kerfs.", say.Len(s.Radius, 0), s.AtRadius.Blade.Name, s.AtRadius.Plan.Count)...)
	} else {
		out = append(out, say.F(" No larger radius helps.")...)
	}
	if s.Kerf > 0 {
		out = append(out, say.F(" At this radius a blade that cuts {} wide would do, with {} kerfs.", say.Len(s.Kerf, 1), s.AtKerf.Plan.Count)...)
	} else {
		out = append(out, say.F(" No width of blade helps at this radius.")...)
	}
	return out
}

var bindWords = map[string]string{
	bend.KeyMouth: "closing of the kerfs", bend.KeyStrain: "strain of the skin", bend.KeyFacet: "the flats on the show face",
	bend.KeyRib: "the width of the ribs", bend.KeyRail: "the fit on the rail", bend.KeySkin: "the spread of the skin",
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

func leastRib(p bend.Plan) float64 {
	for _, v := range p.Verdicts() {
		if v.Key == bend.KeyRib {
			return v.Limit
		}
	}
	return bend.DefaultRib
}

// fitMends write the search's answer into the piece file.
func fitMends(in Input, b *piece.Bend, t bend.Tried) []work.Mend {
	var out []work.Mend
	w := in.Design.Body.Bend
	if w.Saw == nil || w.Saw.Name != t.Blade.Name {
		out = append(out, work.Mend{Text: say.F("take the {}", t.Blade.Name), Path: "body.bend.saw", New: t.Blade.Name})
	}
	if h := t.Plan.Spec.Skin; h != b.Plan.Spec.Skin {
		out = append(out, work.Mend{Text: say.F("leave a skin of {}", say.Len(h, 1)), Path: "body.bend.skin", New: fmt.Sprintf("%.1f mm", h)})
	}
	if n := t.Plan.Count; n != b.Plan.Count {
		out = append(out, work.Mend{Text: say.F("cut {} kerfs", n), Path: "body.bend.kerfs", New: fmt.Sprint(n)})
	}
	return out
}

// innerPly judges the ply that is glued over the rib tips.
func innerPly(in Input, q *piece.Part, b *piece.Bend) (work.Finding, bool) {
	st := in.Design.Body.Bend.InnerPly.Stock
	if st == nil || b.Plan.Spec.Outside {
		return work.Finding{}, false
	}
	t := st.Thickness.Mean.V
	p, err := bend.NewStack(bend.Stack{Ply: t, Count: 1, Radius: b.RailRadius.V, Angle: b.Angle.V, Width: q.Width.V, GrainAlong: true, Soaked: in.Design.Body.Bend.Soaked})
	if err != nil {
		return work.Finding{}, false
	}
	v := p.Verdicts()[0]
	return work.Finding{ID: fmt.Sprintf("bend/%s/%s/inner ply", q.ID, b.Corner), Rule: v.Rule, Verdict: verdict(v.Level),
		Title: "radius of the inner ply, " + b.Corner, Value: trace.Const(v.Value), Limit: trace.Const(v.Limit), Unit: "mm", Part: q.ID, Path: "body.bend", Chapter: "shell",
		Text: say.F("The inner ply, {} thick, lies round the inside at {}; {}: {}.", say.Len(t, 2), say.Len(v.Value, 1), limitOf(v), v.Why)}, true
}

// tooLong says so where a strip does not come out of one sheet, and where a seam
// would part it: low before high, straight, clear of the bends.
func tooLong(in Input, q *piece.Part) (work.Finding, bool) {
	st := q.Stock
	if len(q.Bends) == 0 || st == nil || st.Stick {
		return work.Finding{}, false
	}
	room := st.Length
	if (q.Grain == piece.AlongLength) != (st.GrainAlong != "width") {
		room = st.Width
	}
	room = room.Sub(st.Trim.Scale(2))
	if q.BlankLength.V <= room.V || room.V <= 0 {
		return work.Finding{}, false
	}
	f := work.Finding{ID: "bend/" + q.ID + "/too long", Rule: "BEND-21", Verdict: work.Stop, Title: "a strip longer than its sheet",
		Value: q.BlankLength, Limit: room, Unit: "mm", Part: q.ID, Path: "body", Chapter: "shell",
		Text: say.F("{} is {} long with what is trimmed off last; a sheet of {} gives {}. It must be parted by a seam, on a straight stretch where it is least seen.",
			q.Name, say.LenN(q.BlankLength, 1), st.Name, say.LenN(room, 1))}
	if in.Design.Body.Bend.AcrossGrain {
		f.Mends = []work.Mend{{Text: say.F("turn the face grain round the bend"), Path: "body.bend.face grain", New: "round the bend"}}
	}
	if on, at, ok := seamFor(in, q, room.V); ok {
		f.Mends = append(f.Mends, work.Mend{Text: say.F("part it on the {}, {} from the left", on, say.Len(at, 0)), Path: "body.seams",
			New: fmt.Sprintf("[{on: %s, from: left, at: %.0f mm}]", on, at)})
	} else if len(f.Mends) == 0 {
		f.Text = append(f.Text, say.F(" No straight stretch between two bends lets both pieces come out of a sheet: use a longer sheet, or square corners.")...)
	}
	return f, true
}

// seamReach is how far a seam keeps from a bend, mm: half of its tongue and the
// room that a bend wants, as the reader of the piece file asks for.
const seamReach = 40

// seamFor finds a seam between two bends of a shell that is seen from the
// front: on the bottom before the top, as near to the left corner as lets both
// pieces come out of a sheet.
func seamFor(in Input, q *piece.Part, room float64) (on string, at float64, ok bool) {
	if q.InPlan() || in.Design.Body.Kind != design.BentShell {
		return "", 0, false
	}
	cs := in.Design.Body.Corners
	for _, m := range []struct{ on, left, right string }{{"bottom", design.BottomLeft, design.BottomRight}, {"top", design.TopLeft, design.TopRight}} {
		if !cs[m.left].Bent || !cs[m.right].Bent {
			continue
		}
		for i, b := range q.Bends {
			if i+1 >= len(q.Bends) || (b.Corner != m.left && b.Corner != m.right) || (q.Bends[i+1].Corner != m.left && q.Bends[i+1].Corner != m.right) {
				continue
			}
			from, to := b.Start.V+b.Length.V, q.Bends[i+1].Start.V
			over := q.BlankLength.V - q.Length.V
			x0, x1 := max(from+seamReach, q.Length.V-room+over), min(to-seamReach, room-over)
			if x0 > x1 {
				continue
			}
			left := cs[m.left].Radius.V // where the straight stretch begins, from the left
			if b.Corner == m.left {
				return m.on, left + x0 - from, true
			}
			return m.on, left + to - x1, true
		}
	}
	return "", 0, false
}
