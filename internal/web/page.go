package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"strconv"
	"strings"

	"rodwork/internal/book/html"
)

// bookSheet is the book's own style, with its faces.
func bookSheet(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	w.Header().Set("Cache-Control", "no-cache")
	packed(w, r, html.Sheet())
}

// packed writes a long text, packed where the reader can unpack it.
func packed(w http.ResponseWriter, r *http.Request, text string) {
	w.Header().Set("Vary", "Accept-Encoding")
	if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		_, _ = io.WriteString(w, text) // a page that went away needs no answer
		return
	}
	w.Header().Set("Content-Encoding", "gzip")
	z, _ := gzip.NewWriterLevel(w, gzip.BestSpeed) // the level is a right one
	_, _ = io.WriteString(z, text)
	_ = z.Close()
}

// page writes the page of the revision in force, all of it readable before a
// script has run.
func (s *Session) page(w http.ResponseWriter, r *http.Request) {
	rev, v, l := s.now()
	var b strings.Builder
	title := v.title
	if title == "" {
		title = "A piece that cannot be read yet"
	}
	for _, x := range []string{"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1">`, "\n",
		`<meta name="color-scheme" content="light dark">`, "\n",
		`<meta name="rodwork-token" content="`, html.Words(s.cfg.Token), `">`, "\n",
		`<meta name="rodwork-rev" content="`, strconv.Itoa(rev), `">`, "\n",
		"<title>", html.Words(title), " · Rodwork</title>\n",
		`<link rel="icon" href="data:,">`, "\n",
		`<link rel="stylesheet" href="/book.css">`, "\n", `<link rel="stylesheet" href="/ui/page.css">`, "\n",
		`<script type="module" src="/ui/page.js"></script>`, "\n</head>\n<body class=\"live\">\n", html.Marks(),
		`<a class="skip" href="#main">To the text</a>`, "\n",
		`<button type="button" class="skip" id="to-mend" aria-keyshortcuts="F8">To the next mend (F8)</button>`, "\n"} {
		b.WriteString(x)
	}
	head(&b, title, v, l, s.cfg.Starting != nil)
	b.WriteString(`<div class="desk">` + "\n" + v.html["the-contents"])
	b.WriteString(`<main id="main">` + "\n" + v.html["the-opening"])
	for _, sec := range v.sections {
		b.WriteString(`<section class="chapter" id="` + sec.ID + `" aria-labelledby="` + sec.Label + `">` + "\n")
		for _, id := range sec.Rows {
			b.WriteString(v.html[id])
		}
		b.WriteString("</section>\n")
	}
	b.WriteString(textChapter)
	b.WriteString("</main>\n" + `<div class="follow" id="follow" aria-hidden="true"></div>` + "\n</div>\n</body>\n</html>\n")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	packed(w, r, b.String())
}

// head is the line above everything: the piece, what can be taken back, and
// what the page is doing.
func head(b *strings.Builder, title string, v *view, l Loaded, starts bool) {
	for _, x := range []string{`<header class="head"><span class="rod">Rodwork</span><span class="name"><span id="the-title">`, html.Words(title), `</span>`,
		`<a class="file" href="#the-text">`, html.Words(l.Source.PieceFile), `</a></span>`,
		`<span class="rt"><button type="button" id="undo" disabled>take back</button><button type="button" id="redo" disabled>put in again</button>`,
		`<span>sizes in <b id="the-system">`, html.Words(string(v.system)), `</b></span>`} {
		b.WriteString(x)
	}
	hidden := ""
	if v.currency == "" {
		hidden = " hidden"
	}
	b.WriteString(`<span` + hidden + `>money in <b id="the-currency">` + html.Words(v.currency) + `</b></span>`)
	if starts {
		b.WriteString(`<a class="begin" href="/start">another piece</a>`)
	}
	b.WriteString(`</span></header>` + "\n" + `<p class="telling" id="telling" role="status" aria-live="polite"></p>` + "\n" +
		`<div id="trouble" class="trouble" hidden></div>` + "\n")
}

// textChapter is the last chapter: the files as they stand on the disk.
const textChapter = `<section class="chapter" id="the-text" aria-labelledby="h-the-text">
<h2 id="h-the-text">The file</h2>
<div class="row"><p>All of it is a text on your disk. What is changed above is changed there, and the other way round.</p></div>
<div class="row wide"><div class="script">
<p class="which"><label for="file">Show</label> <select id="file"><option value="piece">the piece</option><option value="shop">the shop</option></select></p>
<div class="lines"><pre class="ruled" id="numbers" aria-hidden="true"></pre><textarea id="text" aria-label="Text of the file" aria-describedby="text-problems" spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" rows="24"></textarea></div>
<p class="keep"><button type="button" id="keep" disabled>keep this text</button> <button type="button" id="leave" disabled>leave it as it was</button></p>
<ul id="text-problems" class="problems" aria-live="polite"></ul>
</div></div>
</section>
`
