package web

import (
	"encoding/json"
	"math"
	"net/http"
	"strings"

	"rodwork/internal/book/html"
	"rodwork/internal/starter"
	"rodwork/internal/units"
)

// form is a kind as the page is told of it: what its sentences begin with.
type form struct {
	Width  [2]string `json:"width"` // in millimetres, in inches
	Height [2]string `json:"height"`
	Depth  [2]string `json:"depth"`
	Holds  bool      `json:"holds"`
	Stands bool      `json:"stands"`
	Bends  bool      `json:"bends"`
	Traced bool      `json:"traced"`
	Thing  string    `json:"thing"`
	Count  int       `json:"count"`
}

func formsOnPage() map[string]form {
	out := map[string]form{}
	for _, f := range starter.Forms() {
		out[string(f.Kind)] = form{usual(f.Width), usual(f.Height), usual(f.Depth), f.Holds, f.Stands, f.Bends, f.Traced, f.Thing, f.Count}
	}
	return out
}

// usual is a size to begin with, round in either unit.
func usual(r starter.Range) [2]string {
	inches := math.Round(r.Usual / 25.4)
	return [2]string{lengthText(r.Usual, units.MM), lengthText(inches*25.4, units.Inch)}
}

// page writes the start page. Its controls stand in the sentences; the script
// shows beside them what would come of it.
func (d *desk) page(w http.ResponseWriter, r *http.Request) {
	facts, err := json.Marshal(formsOnPage())
	if err != nil {
		http.Error(w, "the page could not be made", http.StatusInternalServerError)
		return
	}
	var b strings.Builder
	put := func(parts ...string) {
		for _, x := range parts {
			b.WriteString(x)
		}
	}
	put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n",
		`<meta name="viewport" content="width=device-width, initial-scale=1">`, "\n<meta name=\"color-scheme\" content=\"light dark\">\n",
		`<meta name="rodwork-token" content="`, html.Words(d.token), `">`, "\n",
		`<meta name="rodwork-forms" content="`, attrText(string(facts)), `">`, "\n",
		"<title>Another piece · Rodwork</title>\n", `<link rel="icon" href="data:,">`, "\n",
		`<link rel="stylesheet" href="/book.css">`, "\n", `<link rel="stylesheet" href="/ui/start.css">`, "\n",
		`<script type="module" src="/ui/start.js"></script>`, "\n</head>\n<body class=\"start\">\n", html.Marks(),
		`<a class="skip" href="#main">To the text</a>`, "\n",
		`<header class="head"><span class="rod">Rodwork</span><span class="name">Another piece</span><span class="rt">`)
	if d.back {
		put(`<a href="/">back to the piece</a>`)
	}
	put("</span></header>\n", `<p class="telling" id="telling" role="status" aria-live="polite"></p>`, "\n", startTop)
	d.sentences(put)
	put(startRest)
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	packed(w, r, b.String())
}

// attrText escapes a text for an attribute.
func attrText(s string) string { return strings.ReplaceAll(html.Words(s), `"`, "&quot;") }

// picks writes a choice within a sentence.
func picks(id, label string, words [][2]string) string {
	var b strings.Builder
	b.WriteString(`<select class="w" id="` + id + `" aria-label="` + attrText(label) + `">`)
	for _, x := range words {
		b.WriteString(`<option value="` + attrText(x[0]) + `">` + html.Words(x[1]) + "</option>")
	}
	b.WriteString("</select>")
	return b.String()
}

// types writes a field within a sentence; step says that arrow keys step it.
func types(id, label, value string) string {
	return `<input class="w" type="text" id="` + id + `" aria-label="` + attrText(label) + `" value="` + attrText(value) +
		`" autocomplete="off" autocapitalize="off" spellcheck="false" aria-describedby="said">`
}

func pairs(words ...string) [][2]string {
	var out [][2]string
	for _, x := range words {
		out = append(out, [2]string{x, x})
	}
	return out
}

// sentences writes the sentences of choice.
func (d *desk) sentences(put func(...string)) {
	var kinds, things [][2]string
	for _, f := range starter.Forms() {
		kinds = append(kinds, [2]string{string(f.Kind), string(f.Kind)})
	}
	for _, t := range starter.Things() {
		things = append(things, [2]string{t.Name, t.Plural})
	}
	first := starter.Forms()[0]
	put(`<div class="sentences" id="sentences">`, "\n",
		"<p>It is a ", picks("kind", "what it is", kinds), ", ", types("width", "width", usual(first.Width)[0]), " wide, ",
		types("height", "height", usual(first.Height)[0]), " high and ", types("depth", "depth", usual(first.Depth)[0]), " deep. Its sizes are in ",
		picks("in", "unit of its sizes", [][2]string{{"mm", "millimetres"}, {"in", "inches"}}), ".</p>\n",
		`<p id="bends">Its upper corners are `, picks("corners", "upper corners", [][2]string{{"square", "square"}, {"bent", "bent"}}),
		`<span id="turns" hidden> at a radius of `, types("turn", "radius of the corners", "140 mm"), "</span>.</p>\n",
		`<p id="holds">It holds `, types("count0", "how many", "120"), " ", picks("thing0", "of what", append([][2]string{{"", "nothing in particular"}}, things...)),
		`<span id="more"> and `, types("count1", "how many more", "20"), " ", picks("thing1", "of what else", append([][2]string{{"", "nothing else"}}, things...)), "</span>.</p>\n",
		"<p>", picks("people", "who uses it", [][2]string{{"adults", "Adults"}, {"children", "Children of"}}), `<span id="ages" hidden> `,
		types("youngest", "age of the youngest in years", "4"), " years and adults</span> use it.</p>\n",
		`<p><span id="stands">It stands on `, picks("floor", "what it stands on", pairs(starter.Floors...)), " against</span>",
		`<span id="hangs" hidden>It hangs on</span> `, picks("wall", "the wall", [][2]string{{"stud", "a stud wall"}, {"brick", "a brick wall"},
			{"block", "a wall of blocks"}, {"concrete", "a concrete wall"}, {"stone", "a stone wall"}}), ".</p>\n",
		"<p>Its sheets are ", picks("sheet", "its sheets", pairs(starter.Sheets("shop.yaml", d.cfg.Shop())...)), ".</p>\n</div>\n",
		`<div class="said" id="said" role="status" aria-live="polite"></div>`, "\n", `<div class="keeping">`)
	put(`<p>It is called `, `<input class="w" type="text" id="name" aria-label="name of the piece" autocomplete="off" placeholder="a name of its own" size="18">`)
	if d.cfg.Named {
		put(` and is kept as <i class="path">`, html.Words(d.cfg.Where), `</i>.</p>`)
	} else {
		put(` and is kept in a folder of that name under <i class="path">`, html.Words(d.cfg.Where), `</i>.</p>`)
	}
	put(`<p><button type="button" class="do" id="keep">Begin with it</button></p></div>`, "\n")
}

const startTop = `<div class="desk"><nav class="contents" aria-labelledby="contents"><h2 id="contents">Ways to begin</h2><ol>
<li><a href="#in-sentences"><span class="n">1</span><span>In a few sentences</span></a></li>
<li><a href="#from-a-picture"><span class="n">2</span><span>From a picture</span></a></li>
<li><a href="#from-an-example"><span class="n">3</span><span>From a piece that stands</span></a></li></ol></nav>
<main id="main" tabindex="-1">
<div class="opening"><h1>Another piece</h1><p class="lead">Say what it is; the front beside it follows. What you begin with is a file of your own, and all of it can be changed.</p></div>
<section class="chapter" id="in-sentences" aria-labelledby="h1">
<h2 id="h1"><span class="num">1</span>In a few sentences</h2>
`

const startRest = `</section>
<section class="chapter" id="from-a-picture" aria-labelledby="h2">
<h2 id="h2"><span class="num">2</span>From a picture</h2>
<p>Lay a photograph or a sketch behind the front, as straight on as you have it. Lines drawn over it become the sizes in the sentences above.</p>
<p class="choose"><label for="picture">Picture, PNG or JPEG</label> <input type="file" id="picture" accept="image/png,image/jpeg"></p>
<div id="trace" hidden></div>
</section>
<section class="chapter" id="from-an-example" aria-labelledby="h3">
<h2 id="h3"><span class="num">3</span>From a piece that stands</h2>
<p>Each is sound as it is. Begin with a copy, and change what is not yours.</p>
<ul class="samples" id="samples" aria-busy="true"></ul>
</section>
</main>
<aside class="front" aria-label="What comes of it"><div class="plate" id="front"></div><p class="tally" id="tally"></p><div id="facts"></div>
<details><summary>The file as it would be written</summary><pre id="text" tabindex="0" role="region" aria-label="Text of the file"></pre></details></aside>
</div>
</body>
</html>
`
