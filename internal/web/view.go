package web

import (
	"context"
	"slices"

	"rodwork/internal/book"
	"rodwork/internal/book/html"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// view is what one pair of texts looks like.
type view struct {
	texts    texts
	title    string
	system   units.System
	currency string
	whole    bool // there is a book: the files could be used
	plan     *plan.Plan
	book     *book.Book
	part     bool // only some fragments were made
	sections []section
	html     map[string]string // by the id of the element
	values   map[string]Value
	problems []Problem
}

// section is a chapter of the page: the ids of its fragments, in order.
type section struct {
	ID    string   `json:"id"`
	Label string   `json:"label"`
	Rows  []string `json:"rows"`
}

// Problem is a remark about one of the files.
type Problem struct {
	File     File   `json:"file"`
	Path     string `json:"path,omitempty"`
	Line     int    `json:"line,omitempty"`
	Col      int    `json:"col,omitempty"`
	Severity string `json:"severity"`
	Summary  string `json:"summary"`
	Detail   string `json:"detail,omitempty"`
	Expected string `json:"expected,omitempty"`
	Nearest  string `json:"nearest,omitempty"`
}

// made is a plan that is at hand, with the texts that it was made of.
type made struct {
	texts   texts
	plan    *plan.Plan
	remarks diag.List
}

// makePlan computes a plan.
func makePlan(ctx context.Context, l Loaded) (*made, error) {
	m := &made{texts: textsOf(l.Source), remarks: l.Remarks}
	if !m.remarks.HasErrors() {
		p, ds := plan.Make(ctx, l.Source, plan.Options{})
		m.remarks = append(slices.Clip(m.remarks), ds...)
		if p != nil && !ds.HasErrors() {
			m.plan = p
		}
	}
	return m, ctx.Err()
}

// glance is what a reader sees who waits for a preview: the fragments near the
// window, anew; figures elsewhere are those of an older book.
type glance struct {
	older *view
	near  map[string]bool
}

// wanted tells whether a fragment is to be made: one in sight, or one that the
// page has no older one of.
func (g *glance) wanted(id string) bool {
	if g == nil || g.near[id] {
		return true
	}
	_, had := g.older.html[id]
	return !had
}

// makeView sets the book of a plan in fragments: all, or those at a glance.
func makeView(m *made, l Loaded, sys units.System, g *glance) *view {
	v := &view{texts: m.texts, html: map[string]string{}, values: map[string]Value{}, part: g != nil}
	if m.plan != nil {
		opt := book.Options{System: sys}
		if g != nil {
			opt.Old = g.older.book
			opt.Draw = func(id string) bool { return g.near[html.FigureRow(id)] }
		}
		b := book.Make(m.plan, opt)
		if c, ok := shopChapter(m, b, g); ok {
			b.Chapters = append(b.Chapters, c)
		}
		v.setBook(m.plan, b, l, g)
	}
	for _, d := range m.remarks {
		v.problems = append(v.problems, problemOf(d, l.Source))
	}
	return v
}

// shopChapter is the chapter of the shop: that of the older book, at a glance at
// a piece in the same shop.
func shopChapter(m *made, b *book.Book, g *glance) (book.Chapter, bool) {
	if g != nil && g.older.book != nil && g.older.texts.shop == m.texts.shop && g.older.system == b.System {
		if c := g.older.book.Chapters; len(c) > 0 && c[len(c)-1].Key == "shop" && c[len(c)-1].Number == len(b.Chapters)+1 {
			return c[len(c)-1], true
		}
	}
	return book.Shop(m.plan, b)
}

// setBook cuts a book into the view's fragments.
func (v *view) setBook(p *plan.Plan, b *book.Book, l Loaded, g *glance) {
	parts := html.Some(b, g.wanted)
	v.plan, v.book = p, b
	v.whole, v.title, v.system, v.currency = true, b.Title, b.System, b.Currency
	v.html[parts.Contents.ID] = parts.Contents.HTML
	v.html[parts.Opening.ID] = parts.Opening.HTML
	for _, s := range parts.Sections {
		sec := section{ID: s.ID, Label: s.LabelID}
		for _, f := range s.Fragments {
			sec.Rows = append(sec.Rows, f.ID)
			if f.HTML != "" {
				v.html[f.ID] = f.HTML
			}
		}
		v.sections = append(v.sections, sec)
	}
	v.values = valuesOf(p, b, l.ShopFixed)
}

func problemOf(d diag.Diagnostic, src plan.Source) Problem {
	p := Problem{File: PieceFile, Path: d.Path, Line: d.At.Start.Line, Col: d.At.Start.Col, Severity: d.Severity.String(),
		Summary: d.Summary, Detail: d.Detail, Expected: d.Expected, Nearest: d.Nearest}
	if d.At.File == src.ShopFile && src.ShopFile != src.PieceFile {
		p.File = ShopFile
	}
	return p
}

// errors counts the problems that keep a book from being made.
func (v *view) errors() int {
	n := 0
	for _, p := range v.problems {
		if p.Severity == diag.Error.String() {
			n++
		}
	}
	return n
}
