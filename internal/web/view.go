package web

import (
	"context"

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

// makeView computes a view. It fails only where the context ends.
func makeView(ctx context.Context, l Loaded, sys units.System) (*view, error) {
	v := &view{texts: textsOf(l.Source), html: map[string]string{}, values: map[string]Value{}}
	remarks := l.Remarks
	if !remarks.HasErrors() {
		p, ds := plan.Make(ctx, l.Source, plan.Options{})
		remarks = append(remarks, ds...)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if p != nil && !ds.HasErrors() {
			v.setBook(p, book.Make(p, book.Options{System: sys}), l)
		}
	}
	for _, d := range remarks {
		v.problems = append(v.problems, problemOf(d, l.Source))
	}
	return v, ctx.Err()
}

// setBook cuts a book into the view's fragments.
func (v *view) setBook(p *plan.Plan, b *book.Book, l Loaded) {
	parts := html.Fragments(b)
	v.whole, v.title, v.system, v.currency = true, b.Title, b.System, b.Currency
	v.html[parts.Contents.ID] = parts.Contents.HTML
	v.html[parts.Opening.ID] = parts.Opening.HTML
	for _, s := range parts.Sections {
		sec := section{ID: s.ID, Label: s.LabelID}
		for _, f := range s.Fragments {
			sec.Rows = append(sec.Rows, f.ID)
			v.html[f.ID] = f.HTML
		}
		v.sections = append(v.sections, sec)
	}
	v.values = valuesOf(p, b.System, l.ShopFixed)
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
