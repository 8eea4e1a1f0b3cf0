package html

import (
	"regexp"
	"strconv"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/cite"
	"rodwork/internal/table"
)

// table sets a table with heads that say their unit, in a frame that scrolls
// by itself where the page is narrower than the table.
func (p *page) table(id string, t table.Table) {
	role := roles{}
	if tells(t) {
		role = roles{` class="told" role="table"`, ` role="row"`, ` role="columnheader"`, ` role="rowheader"`, ` role="cell"`}
	}
	p.raw(`<div class="frame" id="`, id, `" role="region" tabindex="0" aria-labelledby="c-`, id, `"><table`, role.table, `><caption id="c-`, id, `">`,
		words(t.Caption), "</caption>\n<thead><tr", role.row, ">")
	for _, c := range t.Columns {
		p.raw(`<th scope="col"`, role.head, alignClass(c, ""), `>`, words(c.Head))
		if u := p.book.HeadUnit(c); u != "" {
			p.raw(` <span class="u">`, words(u), `</span>`)
		}
		p.raw("</th>")
	}
	p.raw("</tr></thead>\n<tbody>\n")
	for _, r := range t.Rows {
		p.tr(t, r, role)
	}
	p.raw("</tbody></table>")
	if t.Note != "" {
		p.raw(`<p class="tnote">`, words(t.Note), `</p>`)
	}
	p.raw("</div>\n")
}

// roles say again what the elements of a table are, for a table that a narrow
// page lays out as a list: some browsers then forget it.
type roles struct{ table, row, head, names, cell string }

// tells reports whether a table has whole sentences in its cells.
func tells(t table.Table) bool {
	for _, r := range t.Rows {
		for _, c := range r.Cells {
			if len(c.Say) > 0 {
				return true
			}
		}
	}
	return false
}

func alignClass(c table.Column, more string) string {
	class := more
	if c.Align == table.Right {
		class = strings.TrimSpace("r " + more)
	}
	if class == "" {
		return ""
	}
	return ` class="` + class + `"`
}

// shortWord is the length under which a word is not broken at its hyphen.
const shortWord = 16

func (p *page) tr(t table.Table, r table.Row, role roles) {
	class := ""
	switch {
	case r.Picked:
		class = ` class="me"`
	case r.Total:
		class = ` class="sum"`
	}
	p.raw("<tr", role.row, class, attr("id", r.Anchor), attr("data-row", r.ID), ">")
	for i, c := range r.Cells {
		col := t.Columns[i]
		tag, scope := "td", role.cell
		if col.Names && !c.Empty() {
			tag, scope = "th", role.names+` scope="row"`
		}
		if role.cell != "" && len(c.Say) > 0 {
			scope += attr("data-head", col.Head)
		}
		more := ""
		switch {
		case len(c.Say) > 0:
			more = "s"
		case c.Mark != "" || len(c.Text) < shortWord && !strings.Contains(c.Text, " "):
			more = "n"
		}
		p.raw("<", tag, scope, alignClass(col, more), ">")
		p.cell(c, col)
		p.raw("</", tag, ">")
	}
	p.raw("</tr>\n")
}

func (p *page) cell(c table.Cell, col table.Column) {
	if c.Mark != "" {
		p.raw(mark(c.Mark))
	}
	switch {
	case c.Q != nil:
		p.quantity(*c.Q, p.book.PrintedIn(*c.Q, col))
	case len(c.Say) > 0:
		p.sentence(c.Say)
	default:
		p.raw(words(c.Text))
	}
}

// rule shows a rule whole: question, formula, symbols with range, sources,
// assumptions.
func (p *page) rule(id string, n book.RuleNote) {
	r := n.Rule
	p.raw(`<article class="rule" id="`, id, `"><h3><span class="rid">`, words(r.ID), `</span> `, words(n.Title()), `</h3>`, "\n",
		`<p class="q">`, words(r.Question), `</p>`, "\n", `<p class="f">`, lowered(r.Formula), `</p>`, "\n")
	p.symbols(id, r)
	p.raw(`<ul class="from">`)
	for _, s := range r.Sources {
		p.raw(`<li>`, words(s.Text))
		if s.Locator != "" {
			p.raw(", ", words(s.Locator))
		}
		p.raw(` <b class="lb">`, words(string(s.Label)), `</b></li>`)
	}
	p.raw("</ul>\n")
	p.lines("Assumes", r.Assumes)
	if r.Accuracy != "" {
		p.lines("How near", []string{r.Accuracy})
	}
	if n.Uses > 0 {
		p.lines("Findings that rest on it", []string{strconv.Itoa(n.Uses)})
	}
	p.raw("</article>\n")
}

var lowerPart = regexp.MustCompile(`_([\pL\pN]+)`)

// lowered sets the index of a letter low: y_n.
func lowered(s string) string { return lowerPart.ReplaceAllString(words(s), "<sub>$1</sub>") }

func (p *page) symbols(id string, r *cite.Rule) {
	if len(r.Symbols) == 0 {
		return
	}
	p.raw(`<div class="frame" role="region" tabindex="0" aria-label="Symbols of `, escape(r.ID), `"><table class="sym"><thead><tr>`,
		`<th scope="col">letter</th><th scope="col">what it is</th><th scope="col">holds for</th></tr></thead><tbody>`, "\n")
	for _, s := range r.Symbols {
		unit := s.Unit
		if unit == "1" {
			unit = ""
		}
		p.raw(`<tr><th scope="row"><i>`, lowered(s.Letter), `</i></th><td>`, words(s.Meaning))
		if unit != "" {
			p.raw(` <span class="u">`, words(unit), `</span>`)
		}
		p.raw(`</td><td>`, words(book.RangeText(s)))
		if s.Why != "" {
			p.raw(` <span class="u">`, words(s.Why), `</span>`)
		}
		p.raw("</td></tr>\n")
	}
	p.raw("</tbody></table></div>\n")
}

func (p *page) lines(head string, items []string) {
	if len(items) == 0 {
		return
	}
	p.raw(`<p class="as"><b>`, head, `</b> `)
	for i, it := range items {
		if i > 0 {
			p.raw(" · ")
		}
		p.raw(words(it))
	}
	p.raw("</p>\n")
}
