package export

import (
	"rodwork/internal/cite"
	"rodwork/internal/plan"
	"rodwork/internal/template"
	"rodwork/internal/work"
)

// Rules is the list of rules.
type Rules struct {
	Head
	Rules []Rule `json:"rules" doc:"by id"`
}

// RuleRun is one rule, worked out where values were given.
type RuleRun struct {
	Head
	Rule    Rule     `json:"rule" doc:"the rule"`
	Given   []Given  `json:"given" doc:"what it was worked out for; empty where nothing was given"`
	Verdict string   `json:"verdict" doc:"covered, not covered, or not asked"`
	Why     string   `json:"why" doc:"why it is not covered"`
	Results []Result `json:"results" doc:"empty where it is not covered: no number is better than a wrong one"`
}

// Given is one value given to a rule.
type Given struct {
	Name  string `json:"name" doc:"of the symbol"`
	Value Number `json:"value" doc:"in the symbol's unit"`
	Unit  string `json:"unit" doc:"of the value"`
}

// Result is one value that a rule gives.
type Result struct {
	Name  string `json:"name" doc:"of the result"`
	Value Number `json:"value" doc:"in the unit below"`
	Unit  string `json:"unit" doc:"of the value"`
}

// Rule is one computed rule.
type Rule struct {
	ID       string   `json:"id" doc:"never reused"`
	Title    string   `json:"title" doc:"in a few words"`
	Question string   `json:"question" doc:"what the maker learns from it"`
	Formula  string   `json:"formula" doc:"as printed"`
	Symbols  []Symbol `json:"symbols" doc:"letters of the formula"`
	Sources  []Source `json:"sources" doc:"where it comes from"`
	Assumes  []string `json:"assumes" doc:"simplifications, each with the way it errs"`
	Accuracy string   `json:"accuracy" doc:"what the source says of it"`
	Remedies []string `json:"remedies" doc:"what mends a failure"`
}

// Symbol is one letter of a formula.
type Symbol struct {
	Letter   string `json:"letter" doc:"as printed"`
	Name     string `json:"name" doc:"as it is written at the command line"`
	Meaning  string `json:"meaning" doc:"in words"`
	Unit     string `json:"unit" doc:"of its values"`
	Ranged   bool   `json:"ranged" doc:"the source gives a range"`
	Min      Number `json:"min" doc:"of the range of validity"`
	Max      Number `json:"max" doc:"of the range of validity"`
	Why      string `json:"why" doc:"of the range"`
	Whole    bool   `json:"whole" doc:"a count: whole numbers only"`
	Optional bool   `json:"optional" doc:"may be left out"`
	Else     string `json:"else" doc:"what is taken where it is left out"`
}

// Source is one place in one text.
type Source struct {
	Text    string `json:"text" doc:"author, title, edition, year"`
	Locator string `json:"locator" doc:"clause, table, equation, page"`
	Label   string `json:"label" doc:"read, quoted, from memory, common practice or derived"`
}

// RulesOf makes the document of the rules.
func RulesOf(rules []*cite.Rule) Rules { return Rules{head("rules"), each(rules, ruleOf)} }

// RuleRunOf makes the document of one rule. Results and err are what running
// it for the given values gave; given nil means that it was only asked for.
func RuleRunOf(r *cite.Rule, given map[string]float64, results []cite.Result, err error) RuleRun {
	out := RuleRun{Head: head("rule"), Rule: ruleOf(r), Given: []Given{}, Results: []Result{}, Verdict: "not asked"}
	if given == nil {
		return out
	}
	for _, s := range r.Symbols {
		if v, ok := given[s.Name]; ok {
			out.Given = append(out.Given, Given{s.Name, Number(v), s.Unit})
		}
	}
	if err != nil {
		out.Verdict, out.Why = "not covered", err.Error()
		return out
	}
	out.Verdict = "covered"
	out.Results = each(results, func(x cite.Result) Result { return Result{x.Name, Number(x.Value), x.Unit} })
	return out
}

func ruleOf(r *cite.Rule) Rule {
	return Rule{r.ID, r.Title, r.Question, r.Formula,
		each(r.Symbols, func(s cite.Symbol) Symbol {
			return Symbol{s.Letter, s.Name, s.Meaning, s.Unit, s.Bounded(), Number(s.Min), Number(s.Max), s.Why, s.Whole, s.Optional, s.Else}
		}),
		each(r.Sources, func(s cite.Source) Source { return Source{s.Text, s.Locator, string(s.Label)} }),
		list(r.Assumes), r.Accuracy, list(r.Remedies)}
}

// All is every document about a piece in one: the plan.json of a book.
type All struct {
	PieceHead
	Check  Check  `json:"check" doc:"findings"`
	Parts  Parts  `json:"parts" doc:"parts, joints, fittings"`
	Bends  Bends  `json:"bends" doc:"bends with their kerfs"`
	Sheets Sheets `json:"sheets" doc:"layouts"`
	Steps  Steps  `json:"steps" doc:"assembly"`
	Buy    Buy    `json:"buy" doc:"buying list"`

	SetUps  []SetUp     `json:"set_ups" doc:"in the order of the work"`
	Tests   []TestPiece `json:"test_pieces" doc:"offcuts that are cut first"`
	Screws  []Screws    `json:"screws" doc:"by the joint"`
	Carries []Carried   `json:"carries" doc:"what each surface carries"`

	Templates []Finding `json:"template_findings" doc:"what full-size templates found: corners that no bit of the shop fits"`

	Values Explain `json:"explain" doc:"where every number comes from"`
}

// AllOf makes it.
func AllOf(p *plan.Plan) All {
	return All{pieceHead("all", p), CheckOf(p), PartsOf(p), BendsOf(p), SheetsOf(p), StepsOf(p), BuyOf(p),
		setUpsOf(p), testsOf(p), screwsOf(p), carriedOf(p), each(templatesOf(p), findingOf), ExplainOf(p, nil)}
}

// templatesOf are what the full-size templates find, with the shop's own bush.
func templatesOf(p *plan.Plan) []work.Finding {
	if p.Piece == nil {
		return nil
	}
	return template.Findings(template.Make(p, template.Options{}))
}
