package verify

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"rodwork/internal/sheet"
)

// Proof adds a certificate up again: it returns nil if the certificate proves
// what it says of a valid problem.
func Proof(p sheet.Problem, c sheet.Certificate) error {
	least, sum, err := leastSheets(p, c)
	if err != nil {
		return err
	}
	return added(c, least, sum)
}

func added(c sheet.Certificate, least int, sum *big.Rat) error {
	var errs []error
	if f, _ := sum.Float64(); f < c.Sum-1e-6 || f > c.Sum+1e-6 {
		errs = append(errs, fmt.Errorf("the proof's sum is %g, said to be %g", f, c.Sum))
	}
	if c.Least > least {
		errs = append(errs, fmt.Errorf("the proof gives %d sheets, %d are claimed", least, c.Least))
	}
	return errors.Join(errs...)
}

// proof checks the certificate and what is said to follow.
func proof(p sheet.Problem, a sheet.Answer) error {
	c := a.Proof
	least, sum, err := leastSheets(p, c)
	if err != nil {
		return err
	}
	errs := []error{added(c, least, sum)}
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
