package cli

import (
	"rodwork/internal/format/pdf"
	"rodwork/internal/format/svg"
	"rodwork/internal/label"
	"rodwork/internal/leaf"
	"rodwork/internal/outdir"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

type labelsCmd struct {
	pieceArgs
	Out   string    `short:"o" required:"" placeholder:"DIR" help:"the folder to write; the folder above it must be there"`
	Paper paperFlag `placeholder:"a4|letter" help:"the paper of the labels; else a4, or letter where lengths are in inches"`
}

// Help tells more of the command.
func (*labelsCmd) Help() string {
	return `Writes a label for each part: number, name, finished size, stock, show face, grain, and a QR code of its place in the book. The code holds a name, such as rodwork:7c1e/part/4 (the piece file's id and the part's number), which also stands below it in words; it is no address, and nothing is looked up anywhere.

Labels come as a PDF and as SVG pages, fourteen on a page: on A4 each is 99.1 × 38.1 mm, on letter paper 4 × 1 1/3 in. Print at 100 %; on plain paper cut along the small crosses.

Example:

  rodwork labels sideboard.yaml -o labels`
}

func (*labelsCmd) exits() string { return exitOfPiece }

// Run writes the labels and prints the folder's path.
func (c *labelsCmd) Run(s *session) error {
	p, err := s.plan(dataArgs{pieceArgs: c.pieceArgs})
	if err != nil {
		return err
	}
	sys := systemFor(p.Plan, c.Units)
	files, err := labelFiles(p.Plan, "", sys, tilesFor(c.Paper, sys))
	if err != nil {
		return err
	}
	return s.writeFolder(c.Out, files)
}

// labelFiles makes the pages of labels, in a folder of the folder where one is
// named.
func labelFiles(p *plan.Plan, folder string, sys units.System, paper pdf.Paper) ([]outdir.File, error) {
	sheet := label.A4
	if paper == pdf.Letter {
		sheet = label.Letter
	}
	pages, err := label.Make(p, label.Options{System: sys, Sheet: sheet})
	if err != nil || len(pages) == 0 {
		return nil, err
	}
	all, err := pagesPDF("Labels", pages)
	if err != nil {
		return nil, err
	}
	files := []outdir.File{{Name: inFolder(folder, "labels.pdf"), Data: all}}
	for _, l := range pages {
		files = append(files, outdir.File{Name: inFolder(folder, l.Key+".svg"), Data: svg.Page(l)})
	}
	return files, nil
}

// pagesPDF writes leaves that are pages themselves: nothing is put to them and
// nothing scaled.
func pagesPDF(title string, pages []leaf.Leaf) ([]byte, error) {
	d := pdf.New(pdf.Info{Title: title, Lang: "en"})
	for _, l := range pages {
		p := d.AddPage(l.W, l.H)
		p.In(d.Element(nil, pdf.Figure, l.Alt))
		p.Leaf(l, 0, 0, 1)
	}
	return d.Bytes()
}
