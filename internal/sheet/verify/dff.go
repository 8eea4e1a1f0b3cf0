package verify

import (
	"fmt"
	"math/big"
	"slices"

	"rodwork/internal/sheet"
)

// weight returns the function of the certificate for capacity c. The lengths at
// hand are needed by Counting alone.
func weight(f sheet.Func, c int64, all []block, axis sheet.Axis) (func(int64) *big.Rat, error) {
	if f.Floor != 0 {
		e := f.Floor
		if e < 1 || 2*e > c || f.Family == sheet.Counting {
			return nil, fmt.Errorf("%s has no floor %d", f.Family, e)
		}
		f.Floor = 0
		of, err := weight(f, c, all, axis)
		return func(x int64) *big.Rat {
			switch {
			case x > c-e:
				x = c
			case x < e:
				x = 0
			}
			return of(x)
		}, err
	}
	e := f.Param
	most := map[sheet.Family]int64{sheet.Identity: e, sheet.Rounding: 1000, sheet.Slope: c}
	limit, ok := most[f.Family]
	if !ok {
		limit = c / 2
	}
	if f.Family != sheet.Identity && (e < 1 || e > limit) {
		return nil, fmt.Errorf("%s has no parameter %d", f.Family, e)
	}
	switch f.Family {
	case sheet.Identity:
		return func(x int64) *big.Rat { return big.NewRat(x, c) }, nil
	case sheet.Rounding:
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
	case sheet.Slope:
		return func(x int64) *big.Rat { return slope(x, c, e) }, nil
	case sheet.Counting:
		return counting(e, c, all, axis)
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

// slope is the number of whole e in x, plus how far the fraction of x/e lies
// above that of c/e, of what lies above it at all, by the number of whole e in c.
func slope(x, c, e int64) *big.Rat {
	v := big.NewRat(x/e, 1)
	fx, fc := big.NewRat(x%e, e), big.NewRat(c%e, e)
	if over := new(big.Rat).Sub(fx, fc); over.Sign() > 0 {
		v.Add(v, over.Quo(over, fc.Sub(big.NewRat(1, 1), fc)))
	}
	return v.Mul(v, big.NewRat(1, c/e))
}

// counting weighs by how many of the lengths from e to c/2 go in. A copy that
// has two of them is there with the shorter.
func counting(e, c int64, all []block, axis sheet.Axis) (func(int64) *big.Rat, error) {
	var small []int64
	for _, b := range all {
		var own []int64
		for _, w := range b.ways {
			if x := w.extent[axis]; e <= x && 2*x <= c {
				own = append(own, x)
			}
		}
		if len(own) > 0 {
			small = append(small, slices.Min(own))
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
	full := holds(c)
	if full == 0 {
		return nil, fmt.Errorf("counting has no lengths from %d", e)
	}
	return func(x int64) *big.Rat {
		switch {
		case x < e:
			return new(big.Rat)
		case 2*x <= c:
			return big.NewRat(1, full)
		}
		return big.NewRat(full-holds(c-x), full)
	}, nil
}
