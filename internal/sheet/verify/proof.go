package verify

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"rodwork/internal/sheet"
)

// proof adds the certificate up again and checks what is said to follow.
func proof(p sheet.Problem, a sheet.Answer) error {
	c := a.Proof
	least, sum, err := leastSheets(p, c)
	if err != nil {
		return err
	}
	var errs []error
	if f, _ := sum.Float64(); f < c.Sum-1e-6 || f > c.Sum+1e-6 {
		errs = append(errs, fmt.Errorf("the proof's sum is %g, said to be %g", f, c.Sum))
	}
	if c.Least > least {
		errs = append(errs, fmt.Errorf("the proof gives %d sheets, %d are claimed", least, c.Least))
	}
	if a.Full < c.Least {
		errs = append(errs, fmt.Errorf("the proof of %d sheets is belied by %d", c.Least, a.Full))
	}
	if most := leastCost(p, least); a.LeastCost > most {
		errs = append(errs, fmt.Errorf("the cost is at least %d, %d is claimed", most, a.LeastCost))
	}
	if a.Proven && !sheet.Proven(p, a.Full, a.Cost, c.Least, a.LeastCost) {
		errs = append(errs, errors.New("said to be proved, and is not"))
	}
	return errors.Join(errs...)
}

// leastSheets weighs all parts in exact fractions.
func leastSheets(p sheet.Problem, c sheet.Certificate) (int, *big.Rat, error) {
	var big1, big2 int64 // the sheet that covers all stocks, enlarged
	less, area, endless := big.NewRat(0, 1), new(big.Int), false
	for _, s := range p.Stocks {
		if s.Available == 0 {
			continue
		}
		l, w := s.Length-2*s.Trim+p.Kerf, s.Width-2*s.Trim+p.Kerf
		big1, big2 = max(big1, l), max(big2, w)
		if s.Offcut {
			endless = endless || s.Available < 0
			less.Add(less, big.NewRat(int64(s.Available), 1))
			area.Add(area, new(big.Int).Mul(big.NewInt(int64(s.Available)), new(big.Int).Mul(big.NewInt(l), big.NewInt(w))))
		}
	}
	if endless {
		return 0, big.NewRat(0, 1), nil
	}
	if c.Mean && big1 != big2 {
		return 0, nil, errors.New("the proof takes the mean of both ways on a sheet that is not square")
	}
	if c.F.Family == sheet.Identity && c.G.Family == sheet.Identity && !c.Mean {
		less.SetFrac(area, new(big.Int).Mul(big.NewInt(big1), big.NewInt(big2)))
	}
	xs, ys := extents(p)
	f, errF := weight(c.F, big1, xs, c.Mean)
	g, errG := weight(c.G, big2, ys, c.Mean)
	if err := errors.Join(errF, errG); err != nil {
		return 0, nil, err
	}
	sum := new(big.Rat)
	for i := range p.Parts {
		one := weigh(p, i, f, g, c.Mean)
		sum.Add(sum, one.Mul(one, big.NewRat(int64(p.Parts[i].Copies), 1)))
	}
	rest := new(big.Rat).Sub(sum, less)
	if rest.Sign() <= 0 {
		return 0, sum, nil
	}
	n, r := new(big.Int).QuoRem(rest.Num(), rest.Denom(), new(big.Int))
	least := int(n.Int64())
	if r.Sign() > 0 {
		least++
	}
	return least, sum, nil
}

// weigh returns what one copy of part i weighs.
func weigh(p sheet.Problem, i int, f, g func(int64) *big.Rat, mean bool) *big.Rat {
	if mean {
		a, b := p.Parts[i].Length+p.Kerf, p.Parts[i].Width+p.Kerf
		x := new(big.Rat).Mul(f(a), g(b))
		x.Add(x, new(big.Rat).Mul(f(b), g(a)))
		return x.Mul(x, big.NewRat(1, 2))
	}
	var least *big.Rat
	for _, lie := range p.Parts[i].Lies() {
		if !holds(p, lie) {
			continue
		}
		v := new(big.Rat).Mul(f(lie.DX+p.Kerf), g(lie.DY+p.Kerf))
		if least == nil || v.Cmp(least) < 0 {
			least = v
		}
	}
	return least
}

// holds tells whether any stock takes the lie.
func holds(p sheet.Problem, lie sheet.Lie) bool {
	return slices.ContainsFunc(p.Stocks, func(s sheet.Stock) bool {
		return s.Available != 0 && lie.DX <= s.Length-2*s.Trim && lie.DY <= s.Width-2*s.Trim
	})
}

// extents lists what parts may measure along both axes, enlarged by the kerf.
func extents(p sheet.Problem) (xs, ys []int64) {
	for _, q := range p.Parts {
		for _, lie := range q.Lies() {
			for range q.Copies {
				if holds(p, lie) {
					xs, ys = append(xs, lie.DX+p.Kerf), append(ys, lie.DY+p.Kerf)
				}
			}
		}
	}
	return xs, ys
}

// weight returns the function of the certificate for capacity c. The lengths at
// hand are needed by Counting alone.
func weight(f sheet.Func, c int64, lengths []int64, mean bool) (func(int64) *big.Rat, error) {
	e := f.Param
	if f.Family != sheet.Identity && f.Family != sheet.Rounding && (e < 1 || 2*e > c) {
		return nil, fmt.Errorf("%s has no parameter %d", f.Family, e)
	}
	switch f.Family {
	case sheet.Identity:
		return func(x int64) *big.Rat { return big.NewRat(x, c) }, nil
	case sheet.Rounding:
		if e < 1 || e > 1000 {
			return nil, fmt.Errorf("%s has no parameter %d", f.Family, e)
		}
		return func(x int64) *big.Rat {
			if whole := (e + 1) * x / c; whole*c != (e+1)*x {
				return big.NewRat(whole, e)
			}
			return big.NewRat(x, c)
		}, nil
	case sheet.Threshold:
		return func(x int64) *big.Rat {
			switch {
			case x > c-e:
				return big.NewRat(1, 1)
			case x < e:
				return new(big.Rat)
			}
			return big.NewRat(x, c)
		}, nil
	case sheet.Division:
		return func(x int64) *big.Rat { return halfway(x, c, func(y int64) int64 { return y / e }) }, nil
	case sheet.Counting:
		if mean {
			return nil, errors.New("counting does not hold for the mean of both ways")
		}
		return counting(e, c, lengths)
	}
	return nil, fmt.Errorf("no function named %q", f.Family)
}

// halfway is n(x)/n(c) under half of c, 1/2 at it, and what is left of 1 above.
func halfway(x, c int64, n func(int64) int64) *big.Rat {
	switch {
	case 2*x == c:
		return big.NewRat(1, 2)
	case 2*x < c:
		return big.NewRat(n(x), n(c))
	}
	return big.NewRat(n(c)-n(c-x), n(c))
}

// counting weighs by how many of the lengths from e to c/2 go in.
func counting(e, c int64, lengths []int64) (func(int64) *big.Rat, error) {
	var small []int64
	for _, x := range lengths {
		if e <= x && 2*x <= c {
			small = append(small, x)
		}
	}
	slices.Sort(small)
	holds := func(room int64) int64 {
		n := int64(0)
		for _, x := range small {
			if room -= x; room < 0 {
				break
			}
			n++
		}
		return n
	}
	all := holds(c)
	if all == 0 {
		return nil, fmt.Errorf("counting has no lengths from %d", e)
	}
	return func(x int64) *big.Rat {
		switch {
		case x < e:
			return new(big.Rat)
		case 2*x <= c:
			return big.NewRat(1, all)
		}
		return big.NewRat(all-holds(c-x), all)
	}, nil
}

// leastCost covers the area of all parts by the cheapest wood; or takes the
// least number of sheets at the least price.
func leastCost(p sheet.Problem, least int) int64 {
	type wood struct {
		area  *big.Rat
		price *big.Rat
		left  int64
	}
	var woods []wood
	cheapest := int64(-1)
	for _, s := range p.Stocks {
		left := int64(s.Available)
		if left < 0 || left > sheet.MaxCopies {
			left = sheet.MaxCopies
		}
		if !s.Offcut && left > 0 && (cheapest < 0 || s.Price < cheapest) {
			cheapest = s.Price
		}
		area := (s.Length - 2*s.Trim + p.Kerf) * (s.Width - 2*s.Trim + p.Kerf)
		woods = append(woods, wood{big.NewRat(area, 1), big.NewRat(s.Price, area), left})
	}
	slices.SortStableFunc(woods, func(a, b wood) int { return a.price.Cmp(b.price) })
	need, cost := new(big.Rat), new(big.Rat)
	for _, q := range p.Parts {
		need.Add(need, big.NewRat(int64(q.Copies)*(q.Length+p.Kerf)*(q.Width+p.Kerf), 1))
	}
	for _, w := range woods {
		take := new(big.Rat).Mul(w.area, big.NewRat(w.left, 1))
		if take.Cmp(need) > 0 {
			take.Set(need)
		}
		need.Sub(need, take)
		cost.Add(cost, take.Mul(take, w.price))
	}
	n, r := new(big.Int).QuoRem(cost.Num(), cost.Denom(), new(big.Int))
	out := n.Int64()
	if r.Sign() > 0 {
		out++
	}
	return max(out, int64(least)*max(cheapest, 0))
}
