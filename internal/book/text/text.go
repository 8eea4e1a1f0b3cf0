// Package text prints a book for a terminal: plain words in lines of a width,
// no colour and no control sequence. Findings stand indented under the block
// that causes them, each with its verdict in brackets; a figure is told by its
// description. What people wrote can't steer the terminal: control characters
// and marks that turn the direction of writing are replaced.
package text

import (
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/cite"
	"rodwork/internal/say"
)

// Options for the terminal.
type Options struct {
	Width int // columns; 0 is 80, fewer than 32 are taken as 32
}

const (
	usualWidth = 80
	leastWidth = 32
)

// Render returns the text of the whole book. The same book gives the same bytes.
func Render(b *book.Book, o Options) []byte {
	p := newPrinter(b, o)
	p.title(clean(b.Title), '=')
	p.para(p.plain(b.Lead), "")
	for _, c := range b.Chapters {
		p.chapter(c)
	}
	return []byte(p.out.String())
}

// Chapters returns the text of the chapters with the keys, in the order of the
// book: what `rodwork parts` or `rodwork buy` prints.
func Chapters(b *book.Book, o Options, keys ...string) []byte {
	p := newPrinter(b, o)
	for _, c := range b.Chapters {
		for _, k := range keys {
			if c.Key == k {
				p.chapter(c)
			}
		}
	}
	return []byte(strings.TrimLeft(p.out.String(), "\n"))
}

type printer struct {
	book  *book.Book
	width int
	out   strings.Builder
}

func newPrinter(b *book.Book, o Options) *printer {
	w := o.Width
	if w == 0 {
		w = usualWidth
	}
	return &printer{book: b, width: max(w, leastWidth)}
}

func (p *printer) line(s string) {
	p.out.WriteString(strings.TrimRight(s, " "))
	p.out.WriteByte('\n')
}

func (p *printer) title(s string, under rune) {
	longest := 0
	for _, l := range wrap(s, p.width) {
		p.line(l)
		longest = max(longest, columns(l))
	}
	p.line(strings.Repeat(string(under), longest))
}

// para prints a paragraph, all its lines after the indent.
func (p *printer) para(s, indent string) { p.hang(s, indent, indent) }

// hang prints a paragraph whose first line has an indent of its own.
func (p *printer) hang(s, first, rest string) {
	if s == "" {
		return
	}
	for i, l := range wrap(s, p.width-max(columns(first), columns(rest))) {
		if i == 0 {
			p.line(first + l)
		} else {
			p.line(rest + l)
		}
	}
}

func (p *printer) plain(s say.Sentence) string { return clean(p.book.Plain(s)) }

func (p *printer) chapter(c book.Chapter) {
	p.line("")
	p.line("")
	p.title(strconv.Itoa(c.Number)+"  "+clean(c.Title), '-')
	for _, b := range c.Blocks {
		p.line("")
		p.block(b)
	}
}

func (p *printer) block(b book.Block) {
	switch b := b.(type) {
	case book.Heading:
		p.para(clean(b.Text), "")
		p.line(strings.Repeat("~", min(p.width, columns(clean(b.Text)))))
	case book.Paragraph:
		p.para(p.plain(b.Text), "")
	case book.Table:
		p.table(b.Table)
	case book.Finding:
		p.finding(b)
	case book.Figure:
		p.figure(b)
	case book.Steps:
		p.steps(b)
	case book.Caution:
		p.caution(b)
	case book.RuleNote:
		p.rule(b)
	case book.NotYet:
		p.para("Not computed yet, and yours to think of:", "")
		for _, it := range b.Items {
			p.hang(clean(it), "  - ", "    ")
		}
	}
}

func (p *printer) finding(f book.Finding) {
	p.hang("["+string(f.Finding.Verdict)+"] "+clean(f.Finding.Title), "    ", "    ")
	p.para(p.plain(f.Finding.Text), "    ")
	for i, m := range f.Finding.Mends {
		lead := "mend: "
		if i > 0 {
			lead = "or: "
		}
		p.hang(lead+p.plain(m.Text), "    ", "      ")
	}
	if f.Rule != nil {
		p.para("rule "+f.Rule.ID+", "+clean(f.RuleTitle()), "    ")
	} else if f.Finding.Rule != "" {
		p.para("rule "+clean(f.Finding.Rule), "    ")
	}
}

func (p *printer) figure(f book.Figure) {
	head := "Fig. " + strconv.Itoa(f.Number) + ". " + clean(f.Leaf.Title)
	if f.Leaf.Right != "" {
		head += " (" + clean(f.Leaf.Right) + ")"
	}
	p.para(head, "  | ")
	p.para(clean(f.Leaf.Alt), "  | ")
}

func (p *printer) steps(s book.Steps) {
	p.para(clean(s.Title), "")
	for _, st := range s.Steps {
		p.hang(p.plain(st.Text), pad(strconv.Itoa(st.Number)+".", 4, true)+" ", "     ")
		for _, n := range st.Notes {
			p.para(p.plain(n), "     ")
		}
	}
}

func (p *printer) caution(c book.Caution) {
	p.para("CAUTION: "+clean(c.Title), "! ")
	for _, s := range c.Text {
		p.para(p.plain(s), "! ")
	}
	for _, s := range c.Sources {
		p.hang("source: "+clean(book.SourceText(s)), "! ", "!   ")
	}
}

func (p *printer) rule(n book.RuleNote) {
	r := n.Rule
	p.para(r.ID+"  "+clean(n.Title()), "")
	p.para(clean(r.Question), "  ")
	p.hang(clean(r.Formula), "    ", "      ")
	for _, s := range r.Symbols {
		p.hang(symbolText(s), "    ", "      ")
	}
	for _, s := range r.Sources {
		p.hang("source: "+clean(book.SourceText(s)), "  ", "    ")
	}
	for _, a := range r.Assumes {
		p.hang("assumes: "+clean(a), "  ", "    ")
	}
	if r.Accuracy != "" {
		p.hang("how near: "+clean(r.Accuracy), "  ", "    ")
	}
}

func symbolText(s cite.Symbol) string {
	out := s.Letter + ": " + s.Meaning
	if s.Unit != "" && s.Unit != "1" {
		out += ", " + s.Unit
	}
	return clean(out + "; holds for " + book.RangeText(s))
}
