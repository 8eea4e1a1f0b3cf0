package book

import (
	"fmt"
	"strings"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// setups lists the set-ups: as a table to see what follows on what, then as
// steps, a list for each tool with its cautions before it.
func (w *writer) setups() {
	ups := w.p.SetUps
	if len(ups) == 0 {
		return
	}
	w.head("setups", "Set-ups")
	w.say("setups how", w.setupsSentence(ups), "bits")
	w.table(w.setupTable(ups))
	warned := map[string]bool{}
	for i := 0; i < len(ups); {
		k := i
		for k < len(ups) && sameTool(ups[i], ups[k]) {
			k++
		}
		for _, c := range cautionsFor(ups[i:k]) {
			if !warned[c.key] {
				warned[c.key] = true
				w.caution(c)
			}
		}
		var list []act
		told := i // the set-up whose runs were last told
		for n := i; n < k; n++ {
			if !sameSlot(ups[told], ups[n]) {
				told = n
			}
			list = append(list, w.setupAct(ups[n], ups[told].Number))
		}
		w.actsFrom(ups[i].Number, "setup steps "+digits(ups[i].Number), setupTitle(ups[i]), list)
		i = k
	}
}

func (w *writer) setupsSentence(ups []work.SetUp) say.Sentence {
	changes := 1
	for i := 1; i < len(ups); i++ {
		if !sameTool(ups[i-1], ups[i]) {
			changes++
		}
	}
	s := say.F("{}, in {} of a tool, bit or drill. A set-up is one cutter at one depth from one stop: make all its cuts before you touch it.",
		plural(len(ups), "set-up", "set-ups"), plural(changes, "change", "changes"))
	if len(w.p.Tests) > 0 {
		s = join(s, say.F("Cut the test pieces of ‘{}’ with the set-up that they name, just before its parts.", w.chapterTitle("test")))
	}
	return s
}

// sameTool tells whether two set-ups follow without a change of tool or bit.
func sameTool(a, b work.SetUp) bool {
	return a.Tool == b.Tool && a.With == b.With && a.Cutter.V == b.Cutter.V && late(a) == late(b)
}

func late(u work.SetUp) bool { return len(u.Cuts) > 0 && u.Cuts[0].Late }

// cautionsFor are the cautions of what a run of set-ups must mind; those of
// kerfs stand where it is told how they are cut.
func cautionsFor(ups []work.SetUp) []warning {
	var out []warning
	for _, u := range ups {
		if u.Kind != "kerfs" {
			out = append(out, warningsOf(u.Mind)...)
		}
	}
	return out
}

func setupTitle(u work.SetUp) string {
	t := upper(string(u.Tool))
	switch {
	case u.Tool == work.Saw && u.With != "":
		t = upper(u.With)
	case u.With != "":
		t += ", " + u.With
	case u.Tool == work.Drill:
		t += fmt.Sprintf(" %g mm", u.Cutter.V) // as drills are sold and marked
	case u.Kind == "edges":
		t += ", " + edgeBit(u)
	case u.Missing:
		t += ", no bit in the shop"
	}
	if late(u) {
		t += ": late, once the opening is measured"
	}
	return t
}

// setupTable is the order of the set-ups at a glance.
func (w *writer) setupTable(ups []work.SetUp) table.Table {
	t := table.Table{Key: "set-ups", Caption: "Set-ups, in their order", Columns: []table.Column{table.Numbers("no.", units.Count), table.Names("makes"),
		table.Words("with"), table.Numbers("deep", units.Length), table.Numbers("set to", units.Length), table.Words("from"),
		table.Numbers("cuts", units.Count), table.Words("on parts")},
		Note: "Set to: from there to the near side of the cut, of a hole to its centre. Own end and own edge are those that a rabbet opens to: it is set to its inner side."}
	for _, u := range ups {
		deep, set := table.T("through"), table.Cell{}
		if !u.Through {
			deep = table.Q(say.LenN(u.Depth, onSteel).Plain())
		}
		if u.Stop.V > 0 {
			set = table.Q(say.LenN(u.Stop, onSteel).Plain())
		}
		t.Rows = append(t.Rows, table.Row{ID: "set-up " + digits(u.Number), Cells: []table.Cell{table.Count(u.Number), table.T(u.Kind), table.T(setupTool(u)),
			deep, set, table.T(u.From), table.Count(cutsOf(u)), table.T(w.setupParts(u))}})
	}
	return t
}

// edgeBit is what breaks the edges.
func edgeBit(u work.SetUp) string {
	if len(u.Cuts) > 0 && u.Cuts[0].For == "chamfered" {
		return "chamfer bit"
	}
	return "rounding bit"
}

func setupTool(u work.SetUp) string {
	switch {
	case u.Missing:
		return "none in the shop"
	case u.With != "":
		return u.With
	case u.Kind == "edges":
		return edgeBit(u)
	case u.Tool == work.Drill:
		return fmt.Sprintf("drill %g", u.Cutter.V)
	}
	return string(u.Tool)
}

// cutsOf counts the cuts, and of a row its holes.
func cutsOf(u work.SetUp) int {
	n := 0
	for _, c := range u.Cuts {
		n += c.Count
	}
	return n
}

// setupParts are the numbers of the parts, with the face: '1 B, 4 A'.
func (w *writer) setupParts(u work.SetUp) string {
	out, last := "", ""
	for _, c := range u.Cuts {
		s := digits(w.numbers[c.Part])
		if c.Face != "" && !u.Through {
			s += " " + c.Face
		}
		if s == last {
			continue
		}
		if last = s; out != "" {
			out += ", "
		}
		out += s
	}
	return out
}

// sameSlot tells whether two set-ups cut slots of one width and depth.
func sameSlot(a, b work.SetUp) bool {
	return a.Kind == b.Kind && near(a.Width.V, b.Width.V) && near(a.Depth.V, b.Depth.V)
}

// setupAct says what to set, and below it each part; runs that were told with
// another set-up are not told again.
func (w *writer) setupAct(u work.SetUp, told int) act {
	a := act{text: join(w.setting(u), w.blockFor(u))}
	if u.Tool == work.Router || u.NotThrough && u.Kind != "kerfs" {
		runs := w.runs(u)
		if told != u.Number && len(runs) > 0 {
			runs = say.F("Runs as in set-up {}.", number(told))
		}
		a.text = join(a.text, runs)
	}
	for i := 0; i < len(u.Cuts); {
		k := i + 1
		for k < len(u.Cuts) && u.Cuts[k].Part == u.Cuts[i].Part && u.Cuts[k].Face == u.Cuts[i].Face {
			k++
		}
		a.notes = append(a.notes, w.setupCuts(u, u.Cuts[i:k]))
		i = k
	}
	if m := mindNote(u.Mind...); len(m) > 0 {
		a.notes = append(a.notes, m)
	}
	return a
}

// blockFor names the template that leads the drill in a set-up.
func (w *writer) blockFor(u work.SetUp) say.Sentence {
	if u.Kind != "holes" || len(u.Cuts) == 0 {
		return nil
	}
	switch what := u.Cuts[0].For; {
	case strings.HasPrefix(what, "dowels of "):
		return say.F("The drilling block for dowels of {} among the templates leads the drill.", say.LenN(u.Cutter, written(u.Cutter.V)))
	case strings.HasPrefix(what, "shelf pins "):
		return say.F("The drilling template for shelf pins and its spacer blocks, among the templates, set the row.")
	}
	return nil
}

// spare is what is left outside a line for the template to take off: 2 to 3 mm
// by common practice.
var spare = say.Len(2.5, 1)

// setting is what is set for a set-up.
func (w *writer) setting(u work.SetUp) say.Sentence {
	stop, depth := say.LenN(u.Stop, onSteel), say.LenN(u.Depth, onSteel)
	switch u.Kind {
	case "square the end":
		return say.F("Square the datum end, a hair inside the blank. All is measured from it.")
	case "trim":
		if u.Stop.V <= 0 {
			return say.F("Trim the ends flush with the shelf, after the glue.")
		}
		return say.F("Trim to {} from the datum end, last of all.", say.LenN(u.Stop, onWood))
	case "bevel":
		blade := say.F("Blade tilted {}", say.Angle(u.Tilt.V, 1))
		if u.Tilt.V < 0.001 {
			blade = say.F("Blade upright")
		}
		return say.F("{}, mitre gauge turned {} from square; {} between the long points. Prove it on a scrap.", blade, say.Angle(u.Mitre.V, 1), say.LenN(u.Stop, onWood))
	case "holes":
		if u.Through && u.Sink.V > 0 {
			return say.F("Through holes of {}, {} from {}, countersunk to {}. Back the work with a scrap.", say.LenN(u.Cutter, written(u.Cutter.V)), stop, fromWord(u.From),
				say.LenN(u.Sink, 1))
		}
		if u.Through {
			return say.F("Through holes of {}, {} from {}. Back the work with a scrap.", say.LenN(u.Cutter, written(u.Cutter.V)), stop, fromWord(u.From))
		}
		return say.F("Holes of {}, {} deep, {} from {}.", say.LenN(u.Cutter, written(u.Cutter.V)), depth, stop, fromWord(u.From))
	case "notch":
		return say.F("Notches of {} along by {} across. Mark with a gauge, saw, pare to the line.", stop, say.LenN(u.Width, onSteel))
	case "outline":
		if u.Width.V <= 0 {
			return say.F("Saw {} outside the line, trim to a template.", spare)
		}
		return say.F("Round the corners to {}: saw {} outside the line, trim to a template.", say.LenN(u.Width, onWood), spare)
	case "edges":
		how := "rounded to"
		if edgeBit(u) == "chamfer bit" {
			how = "chamfered by"
		}
		return say.F("Edges that can be reached {} {}, with a bit that runs on its bearing: the body once it is glued up, doors, drawers and loose shelves by themselves. "+
			"No edge that lies in a joint or against another part; try it on an offcut.", how, say.LenN(u.Width, onSteel))
	case "window":
		return say.F("The window: from {} on, {} high. Bore its corners, saw {} inside the line, trim to a template, while the strip is flat.", stop, say.LenN(u.Width, onWood), spare)
	case "kerfs":
		return say.F("{} deep, the places of the table in ‘{}’, first at {}. Read its caution first.", depth, w.chapterTitle("bend"), stop)
	}
	return say.F("{} {} wide, {} deep, {} from {}.", upper(u.Kind), say.LenN(u.Width, onSteel).Plain(), depth.Plain(), stop, fromWord(u.From))
}

// runs says in how many passes a slot is made.
func (w *writer) runs(u work.SetUp) say.Sentence {
	if u.Missing {
		return say.F("No cutter of the shop makes it.")
	}
	var s say.Sentence
	if u.Across > 1 {
		s = say.F("{} side by side, together {} more than the bit", plural(u.Across, "run", "runs"), say.Len(u.Width.V-u.Cutter.V, onSteel))
	}
	if u.Deep > 1 {
		deep := plural(u.Deep, "pass", "passes")
		if len(s) == 0 {
			s = say.F("{} to the depth", deep)
		} else {
			s = say.F("{}, each in {}", s, deep)
		}
	}
	if len(s) == 0 {
		return nil
	}
	return say.F("{}.", s)
}

// fromWords say from where a slot is set.
var fromWords = map[string]string{"datum end": "the datum end", "datum edge": "the datum edge", "own end": "the end that it opens to",
	"own edge": "the edge that it opens to", "face B": "face B"}

func fromWord(from string) string {
	if s, ok := fromWords[from]; ok {
		return s
	}
	return "the " + from
}

// setupCuts is what a set-up does on one face of one part.
func (w *writer) setupCuts(u work.SetUp, cuts []work.SetUpCut) say.Sentence {
	q := w.pc.Part(cuts[0].Part)
	if q == nil {
		return say.F("{}", cuts[0].Part)
	}
	s := w.partRef(q)
	if cuts[0].Face != "" && !u.Through {
		s = say.F("{}, face {}", s, cuts[0].Face)
	}
	for i, c := range cuts {
		sep := ": "
		if i > 0 {
			sep = "; "
		}
		if d := w.setupPlace(u, c); len(d) > 0 {
			s = say.F("{}{}{}", s, sep, d)
		}
	}
	return s
}

// setupPlace is where one cut of a set-up lies along the fence, and what it is
// for.
func (w *writer) setupPlace(u work.SetUp, c work.SetUpCut) say.Sentence {
	what := w.forWords(c.For)
	at, to := say.LenN(c.From, onWood), say.LenN(c.To, onWood)
	switch {
	case u.Kind == "holes" && c.Count > 1:
		return say.F("{} holes from {}, every {}, {}", number(c.Count), at.Plain(), say.LenN(c.Step, onWood), what)
	case u.Kind == "holes":
		return say.F("at {}, {}", at, what)
	case u.Kind == "notch":
		return say.F("from {} to {}, {}", at.Plain(), to, what)
	case u.Kind == "kerfs":
		return say.F("{} kerfs", number(c.Count))
	case c.StopFrom && c.StopTo:
		return say.F("{}, from {} to {}, both ends squared", what, at.Plain(), to)
	case c.StopFrom:
		return say.F("{}, stopped at {}, squared there", what, at)
	case c.StopTo:
		return say.F("{}, stopped at {}, squared there", what, to)
	}
	return what
}

// forWords says what a cut is for: a part by its name.
func (w *writer) forWords(s string) say.Sentence {
	if s == "" {
		return nil
	}
	if q := w.pc.Part(s); q != nil {
		return say.F("for {}", w.partRef(q))
	}
	return say.Sentence{{Text: s}}
}

// setupNumber is the set-up that makes the cut, or the kerfs of the bend, with
// the id, or 0.
func (w *writer) setupNumber(id string) int {
	for _, u := range w.p.SetUps {
		for _, c := range u.Cuts {
			if c.Cut == id {
				return u.Number
			}
		}
	}
	return 0
}

// kerfedUp says which face of a strip lies up under the saw.
func kerfedUp(q *piece.Part, kind, depthFrom string) say.Sentence {
	show, in := q.NameA, q.NameB
	if show == "" {
		show, in = "show face", "inside face"
	}
	if kind == "table saw" && depthFrom != "show face" {
		return say.F("Face B, the {}, lies down on the table, face A, the {}, up.", in, show)
	}
	return say.F("Face A, the {}, lies down on a clean bench; face B, the {}, is up.", show, in)
}
