package cli

import (
	"embed"
	"fmt"
	"strings"

	"rodwork/internal/outdir"
)

type newCmd struct {
	Kind string `arg:"" name:"kind" help:"'bent shell': a low cabinet with bent corners; box: a cabinet with square ones"`
	File string `arg:"" name:"file" help:"the piece file to write; one that is there is never overwritten"`
}

//go:embed starters/*.yaml
var starters embed.FS

var kinds = []string{"bent shell", "box"}

// Help tells more of the command.
func (*newCmd) Help() string {
	return `Writes a small, sound piece file of the kind, with a fresh id, as a place to start from: change its words and numbers, and run check. Add a line 'shop: FILE' once you have a shop file of your own. 'rodwork open --new FILE' begins one on a page, from a few sentences.

Example:

  rodwork new 'bent shell' sideboard.yaml`
}

func (*newCmd) exits() string { return exitOfPlain }

// Run writes the file.
func (c *newCmd) Run(s *session) error {
	kind := strings.ReplaceAll(strings.ToLower(c.Kind), "-", " ")
	src, err := starters.ReadFile("starters/" + strings.ReplaceAll(kind, " ", "-") + ".yaml")
	if err != nil {
		return unknown("kind of piece", c.Kind, kinds)
	}
	text := strings.Replace(string(src), "{{id}}", newID(), 1)
	if err := outdir.Create(c.File, []byte(text)); err != nil {
		return told(err)
	}
	_, err = fmt.Fprintln(s.out, c.File)
	return err
}
