package book

import (
	"rodwork/internal/cite"
	"rodwork/internal/leaf"
	"rodwork/internal/model"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Book is all of it, in the order of the work.
type Book struct {
	Title    string
	Lead     say.Sentence
	System   units.System // that the reader asked for
	Currency string       // ISO 4217
	// Formulas has, by path, the text of every written value that is a formula:
	// who changes such a value is asked which of its names to change.
	Formulas map[string]string
	Chapters []Chapter
	drawn    map[string]group
	sections map[string]section
}

// Chapter is one part of the work.
type Chapter struct {
	Key    string // "shell": what a finding's Chapter names
	Number int    // from 1
	Title  string
	Blocks []Block
}

// Block is one thing of a chapter. Its id is stable while the thing it is about
// keeps its name, and unique in the book, so that a page can change one block
// and leave the others.
type Block interface {
	// BlockID is the block's stable id: "shell/strip shell/kerfs".
	BlockID() string
	sealed()
}

// ID is the stable id that every block embeds.
type ID string

// BlockID returns the id.
func (id ID) BlockID() string { return string(id) }
func (ID) sealed()            {}

// Heading opens a section of a chapter.
type Heading struct {
	ID
	Text string
}

// Paragraph is a sentence or a few.
type Paragraph struct {
	ID
	Text say.Sentence
}

// Table is a table.
type Table struct {
	ID
	Table table.Table
}

// Finding is what a check says; it follows the block that causes it, and a
// renderer with room sets it beside that block.
type Finding struct {
	ID
	Finding work.Finding
	Rule    *cite.Rule // nil where the plan has no rule of that id
	Beside  string     // id of the block that it stands beside
}

// RuleTitle is the title of the rule behind the finding, or its id where the
// plan has no such rule, or "".
func (f Finding) RuleTitle() string {
	if f.Rule == nil {
		return f.Finding.Rule
	}
	return upper(f.Rule.Title)
}

// Figure is a drawn leaf.
type Figure struct {
	ID
	Number int // in the book, from 1
	Leaf   leaf.Leaf
	Behind bool // it is the figure of an older book, and this one's is not drawn yet
	// Turns tells that it is the still picture of a model that can be turned,
	// where that can be shown. Model is its data, if they were asked for.
	Turns bool
	Model *model.Scene
}

// Steps is a list of acts in their order.
type Steps struct {
	ID
	Title string
	Steps []Step
}

// Step is one act.
type Step struct {
	ID     string
	Number int
	Text   say.Sentence
	// Notes are said below the act, smaller: what it closes, which way it goes.
	Notes []say.Sentence
}

// Caution is a warning where the work can hurt someone. It defers to the
// tool's manual, the law of the place and licensed practice, and is never the
// whole of what must be known.
type Caution struct {
	ID
	Title   string
	Text    []say.Sentence
	Sources []cite.Source
}

// RuleNote shows one rule: formula, symbols, source, range.
type RuleNote struct {
	ID
	Rule *cite.Rule
	Uses int // findings of this book that rest on it
}

// Title is the rule's title with a capital.
func (n RuleNote) Title() string { return upper(n.Rule.Title) }

// NotYet lists what the program does not compute and the maker must.
type NotYet struct {
	ID
	Items []string
}
