// Package deliver makes files for other programs of a plan: its lists as CSV
// and as one workbook, its parts as solids in STEP and in GLB. What the files
// say is made elsewhere (package lists, package piece); how they say it is the
// formats' business. Here the two meet.
//
// # Solids
//
// A flat part is written with all its housings, rabbets, notches and round
// holes, in its own frame: the datum corner is the origin, x runs along the
// length, y across it, z from face B to face A; round holes in edges and ends are
// there. A bent part is written twice: bent, its bend smooth and without kerfs, with
// the holes across its straight runs; and flat, with kerfs and all that is cut into
// it before it is bent. What could not be written is told, part by part, and never
// left away in silence. A strip whose two ends touch is open there by a glue line,
// as no solid of the standard touches itself, and its name in the file says so.
//
// # GLB
//
// One node for each part, named as the book names it, with the part's id and
// number among its extras; the frame of glTF is that of a piece, but in metres.
package deliver

import (
	"errors"
	"fmt"

	"rodwork/internal/format/csv"
	"rodwork/internal/format/step"
	"rodwork/internal/format/xlsx"
	"rodwork/internal/geom/solid"
	"rodwork/internal/lists"
	"rodwork/internal/outdir"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// CSV returns each list as a file, named by what it lists: 'parts.csv'.
func CSV(p *plan.Plan, sys units.System) []outdir.File {
	var files []outdir.File
	for _, t := range lists.Make(p) {
		files = append(files, outdir.File{Name: outdir.Name(0, t.Key, ".csv"), Data: csv.Render(t, sys)})
	}
	return files
}

// XLSX returns all lists as one workbook.
func XLSX(p *plan.Plan, sys units.System) ([]byte, error) {
	return xlsx.Render(xlsx.Book{Title: title(p), System: sys, Tables: lists.Make(p)})
}

func title(p *plan.Plan) string {
	if p.Design != nil && p.Design.Name != "" {
		return p.Design.Name
	}
	return "piece"
}

// body is a part as a solid, with the holes that no slab has; more counts cuts
// that are left out.
type body struct {
	part  *piece.Part
	body  solid.Body
	bores []solid.Bore
	more  int
}

func bodies(p *plan.Plan) ([]body, error) {
	if p.Piece == nil {
		return nil, nil
	}
	var out []body
	for _, q := range p.Piece.Parts {
		b, err := piece.Solid(q, 0)
		if err != nil {
			return nil, err
		}
		bores, more := piece.Bores(q)
		out = append(out, body{q, b, bores, more})
	}
	return out, nil
}

// flat returns a bent part as it lies flat, with its kerfs.
func flat(q *piece.Part) ([]byte, error) {
	b, err := piece.Flat(q)
	if err != nil {
		return nil, err
	}
	return step.Part(step.Product{ID: q.ID + ", flat", Name: q.Name + ", flat", Body: b})
}

// STEP returns each part as a file in its own frame, and 'assembly.step' with
// all of them in their places. Unwritten names the parts that no solid of the
// standard can be, each with the reason.
func STEP(p *plan.Plan) (files []outdir.File, unwritten []string, err error) {
	all, err := bodies(p)
	if err != nil || len(all) == 0 {
		return nil, nil, err
	}
	var names outdir.Names
	var products []step.Product
	for _, b := range all {
		product := step.Product{ID: b.part.ID, Name: b.part.Name, Body: b.body, Bores: b.bores}
		if open, ok, err := piece.Opened(b.part, b.body); err == nil && ok {
			product.Body = open
			product.Name += fmt.Sprintf(", %g mm open at its seam for the glue", piece.GlueLine)
		}
		data, err := step.Part(product)
		if errors.Is(err, step.ErrBore) {
			product.Bores, b.more = nil, b.more+len(b.bores)
			data, err = step.Part(product)
		}
		tell := func(why any) {
			unwritten = append(unwritten, fmt.Sprintf("%s (%d): %v", b.part.Name, b.part.Number, why))
		}
		if err != nil {
			tell(err)
		} else {
			products = append(products, product)
			files = append(files, outdir.File{Name: names.Name(b.part.Number, b.part.Name, ".step"), Data: data})
			if b.more > 0 {
				tell(fmt.Sprintf("without %d of its holes and mortises", b.more))
			}
		}
		if len(b.part.Bends) == 0 {
			continue
		}
		if data, err = flat(b.part); err != nil {
			tell(err)
			continue
		}
		files = append(files, outdir.File{Name: names.Name(b.part.Number, b.part.Name+" flat", ".step"), Data: data})
	}
	whole, _, err := step.Assembly(title(p), products)
	if err != nil {
		return nil, unwritten, err
	}
	return append(files, outdir.File{Name: "assembly.step", Data: whole}), unwritten, nil
}
