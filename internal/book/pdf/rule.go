package pdf

import (
	"strconv"

	"rodwork/internal/book"
	"rodwork/internal/cite"
	paper "rodwork/internal/format/pdf"
)

var (
	ruleTitle = paper.Style{Face: paper.TextBold, Size: paper.MM(10.5), Colour: paper.Ink}
	ruleID    = paper.Style{Face: paper.Table, Size: paper.MM(8.4), Colour: paper.Soft}
	formula   = styles(paper.Table, paper.TableBold, paper.TableItalic, 9.6, 13.4, paper.Ink)
	question  = styles(paper.TextItalic, paper.TextBold, paper.TextItalic, 9.6, 13, paper.Ink)
)

// rule sets a rule whole: question, formula, letters with what they hold for,
// sources, assumptions.
func (s *setter) rule(n book.RuleNote) {
	r := n.Rule
	head := &text{}
	head.add(ruleID, r.ID+"\u00a0\u00a0")
	head.add(ruleTitle, " "+r.Title)
	lines, ask := broken(head.words, s.wide()), broken(plain(question.plain, r.Question).words, s.wide())
	form := &text{}
	form.formula(formula.plain, r.Formula)
	fl := broken(form.words, s.wide()-6)
	fh := float64(len(fl)) * formula.step
	s.begin(5, min(s.room()/2, float64(len(lines)+len(ask))*5.2+fh+16))
	s.mark(n.BlockID())
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+s.wide(), s.y, 0.13, paper.Hair)
	s.y = s.stack(s.el(paper.H3), leftMargin, s.y+1.6, lines, look{plain: ruleTitle, step: 5.2})
	s.y = s.stack(s.el(paper.P), leftMargin, s.y, ask, question)
	s.opened = false
	s.y += 1.4
	if fh <= s.left() {
		s.page.In(nil)
		s.page.Fill(leftMargin, s.y, 0.6, fh, paper.Accent)
		s.y = s.stack(s.el(paper.P), leftMargin+4.5, s.y, fl, formula)
	} else {
		s.flow(s.el(paper.P), leftMargin+4.5, s.wide()-6, form, formula)
	}
	s.y += 1.4
	s.symbols(r)
	s.ruleFrom(n)
	s.my = s.y
}

// symbols lists the letters of a formula.
func (s *setter) symbols(r *cite.Rule) {
	e := s.el(paper.TableOf)
	letterW := 0.0
	letters := make([][]line, len(r.Symbols))
	for i, sym := range r.Symbols {
		t := &text{}
		t.formula(cells.italic, sym.Letter)
		letters[i] = broken(t.words, 24)
		for _, l := range letters[i] {
			letterW = max(letterW, l.w)
		}
	}
	letterW = max(letterW, 4)
	meanW := s.wide() * 0.5
	holdX := leftMargin + letterW + 3 + meanW + 5
	holdW := leftMargin + s.wide() - holdX
	for i, sym := range r.Symbols {
		mean, hold := &text{}, &text{}
		mean.add(sans.plain, sym.Meaning)
		if sym.Unit != "" && sym.Unit != "1" {
			mean.add(small.plain, " "+sym.Unit)
		}
		hold.add(sans.plain, book.RangeText(sym))
		if sym.Why != "" {
			hold.add(small.plain, " "+sym.Why)
		}
		ml, hl := broken(mean.words, meanW), broken(hold.words, holdW)
		h := float64(max(len(ml), len(hl), len(letters[i]))) * sans.step
		s.need(h)
		tr := s.doc.Element(e, paper.TR, "")
		s.stack(s.doc.Element(tr, paper.TH, ""), leftMargin, s.y, letters[i], sans)
		s.stack(s.doc.Element(tr, paper.TD, ""), leftMargin+letterW+3, s.y, ml, sans)
		s.stack(s.doc.Element(tr, paper.TD, ""), holdX, s.y, hl, sans)
		s.y += h
		s.opened = false
	}
}

// ruleFrom sets sources, assumptions and how near a rule is.
func (s *setter) ruleFrom(n book.RuleNote) {
	r := n.Rule
	say := func(head string, items []string) {
		if len(items) == 0 {
			return
		}
		t := &text{}
		t.add(sans.bold, head+" ")
		for i, it := range items {
			if i > 0 {
				t.add(sans.plain, " · ")
			}
			t.add(sans.plain, it)
		}
		s.y += 0.7
		s.flow(s.el(paper.P), leftMargin, s.wide(), t, sans)
	}
	sources := make([]string, len(r.Sources))
	for i, src := range r.Sources {
		sources[i] = book.SourceText(src)
	}
	say("From", sources)
	say("Assumes", r.Assumes)
	t, gap := &text{}, ""
	if r.Accuracy != "" {
		t.add(sans.bold, "How near ")
		t.add(sans.plain, r.Accuracy)
		gap = " · "
	}
	if n.Uses > 0 {
		t.add(sans.plain, gap)
		t.add(sans.bold, tight("Findings that rest on it "))
		t.add(sans.plain, strconv.Itoa(n.Uses))
	}
	s.y += 0.7
	s.flow(s.el(paper.P), leftMargin, s.wide(), t, sans)
	s.y += 1
}
