package check

import (
	"rodwork/internal/cite"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Limits of pegs: the share of the wood's thickness that a dowel or a tenon may
// take, how many of its diameters the first stands from an end, and what a blind
// hole leaves before the far face, mm.
const (
	leastPeg   = 1.0 / 3
	mostPeg    = 0.5
	pegMargin  = 0.005
	pegEnd     = 2.0
	pegsLeave  = 3.0
	leastSkins = 2.0 // of wood on both sides of a peg, together, under which it splits out
)

// PegRule tells how fat a dowel or a loose tenon may be.
var PegRule = &cite.Rule{
	ID:       "PEG-01",
	Title:    "Thickness of a dowel or loose tenon",
	Question: "How fat may a dowel or a loose tenon be in the edge or end that it goes into, and how far from its ends does it stand?",
	Formula:  "share = d / t; ends = e / d",
	Symbols: []cite.Symbol{
		{Letter: "d", Name: "diameter", Meaning: "diameter of the dowel, thickness of the tenon", Unit: "mm", Min: 1, Max: 60, Why: "dowels that are sold"},
		{Letter: "t", Name: "thick", Meaning: "thickness of the wood that is bored into its edge or end, as measured", Unit: "mm", Min: 3, Max: 200, Why: "furniture"},
		{Letter: "e", Name: "end", Meaning: "from the wood's end or edge, along the joint, to the peg's centre", Unit: "mm", Min: 0, Max: 5000, Why: "a joint"},
	},
	Sources: []cite.Source{
		{Text: "V. Záborský et al., BioResources 14(1), 2019", Locator: "p. 1127: joints with pegs of a third and of half the thickness are compared", Label: cite.Read},
		{Text: "a third to a half of the thinner board, the lower half of that for end grain; two diameters from an end", Label: cite.Practice},
	},
	Assumes:  []string{"the peg lies in the middle of the thickness", "no strength is computed; a leaner peg is weaker, a fatter one leaves walls that split"},
	Accuracy: "a rule of proportion",
	Remedies: []string{"another diameter", "thicker stock", "fewer pegs, further from the ends"},
	Example: cite.Example{
		In: map[string]float64{"diameter": 8, "thick": 18, "end": 24}, Out: map[string]float64{"share": 0.44444, "ends": 3}, From: "by hand: 8/18, 24/8",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "share", Unit: "1", Value: in["diameter"] / in["thick"]}, {Name: "ends", Unit: "1", Value: in["end"] / in["diameter"]}}
	},
}

// BlindRule tells what a blind hole leaves.
var BlindRule = &cite.Rule{
	ID:       "PEG-02",
	Title:    "A blind hole and the far face",
	Question: "What is left before the far face where a dowel's hole ends, or a screw's point?",
	Formula:  "left = t − h",
	Symbols: []cite.Symbol{
		{Letter: "t", Name: "thick", Meaning: "thickness of the wood, as measured", Unit: "mm", Min: 0.5, Max: 2000, Why: "furniture"},
		{Letter: "h", Name: "deep", Meaning: "depth of the hole, or how far the screw goes in", Unit: "mm", Min: 0, Max: 2000, Why: "furniture"},
	},
	Sources:  []cite.Source{{Text: "subtraction; that 3 mm should be left, so that neither the drill’s point nor glue shows, is a habit", Label: cite.Practice}},
	Assumes:  []string{"the depth stop holds", "a drill with a centre point reaches a millimetre or two deeper than its edge"},
	Accuracy: "as good as the depth stop",
	Remedies: []string{"a shorter peg or screw", "a hole less deep here, and deeper in the other part"},
	Example: cite.Example{
		In: map[string]float64{"thick": 17.7, "deep": 13}, Out: map[string]float64{"left": 4.7}, From: "by hand",
	},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "left", Unit: "mm", Value: in["thick"] - in["deep"]}}
	},
}

// pegs holds every dowel, tenon and screw against the wood that it goes into.
func pegs(in Input) []work.Finding {
	var out []work.Finding
	right, least := 0, trace.Num{}
	for i := range in.Piece.Joints {
		j := &in.Piece.Joints[i]
		if j.Pegs == nil {
			if j.Kind == "screwed" {
				out = append(out, unplaced(in, j))
			}
			continue
		}
		bad := pegFindings(in, j)
		if len(bad) > 0 {
			out = append(out, bad...)
			continue
		}
		right += j.Pegs.Count
		if left, ok := leftBehind(in, j); ok && (least.V == 0 || left.V < least.V) {
			least = left
		}
	}
	if right > 0 {
		out = append(out, work.Finding{ID: "pegs", Rule: BlindRule.ID, Verdict: work.Fine, Title: "dowels, tenons and screws", Value: least, Limit: trace.Const(pegsLeave),
			Unit: "mm", Path: "joints", Chapter: "join",
			Text: say.F("{} dowels, loose tenons and screws lie in wood enough: none comes through, none is too fat for it.", right)})
	}
	return out
}

func unplaced(in Input, j *piece.Joint) work.Finding {
	return work.Finding{ID: "pegs/" + j.ID, Rule: BlindRule.ID, Verdict: work.Look, Title: "no place for a screw", Unit: "mm", Limit: trace.Const(pegsLeave),
		Part: j.B, Path: j.Path, Chapter: "join",
		Text:  say.F("{} is to be screwed to {}, and no place was found where a screw has wood enough in both: find it on the bench, or hold it otherwise.", name(in, j.B), name(in, j.A)),
		Mends: []work.Mend{{Text: say.F("write another joint for the two under ‘joints’")}}}
}

func name(in Input, id string) say.Span {
	if q := in.Piece.Part(id); q != nil {
		return say.Name(q.Name)
	}
	return say.Name(id)
}

// pegFindings are what is wrong with the pegs of one joint.
func pegFindings(in Input, j *piece.Joint) []work.Finding {
	var out []work.Finding
	f := work.Finding{Verdict: work.Look, Part: j.B, Path: j.Path, Chapter: "join"}
	if share, t, ok := pegShare(in, j); ok && (share.V < leastPeg-pegMargin || share.V > mostPeg+pegMargin) {
		x := f
		x.ID, x.Rule, x.Title, x.Value, x.Limit, x.Unit = "pegs/"+j.ID+"/thick", PegRule.ID, "a "+j.Pegs.Kind+" for the wood", share, trace.Const(mostPeg), "1"
		words := "it leaves thin walls beside it"
		if share.V < leastPeg {
			words, x.Limit = "a fatter one would hold more", trace.Const(leastPeg)
		}
		if t.V-j.Pegs.Diameter.V < leastSkins {
			x.Verdict, words = work.Stop, "the walls beside it would split"
		}
		x.Text = say.F("The {} between {} and {} takes {} of {} of wood, {}: {}.", j.Pegs.Kind, name(in, j.B), name(in, j.A), say.LenN(j.Pegs.Diameter, 1),
			say.LenN(t, 1), say.Percent(share.V, 0), words)
		x.Mends = []work.Mend{{Text: say.F("choose one between a third and half of the thickness: {} to {}", say.Len(t.V/3, 1), say.Len(t.V/2, 1))}}
		out = append(out, x)
	}
	if near, ok := pegEnds(in, j); ok && near.V < pegEnd-1e-6 {
		x := f
		x.ID, x.Rule, x.Title, x.Value, x.Limit, x.Unit = "pegs/"+j.ID+"/end", PegRule.ID, "a "+j.Pegs.Kind+" near the end", near, trace.Const(pegEnd), "1"
		x.Text = say.F("The first {} between {} and {} stands {} of its diameters from the end of the joint; {} should stand there.", j.Pegs.Kind, name(in, j.B), name(in, j.A),
			say.Num(near.V, 1), say.Num(pegEnd, 0))
		x.Mends = []work.Mend{{Text: say.F("have fewer of them, or leaner ones")}}
		out = append(out, x)
	}
	if left, ok := leftBehind(in, j); ok && left.V < pegsLeave-1e-6 {
		x := f
		x.ID, x.Rule, x.Title, x.Value, x.Limit, x.Unit = "pegs/"+j.ID+"/through", BlindRule.ID, "what a "+j.Pegs.Kind+" leaves", left, trace.Const(pegsLeave), "mm"
		x.Text = say.F("Where {} meets {} a hole leaves {} before the far face.", name(in, j.B), name(in, j.A), say.LenN(left, 1))
		if left.V <= 0 {
			x.Verdict = work.Stop
			x.Text = say.F("Where {} meets {} a {} comes through the far face.", name(in, j.B), name(in, j.A), j.Pegs.Kind)
		}
		x.Mends = []work.Mend{{Text: say.F("take a {} that is {} shorter", j.Pegs.Kind, say.Len(pegsLeave-left.V, 1))}}
		out = append(out, x)
	}
	if head := in.Piece.Part(j.Pegs.Head); head != nil && headsShow(head, j) {
		x := f
		x.ID, x.Rule, x.Title, x.Unit, x.Part = "pegs/"+j.ID+"/show", BlindRule.ID, "screws in a show face", "mm", head.ID
		x.Text = say.F("The heads of {} screws into {} lie in the show face of {}.", j.Pegs.Count, name(in, other(j, head.ID)), say.Name(head.Name))
		x.Mends = []work.Mend{{Text: say.F("hold it by dowels, from inside: {}", "kind: dowel")}, {Text: say.F("sink the heads and plug them")}}
		out = append(out, x)
	}
	return out
}

func other(j *piece.Joint, id string) string {
	if j.A == id {
		return j.B
	}
	return j.A
}

// holesOf are the cuts of a joint's pegs in one of its parts.
func holesOf(q *piece.Part, j *piece.Joint) []*piece.Cut {
	var out []*piece.Cut
	for i := range q.Cuts {
		if q.Cuts[i].For == j.Pegs.Kind+"s of "+j.ID {
			out = append(out, &q.Cuts[i])
		}
	}
	return out
}

// pegShare is the greatest share of a thickness that a dowel or a tenon takes in
// an edge or an end, and that thickness.
func pegShare(in Input, j *piece.Joint) (share, thick trace.Num, ok bool) {
	if j.Pegs.Kind == "screw" {
		return share, thick, false
	}
	for _, id := range []string{j.A, j.B} {
		q := in.Piece.Part(id)
		for _, c := range holesOf(q, j) {
			if s := j.Pegs.Diameter.Div(q.Thick); c.Face.Narrow() && s.V > share.V {
				share, thick, ok = s, q.Thick, true
			}
		}
	}
	return share, thick, ok
}

// pegEnds is how many of its diameters the outermost dowel stands from the end
// of the edge that it is bored into.
func pegEnds(in Input, j *piece.Joint) (near trace.Num, ok bool) {
	if j.Pegs.Kind != "dowel" {
		return near, false
	}
	for _, id := range []string{j.A, j.B} {
		q := in.Piece.Part(id)
		for _, c := range holesOf(q, j) {
			size := q.Width
			if c.Face == piece.EdgeLow || c.Face == piece.EdgeHigh {
				size = q.Length
			}
			if !c.Face.Narrow() {
				continue
			}
			for _, x := range []trace.Num{c.X0, c.X0.Add(c.StepX.Scale(float64(max(c.Count, 1) - 1)))} {
				for _, e := range []trace.Num{x, size.Sub(x)} {
					if n := e.Div(j.Pegs.Diameter); !ok || n.V < near.V {
						near, ok = n, true
					}
				}
			}
		}
	}
	return near, ok
}

// leftBehind is the least that a blind hole of a joint leaves before the far
// face.
func leftBehind(in Input, j *piece.Joint) (left trace.Num, ok bool) {
	for _, id := range []string{j.A, j.B} {
		q := in.Piece.Part(id)
		for _, c := range holesOf(q, j) {
			if c.Through || c.Face.Narrow() {
				continue
			}
			if l := q.Thick.Sub(c.Depth); !ok || l.V < left.V {
				left, ok = l, true
			}
		}
	}
	return left, ok
}

// headsShow tells whether a screw's head lies in a face that is seen.
func headsShow(head *piece.Part, j *piece.Joint) bool {
	for _, c := range holesOf(head, j) {
		if c.Face == head.Show && c.Sink.V > 0 {
			return true
		}
	}
	return false
}

// crossing finds, of each part, the two cuts that come nearest to each other in
// its wood where one of them is made from an edge or an end: such holes meet
// others that are bored from elsewhere.
func crossing(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		var a, b *piece.Cut
		web := leastWeb
		for i := range q.Cuts {
			for k := i + 1; k < len(q.Cuts); k++ {
				c, d := &q.Cuts[i], &q.Cuts[k]
				if !c.Face.Narrow() && !d.Face.Narrow() || c.Kind == piece.Notch || d.Kind == piece.Notch {
					continue
				}
				if w := piece.Between(q, c, d); w < web-1e-6 {
					web, a, b = w, c, d
				}
			}
		}
		if a == nil {
			continue
		}
		f := work.Finding{ID: "cross/" + q.ID, Rule: WebRule.ID, Verdict: work.Look, Title: "holes that come near each other in the wood",
			Value: trace.Step(web, a.X0, a.Y0, b.X0, b.Y0, a.Depth, b.Depth), Limit: trace.Const(leastWeb), Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "join",
			Text:  say.F("In {} a {} ({}) and a {} ({}), made from different faces, leave {} of wood between them.", say.Name(q.Name), cutWord(a), a.For, cutWord(b), b.For, say.Len(web, 1)),
			Mends: []work.Mend{{Text: say.F("move one of them by {}", say.Len(leastWeb-web, 1))}, {Text: say.F("bore one of them less deep")}}}
		if web <= 0 {
			f.Verdict = work.Stop
			f.Text = say.F("In {} a {} ({}) and a {} ({}), made from different faces, run into each other.", say.Name(q.Name), cutWord(a), a.For, cutWord(b), b.For)
		}
		out = append(out, f)
	}
	return out
}
