package cli

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/outdir"
	"rodwork/internal/plan"
)

type setCmd struct {
	File  string `arg:"" name:"file" help:"the piece file"`
	Path  string `arg:"" name:"path" help:"the value's path: sizes.width, body.corners.top left.radius"`
	Value string `arg:"" name:"value" help:"what to put there, as it would be written in the file"`
	Shop  string `placeholder:"FILE" help:"the shop file; else the one that the piece file names, else the example's"`
}

// Help tells more of the command.
func (*setCmd) Help() string {
	return `Changes one value in a piece file, and nothing else in it: comments, order and spacing stay. The changed text is read again before it is written; if it could not be used, or if anything else in it would change its meaning, the file stays as it is.

Example:

  rodwork set sideboard.yaml sizes.width '4 ft 10 in'`
}

func (*setCmd) exits() string { return exitOfPlain }

// Run changes the value and prints what it was and is.
func (c *setCmd) Run(s *session) error {
	src, remarks, err := s.source(pieceArgs{File: c.File, Shop: c.Shop})
	if err != nil {
		return err
	}
	text, err := design.Splice(c.File, src.Piece, c.Path, c.Value)
	if err != nil {
		return err
	}
	if remarks.HasErrors() && c.Path != "shop" {
		return s.refuse(src, remarks, false)
	}
	if err := s.stillRead(src, text); err != nil {
		return err
	}
	if err := outdir.Replace(c.File, src.Piece, text); err != nil {
		return told(err)
	}
	_, err = fmt.Fprintf(s.out, "%s: %s\n", c.Path, c.Value)
	return err
}

// stillRead refuses a change that brings an error which the piece did not have:
// in its text, or in building what the text says.
func (s *session) stillRead(src plan.Source, text []byte) error {
	before := s.remarks(src)
	src.Piece = text
	after := s.remarks(src)
	if err := s.ctx.Err(); err != nil {
		return err
	}
	if errorsIn(after) <= errorsIn(before) {
		return nil
	}
	if err := after.Write(s.err, texts(src)); err != nil {
		return err
	}
	s.say("%s was not changed", src.PieceFile)
	return errSaid
}

// remarks is all that is said of a source: of its text and, where that reads, of
// the piece.
func (s *session) remarks(src plan.Source) diag.List {
	_, ds := design.Resolve(src.PieceFile, src.Piece, src.ShopFile, src.Shop)
	if !ds.HasErrors() {
		_, ds = plan.Make(s.ctx, src, plan.Options{})
	}
	return ds
}

func errorsIn(l diag.List) int {
	n := 0
	for _, d := range l {
		if d.Severity == diag.Error {
			n++
		}
	}
	return n
}
