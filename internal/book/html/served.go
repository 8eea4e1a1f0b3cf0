package html

import (
	"strconv"

	"rodwork/internal/book"
)

// Fragment is a stretch of the served page that changes as one: a block with
// the findings beside it, the contents, the opening.
type Fragment struct {
	ID   string // of the element, unique in the page
	HTML string
}

// Section is one chapter as fragments, in their order: its heading first.
type Section struct {
	ID        string // of the element that holds them
	LabelID   string // of its heading
	Fragments []Fragment
}

// Parts is a book in fragments, for a page that changes while it is read. They
// hold the same marks as Render writes, but for mends, which are buttons here.
type Parts struct {
	Contents Fragment
	Opening  Fragment
	Sections []Section
}

// Fragments sets a book in fragments. The same book gives the same parts, and a
// block that did not change gives the same bytes under the same id.
func Fragments(b *book.Book) Parts {
	p := &page{book: b, live: true}
	cut := func(id string) Fragment {
		f := Fragment{ID: id, HTML: p.buf.String()}
		p.buf.Reset()
		return f
	}
	var out Parts
	p.contents()
	out.Contents = cut("the-contents")
	p.opening()
	out.Opening = cut("the-opening")
	for _, c := range b.Chapters {
		id := anchor(c.Key)
		s := Section{ID: id, LabelID: "h-" + id}
		p.heading(c)
		s.Fragments = append(s.Fragments, cut(s.LabelID))
		p.rows(c, func(first book.Block) {
			s.Fragments = append(s.Fragments, cut(rowID(first)))
		})
		out.Sections = append(out.Sections, s)
	}
	return out
}

// Sheet is the style of the page with its faces.
func Sheet() string { return sheet }

// Marks are the signs that go with words, as symbols that a page holds once.
func Marks() string { return marks }

// Words escapes a text for the content of a page.
func Words(s string) string { return words(s) }

// Anchor is the id in the page of a block, or of a chapter by its key.
func Anchor(id string) string { return anchor(id) }

// rowID is the id in the served page of the row that begins with a block.
func rowID(first book.Block) string { return "r-" + anchor(first.BlockID()) }

// heading writes a chapter's number and title.
func (p *page) heading(c book.Chapter) {
	id := anchor(c.Key)
	p.raw(`<h2 id="h-`, id, `"><span class="num">`, strconv.Itoa(c.Number), `</span>`, words(c.Title), "</h2>\n")
}

// rows writes the rows of a chapter, and tells after each which block it began
// with.
func (p *page) rows(c book.Chapter, written func(first book.Block)) {
	for i := 0; i < len(c.Blocks); {
		j := i + 1
		for j < len(c.Blocks) && isFinding(c.Blocks[j]) {
			j++
		}
		if isFinding(c.Blocks[i]) { // findings of a chapter without any other block
			p.row(nil, c.Blocks[i:j])
		} else {
			p.row(c.Blocks[i], c.Blocks[i+1:j])
		}
		written(c.Blocks[i])
		i = j
	}
}
