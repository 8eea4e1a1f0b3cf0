package html

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"strings"
)

//go:embed style.css
var css string

//go:embed fonts/*.woff2
var fonts embed.FS

// faces are the fonts of the page: family, weight, style, file.
var faces = []struct{ family, weight, style, file string }{
	{"Text", "400", "normal", "text"}, {"Text", "400", "italic", "text-italic"}, {"Text", "600", "normal", "text-bold"},
	{"Title", "400", "normal", "title"}, {"Table", "400", "normal", "table"}, {"Table", "600", "normal", "table-bold"},
}

// sheet is the whole style of the page, and policy what the page may load:
// this very style, fonts from within, and nothing else. Where a page has a model
// that can be turned, withScript adds the one script that turns it.
var sheet, policy = makeSheet()

func makeSheet() (sheet, policy string) {
	var b strings.Builder
	for _, f := range faces {
		data, err := fonts.ReadFile("fonts/" + f.file + ".woff2")
		if err != nil {
			panic("html: a face is not embedded: " + f.file)
		}
		b.WriteString(`@font-face{font-family:"` + f.family + `";font-weight:` + f.weight + `;font-style:` + f.style +
			`;src:url(data:font/woff2;base64,` + base64.StdEncoding.EncodeToString(data) + `)}` + "\n")
	}
	b.WriteString(css)
	b.WriteString(modelCSS)
	sheet = b.String()
	sum := sha256.Sum256([]byte(sheet))
	return sheet, "default-src &#39;none&#39;; style-src &#39;sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"&#39;; font-src data:; base-uri &#39;none&#39;; form-action &#39;none&#39;"
}

// marks are the signs that go with words: a filled square with a cross, a ring
// with a point, a pencil tick, an open square, a triangle.
const marks = `<svg class="defs" width="0" height="0" aria-hidden="true" focusable="false" xmlns="http://www.w3.org/2000/svg"><defs>
<symbol id="mk-stop" viewBox="0 0 14 14"><rect class="mr" x=".5" y=".5" width="13" height="13"/><path class="mp" d="M4 4l6 6M10 4l-6 6"/></symbol>
<symbol id="mk-look" viewBox="0 0 14 14"><circle class="ml" cx="7" cy="7" r="6"/><circle class="mi" cx="7" cy="7" r="2.1"/></symbol>
<symbol id="mk-fine" viewBox="0 0 14 14"><path class="ml" d="M1.5 7.5l4 4.5L12.5 2"/></symbol>
<symbol id="mk-open" viewBox="0 0 14 14"><rect class="ml" x="1" y="1" width="12" height="12"/><path class="ml" d="M1 13L13 1"/></symbol>
<symbol id="mk-caution" viewBox="0 0 14 14"><path class="ml" d="M7 1.2L13.2 12.6H.8z"/><path class="ml" d="M7 5v4M7 10v1.4"/></symbol>
</defs></svg>
`

// mark is the sign for a verdict; the word beside it says the same.
func mark(v string) string {
	switch v {
	case "stop", "look", "fine", "caution":
	default:
		v = "open"
	}
	return `<svg class="mk" viewBox="0 0 14 14" aria-hidden="true" focusable="false"><use href="#mk-` + v + `"/></svg>`
}
