package cli

import (
	"encoding"
	"fmt"

	"github.com/alecthomas/kong"

	"rodwork/internal/diag"
	"rodwork/internal/units"
)

// grammar is every command with its flags, in the order in which help lists
// them: first the whole book, then its chapters one by one, then what a maker
// asks between, then files.
type grammar struct {
	Home      homeCmd      `cmd:"" default:"withargs" hidden:"" help:"open the page on the example"`
	Open      openCmd      `cmd:"" help:"open a piece as a page that answers: read it, change it in place, begin another"`
	Demo      demoCmd      `cmd:"" help:"write the book of the example piece, and open it"`
	Book      bookCmd      `cmd:"" help:"write the book of a piece: all of it, in the order of the work"`
	Check     checkCmd     `cmd:"" help:"say what the checks found"`
	Parts     partsCmd     `cmd:"" help:"list the parts, with their finished sizes and blanks"`
	Bends     bendsCmd     `cmd:"" help:"list the bends, with every kerf from one datum"`
	Sheets    sheetsCmd    `cmd:"" help:"lay the parts on sheets and sticks, with the order of the cuts"`
	Steps     stepsCmd     `cmd:"" help:"give an order in which it goes together"`
	Buy       buyCmd       `cmd:"" help:"list what to buy, and what it costs"`
	Templates templatesCmd `cmd:"" help:"write full-size templates, strips and drilling templates, for print and for machines"`
	Labels    labelsCmd    `cmd:"" help:"write a label for each part"`
	Export    exportCmd    `cmd:"" help:"write lists and solids for other programs: CSV, XLSX, GLB, STEP, JSON"`
	Explain   explainCmd   `cmd:"" help:"tell where a number comes from"`
	Rules     rulesCmd     `cmd:"" help:"list the rules that numbers and findings come from"`
	Rule      ruleCmd      `cmd:"" help:"show one rule, or work it out for given values"`
	New       newCmd       `cmd:"" help:"write a new piece file to start from"`
	Set       setCmd       `cmd:"" help:"change one value in a piece file, and nothing else in it"`
	Schema    schemaCmd    `cmd:"" help:"print the JSON Schema of a file"`
	Version   versionCmd   `cmd:"" help:"print the version"`
}

// pieceArgs is what every command about a piece takes.
type pieceArgs struct {
	File  string     `arg:"" name:"file" help:"the piece file; - reads the standard input"`
	Shop  string     `placeholder:"FILE" help:"the shop file; else the one that the piece file names, else the example's"`
	Units systemFlag `placeholder:"mm|in" help:"how lengths are printed; else as the piece file says"`
}

// dataArgs is what every command that prints data about a piece takes.
type dataArgs struct {
	pieceArgs
	JSON   bool   `name:"json" help:"print JSON, lengths in mm whatever --units says"`
	Effort uint32 `placeholder:"N" help:"work to spend on better layouts, in units that do not depend on the machine; 0 is a first layout"`
}

// systemFlag is a units.System as a flag.
type systemFlag units.System

var _ encoding.TextUnmarshaler = (*systemFlag)(nil)

// UnmarshalText accepts mm and in, and names the nearest of them otherwise.
func (f *systemFlag) UnmarshalText(text []byte) error {
	switch w := string(text); w {
	case "mm", "in":
		*f = systemFlag(w)
		return nil
	default:
		known := map[string]string{"millimetre": "mm", "millimeter": "mm", "metric": "mm", "cm": "mm", "inch": "in", "inches": "in", "imperial": "in"}
		words := []string{"mm", "in", "millimetre", "millimeter", "metric", "cm", "inch", "inches", "imperial"}
		near := diag.Nearest(w, words)
		if k, ok := known[near]; ok {
			near = k
		}
		if near != "" {
			return fmt.Errorf("%q is neither mm nor in; did you mean %s?", w, near)
		}
		return fmt.Errorf("%q is neither mm nor in", w)
	}
}

func newParser(g *grammar, s *session) *kong.Kong {
	p, err := kong.New(g,
		kong.Name("rodwork"),
		kong.Description(purpose),
		kong.Writers(s.out, s.err),
		kong.Exit(func(int) { panic(helpShown{}) }),
		kong.Help(printHelp),
	)
	if err != nil {
		panic("cli: the grammar is broken: " + err.Error())
	}
	return p
}
