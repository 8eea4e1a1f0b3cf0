package cli

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/export"
)

type schemaCmd struct {
	Of string `arg:"" name:"which" placeholder:"piece|shop|output" help:"piece or shop: the two files that people write; output: what --json prints"`
}

// Help tells more of the command.
func (*schemaCmd) Help() string {
	return `Prints a JSON Schema (draft 2020-12). An editor that knows YAML schemas offers the keys of a piece file and marks what is wrong while it is written.

Example:

  rodwork schema piece > piece.schema.json`
}

func (*schemaCmd) exits() string { return exitOfPlain }

// Run prints the schema.
func (c *schemaCmd) Run(s *session) error {
	schemas := map[string]func() []byte{"piece": design.PieceSchema, "shop": design.ShopSchema, "output": export.Schema}
	make, ok := schemas[c.Of]
	if !ok {
		return unknown("schema", c.Of, []string{"piece", "shop", "output"})
	}
	_, err := s.out.Write(make())
	return err
}

// unknown says that a word is none of the known ones, and which is near.
func unknown(what, word string, known []string) error {
	near := diag.Nearest(word, known)
	if near != "" {
		return fmt.Errorf("there is no %s %q; did you mean %q?", what, word, near)
	}
	return fmt.Errorf("there is no %s %q; there are: %s", what, word, someOf(known))
}

// someOf lists the first of many names.
func someOf(names []string) string {
	const most = 12
	out := ""
	for i, n := range names {
		if i == most {
			return out + fmt.Sprintf(" and %d more", len(names)-most)
		}
		if i > 0 {
			out += ", "
		}
		out += n
	}
	return out
}
