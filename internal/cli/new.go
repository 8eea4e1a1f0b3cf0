package cli

import (
	"embed"
	"fmt"
	"strconv"
	"strings"

	"rodwork/examples"
	"rodwork/internal/outdir"
	"rodwork/internal/starter"
	"rodwork/internal/units"
)

type newCmd struct {
	Kind   string     `arg:"" name:"kind" help:"sideboard, bookcase, chest of drawers, wall cabinet, wall shelf, box with a lid, bench, table; or box, 'bent shell': the shortest of files"`
	File   string     `arg:"" name:"file" help:"the piece file to write; one that is there is never overwritten"`
	Width  string     `placeholder:"SIZE" help:"outside width, 1200 or 48 1/2 in; else as is usual. Neither box nor bent shell takes sizes"`
	Height string     `placeholder:"SIZE" help:"height"`
	Depth  string     `placeholder:"SIZE" help:"depth"`
	Holds  []string   `placeholder:"THINGS" help:"what it holds: '120 novels'; more than once if need be"`
	Units  systemFlag `placeholder:"mm|in" help:"the unit of a bare number, here and in the file; else mm"`
}

//go:embed starters/*.yaml
var starters embed.FS

// Help tells more of the command.
func (*newCmd) Help() string {
	return `Writes a sound piece file of the kind, with a fresh id, as a place to start from: change its words and numbers, and run check. How many uprights it takes so that nothing sags is chosen; what is chosen otherwise than asked is said. Add a line 'shop: FILE' once you have a shop file of your own. 'rodwork open --new FILE' begins one on a page, from a few sentences.

Example:

  rodwork new bookcase stairs.yaml --width=900 --holds='140 novels'`
}

func (*newCmd) exits() string { return exitOfPlain }

// Run writes the file.
func (c *newCmd) Run(s *session) error {
	kind := strings.ReplaceAll(strings.ToLower(c.Kind), "-", " ")
	text := ""
	if src, err := starters.ReadFile("starters/" + strings.ReplaceAll(kind, " ", "-") + ".yaml"); err == nil {
		if c.Width+c.Height+c.Depth != "" || len(c.Holds) > 0 || c.Units != "" {
			return fmt.Errorf("a %s is written as it is, without sizes; the other kinds take them", kind)
		}
		text = strings.Replace(string(src), "{{id}}", newID(), 1)
	} else if text, err = c.begin(s, kind); err != nil {
		return err
	}
	if err := outdir.Create(c.File, []byte(text)); err != nil {
		return told(err)
	}
	_, err := fmt.Fprintln(s.out, c.File)
	return err
}

// begin has a piece of the kind worked out.
func (c *newCmd) begin(s *session, kind string) (string, error) {
	f, ok := starter.FormOf(starter.Kind(kind))
	if !ok {
		names := []string{"box", "bent shell"}
		for _, f := range starter.Forms() {
			names = append(names, string(f.Kind))
		}
		return "", unknown("kind of piece", c.Kind, names)
	}
	a := starter.Answers{Kind: f.Kind, ID: newID(), System: units.System(c.Units)}
	bare := "mm"
	if a.System == units.Inch {
		bare = "in"
	}
	for _, x := range []struct {
		name, text string
		usual      float64
		v          *float64
	}{{"width", c.Width, f.Width.Usual, &a.Width}, {"height", c.Height, f.Height.Usual, &a.Height}, {"depth", c.Depth, f.Depth.Usual, &a.Depth}} {
		*x.v = x.usual
		if x.text == "" {
			continue
		}
		v, err := units.Parse(x.text, units.Length, bare)
		if err != nil {
			return "", fmt.Errorf("--%s %q: %w", x.name, x.text, err)
		}
		*x.v = v
	}
	for _, h := range c.Holds {
		held, err := heldOf(h)
		if err != nil {
			return "", err
		}
		a.Holds = append(a.Holds, held)
	}
	_, shop := examples.Main()
	b, err := starter.Begin(s.ctx, a, shop)
	if err != nil {
		return "", err
	}
	for _, t := range b.Said {
		s.say("%s", t)
	}
	return b.Text, nil
}

// heldOf reads '120 novels'.
func heldOf(text string) (starter.Hold, error) {
	count, thing, _ := strings.Cut(strings.TrimSpace(text), " ")
	n, err := strconv.Atoi(count)
	if err != nil || n < 1 {
		return starter.Hold{}, fmt.Errorf("--holds %q: a count and a thing are wanted, '120 novels'", text)
	}
	var names []string
	for _, t := range starter.Things() {
		if thing == t.Name || thing == t.Plural {
			return starter.Hold{Thing: t.Name, Count: n}, nil
		}
		names = append(names, t.Plural)
	}
	return starter.Hold{}, unknown("thing", thing, names)
}
