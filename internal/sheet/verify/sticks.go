package verify

import (
	"errors"
	"fmt"
	"math/big"

	"rodwork/internal/sheet"
)

// Sticks returns nil if the answer solves the problem and its claims hold. For a
// least number that was found by a complete search (Searched) there is no
// certificate: the checker looks for fewer sticks itself, for a bounded time, and
// refuses the answer if it finds them.
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
	sum, err := stickSum(p, a)
	if err != nil {
		return err
	}
	least := above(sum)
	var errs []error
	if v, _ := sum.Float64(); v < a.Sum-1e-6 || v > a.Sum+1e-6 {
		errs = append(errs, fmt.Errorf("the proof's sum is %g, said to be %g", v, a.Sum))
	}
	if a.Least > least && !a.Searched || a.Least > len(a.Sticks) {
		errs = append(errs, fmt.Errorf("the proof gives %d sticks, %d are claimed, %d are used", least, a.Least, len(a.Sticks)))
	}
	if a.Searched && a.Least > least {
		if found, _ := fewer(p, a.Least-1); found {
			errs = append(errs, fmt.Errorf("%d sticks are said to be the least, and %d do", a.Least, a.Least-1))
		}
	}
	if a.Proven != (len(a.Sticks) <= a.Least) {
		errs = append(errs, errors.New("said to be proved, and is not"))
	}
	return errors.Join(errs...)
}

// stickSum weighs all lengths, in sticks.
func stickSum(p sheet.StickProblem, a sheet.StickAnswer) (*big.Rat, error) {
	sum := new(big.Rat)
	if a.Weights != nil {
		if err := carried(p, a); err != nil {
			return nil, err
		}
		for i, q := range p.Lengths {
			sum.Add(sum, big.NewRat(int64(q.Copies)*a.Weights[i], a.Carries))
		}
		return sum, nil
	}
	var all []block
	for i, q := range p.Lengths {
		for c := range q.Copies {
			all = append(all, block{i, c, []way{{extent: [2]int64{q.Length + p.Kerf}}}})
		}
	}
	f, err := weight(a.F, p.Stick-2*p.EndTrim+p.Kerf, all, sheet.X)
	if err != nil {
		return nil, err
	}
	for _, b := range all {
		sum.Add(sum, f(b.ways[0].extent[sheet.X]))
	}
	return sum, nil
}

// load is a way to fill a stick up to at, worth so much.
type load struct{ at, worth int64 }

// mostLoads bounds the work of weighing sticks.
const mostLoads = 40_000_000

// carried checks that no stick carries more than is said. It goes through the
// lengths one by one and keeps the loads that no shorter one outweighs.
func carried(p sheet.StickProblem, a sheet.StickAnswer) error {
	room := p.Stick - 2*p.EndTrim + p.Kerf
	if len(a.Weights) != len(p.Lengths) || a.Carries < 1 || a.Carries > 1<<40 {
		return errors.New("the proof does not weigh each length")
	}
	loads, work := []load{{}}, 0
	for i, q := range p.Lengths {
		w := a.Weights[i]
		if w < 0 || w > a.Carries {
			return fmt.Errorf("length %d weighs %d of %d", i, w, a.Carries)
		}
		for range min(int64(q.Copies), room/(q.Length+p.Kerf)) {
			if work += len(loads); work > mostLoads {
				return errors.New("the weights are too many to check")
			}
			loads = merge(loads, q.Length+p.Kerf, w, room)
		}
	}
	if top := loads[len(loads)-1].worth; top > a.Carries {
		return fmt.Errorf("a stick carries %d, said to be %d at most", top, a.Carries)
	}
	return nil
}

// merge returns the loads with and without one more length, by rising length and
// worth.
func merge(loads []load, length, worth, room int64) []load {
	out := make([]load, 0, 2*len(loads))
	put := func(l load) {
		if len(out) == 0 || l.worth > out[len(out)-1].worth {
			out = append(out, l)
		}
	}
	j := 0
	for i := range loads {
		for ; j < len(loads) && (loads[j].at+length < loads[i].at || loads[j].at+length == loads[i].at && loads[j].worth+worth > loads[i].worth); j++ {
			put(load{loads[j].at + length, loads[j].worth + worth})
		}
		put(loads[i])
	}
	for ; j < len(loads) && loads[j].at+length <= room; j++ {
		put(load{loads[j].at + length, loads[j].worth + worth})
	}
	return out
}
