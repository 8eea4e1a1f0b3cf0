package pdf

import (
	"fmt"
	"maps"
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
	"rodwork/internal/units"
)

// Paper is the size of the pages.
type Paper string

// Papers.
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// Options are how the reader wants the pages. The system of units is the
// book's own: a book is made for one.
type Options struct {
	Paper Paper // "" is the one that goes with the book's units
}

// Render returns the document. The same book gives the same bytes.
func Render(b *book.Book, opt Options) ([]byte, error) {
	size := sizeOf(opt, b)
	var s *setter
	pages, total := map[string]int{}, 0
	for pass := range mostPasses {
		s = newSetter(b, size, pages, total)
		s.dry = pass == 0 // no page number is known yet: this one is never kept
		s.book()
		if total == s.doc.Pages() && maps.Equal(pages, s.seen) {
			break
		}
		pages, total = s.seen, s.doc.Pages()
	}
	out, err := s.doc.Bytes()
	if err != nil {
		return nil, fmt.Errorf("setting %q: %w", b.Title, err)
	}
	return out, nil
}

func sizeOf(opt Options, b *book.Book) paper.Paper {
	if opt.Paper == Letter || opt.Paper == "" && b.System == units.Inch {
		return paper.Letter
	}
	return paper.A4
}

// mostPasses bounds how often the book is set. Two settle it unless a longer
// page number moves a line.
const mostPasses = 4

// setter sets a book.
type setter struct {
	b     *book.Book
	doc   *paper.Doc
	size  paper.Paper
	pages map[string]int // where each thing stood when the book was last set
	total int
	seen  map[string]int // where it stands now

	page   *paper.Page
	y      float64 // where the next thing goes
	my     float64 // the same in the margin
	head   string  // of the chapter in hand
	sect   *paper.Element
	waits  []book.Figure // figures that no page had room for yet
	opened bool          // nothing but the head stands on the page
	dry    bool          // only to find the pages: nothing is drawn

	inTable bool // a table has begun and not ended
	tabled  bool // the last block was a table
	under   bool // a title or heading is the last that was set
}

func newSetter(b *book.Book, size paper.Paper, pages map[string]int, total int) *setter {
	title := b.Title
	return &setter{b: b, size: size, pages: pages, total: total, seen: map[string]int{},
		doc: paper.New(paper.Info{Title: title, Lang: "en"})}
}

// Measures of the page, mm.
const (
	leftMargin  = 22.0
	rightMargin = 18.0
	topMargin   = 25.0
	footMargin  = 21.0
	side        = 51.0 // the margin that findings stand in
	gutter      = 8.0
)

// wide is the width of what takes all of it; column that of the sentences.
func (s *setter) wide() float64   { return s.size.W - leftMargin - rightMargin }
func (s *setter) column() float64 { return s.wide() - side - gutter }
func (s *setter) bottom() float64 { return s.size.H - footMargin }

// room is what a page has from top to bottom.
func (s *setter) room() float64 { return s.bottom() - topMargin }

// left is what is left of this page.
func (s *setter) left() float64 { return s.bottom() - s.y }

func (s *setter) book() {
	s.front()
	for _, c := range s.b.Chapters {
		s.chapter(c)
	}
}

// turn begins a new page, with figures that waited for one at its top; none
// comes between the rows of a table.
func (s *setter) turn() {
	s.blank()
	for len(s.waits) > 0 && !s.inTable {
		f := s.waits[0]
		if !s.opened && s.figureHeight(f) > s.left() {
			return
		}
		s.waits = s.waits[1:]
		s.placeFigure(f)
	}
}

// blank begins a new page with its running head and foot.
func (s *setter) blank() {
	s.page = s.doc.AddPage(s.size.W, s.size.H)
	s.y, s.my, s.opened = topMargin, topMargin, true
	s.page.In(nil)
	right := leftMargin + s.wide()
	soft := paper.Style{Face: paper.TextItalic, Size: paper.MM(9), Colour: paper.Soft}
	head := fit(soft, s.head, s.wide()*0.55)
	w := paper.Width(soft.Face, soft.Size, head)
	s.page.Words(leftMargin, 14, soft, fit(soft, s.b.Title, s.wide()-w-8))
	s.page.Words(right-w, 14, soft, head)
	s.page.Line(leftMargin, 16.4, right, 16.4, 0.13, paper.Ink)
	small := paper.Style{Face: paper.Table, Size: paper.MM(8), Colour: paper.Soft}
	y := s.size.H - 11
	foot := "Rodwork · sizes in " + string(s.b.System)
	if s.b.Currency != "" {
		foot += " · money in " + s.b.Currency
	}
	s.page.Words(leftMargin, y, small, fit(small, foot, s.wide()-30))
	n := strconv.Itoa(s.doc.Pages())
	of := " of " + strconv.Itoa(max(s.total, s.doc.Pages()))
	bold := paper.Style{Face: paper.TableBold, Size: paper.MM(9), Colour: paper.Ink}
	ow := paper.Width(small.Face, small.Size, of)
	s.page.Words(right-ow-paper.Width(bold.Face, bold.Size, n), y, bold, n)
	s.page.Words(right-ow, y, small, of)
}

// need turns the page if less than h is left of it, and again where figures
// that waited took the new one; on an empty page it never does.
func (s *setter) need(h float64) {
	for h > s.left() && !s.opened {
		s.turn()
	}
}

// begin leaves space above what follows, which needs h: on this page, or at the
// top of the next.
func (s *setter) begin(space, h float64) {
	s.need(space + h)
	s.skip(space)
}

// clear moves below what stands in the margin.
func (s *setter) clear() { s.y = max(s.y, s.my) }

// skip leaves space, but not at the top of a page.
func (s *setter) skip(h float64) {
	if !s.opened {
		s.y += h
	}
}

// mark notes that something begins here, for links and page numbers.
func (s *setter) mark(id string) {
	s.page.Dest(id, max(0, s.y-4))
	if _, ok := s.seen[id]; !ok {
		s.seen[id] = s.doc.Pages()
	}
}
