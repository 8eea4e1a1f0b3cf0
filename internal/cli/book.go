package cli

import (
	"errors"
	"path/filepath"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/book/html"
	"rodwork/internal/book/pdf"
	"rodwork/internal/book/text"
	"rodwork/internal/drawing"
	"rodwork/internal/export"
	format "rodwork/internal/format/pdf"
	"rodwork/internal/format/svg"
	"rodwork/internal/leaf"
	"rodwork/internal/outdir"
	"rodwork/internal/plan"
	"rodwork/internal/template"
	"rodwork/internal/units"
)

type bookCmd struct {
	pieceArgs
	Out    string    `short:"o" required:"" placeholder:"DIR" help:"the folder to write; the folder above it must be there"`
	Paper  paperFlag `placeholder:"a4|letter" help:"the paper of book.pdf; else a4, or letter where lengths are in inches"`
	Effort uint32    `placeholder:"N" help:"work to spend on better layouts, in units that do not depend on the machine; 0 is a first layout"`
}

// Help tells more of the command.
func (*bookCmd) Help() string {
	return `Writes a folder with book.html (one file, all in it, to read), book.pdf (the same in pages, to print), book.txt, plan.json (everything, for other programs), each figure as an SVG, the full-size templates and the labels of the parts in folders of their own, lists and solids for other programs (see rodwork export), and the piece and shop file that they were made from.

The folder lands whole or not at all. One that is there already is replaced only if its manifest lists all its files; nothing that was not written by rodwork is ever taken away. A book is written even if a finding says stop: it shows where.

Example:

  rodwork book sideboard.yaml -o sideboard-book`
}

func (*bookCmd) exits() string { return exitOfPiece }

// Run writes the book and prints the path of its page.
func (c *bookCmd) Run(s *session) error {
	p, err := s.plan(dataArgs{pieceArgs: c.pieceArgs, Effort: c.Effort})
	if err != nil {
		return err
	}
	if err := s.writeBook(p, c.Out, units.System(c.Units), pdf.Paper(c.Paper)); err != nil {
		return err
	}
	s.sayStops(p.Plan, c.File)
	return nil
}

// pageName is the file of a book's folder that a person opens.
const pageName = "book.html"

// writeBook puts a plan's book into the folder and prints the page's path.
func (s *session) writeBook(p made, dir string, sys units.System, paper pdf.Paper) error {
	files, err := bookFiles(p, sys, paper)
	if err != nil {
		return err
	}
	others, err := s.exportFiles(p, systemFor(p.Plan, systemFlag(sys)), bookKinds)
	if err != nil {
		return err
	}
	files = append(files, others...)
	if err := s.putFolder(dir, files); err != nil {
		return err
	}
	_, err = s.out.Write([]byte(filepath.Join(dir, pageName) + "\n"))
	return err
}

// putFolder writes the files into the folder; an old folder that could not be
// taken away is said, and is no failure.
func (s *session) putFolder(dir string, files []outdir.File) error {
	done := s.progress("writing " + dir)
	err := outdir.Write(s.ctx, dir, files)
	done()
	var left *outdir.LeftoverError
	if errors.As(err, &left) {
		s.say("%v", left)
		err = nil
	}
	return told(err)
}

// bookFiles makes every file of a book.
func bookFiles(p made, sys units.System, paper pdf.Paper) ([]outdir.File, error) {
	b := book.Make(p.Plan, book.Options{System: sys, Model: true})
	data, err := export.Bytes(export.AllOf(p.Plan))
	if err != nil {
		return nil, err
	}
	pages, err := pdf.Render(b, pdf.Options{Paper: paper})
	if err != nil {
		return nil, err
	}
	files := []outdir.File{
		{Name: pageName, Data: html.Render(b)},
		{Name: "book.pdf", Data: pages},
		{Name: "book.txt", Data: text.Render(b, text.Options{})},
		{Name: "plan.json", Data: data},
		{Name: "piece.yaml", Data: p.Source.Piece},
		{Name: "shop.yaml", Data: p.Source.Shop},
	}
	files = append(files, drawingFiles(p.Source.Files)...)
	files = append(files, figureFiles(p.Plan, drawing.Options{System: b.System})...)
	shop, err := shopFiles(p.Plan, b.System, tilesFor(paperFlag(paper), b.System))
	return append(files, shop...), err
}

// shopFiles makes what is laid on the wood and stuck to it, each in a folder of
// the book's folder.
func shopFiles(p *plan.Plan, sys units.System, paper format.Paper) ([]outdir.File, error) {
	files, err := templateFiles(template.Make(p, template.Options{System: sys}), "templates", paper)
	if err != nil {
		return nil, err
	}
	labels, err := labelFiles(p, "labels", sys, paper)
	return append(files, labels...), err
}

// figureFiles makes the figures as files. Those of a part begin with its number.
func figureFiles(p *plan.Plan, opt drawing.Options) []outdir.File {
	var files []outdir.File
	var names outdir.Names
	add := func(number int, title string, l leaf.Leaf) {
		files = append(files, outdir.File{Name: names.Name(number, title, ".svg"), Data: svg.Render(l)})
	}
	for _, l := range drawing.Views(p, opt) {
		add(0, l.Key, l)
	}
	for _, q := range p.Piece.Parts {
		for _, l := range drawing.Part(p, q, opt) {
			title := q.Name
			if !strings.EqualFold(title, l.Title) {
				title += " " + l.Title
			}
			add(q.Number, title, l)
		}
	}
	for _, l := range drawing.Sheets(p, opt) {
		add(0, l.Key, l)
	}
	for _, l := range append(drawing.Joints(p, opt), drawing.Exploded(p, opt)...) {
		add(0, l.Key, l)
	}
	return files
}
