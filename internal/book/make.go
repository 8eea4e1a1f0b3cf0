package book

import (
	"slices"

	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/template"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Options is how the reader wants the book.
type Options struct {
	System units.System // "" is the piece file's own
	// Old is an earlier book of the same piece, for a reader who waits: figures
	// that Draw has no need of are taken from it as they were and marked as
	// behind. Where it has none of a group, that is drawn whatever Draw says.
	Old *Book
	// Draw tells by the id of its block whether a figure is to be drawn anew, and
	// a block reckoned anew that takes long; nil is: all of them.
	Draw func(id string) bool
	// Model is set for a reader who can turn a model of the piece: its data are
	// put with the picture of the whole.
	Model bool
}

// Make writes the book of a plan. The plan may be incomplete, as one made from
// a file with errors is: what is not known is left out.
func Make(p *plan.Plan, opt Options) *Book {
	w := newWriter(p, opt)
	b := &Book{Title: w.d.Name, System: w.sys, Currency: w.d.Currency, Lead: w.lead(), Formulas: formulas(w.d), drawn: w.groups, sections: w.sections}
	if b.Title == "" {
		b.Title = "A piece without a name"
	}
	for i, c := range w.chapters() {
		w.blocks, w.key = nil, c.key
		c.write()
		w.notYet(c.key)
		blocks := w.withFindings(c.key, w.blocks)
		b.Chapters = append(b.Chapters, Chapter{Key: c.key, Number: i + 1, Title: c.title, Blocks: blocks})
	}
	return b
}

// formulas are the written values of both files that are formulas, by path.
func formulas(d *design.Design) map[string]string {
	out := map[string]string{}
	for _, v := range d.Written {
		if v.Formula {
			out[v.Path] = v.Text
		}
	}
	if d.Shop != nil {
		for _, v := range d.Shop.Written {
			if v.Formula {
				out[v.Path] = v.Text
			}
		}
	}
	return out
}

// chapter is one to be written.
type chapter struct {
	key, title string
	write      func()
}

// chapters are all of them, in the order of the work.
func (w *writer) chapters() []chapter {
	return []chapter{
		{"brief", "The brief", w.brief},
		{"piece", "The piece", w.piece},
		{"shell", w.shellTitle(), w.shell},
		{"inside", "Inside", w.inside},
		{"fronts", "Doors and drawers", w.fronts},
		{"before", "Before cutting", w.before},
		{"buy", "What to buy", w.buy},
		{"cut", "Cut", w.cut},
		{"test", "Test pieces", w.trials},
		{"bend", "Bend", w.bend},
		{"join", "Join", w.joints},
		{"finish", "Sand and finish", w.finishing},
		{"assemble", "Assemble", w.assemble},
		{"hang", "Hang and anchor", w.hang},
		{"living", "Living with it", w.living},
		{"check", "Check", w.check},
		{"sources", "Where these numbers come from", w.sources},
	}
}

func (w *writer) chapterTitle(key string) string {
	for _, c := range w.chapters() {
		if c.key == key {
			return c.title
		}
	}
	return ""
}

// writer gathers the blocks of one chapter after another.
type writer struct {
	p       *plan.Plan
	d       *design.Design
	pc      *piece.Piece
	sys     units.System
	rules   map[string]*cite.Rule
	uses    map[string]int      // rule id -> findings that rest on it
	shown   map[string]bool     // paths that a sentence has shown
	numbers map[string]int      // part id -> number
	inputs  map[string]bool     // paths of the ledger's inputs
	owned   map[string][]string // ledger ids by what stands before their last slash
	about   map[string][]string // block id -> part ids and paths that it shows
	key     string              // of the chapter in hand
	blocks  []Block
	figure  int
	opt     Options
	groups  map[string]group // of figures, by name
	// sections are runs of blocks that take long, by name.
	sections map[string]section
	behind   map[string]bool // keys of leaves that are those of the older book
}

// withTemplates returns the plan with what its full-size templates find among its
// findings: they are drawn by the book's neighbour, and a plan does not know them.
func withTemplates(p *plan.Plan, sys units.System) *plan.Plan {
	if p.Piece == nil {
		return p
	}
	found := template.Findings(template.Make(p, template.Options{System: sys}))
	if len(found) == 0 {
		return p
	}
	out := *p
	out.Findings = append(out.Findings[:len(out.Findings):len(out.Findings)], found...)
	return &out
}

func newWriter(p *plan.Plan, opt Options) *writer {
	w := &writer{p: p, d: p.Design, pc: p.Piece, sys: opt.System,
		rules: map[string]*cite.Rule{}, uses: map[string]int{}, shown: map[string]bool{},
		numbers: map[string]int{}, about: map[string][]string{}, opt: opt, groups: map[string]group{}, sections: map[string]section{}, behind: map[string]bool{}}
	if w.d == nil {
		w.d = &design.Design{}
	}
	if w.pc == nil {
		w.pc = &piece.Piece{}
	}
	if w.sys == "" {
		w.sys = w.d.Units
	}
	if w.sys == "" {
		w.sys = units.MM
	}
	w.p = withTemplates(p, w.sys)
	for _, r := range p.Rules {
		w.rules[r.ID] = r
	}
	for _, f := range w.p.Findings {
		w.uses[f.Rule]++
	}
	for _, q := range w.pc.Parts {
		w.numbers[q.ID] = q.Number
	}
	w.indexLedger()
	return w
}

// add appends a block; about names the parts and paths that it shows, so that
// findings find their place.
func (w *writer) add(b Block, about ...string) {
	w.blocks = append(w.blocks, b)
	id := b.BlockID()
	w.about[id] = append(w.about[id], about...)
}

// say adds a paragraph; an empty sentence adds nothing.
func (w *writer) say(id string, s say.Sentence, about ...string) {
	if len(s) == 0 {
		return
	}
	s = w.alive(s)
	for _, sp := range s {
		path := sp.Path
		if sp.Q != nil && sp.Q.Path != "" {
			path = sp.Q.Path
		}
		if path != "" {
			about = append(about, path)
			w.shown[path] = true
		}
	}
	w.add(Paragraph{ID: ID(w.key + "/" + id), Text: s}, about...)
}

// alive takes the path from what stands in neither file, nor could: a value that
// a fitting or another size brought along can't be changed where it is read.
func (w *writer) alive(s say.Sentence) say.Sentence {
	out := slices.Clone(s)
	for i, sp := range out {
		if sp.Path != "" && !w.leads(sp.Path) {
			out[i].Path = ""
		}
		if sp.Q != nil && sp.Q.Path != "" && !w.leads(sp.Q.Path) {
			q := *sp.Q
			q.Path = ""
			out[i].Q = &q
		}
	}
	return out
}

// leads tells whether a path is written in a file, or is a habit that may be.
func (w *writer) leads(path string) bool {
	if _, ok := w.d.Places[path]; ok {
		return true
	}
	if w.d.Shop != nil {
		if _, ok := w.d.Shop.Places[path]; ok {
			return true
		}
	}
	return w.inputs[path]
}

func (w *writer) head(id, text string) {
	w.add(Heading{ID: ID(w.key + "/" + id), Text: text})
}

// table adds a table that has rows.
func (w *writer) table(t table.Table, about ...string) {
	if len(t.Rows) == 0 {
		return
	}
	t.Key = w.key + "/" + t.Key
	w.add(Table{ID: ID(t.Key), Table: t}, about...)
}

// count returns how many findings have the verdict.
func (w *writer) count(v work.Verdict) int {
	n := 0
	for _, f := range w.p.Findings {
		if f.Verdict == v {
			n++
		}
	}
	return n
}

// lead is the sentence under the title: may one cut?
func (w *writer) lead() say.Sentence {
	stop, look, out := w.count(work.Stop), w.count(work.Look), w.count(work.NotCovered)
	switch {
	case stop > 0:
		return say.F("Don’t cut yet: {} stop.", plural(stop, "finding says", "findings say"))
	case look > 0 || out > 0:
		return say.F("No finding says stop. {} for your decision before the first cut.",
			plural(look+out, "waits", "wait"))
	case len(w.p.Findings) == 0:
		return say.F("No check was made: nothing here has been proved.")
	}
	return say.F("Every check that was made says fine.")
}
