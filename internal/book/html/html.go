// Package html sets a book as one self-contained page: all style, fonts and
// figures are inside, nothing is ever requested, and no script is needed to
// read it. A content security policy in the page says so to the browser too. The
// one script that may be in it makes of the picture of the piece a model that
// can be turned (see model.go).
//
// The mark-up is well-formed XML as well as HTML, so that any reader of either
// can check it. What people wrote (names of pieces, parts, bays) is escaped in
// one place, and set apart where it runs from right to left.
//
// The look: paper and ink, one red ochre, a text face for reading and a table
// face for measures. A state is never told by colour alone: each has a mark and
// a word. Findings stand beside the sentence that causes them, below it where
// the page is narrow.
package html

import (
	"bytes"
	"strconv"

	"rodwork/internal/book"
)

// Render returns the page. The same book gives the same bytes.
func Render(b *book.Book) []byte {
	p := &page{book: b}
	p.open()
	p.contents()
	p.raw(`<main id="main">` + "\n")
	p.opening()
	for _, c := range b.Chapters {
		p.chapter(c)
	}
	p.raw("</main>\n</div>\n")
	p.modelScript()
	p.raw("</body>\n</html>\n")
	return p.buf.Bytes()
}

// onlyLive is an id that only a page that changes has.
func (p *page) onlyLive(id string) string {
	if !p.live {
		return ""
	}
	return attr("id", id)
}

// page is the page being written.
type page struct {
	book *book.Book
	buf  bytes.Buffer
	live bool // for a page that changes while it is read
}

// raw writes mark-up of our own.
func (p *page) raw(s ...string) {
	for _, x := range s {
		p.buf.WriteString(x)
	}
}

func (p *page) open() {
	p.raw(`<!DOCTYPE html>`, "\n", `<html lang="en" xmlns="http://www.w3.org/1999/xhtml">`, "\n<head>\n", `<meta charset="utf-8" />`, "\n",
		`<meta http-equiv="Content-Security-Policy" content="`, p.policy(), `" />`, "\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1" />`, "\n",
		`<meta name="color-scheme" content="light dark" />`, "\n<title>", words(p.book.Title), " · Rodwork</title>\n<style>",
		sheet, "</style>\n</head>\n<body>\n", marks,
		`<a class="skip" href="#main">To the text</a>`, "\n",
		`<header class="head"><span class="rod">Rodwork</span><span class="name">`, words(p.book.Title), `</span><span class="rt">`,
		`<span>sizes in <b>`, string(p.book.System), `</b></span>`)
	if p.book.Currency != "" {
		p.raw(`<span>money in <b>`, words(p.book.Currency), `</b></span>`)
	}
	p.raw("</span></header>\n<div class=\"desk\">\n")
}

// contents lists the chapters, each with how many findings wait there.
func (p *page) contents() {
	p.raw(`<nav class="contents"`, p.onlyLive("the-contents"), ` aria-labelledby="contents"><h2 id="contents">Contents</h2><ol>`, "\n")
	for _, c := range p.book.Chapters {
		p.raw(`<li><a href="#`, anchor(c.Key), `"><span class="n">`, strconv.Itoa(c.Number), `</span><span>`, words(c.Title), `</span>`)
		p.counts(c.Counts())
		p.raw("</a></li>\n")
	}
	p.raw("</ol></nav>\n")
}

// counts shows the number of findings that say stop and look; fine needs no
// count.
func (p *page) counts(n map[string]int) {
	p.raw(`<span class="ct">`)
	for _, v := range []string{"stop", "look", "not covered"} {
		if n[v] > 0 {
			p.raw(`<span>`, mark(v), `<span class="hid">`, v, ` </span>`, strconv.Itoa(n[v]), `</span>`)
		}
	}
	p.raw(`</span>`)
}

func (p *page) opening() {
	p.raw(`<div class="opening"`, p.onlyLive("the-opening"), `><h1>`, words(p.book.Title), "</h1>\n")
	if len(p.book.Lead) > 0 {
		p.raw(`<p class="lead">`)
		p.sentence(p.book.Lead)
		p.raw("</p>\n")
	}
	p.tally()
	p.raw("</div>\n")
}

// tally counts the findings of the whole book, by verdict, before anything else.
func (p *page) tally() {
	sum := map[string]int{}
	for _, c := range p.book.Chapters {
		for v, n := range c.Counts() { // a sum: no order shows
			sum[v] += n
		}
	}
	p.raw(`<p class="tally">`)
	for _, v := range []string{"stop", "look", "not covered", "fine"} {
		if sum[v] > 0 {
			p.raw(`<a href="#`, anchor("check"), `">`, mark(v), `<span>`, strconv.Itoa(sum[v]), " ", v, `</span></a> `)
		}
	}
	p.raw("</p>\n")
}

func (p *page) chapter(c book.Chapter) {
	id := anchor(c.Key)
	p.raw(`<section class="chapter" id="`, id, `" aria-labelledby="h-`, id, `">`, "\n")
	p.heading(c)
	for _, r := range rowsOf(c) {
		p.rowOf(r)
	}
	p.raw("</section>\n")
}

func isFinding(b book.Block) bool { _, ok := b.(book.Finding); return ok }

// row sets a block, and the findings that it causes beside it.
func (p *page) row(b book.Block, findings []book.Block) {
	wide := ""
	switch b.(type) {
	case book.Table, book.Figure, book.RuleNote:
		wide = " wide"
	}
	p.raw(`<div class="row`, wide, `"`, p.rowAttr(b, findings), ">\n")
	if b != nil {
		p.block(b)
	}
	n := min(len(findings), p.room(b))
	p.findings("beside", findings[:n])
	p.findings("more", findings[n:])
	p.raw("</div>\n")
}

// rowAttr is the id of a row in a page that changes while it is read.
func (p *page) rowAttr(b book.Block, findings []book.Block) string {
	switch {
	case !p.live:
		return ""
	case b == nil:
		b = findings[0]
	}
	return attr("id", rowID(b))
}

func (p *page) findings(class string, findings []book.Block) {
	if len(findings) == 0 {
		return
	}
	p.raw(`<div class="`, class, `">`, "\n")
	for _, f := range findings {
		p.finding(f.(book.Finding))
	}
	p.raw("</div>\n")
}

// room returns how many findings stand beside a block without leaving a hole
// in the text; the others stand in a band below it. About 58 letters go into
// one of its lines, and a finding is about as high as five lines.
func (p *page) room(b book.Block) int {
	const lettersOfFinding = 5 * 58
	switch b := b.(type) {
	case book.Paragraph:
		return 1 + len(p.book.Plain(b.Text))/lettersOfFinding
	case book.Steps:
		return 1 + len(b.Steps)/2
	}
	return 0
}
