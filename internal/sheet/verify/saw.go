package verify

import (
	"errors"
	"fmt"
	"slices"

	"rodwork/internal/sheet"
)

// board is a piece on the bench.
type board struct{ x0, y0, x1, y1 int64 }

// along returns its extent along the axis and across it.
func (b board) along(axis sheet.Axis) (lo, hi, crossLo, crossHi int64) {
	if axis == sheet.X {
		return b.x0, b.x1, b.y0, b.y1
	}
	return b.y0, b.y1, b.x0, b.x1
}

// with returns the board with another extent along the axis.
func (b board) with(axis sheet.Axis, lo, hi int64) board {
	if axis == sheet.X {
		b.x0, b.x1 = lo, hi
	} else {
		b.y0, b.y1 = lo, hi
	}
	return b
}

// saw makes the cuts and looks at what is on the bench.
func saw(p sheet.Problem, l sheet.Layout) error {
	s := p.Stocks[l.Stock]
	bench := []board{{0, 0, s.Length, s.Width}}
	for i, c := range l.Cuts {
		if c.Number != i+1 {
			return fmt.Errorf("cut %d has number %d", i+1, c.Number)
		}
		at := slices.IndexFunc(bench, func(b board) bool { return meets(b, c) })
		if at < 0 {
			return fmt.Errorf("cut %d does not go from edge to edge of a piece on the bench", c.Number)
		}
		parts, err := halves(bench[at], c, p.Kerf)
		if err != nil {
			return err
		}
		bench = append(slices.Delete(bench, at, at+1), parts...)
	}
	return onBench(bench, l, s.Trim)
}

// meets tells whether the cut runs across the whole board, and inside it.
func meets(b board, c sheet.Cut) bool {
	lo, hi, from, to := b.along(c.Axis)
	return c.From == from && c.To == to && lo < c.At && c.At < hi
}

// halves saws a board in two; a side that the blade takes whole is gone.
func halves(b board, c sheet.Cut, kerf int64) ([]board, error) {
	lo, hi, _, _ := b.along(c.Axis)
	before, after := c.At, c.At+kerf
	if c.Trim {
		before, after = c.At-kerf, c.At
	}
	if fence := c.At - lo; c.Fence != fence {
		return nil, fmt.Errorf("cut %d: the fence is at %d, the piece needs %d", c.Number, c.Fence, fence)
	}
	var out []board
	if before > lo {
		out = append(out, b.with(c.Axis, lo, before))
	}
	if after < hi {
		out = append(out, b.with(c.Axis, after, hi))
	}
	return out, nil
}

// onBench demands a board of exactly each part's size and place, and one that
// holds each offcut; an offcut's board may be larger only by what the sheet has
// beyond the trim on its far sides.
func onBench(bench []board, l sheet.Layout, trim int64) error {
	var errs []error
	for _, q := range l.Placements {
		want := board{q.X, q.Y, q.X + q.DX, q.Y + q.DY}
		at := slices.Index(bench, want)
		if at < 0 {
			errs = append(errs, fmt.Errorf("part %d is not among the pieces that were sawn", q.Part))
			continue
		}
		bench = slices.Delete(bench, at, at+1)
	}
	for _, r := range l.Offcuts {
		at := slices.IndexFunc(bench, func(b board) bool {
			return b.x0 == r.X && b.y0 == r.Y &&
				(b.x1 == r.X+r.DX || b.x1 == r.X+r.DX+trim) && (b.y1 == r.Y+r.DY || b.y1 == r.Y+r.DY+trim)
		})
		if at < 0 {
			errs = append(errs, fmt.Errorf("offcut %v is not among the pieces that were sawn", r))
			continue
		}
		bench = slices.Delete(bench, at, at+1)
	}
	return errors.Join(errs...)
}
