package book

import (
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/units"
)

// Options is how the reader wants the book.
type Options struct {
	System units.System // "" is the piece file's own
}

// Make writes the book of a plan. The plan may be incomplete, as one made from
// a file with errors is: what is not known is left out.
func Make(p *plan.Plan, opt Options) *Book {
	return &Book{Title: p.Design.Name, Lead: say.Sentence{}, System: opt.System}
}
