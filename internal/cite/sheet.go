package cite

// Sheet is a rule laid out for print, as data: a renderer chooses how numbers,
// units and ranges look. Sections stand in the order in which they are read.
type Sheet struct {
	ID, Title, Question string
	Formula             string
	Symbols             []SymbolRow
	Results             []ResultRow
	Sections            []Section
	Sources             []Source
	Example             []ExampleRow
	ExampleFrom         string
}

// SymbolRow is one symbol with its range. NoRange: the source gives none.
type SymbolRow struct {
	Letter, Name, Meaning, Unit string
	Min, Max                    float64
	NoRange                     bool
	Why                         string
	Else                        string // what is taken where it is left out; "" it must be given
}

// ResultRow names one result and its unit.
type ResultRow struct{ Name, Unit string }

// Section is a heading with its sentences: "Assumes", "Accuracy", "Remedies".
type Section struct {
	Head  string
	Lines []string
}

// ExampleRow is one value of the example; In tells whether it goes in.
type ExampleRow struct {
	Name, Unit string
	Value      float64
	In         bool
}

// Sheet lays the rule out. Results and the example's values stand in the
// rule's own order, not the map's.
func (r *Rule) Sheet() Sheet {
	s := Sheet{
		ID: r.ID, Title: r.Title, Question: r.Question, Formula: r.Formula,
		Sources: r.Sources, ExampleFrom: r.Example.From,
		Sections: []Section{
			{"Assumes", r.Assumes}, {"Accuracy", []string{r.Accuracy}}, {"Remedies", r.Remedies},
		},
	}
	for _, y := range r.Symbols {
		s.Symbols = append(s.Symbols, SymbolRow{
			Letter: y.Letter, Name: y.Name, Meaning: y.Meaning, Unit: y.Unit,
			Min: y.Min, Max: y.Max, NoRange: !y.Bounded(), Why: y.Why, Else: y.Else,
		})
		if v, ok := r.Example.In[y.Name]; ok {
			s.Example = append(s.Example, ExampleRow{y.Name, y.Unit, v, true})
		}
	}
	out, err := r.Run(r.Example.In)
	if err != nil {
		return s
	}
	for _, o := range out {
		s.Results = append(s.Results, ResultRow{o.Name, o.Unit})
		if v, ok := r.Example.Out[o.Name]; ok {
			s.Example = append(s.Example, ExampleRow{o.Name, o.Unit, v, false})
		}
	}
	return s
}

// Place prints a source in one line: text, place in it, label.
func (s Source) Place() string {
	line := s.Text
	if s.Locator != "" {
		line += ", " + s.Locator
	}
	return line + " (" + string(s.Label) + ")"
}
