package export

import (
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Check is what the checks found.
type Check struct {
	PieceHead
	Looks    int          `json:"looks" doc:"findings that ask for a decision"`
	Fines    int          `json:"fines" doc:"findings that say fine"`
	Findings []Finding    `json:"findings" doc:"in the order of the plan"`
	Fits     []Fit        `json:"fits" doc:"how much of the brief goes in"`
	Warnings []Diagnostic `json:"warnings" doc:"remarks about the files that did not keep them from being used"`
}

// Finding is what one check says of one place.
type Finding struct {
	ID      string `json:"id" doc:"unique in the plan"`
	Rule    string `json:"rule" doc:"id of the rule"`
	Verdict string `json:"verdict" doc:"stop, look, fine or not covered"`
	Title   string `json:"title" doc:"in a few words"`
	Text    string `json:"text" doc:"what was found, against which limit"`
	Value   Number `json:"value" doc:"in the finding's unit"`
	Limit   Number `json:"limit" doc:"in the finding's unit"`
	Unit    string `json:"unit" doc:"of value and limit"`
	Part    string `json:"part" doc:"id of the part, or empty"`
	Chapter string `json:"chapter" doc:"of the book"`
	Path    string `json:"path" doc:"where in the piece file it is caused"`
	At      Range  `json:"at" doc:"that place"`
	Mends   []Mend `json:"mends" doc:"what would settle it"`
}

// Mend is what would settle a finding.
type Mend struct {
	Text string `json:"text" doc:"in words"`
	Path string `json:"path" doc:"of the value to change, or empty"`
	New  string `json:"new" doc:"the text to put there, or empty"`
}

// Fit tells how much of one thing goes in.
type Fit struct {
	What   string     `json:"what" doc:"as the brief says"`
	Wanted int        `json:"wanted" doc:"how many are to go in"`
	Fits   int        `json:"fits" doc:"how many do"`
	Why    string     `json:"why" doc:"what stops the rest"`
	Where  []FitPlace `json:"where" doc:"where they go"`
	Path   string     `json:"path" doc:"of the thing in the piece file"`
}

// FitPlace is a number of things in one space.
type FitPlace struct {
	Space string `json:"space" doc:"name of the bay or level"`
	Rows  int    `json:"rows" doc:"how many rows"`
	Count int    `json:"count" doc:"how many things"`
}

// Stops counts the findings that say stop.
func Stops(p *plan.Plan) int { return count(p, work.Stop) }

func count(p *plan.Plan, v work.Verdict) int {
	n := 0
	for _, f := range p.Findings {
		if f.Verdict == v {
			n++
		}
	}
	return n
}

// CheckOf makes the document of the findings; warnings are added by who read
// the files.
func CheckOf(p *plan.Plan) Check {
	return Check{
		PieceHead: pieceHead("check", p),
		Looks:     count(p, work.Look) + count(p, work.NotCovered),
		Fines:     count(p, work.Fine),
		Findings:  each(p.Findings, findingOf),
		Fits:      each(p.Fits, fitOf),
		Warnings:  []Diagnostic{},
	}
}

func findingOf(f work.Finding) Finding {
	return Finding{f.ID, f.Rule, string(f.Verdict), f.Title, Text(f.Text, units.MM), num(f.Value), num(f.Limit), f.Unit,
		f.Part, f.Chapter, f.Path, rangeOf(f.At), each(f.Mends, func(m work.Mend) Mend {
			return Mend{Text(m.Text, units.MM), m.Path, m.New}
		})}
}

func fitOf(f work.Fit) Fit {
	return Fit{f.What, f.Wanted, f.Fits, f.Why, each(f.Where, func(w work.FitPlace) FitPlace {
		return FitPlace{w.Space, w.Rows, w.Count}
	}), f.Path}
}
