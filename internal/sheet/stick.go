package sheet

import (
	"errors"
	"fmt"
)

// Length is a number of like lengths to cut from sticks, µm.
type Length struct {
	ID     string
	Length int64
	Copies int
}

// StickProblem is lengths to be cut from sticks of one kind.
type StickProblem struct {
	Stick   int64 // length of one, µm
	EndTrim int64 // not used at each end, the trim cut's kerf included, µm
	Kerf    int64 // µm
	Lengths []Length
}

// Usable is the length inside the end trims, µm.
func (p StickProblem) Usable() int64 { return p.Stick - 2*p.EndTrim }

// Piece is one length on a stick; At is its start, µm from the stick's end.
type Piece struct {
	Length, Copy int // index in StickProblem.Lengths; copies count from 0
	At           int64
}

// Stick is one stick with the pieces cut from it, in order from its end. Left
// is what remains beyond the last cut, inside the end trim.
type Stick struct {
	Pieces []Piece
	Left   int64
}

// StickAnswer gives every length.
type StickAnswer struct {
	Sticks []Stick
	// F, Sum and Least are the proof: lengths weigh F of themselves, no stick
	// carries more than 1, and all together weigh Sum. Where Weights is set,
	// lengths weigh Weights, by their index, of Carries instead, the most that
	// any stick carries of them. Where Searched is set, Least is the result of a
	// complete search, which found that one stick fewer cannot do; there is no
	// certificate of that, and the checker only looks for a counterexample.
	F        Func
	Weights  []int64
	Carries  int64
	Sum      float64
	Least    int
	Searched bool
	Proven   bool
}

// Validate returns an InputError for each value out of bounds, or, when all are
// within them, a TooLargeError for each length over the usable stick.
func (p StickProblem) Validate() error {
	errs := []error{
		between("stick length", p.Stick, 1, MaxSide, " µm"),
		between("end trim", p.EndTrim, 0, MaxSide, " µm"),
		between("kerf", p.Kerf, 0, MaxKerf, " µm"),
		between("number of lengths", int64(len(p.Lengths)), 1, MaxCopies, ""),
	}
	if err := errors.Join(errs...); err != nil {
		return err
	}
	errs = append(errs, between("length left inside the end trims", p.Usable(), 1, MaxSide, " µm"))
	copies := int64(0)
	for i, q := range p.Lengths {
		name := fmt.Sprintf("length %d (%.40s): ", i, q.ID)
		errs = append(errs,
			between(name+"length", q.Length, 1, MaxSide, " µm"),
			between(name+"copies", int64(q.Copies), 1, MaxCopies, ""))
		copies = min(copies+int64(max(q.Copies, 0)), MaxCopies+1)
	}
	errs = append(errs, between("number of copies in all", copies, 1, MaxCopies, ""))
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i, q := range p.Lengths {
		if q.Length > p.Usable() {
			errs = append(errs, &TooLargeError{Part: i, ID: q.ID, NeedLength: q.Length + 2*p.EndTrim})
		}
	}
	return errors.Join(errs...)
}
