package verify

import (
	"errors"
	"fmt"
	"math/big"

	"rodwork/internal/sheet"
)

// Sticks returns nil if the answer solves the problem and its claims hold. A
// least number that was found by a complete search (Searched) is not proved
// again here.
func Sticks(p sheet.StickProblem, a sheet.StickAnswer) error {
	if err := p.Validate(); err != nil {
		return err
	}
	return errors.Join(pieces(p, a), stickProof(p, a))
}

// pieces saws each stick from its end.
func pieces(p sheet.StickProblem, a sheet.StickAnswer) error {
	type key struct{ length, copy int }
	seen := map[key]bool{}
	want := 0
	for _, q := range p.Lengths {
		want += q.Copies
	}
	var errs []error
	for i, s := range a.Sticks {
		at := p.EndTrim
		for _, q := range s.Pieces {
			k := key{q.Length, q.Copy}
			if q.Length < 0 || q.Length >= len(p.Lengths) || q.Copy < 0 || q.Copy >= p.Lengths[q.Length].Copies || seen[k] {
				return fmt.Errorf("stick %d: length %d, copy %d is there twice, or was not asked for", i, q.Length, q.Copy)
			}
			seen[k] = true
			if q.At != at {
				errs = append(errs, fmt.Errorf("stick %d: a piece starts at %d, want %d", i, q.At, at))
			}
			at = q.At + p.Lengths[q.Length].Length
			if at > p.Stick-p.EndTrim {
				errs = append(errs, fmt.Errorf("stick %d: a piece ends at %d, beyond the end trim", i, at))
			}
			at += p.Kerf
		}
		if left := max(p.Stick-p.EndTrim-at, 0); left != s.Left || len(s.Pieces) == 0 {
			errs = append(errs, fmt.Errorf("stick %d: %d is left, said to be %d", i, left, s.Left))
		}
	}
	if len(seen) != want {
		errs = append(errs, fmt.Errorf("%d pieces are cut, %d are wanted", len(seen), want))
	}
	return errors.Join(errs...)
}

func stickProof(p sheet.StickProblem, a sheet.StickAnswer) error {
	var all []block
	for i, q := range p.Lengths {
		for c := range q.Copies {
			all = append(all, block{i, c, []way{{extent: [2]int64{q.Length + p.Kerf}}}})
		}
	}
	f, err := weight(a.F, p.Stick-2*p.EndTrim+p.Kerf, all, sheet.X)
	if err != nil {
		return err
	}
	sum := new(big.Rat)
	for _, b := range all {
		sum.Add(sum, f(b.ways[0].extent[sheet.X]))
	}
	least := above(sum)
	var errs []error
	if v, _ := sum.Float64(); v < a.Sum-1e-6 || v > a.Sum+1e-6 {
		errs = append(errs, fmt.Errorf("the proof's sum is %g, said to be %g", v, a.Sum))
	}
	if a.Least > least && !a.Searched || a.Least > len(a.Sticks) {
		errs = append(errs, fmt.Errorf("the proof gives %d sticks, %d are claimed, %d are used", least, a.Least, len(a.Sticks)))
	}
	if a.Proven != (len(a.Sticks) <= a.Least) {
		errs = append(errs, errors.New("said to be proved, and is not"))
	}
	return errors.Join(errs...)
}
