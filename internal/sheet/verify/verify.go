// Package verify checks a layout without knowing how it was found. It saws: it
// takes the sheet as bought, makes the cuts in their order with a blade of real
// width, and demands that what lies on the bench at the end is exactly the
// parts and the offcuts that were promised. It then adds the proof up again,
// with its own code and in exact fractions. It imports the types of sheet and
// nothing else of this module.
package verify

import (
	"errors"
	"fmt"

	"rodwork/internal/sheet"
)

// Sheets returns nil if the answer solves the problem and its claims hold, else
// an error that joins all that is wrong.
func Sheets(p sheet.Problem, a sheet.Answer) error {
	if err := p.Validate(); err != nil {
		return err
	}
	return errors.Join(
		copies(p, a),
		layouts(p, a),
		counts(p, a),
		proof(p, a),
	)
}

// copies checks that each copy of each part is there once.
func copies(p sheet.Problem, a sheet.Answer) error {
	type key struct{ part, copy int }
	seen := map[key]bool{}
	var errs []error
	for s, l := range a.Sheets {
		for _, q := range l.Placements {
			k := key{q.Part, q.Copy}
			switch {
			case q.Part < 0 || q.Part >= len(p.Parts) || q.Copy < 0 || q.Copy >= p.Parts[q.Part].Copies:
				errs = append(errs, fmt.Errorf("sheet %d: part %d, copy %d was not asked for", s, q.Part, q.Copy))
			case seen[k]:
				errs = append(errs, fmt.Errorf("sheet %d: part %d, copy %d is there twice", s, q.Part, q.Copy))
			default:
				errs = append(errs, lies(p.Parts[q.Part], q, s))
			}
			seen[k] = true
		}
	}
	if want := p.Copies(); len(seen) != want {
		errs = append(errs, fmt.Errorf("%d parts are laid out, %d are wanted", len(seen), want))
	}
	return errors.Join(errs...)
}

// lies checks size and grain of a placement.
func lies(q sheet.Part, at sheet.Placement, s int) error {
	if q.Grain == sheet.Along && at.Turned || q.Grain == sheet.Across && !at.Turned {
		return fmt.Errorf("sheet %d: part %d (%s) lies against its grain", s, at.Part, q.ID)
	}
	l, w := q.Length, q.Width
	if at.Turned {
		l, w = w, l
	}
	if at.DX != l || at.DY != w {
		return fmt.Errorf("sheet %d: part %d (%s) is %d × %d, want %d × %d", s, at.Part, q.ID, at.DX, at.DY, l, w)
	}
	return nil
}

// layouts checks each sheet by sawing it.
func layouts(p sheet.Problem, a sheet.Answer) error {
	var errs []error
	for i, l := range a.Sheets {
		if l.Stock < 0 || l.Stock >= len(p.Stocks) {
			errs = append(errs, fmt.Errorf("sheet %d: no stock %d", i, l.Stock))
			continue
		}
		if err := errors.Join(apart(p, l), saw(p, l)); err != nil {
			errs = append(errs, fmt.Errorf("sheet %d: %w", i, err))
		}
	}
	return errors.Join(errs...)
}

// apart checks that parts and offcuts lie inside the trim, no two of them
// nearer than the kerf.
func apart(p sheet.Problem, l sheet.Layout) error {
	var rs []sheet.Rect
	for _, q := range l.Placements {
		rs = append(rs, sheet.Rect{X: q.X, Y: q.Y, DX: q.DX, DY: q.DY})
	}
	rs = append(rs, l.Offcuts...)
	s, k := p.Stocks[l.Stock], p.Kerf
	var errs []error
	for i, r := range rs {
		if r.DX <= 0 || r.DY <= 0 || r.X < s.Trim || r.Y < s.Trim || r.X+r.DX > s.Length-s.Trim || r.Y+r.DY > s.Width-s.Trim {
			errs = append(errs, fmt.Errorf("%v is not inside the trim", r))
		}
		for _, q := range rs[:i] {
			if r.X < q.X+q.DX+k && q.X < r.X+r.DX+k && r.Y < q.Y+q.DY+k && q.Y < r.Y+r.DY+k {
				errs = append(errs, fmt.Errorf("%v and %v have no kerf between them", q, r))
			}
		}
	}
	return errors.Join(errs...)
}

// counts checks the sums that the answer states.
func counts(p sheet.Problem, a sheet.Answer) error {
	used := make([]int, len(p.Stocks))
	cost, full := int64(0), 0
	for _, l := range a.Sheets {
		if l.Stock < 0 || l.Stock >= len(p.Stocks) {
			continue
		}
		if len(l.Placements) == 0 {
			return errors.New("a sheet with no part on it")
		}
		used[l.Stock]++
		cost += p.Stocks[l.Stock].Price
		if !p.Stocks[l.Stock].Offcut {
			full++
		}
	}
	var errs []error
	for i, s := range p.Stocks {
		if s.Available >= 0 && used[i] > s.Available {
			errs = append(errs, fmt.Errorf("stock %d: %d used of %d", i, used[i], s.Available))
		}
	}
	if cost != a.Cost || full != a.Full {
		errs = append(errs, fmt.Errorf("cost %d and %d full sheets, said to be %d and %d", cost, full, a.Cost, a.Full))
	}
	return errors.Join(errs...)
}
