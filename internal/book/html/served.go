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
	return Some(b, func(string) bool { return true })
}

// Some sets only the rows that are wanted, by their ids; of the others it tells
// the id, and no text. Rows with a figure that is behind have no text either:
// the page shows that figure already.
func Some(b *book.Book, wanted func(id string) bool) Parts {
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
		for _, r := range rowsOf(c) {
			id := rowID(r[0])
			if wanted(id) && !behind(r[0]) {
				p.rowOf(r)
			}
			s.Fragments = append(s.Fragments, cut(id))
		}
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

func behind(b book.Block) bool {
	f, ok := b.(book.Figure)
	return ok && f.Behind
}

// FigureRow is the id in the served page of the row that shows a figure, by the
// id of its block.
func FigureRow(id string) string { return "r-" + anchor(id) }

// rowsOf are the blocks of a chapter by rows: one, with the findings that follow
// it; or findings alone, of a chapter without any other block.
func rowsOf(c book.Chapter) [][]book.Block {
	var out [][]book.Block
	for i := 0; i < len(c.Blocks); {
		j := i + 1
		for j < len(c.Blocks) && isFinding(c.Blocks[j]) {
			j++
		}
		out = append(out, c.Blocks[i:j])
		i = j
	}
	return out
}

func (p *page) rowOf(blocks []book.Block) {
	if isFinding(blocks[0]) {
		p.row(nil, blocks)
	} else {
		p.row(blocks[0], blocks[1:])
	}
}
