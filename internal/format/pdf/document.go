package pdf

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Info is what a document says of itself.
type Info struct {
	Title   string
	Subject string
	Lang    string // BCP 47: "en"
}

// MaxSide is the longest side of a page that every reader can be expected to
// show, mm: 14 400 points (ISO 32000-1, annex C).
const MaxSide = 14400 * 25.4 / 72

// Doc is a document that is being made. Its methods, and those of its pages,
// may be called by one goroutine at a time.
type Doc struct {
	info  Info
	pages []*Page
	used  [faces]map[uint16]rune // glyphs, each with a letter it stands for
	dests map[string]place
	marks []bookmark
	root  Element
}

// place is where a link leads.
type place struct {
	page int // index
	y    float64
}

type bookmark struct {
	level int
	title string
	at    place
}

// New returns an empty document.
func New(info Info) *Doc {
	d := &Doc{info: info, dests: map[string]place{}, root: Element{kind: "Document"}}
	for f := range d.used {
		d.used[f] = map[uint16]rune{}
	}
	return d
}

// AddPage adds a page, w × h mm. Sides are kept between 1 mm and MaxSide.
func (d *Doc) AddPage(w, h float64) *Page {
	side := func(v float64) float64 {
		if !(v > 1) {
			return 1
		}
		return math.Min(v, MaxSide)
	}
	p := &Page{doc: d, index: len(d.pages), W: side(w), H: side(h)}
	d.pages = append(d.pages, p)
	return p
}

// Pages returns how many pages there are.
func (d *Doc) Pages() int { return len(d.pages) }

// Dest names a place that links can lead to: y mm from the top of a page. The
// first place of a name counts.
func (p *Page) Dest(name string, y float64) {
	if _, ok := p.doc.dests[name]; !ok {
		p.doc.dests[name] = place{p.index, y}
	}
}

// Bookmark adds an entry to the outline that readers show beside the pages.
// Level 0 is the top; a level may be at most one deeper than that before it.
func (p *Page) Bookmark(level int, title string, y float64) {
	d := p.doc
	deepest := 0
	if n := len(d.marks); n > 0 {
		deepest = d.marks[n-1].level + 1
	}
	d.marks = append(d.marks, bookmark{min(max(level, 0), deepest), title, place{p.index, y}})
}

// Element is one element of the document's structure: see package text.
type Element struct {
	kind, alt string
	parent    *Element
	kids      []any // *Element or content
	id        int   // of its object, once it has one
}

// content is a marked stretch of a page.
type content struct{ page, mark int }

// Kinds of elements (ISO 32000-1, 14.8.4).
const (
	H1      = "H1"
	H2      = "H2"
	H3      = "H3"
	P       = "P"
	Figure  = "Figure"
	TableOf = "Table"
	TR      = "TR"
	TH      = "TH"
	TD      = "TD"
	Caption = "Caption"
	Note    = "Note"
	List    = "L"
	Item    = "LI"
	TOC     = "TOC"
	TOCI    = "TOCI"
	Section = "Sect"
)

// Element adds an element within another, or, for nil, within the document.
// Elements are read in the order in which they are added. Alt is what is said
// instead of the content: for figures.
func (d *Doc) Element(in *Element, kind, alt string) *Element {
	if in == nil {
		in = &d.root
	}
	e := &Element{kind: kind, alt: alt, parent: in}
	in.kids = append(in.kids, e)
	return e
}

// prune drops elements that have nothing in them.
func (e *Element) prune() bool {
	e.kids = slices.DeleteFunc(e.kids, func(k any) bool {
		c, ok := k.(*Element)
		return ok && c.prune()
	})
	return len(e.kids) == 0
}

// number writes a number with at most four decimals and no exponent.
func number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		v = 0
	}
	s := fmt.Sprintf("%.4f", math.Max(-1e7, math.Min(1e7, v)))
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// textString writes a string for readers to show: UTF-16 in hexadecimal, so that
// nothing in it can be taken for syntax.
func textString(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, r := range s {
		if r < 0x20 {
			r = ' '
		}
		b.WriteString(utf16Hex(r))
	}
	return b.String() + ">"
}

func utf16Hex(r rune) string {
	if r >= 0x10000 {
		r -= 0x10000
		return fmt.Sprintf("%04X%04X", 0xd800+r>>10, 0xdc00+r&0x3ff)
	}
	return fmt.Sprintf("%04X", r)
}
