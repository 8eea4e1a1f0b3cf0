package cli

import (
	"encoding"
	"fmt"
	"slices"
	"strings"

	"rodwork/internal/deliver"
	"rodwork/internal/diag"
	"rodwork/internal/export"
	"rodwork/internal/outdir"
	"rodwork/internal/units"
)

type exportCmd struct {
	pieceArgs
	Out    string    `short:"o" required:"" placeholder:"DIR" help:"the folder to write; the folder above it must be there"`
	As     kindsFlag `placeholder:"KIND,…" help:"which files: csv, xlsx, glb, step, json, with commas between them; else all of them"`
	Effort uint32    `placeholder:"N" help:"work to spend on better layouts, in units that do not depend on the machine; 0 is a first layout"`
}

// Help tells more of the command.
func (*exportCmd) Help() string {
	return `Writes the plan as files for other programs:

  csv    lists/parts.csv, lists/holes.csv and so on: one row for one thing
  xlsx   lists.xlsx: the same lists as one workbook, for spreadsheets
  glb    piece.glb: the whole piece in space, glTF 2.0, in metres
  step   solids/: each part with its cuts, and assembly.step, in millimetres
  json   plan.json: everything, with where each number comes from

Lists are in the units of the piece file or of --units, inches as decimals; the head of each column names its unit. In CSV a text that a spreadsheet would run as a formula has an apostrophe before it. Bent parts are solids without their kerfs; holes in edges are not in the solids, but in the lists.

Example:

  rodwork export sideboard.yaml -o files --as csv,step`
}

func (*exportCmd) exits() string { return exitOfPiece }

// Run writes the files and prints the folder's path.
func (c *exportCmd) Run(s *session) error {
	p, err := s.plan(dataArgs{pieceArgs: c.pieceArgs, Effort: c.Effort})
	if err != nil {
		return err
	}
	kinds := c.As
	if len(kinds) == 0 {
		kinds = allKinds
	}
	files, err := s.exportFiles(p, systemFor(p.Plan, c.Units), kinds)
	if err != nil {
		return err
	}
	if err := s.writeFolder(c.Out, files); err != nil {
		return err
	}
	s.sayStops(p.Plan, c.File)
	return nil
}

// exportFiles makes the files of the kinds.
func (s *session) exportFiles(p made, sys units.System, kinds kindsFlag) ([]outdir.File, error) {
	var files []outdir.File
	add := func(name string, data []byte, err error) error {
		files = append(files, outdir.File{Name: name, Data: data})
		return err
	}
	for _, k := range kinds {
		var err error
		switch k {
		case "csv":
			files = append(files, inside("lists", deliver.CSV(p.Plan, sys))...)
		case "xlsx":
			data, e := deliver.XLSX(p.Plan, sys)
			err = add("lists.xlsx", data, e)
		case "glb":
			data, e := deliver.GLB(p.Plan)
			err = add("piece.glb", data, e)
		case "step":
			solids, unwritten, e := deliver.STEP(p.Plan)
			for _, u := range unwritten {
				s.say("no STEP of %s", u)
			}
			files, err = append(files, inside("solids", solids)...), e
		case "json":
			data, e := export.Bytes(export.AllOf(p.Plan))
			err = add("plan.json", data, e)
		}
		if err != nil {
			return nil, err
		}
	}
	return files, nil
}

// inside puts files into a folder of the folder.
func inside(folder string, files []outdir.File) []outdir.File {
	out := slices.Clone(files)
	for i := range out {
		out[i].Name = inFolder(folder, out[i].Name)
	}
	return out
}

// kindsFlag is a list of kinds of files, each at most once, in their own order.
type kindsFlag []string

var allKinds = kindsFlag{"csv", "xlsx", "glb", "step", "json"}

// bookKinds are those that a book's folder holds beside its own files.
var bookKinds = kindsFlag{"csv", "xlsx", "glb", "step"}

var _ encoding.TextUnmarshaler = (*kindsFlag)(nil)

// UnmarshalText reads kinds with commas between them, and names the nearest of
// them for one that is none.
func (f *kindsFlag) UnmarshalText(text []byte) error {
	var asked []string
	for _, w := range strings.Split(string(text), ",") {
		w = strings.ToLower(strings.TrimSpace(w))
		if !slices.Contains(allKinds, w) {
			if near := diag.Nearest(w, allKinds); near != "" {
				return fmt.Errorf("%q is not a kind of file that is written; did you mean %s?", w, near)
			}
			return fmt.Errorf("%q is not a kind of file that is written: %s", w, strings.Join(allKinds, ", "))
		}
		asked = append(asked, w)
	}
	*f = nil
	for _, k := range allKinds {
		if slices.Contains(asked, k) {
			*f = append(*f, k)
		}
	}
	return nil
}
