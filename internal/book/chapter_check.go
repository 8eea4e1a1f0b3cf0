package book

import (
	"slices"

	"rodwork/internal/cite"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// gravity orders verdicts: what stops the work comes first.
var gravity = map[work.Verdict]int{work.Stop: 0, work.Look: 1, work.NotCovered: 2, work.Fine: 3}

// check gathers all findings, gravest first, in the order of the plan within a
// verdict; what is fine is named, and told where it stands.
func (w *writer) check() {
	all := slices.Clone(w.p.Findings)
	slices.SortStableFunc(all, func(a, b work.Finding) int { return gravity[a.Verdict] - gravity[b.Verdict] })
	if len(all) == 0 {
		w.say("none", say.F("No check was made."))
		return
	}
	w.say("sum", say.F("{}: {} stop, {} look, {} fine, {} not covered by a rule. Stop means: don’t cut yet. Look means: "+
		"your decision. A check that says fine says so of its own question only.", plural(len(all), "finding", "findings"),
		number(w.count(work.Stop)), number(w.count(work.Look)), number(w.count(work.Fine)), number(w.count(work.NotCovered))))
	grave := table.Table{Key: "findings", Caption: "To settle, gravest first", Columns: []table.Column{table.Words("says"),
		table.Names("of"), table.Words("what was found"), table.Words("what would mend it"), table.Words("rule")}}
	fine := table.Table{Key: "fine", Caption: "Found fine", Columns: []table.Column{table.Words("says"),
		table.Names("of"), table.Words("told in"), table.Words("rule")}}
	for _, f := range all {
		cells := []table.Cell{table.Marked(string(f.Verdict), string(f.Verdict)), table.T(upper(f.Title))}
		if f.Verdict == work.Fine {
			cells = append(cells, table.T(w.chapterTitle(chapterOf(f))), table.T(f.Rule))
			fine.Rows = append(fine.Rows, table.Row{ID: f.ID, Cells: cells})
			continue
		}
		cells = append(cells, table.S(capital(f.Text)), table.S(mends(f)), table.T(f.Rule))
		grave.Rows = append(grave.Rows, table.Row{ID: f.ID, Cells: cells})
	}
	w.table(grave)
	w.table(fine)
}

// mends joins what would settle a finding.
func mends(f work.Finding) say.Sentence {
	var out say.Sentence
	for i, m := range f.Mends {
		if i > 0 {
			out = append(out, say.Span{Text: "; or "})
		}
		out = append(out, m.Text...)
	}
	return out
}

// sources says where the numbers come from: the rules, then the inputs.
func (w *writer) sources() {
	w.say("how", say.F("Every number of this book is worked out from what the two files say, by the rules below. A source is "+
		"marked read where its own text was read, quoted where another text quotes it, from memory where it was not "+
		"looked up, common practice where the trade has no published source, and derived where it follows from others "+
		"named with it."))
	used := w.usedRules()
	for _, r := range w.p.Rules {
		if used[r.ID] {
			w.add(RuleNote{ID: ID("sources/rule " + r.ID), Rule: r, Uses: w.uses[r.ID]})
		}
	}
	if n := len(w.p.Rules) - len(w.shownRules(used)); n > 0 {
		w.say("other rules", say.F("{} known to the program and not used here.", plural(n, "more rule is", "more rules are")))
	}
	w.table(w.inputTable())
}

// usedRules are those behind a finding or a named value.
func (w *writer) usedRules() map[string]bool {
	used := map[string]bool{}
	for _, f := range w.p.Findings {
		used[f.Rule] = true
	}
	if w.p.Ledger != nil {
		for _, v := range w.p.Ledger.Values() {
			if v.Rule != "" {
				used[v.Rule] = true
			}
		}
	}
	return used
}

func (w *writer) shownRules(used map[string]bool) []*cite.Rule {
	var out []*cite.Rule
	for _, r := range w.p.Rules {
		if used[r.ID] {
			out = append(out, r)
		}
	}
	return out
}

var kindWord = map[trace.Kind]string{trace.Size: "size", trace.Field: "piece file", trace.Shop: "shop file",
	trace.Habit: "habit of the shop", trace.Rule: "of the program"}

// inputTable lists everything that the numbers stand on, as it was written.
func (w *writer) inputTable() table.Table {
	t := table.Table{Key: "inputs", Caption: "All that the numbers stand on", Columns: []table.Column{table.Names("input"),
		table.Words("as written"), table.Words("what it is"), table.Words("where")}}
	if w.p.Ledger == nil {
		return t
	}
	for _, in := range w.p.Ledger.Inputs() {
		where := ""
		if !in.At.IsZero() {
			where = in.At.String()
		}
		t.Rows = append(t.Rows, table.Row{ID: in.Path, Cells: []table.Cell{table.T(in.Path), table.T(in.Text),
			table.T(kindWord[in.Kind]), table.T(where)}})
	}
	return t
}
