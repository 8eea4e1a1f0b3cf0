package cli

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"

	bookpdf "rodwork/internal/book/pdf"
	"rodwork/internal/format/dxf"
	"rodwork/internal/format/pdf"
	"rodwork/internal/format/svg"
	"rodwork/internal/outdir"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/template"
	"rodwork/internal/units"
)

type templatesCmd struct {
	pieceArgs
	Out        string     `short:"o" required:"" placeholder:"DIR" help:"the folder to write; the folder above it must be there"`
	Paper      paperFlag  `placeholder:"a4|letter" help:"the paper that tiles are cut for; else a4, or letter where lengths are in inches"`
	Bush       lengthFlag `placeholder:"LENGTH" help:"outside diameter of the guide bush: 17 mm, 3/4 in; else the shop file's first, and without one no template for a bush is drawn"`
	BushLength lengthFlag `placeholder:"LENGTH" help:"how far the bush stands out below the router's base"`
	Bit        lengthFlag `placeholder:"LENGTH" help:"diameter of the bit; else the stoutest of the shop that fits bush and corners"`
}

// Help tells more of the command.
func (*templatesCmd) Help() string {
	return `Writes what is laid on the wood: strips with each kerf, rods, shaped outlines with the lines for jigsaw and router, drilling templates with their spacer blocks. Each comes as SVG (one ink, one unit is one millimetre), as DXF (millimetres, layers named by whole words), as PDF on one page, and as PDF tiled over sheets of paper.

Print at 100 % and measure the square of 100 mm before you cut. What was found on the way, such as a corner that no bit goes into, is said.

Example:

  rodwork templates sideboard.yaml -o templates --bush "17 mm"`
}

func (*templatesCmd) exits() string { return exitOfPiece }

// Run writes the sheets and prints the folder's path.
func (c *templatesCmd) Run(s *session) error {
	p, err := s.plan(dataArgs{pieceArgs: c.pieceArgs})
	if err != nil {
		return err
	}
	opt := template.Options{System: systemFor(p.Plan, c.Units), Bush: float64(c.Bush), BushLength: float64(c.BushLength), Bit: float64(c.Bit)}
	if opt.Bush > 0 && opt.Bit >= opt.Bush {
		return fmt.Errorf("a bit of %g mm does not go through a bush of %g mm", opt.Bit, opt.Bush)
	}
	sheets := template.Make(p.Plan, opt)
	for _, f := range template.Findings(sheets) {
		s.say("%s: %s", f.Verdict, plainOf(f.Text))
	}
	files, err := templateFiles(sheets, "", tilesFor(c.Paper, opt.System))
	if err != nil {
		return err
	}
	return s.writeFolder(c.Out, files)
}

// plainOf is a sentence as it is said.
func plainOf(s say.Sentence) string {
	var b strings.Builder
	for _, x := range s {
		b.WriteString(x.Text)
	}
	return b.String()
}

// systemFor is the units that were asked for, else those of the piece file.
func systemFor(p *plan.Plan, asked systemFlag) units.System {
	if asked != "" {
		return units.System(asked)
	}
	if p.Design != nil {
		return p.Design.Units
	}
	return units.MM
}

// tilesFor is the paper that tiles are cut for.
func tilesFor(asked paperFlag, sys units.System) pdf.Paper {
	if bookpdf.Paper(asked) == bookpdf.Letter || asked == "" && sys == units.Inch {
		return pdf.Letter
	}
	return pdf.A4
}

// templateFiles makes the files of the sheets, in a folder of the folder where
// one is named: each as SVG, DXF, PDF on one page and PDF in tiles. A sheet that
// is too large for one page, or takes too many tiles, goes without that file.
func templateFiles(sheets []template.Sheet, folder string, paper pdf.Paper) ([]outdir.File, error) {
	var files []outdir.File
	var names outdir.Names
	add := func(n int, title, ext string, data []byte) {
		files = append(files, outdir.File{Name: inFolder(folder, names.Name(n, title, ext)), Data: data})
	}
	for _, t := range sheets {
		l := t.Leaf()
		drawn, err := dxf.Bytes(t.Drawing())
		if err != nil {
			return nil, fmt.Errorf("%s: %w", t.Title, err)
		}
		add(t.Part, t.Name(), ".svg", svg.Render(l))
		add(t.Part, t.Name(), ".dxf", drawn)
		if whole, err := pdf.FullSize(l); err == nil {
			add(t.Part, t.Name(), ".pdf", whole)
		}
		if tiles, err := pdf.Tiled(l, paper); err == nil {
			add(t.Part, t.Name()+" tiles "+paper.Name, ".pdf", tiles)
		}
	}
	return files, nil
}

func inFolder(folder, name string) string {
	if folder == "" {
		return name
	}
	return folder + "/" + name
}

// writeFolder writes the files and prints the folder's path.
func (s *session) writeFolder(dir string, files []outdir.File) error {
	if err := s.putFolder(dir, files); err != nil {
		return err
	}
	_, err := s.out.Write([]byte(filepath.Clean(dir) + "\n"))
	return err
}

// lengthFlag is a length as a flag, mm.
type lengthFlag float64

// UnmarshalText reads a length with its unit; a bare number is in mm.
func (f *lengthFlag) UnmarshalText(text []byte) error {
	v, err := units.Parse(string(text), units.Length, "mm")
	if err != nil {
		return err
	}
	if !(v > 0) || math.IsInf(v, 0) || v > 1000 {
		return fmt.Errorf("%q is not the size of a tool", text)
	}
	*f = lengthFlag(v)
	return nil
}
