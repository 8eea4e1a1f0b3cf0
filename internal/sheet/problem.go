package sheet

import (
	"errors"
	"fmt"
)

// The bounds of what is taken on. They keep every product of two lengths, and
// of two dual feasible values of them, inside 63 bits.
const (
	MaxSide   = 20_000_000 // µm: a sheet of 20 m
	MaxCopies = 1000       // parts on one problem, copies counted
	MaxStocks = 64
	MaxPrice  = 100_000_000 // cents, of one sheet
	MaxKerf   = 50_000      // µm
)

// Effort is how many trials of one part in one free place make one unit of
// effort. It is a measure of work and not of time, so that the same effort
// gives the same answer everywhere.
const Effort = 10_000

// Unlimited is the Available of a stock that can be bought as needed.
const Unlimited = -1

// Grain says how a part may lie on a sheet.
type Grain uint8

const (
	Free   Grain = iota // either way
	Along               // the part's length along the sheet's length
	Across              // the part's length along the sheet's width
)

// Stock is one kind of sheet.
type Stock struct {
	Name          string
	Length, Width int64 // µm
	Trim          int64 // µm at each edge, the trim cut's kerf included
	Price         int64 // cents for one
	Available     int   // number of sheets, or Unlimited
	// Offcut marks a remainder that is at hand: it is used before a sheet is,
	// and is not counted as a sheet.
	Offcut bool
}

// Usable returns the length and width inside the trim, µm.
func (s Stock) Usable() (length, width int64) {
	return s.Length - 2*s.Trim, s.Width - 2*s.Trim
}

// Part is a number of like rectangles, µm.
type Part struct {
	ID            string
	Length, Width int64
	Grain         Grain
	Copies        int
}

// Lie is one way in which a part lies: its extent along the sheet's length (DX)
// and width (DY), µm.
type Lie struct {
	DX, DY int64
	Turned bool // the part's length lies along the sheet's width
}

// Lies returns the ways in which the part may lie, as the grain allows. A free
// square has one.
func (p Part) Lies() []Lie {
	straight, turned := Lie{p.Length, p.Width, false}, Lie{p.Width, p.Length, true}
	switch {
	case p.Grain == Along:
		return []Lie{straight}
	case p.Grain == Across:
		return []Lie{turned}
	case p.Length == p.Width:
		return []Lie{straight}
	}
	return []Lie{straight, turned}
}

// Problem is what is to be cut, and from what.
type Problem struct {
	Stocks []Stock
	Parts  []Part
	Kerf   int64 // µm
	// KeptSide is the least side of a remainder that is kept, µm.
	KeptSide int64
	// Reach is the longest cut that the saw makes in one go, µm; 0: any. A cut
	// beyond it is no error, but of layouts with as few sheets that with fewer
	// such cuts is better. Trim cuts are not counted: they go round every sheet.
	Reach int64
}

// Copies returns the number of rectangles wanted.
func (p Problem) Copies() int {
	n := 0
	for _, q := range p.Parts {
		n += q.Copies
	}
	return n
}

// InputError tells which value of a problem is out of bounds.
type InputError struct {
	What  string // "part 3 (shelf): length"
	Value int64
	Want  string // "1 to 20000000 µm"
}

// Error names the value and what was wanted.
func (e *InputError) Error() string {
	return fmt.Sprintf("sheet: %s is %d, want %s", e.What, e.Value, e.Want)
}

// TooLargeError tells that a part fits on no sheet, even alone.
type TooLargeError struct {
	Part int // index in Problem.Parts
	ID   string
	// NeedLength and NeedWidth are the sheet that would hold it, in the way of
	// lying that lacks least, trim of the largest stock included, µm.
	NeedLength, NeedWidth int64
	// Stock is the index of the stock that came nearest.
	Stock int
}

// Error names the part and the sheet it would need.
func (e *TooLargeError) Error() string {
	return fmt.Sprintf("sheet: part %d (%s) fits on no sheet: it needs %d × %d µm", e.Part, e.ID, e.NeedLength, e.NeedWidth)
}

// ShortError tells that the stock at hand was not enough for the search: the
// parts that were left over, by index, a copy each. More effort, or more
// stock, may help.
type ShortError struct{ Left []int }

// Error gives the number of parts left over.
func (e *ShortError) Error() string {
	return fmt.Sprintf("sheet: not enough stock: %d parts left over", len(e.Left))
}

func between(what string, v, lo, hi int64, unit string) error {
	if v < lo || v > hi {
		return &InputError{What: what, Value: v, Want: fmt.Sprintf("%d to %d%s", lo, hi, unit)}
	}
	return nil
}

// Validate returns an InputError for each value out of bounds, joined, or, when
// all are within them, a TooLargeError for each part that fits on no sheet.
func (p Problem) Validate() error {
	errs := []error{
		between("number of stocks", int64(len(p.Stocks)), 1, MaxStocks, ""),
		between("number of parts", int64(len(p.Parts)), 1, MaxCopies, ""),
		between("kerf", p.Kerf, 0, MaxKerf, " µm"),
		between("least kept side", p.KeptSide, 0, MaxSide, " µm"),
		between("longest cut", p.Reach, 0, MaxSide, " µm"),
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i, s := range p.Stocks {
		errs = append(errs, s.validate(i))
	}
	copies := int64(0)
	for i, q := range p.Parts {
		errs = append(errs, q.validate(i))
		copies = min(copies+int64(max(q.Copies, 0)), MaxCopies+1)
	}
	errs = append(errs, between("number of copies in all", copies, 1, MaxCopies, ""))
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i := range p.Parts {
		errs = append(errs, p.tooLarge(i))
	}
	return errors.Join(errs...)
}

func (s Stock) validate(i int) error {
	name := fmt.Sprintf("stock %d (%.40s): ", i, s.Name)
	err := errors.Join(
		between(name+"length", s.Length, 1, MaxSide, " µm"),
		between(name+"width", s.Width, 1, MaxSide, " µm"),
		between(name+"trim", s.Trim, 0, MaxSide, " µm"),
		between(name+"price", s.Price, 0, MaxPrice, " cents"),
		between(name+"number available", int64(s.Available), Unlimited, 1<<30, ""))
	if err != nil {
		return err
	}
	l, w := s.Usable()
	return between(name+"side left inside the trim", min(l, w), 1, MaxSide, " µm")
}

func (q Part) validate(i int) error {
	name := fmt.Sprintf("part %d (%.40s): ", i, q.ID)
	return errors.Join(
		between(name+"length", q.Length, 1, MaxSide, " µm"),
		between(name+"width", q.Width, 1, MaxSide, " µm"),
		between(name+"copies", int64(q.Copies), 1, MaxCopies, ""),
		between(name+"grain", int64(q.Grain), int64(Free), int64(Across), ""))
}

// tooLarge returns nil where part i fits on some stock.
func (p Problem) tooLarge(i int) error {
	best, bestLack := (*TooLargeError)(nil), int64(0)
	for _, lie := range p.Parts[i].Lies() {
		for j, s := range p.Stocks {
			l, w := s.Usable()
			if lie.DX <= l && lie.DY <= w && s.Available != 0 {
				return nil
			}
			lack := max(lie.DX-l, 0) + max(lie.DY-w, 0)
			if best == nil || lack < bestLack {
				best, bestLack = &TooLargeError{Part: i, ID: p.Parts[i].ID, Stock: j,
					NeedLength: lie.DX + 2*s.Trim, NeedWidth: lie.DY + 2*s.Trim}, lack
			}
		}
	}
	return best
}
