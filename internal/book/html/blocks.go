package html

import (
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/format/svg"
	"rodwork/internal/say"
)

func (p *page) block(b book.Block) {
	id := anchor(b.BlockID())
	switch b := b.(type) {
	case book.Heading:
		p.raw(`<h3 id="`, id, `">`, words(b.Text), "</h3>\n")
	case book.Paragraph:
		p.raw(`<p id="`, id, `">`)
		p.sentence(b.Text)
		p.raw("</p>\n")
	case book.Table:
		p.table(id, b.Table)
	case book.Figure:
		p.figure(id, b)
	case book.Steps:
		p.steps(id, b)
	case book.Caution:
		p.caution(id, b)
	case book.RuleNote:
		p.rule(id, b)
	case book.NotYet:
		p.notYet(id, b)
	case book.Finding:
		p.finding(b)
	}
}

// sentence writes spans; a written value is marked as one, with its path.
func (p *page) sentence(s say.Sentence) {
	for _, sp := range s {
		switch {
		case sp.Q != nil:
			p.quantity(*sp.Q, p.book.Printed(*sp.Q))
		case sp.Path != "" || sp.Strong:
			p.raw(`<b class="v"`, attr("data-path", sp.Path), `>`, words(sp.Text), `</b>`)
		case sp.Italic:
			p.raw(`<i>`, words(sp.Text), `</i>`)
		case strings.HasPrefix(sp.Text, " %"): // stays with its number
			p.raw("\u00a0", words(sp.Text[1:]))
		default:
			p.raw(words(sp.Text))
		}
	}
}

// quantity writes a printed number: alive where it has a path, else computed.
func (p *page) quantity(q say.Quantity, printed string) {
	text := tight(escape(printed))
	switch {
	case q.Path != "":
		class, formula := "v", p.book.Formulas[q.Path]
		if formula != "" {
			class = "v formula"
		}
		p.raw(`<b class="`, class, `"`, attr("data-path", q.Path), attr("data-id", q.ID), attr("title", formula), `>`, text, `</b>`)
	case q.ID != "":
		p.raw(`<span class="c"`, attr("data-id", q.ID), `>`, text, `</span>`)
	default:
		p.raw(`<span class="c">`, text, `</span>`)
	}
}

// attr is an attribute, left out where its value is empty.
func attr(name, value string) string {
	if value == "" {
		return ""
	}
	return ` ` + name + `="` + escape(value) + `"`
}

func (p *page) figure(id string, f book.Figure) {
	n := strconv.Itoa(f.Number)
	p.raw(`<figure id="`, id, `"`, p.turned(f), `>`)
	p.modelData(f)
	p.raw(`<div class="plate" role="group" tabindex="0" aria-label="Figure `, n, `: `, escape(f.Leaf.Title), `">`, "\n")
	p.buf.Write(svg.Inline(f.Leaf, "f"+n+"-"))
	p.raw("\n", `</div><figcaption><b>Fig. `, n, `.</b> <span class="ft">`, words(f.Leaf.Title), `</span>`)
	if f.Leaf.Right != "" {
		p.raw(` <span class="fr">`, words(f.Leaf.Right), `</span>`)
	}
	if f.Leaf.Caption != "" {
		p.raw(`<span class="fc">`, words(f.Leaf.Caption), `</span>`)
	}
	p.raw("</figcaption></figure>\n")
}

func (p *page) steps(id string, s book.Steps) {
	p.raw(`<div class="steps" id="`, id, `"><h3>`, words(s.Title), `</h3><ol>`, "\n")
	for _, st := range s.Steps {
		n := strconv.Itoa(st.Number)
		p.raw(`<li value="`, n, `" id="`, anchor(st.ID), `"><span class="sn" aria-hidden="true">`, n, `</span><p>`)
		p.sentence(st.Text)
		p.raw(`</p>`)
		for _, note := range st.Notes {
			p.raw(`<p class="note">`)
			p.sentence(note)
			p.raw(`</p>`)
		}
		p.raw("</li>\n")
	}
	p.raw("</ol></div>\n")
}

func (p *page) caution(id string, c book.Caution) {
	p.raw(`<section class="caution" id="`, id, `" aria-labelledby="h-`, id, `"><h3 id="h-`, id, `">`, mark("caution"),
		`<span>Caution: `, words(c.Title), `</span></h3>`, "\n")
	for _, s := range c.Text {
		p.raw(`<p>`)
		p.sentence(s)
		p.raw("</p>\n")
	}
	p.raw(`<p class="src">`)
	for i, s := range c.Sources {
		if i > 0 {
			p.raw("; ")
		}
		p.raw(words(book.SourceText(s)))
	}
	p.raw("</p></section>\n")
}

func (p *page) notYet(id string, n book.NotYet) {
	p.raw(`<div class="notyet" id="`, id, `"><h3>Not computed yet, and yours to think of</h3><ul>`)
	for _, it := range n.Items {
		p.raw(`<li>`, words(it), `</li>`)
	}
	p.raw("</ul></div>\n")
}

// finding stands beside its cause: verdict, fact against limit, rule, mends.
func (p *page) finding(f book.Finding) {
	v := string(f.Finding.Verdict)
	p.raw(`<aside class="find `, className(v), `" id="`, anchor(f.BlockID()), `"`, attr("data-path", f.Finding.Path), ` aria-label="`, escape(v+": "+f.Finding.Title),
		`"><div class="w">`, mark(v), `<b>`, words(v), `</b><span class="t">`, words(f.Finding.Title), "</span></div>\n<p>")
	p.sentence(f.Finding.Text)
	p.raw("</p>\n")
	if f.Finding.Rule != "" {
		p.raw(`<p class="src">`)
		if f.Rule != nil {
			p.raw(`<a href="#`, anchor("sources/rule "+f.Rule.ID), `">`, words(f.RuleTitle()), `</a>`)
			if len(f.Rule.Sources) > 0 {
				p.raw(`, `, words(string(f.Rule.Sources[0].Label)))
			}
		} else {
			p.raw(`rule `, words(f.Finding.Rule))
		}
		p.raw("</p>\n")
	}
	for i, m := range f.Finding.Mends {
		class := "mend"
		if m.New == "" { // nothing that could be put in: advice
			class = "mend also"
		}
		tag := "p"
		if p.live && m.New != "" {
			tag = `button`
			class += `" type="button`
		}
		p.raw(`<`, tag, ` class="`, class, `"`, attr("data-path", m.Path), attr("data-new", m.New), `>`)
		switch {
		case i > 0:
			p.raw(`or `)
		case m.New == "":
			p.raw(`mend: `)
		}
		p.sentence(m.Text)
		p.raw("</", tag, ">\n")
	}
	p.raw("</aside>\n")
}

func className(v string) string {
	if v == "not covered" {
		return "notcovered"
	}
	return escape(v)
}
