// Package label draws a label for each part, and for what a bend is made on: its number, its name, its
// finished size, its stock, the face that is seen, the way of the grain, and a
// QR code that says its place in the book.
//
// # The place in the book
//
// The code holds the text "rodwork:7c1e/part/4": the id of the piece file, and
// the number of the part, which is its number in the parts list and on every
// figure. It is a name and not an address: nothing is looked up anywhere, and
// the same words stand below the code for who reads without a phone.
//
// # The sheet
//
// Labels stand in columns and rows on a page of paper, at the places of a
// common sheet of adhesive labels, or of plain paper that is cut along small
// crosses. A Leaf of this package is the page itself, 1 : 1.
package label

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Sheet is how labels lie on a page, mm.
type Sheet struct {
	W, H          float64 // of the page
	Columns, Rows int
	LabelW        float64
	LabelH        float64
	Left, Top     float64 // of the first label
	StepX, StepY  float64 // from label to label
}

// A4 has two columns of seven labels, 99.1 × 38.1 mm, as many sheets of
// adhesive labels do; Letter two columns of seven, 4 × 1 1/3 in.
var (
	A4     = Sheet{W: 210, H: 297, Columns: 2, Rows: 7, LabelW: 99.1, LabelH: 38.1, Left: 4.65, Top: 15.15, StepX: 101.6, StepY: 38.1}
	Letter = Sheet{W: 215.9, H: 279.4, Columns: 2, Rows: 7, LabelW: 101.6, LabelH: 25.4 * 4 / 3, Left: 3.96, Top: 21.17, StepX: 106.4, StepY: 25.4 * 4 / 3}
)

// Options say how labels are drawn.
type Options struct {
	// System is the units that sizes are printed in; "" is units.MM.
	System units.System
	// Sheet is the page; the zero Sheet is A4.
	Sheet Sheet
}

// Label is what stands on one label.
type Label struct {
	Number int
	Mark   string // in place of the number: "F1" of what is no part of the piece
	Name   string
	Size   string // finished, "719.6 × 474.7 × 17.70 mm"
	Stock  string
	Face   string // the show face in words, "" for neither
	Marked bool   // the show face is drawn
	Grain  piece.Grain
	Note   string // "bent: size laid flat", "provisional"
	Place  string // what the code says; "": no code
}

// Place returns the name of a part's place in the book of the piece.
func Place(id string, number int) string {
	if id == "" {
		id = "piece"
	}
	return "rodwork:" + id + "/part/" + strconv.Itoa(number)
}

// Labels returns the label of each part, in the order of their numbers.
func Labels(p *plan.Plan, sys units.System) []Label {
	if sys == "" {
		sys = units.MM
	}
	id := ""
	if p.Design != nil {
		id = p.Design.ID
	}
	var out []Label
	for _, q := range p.Piece.Parts {
		l := Label{Number: q.Number, Name: q.Name, Grain: q.Grain, Size: size(q, sys), Place: Place(id, q.Number), Note: note(q)}
		if q.Stock != nil {
			l.Stock = q.Stock.Name
		}
		l.Face, l.Marked = face(q)
		out = append(out, l)
	}
	return out
}

func size(q *piece.Part, sys units.System) string {
	bare := func(v float64, dec int) string { return units.FormatBare(v, units.Length, sys, dec) }
	return fmt.Sprintf("%s × %s × %s", bare(q.Length.V, 1), bare(q.Width.V, 1), units.Format(q.Thick.V, units.Length, sys, 1))
}

func face(q *piece.Part) (words string, marked bool) {
	switch q.Show {
	case piece.FaceA:
		return joined("A", q.NameA), true
	case piece.FaceB:
		return joined("B", q.NameB), true
	}
	return "neither face shows", false
}

func joined(face, name string) string {
	if name == "" {
		return face + " shows"
	}
	return face + " shows: " + name
}

func note(q *piece.Part) string {
	switch {
	case len(q.Bends) > 0:
		return "bent; size laid flat"
	case q.Late:
		return "provisional: cut to the opening"
	}
	return ""
}

// place returns the upper left corner of the i-th label on its page.
func (s Sheet) place(i int) r2.Vec {
	i %= s.Columns * s.Rows
	return r2.Vec{X: s.Left + s.StepX*float64(i%s.Columns), Y: s.Top + s.StepY*float64(i/s.Columns)}
}

// check says what is wrong with a sheet: labels that lie on each other or off
// the page.
func (s Sheet) check() error {
	for _, v := range []float64{s.W, s.H, s.LabelW, s.LabelH, s.Left, s.Top, s.StepX, s.StepY} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("label: the sheet has a measure that is no number")
		}
	}
	right := s.Left + s.StepX*float64(s.Columns-1) + s.LabelW
	bottom := s.Top + s.StepY*float64(s.Rows-1) + s.LabelH
	switch {
	case s.Columns < 1 || s.Rows < 1 || s.Columns*s.Rows > 500:
		return fmt.Errorf("label: %d columns and %d rows; 1 to 500 labels go on a page", s.Columns, s.Rows)
	case s.LabelW < leastW || s.LabelH < leastH:
		return fmt.Errorf("label: %.1f × %.1f mm is too small; %.0f × %.0f is the least", s.LabelW, s.LabelH, leastW, leastH)
	case s.Left < 0 || s.Top < 0 || right > s.W+0.01 || bottom > s.H+0.01:
		return fmt.Errorf("label: the labels reach to %.1f × %.1f mm, the page has %.1f × %.1f", right, bottom, s.W, s.H)
	case s.Columns > 1 && s.StepX < s.LabelW-0.01 || s.Rows > 1 && s.StepY < s.LabelH-0.01:
		return fmt.Errorf("label: the labels lie on each other")
	}
	return nil
}
