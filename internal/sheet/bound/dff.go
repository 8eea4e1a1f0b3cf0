// Package bound proves how few sheets or sticks can do.
//
// # Weights that no sheet can exceed
//
// Give each length x that is cut from a stick of capacity C a weight f(x) such
// that lengths which go on one stick never weigh more than 1 together. Then as
// many sticks are needed as all lengths weigh, whatever the layout. Such an f
// is a dual feasible function: it is a feasible answer to the dual of the
// linear program that counts sticks. The plainest is f(x) = x/C; that is the
// bound by length, or by area on sheets. Better ones know that two lengths of
// 0.51 C never share a stick.
//
// If f and g are such functions, f(length)·g(width) is one for rectangles on a
// sheet (Fekete and Schepers, 'A general framework for bounds for
// higher-dimensional orthogonal packing problems', Mathematical Methods of
// Operations Research 60, 2004). The families used, with x and C in whole
// micrometres, kerf included:
//
//   - Identity: x/C.
//   - Rounding, k ≥ 1 (Fekete and Schepers 2004, u(k)): x/C where (k+1)x/C is
//     whole, else ⌊(k+1)x/C⌋/k.
//   - Threshold, ε ≤ C/2 (same, U(ε)): 0 for x < ε, x/C up to C-ε, then 1.
//   - Division, ε ≤ C/2 (Carlier, Clautiaux and Moukrim, Computers &
//     Operations Research 34, 2007, f2): with n = ⌊C/ε⌋, ⌊x/ε⌋/n for x < C/2,
//     1/2 at C/2, and 1 - ⌊(C-x)/ε⌋/n above.
//   - Slope, ε ≤ C (Burdett and Johnson, 'A subadditive approach to solve linear
//     integer programs', Annals of Discrete Mathematics 1, 1977, in the form of
//     Clautiaux, Alves and Valério de Carvalho, Annals of Operations Research
//     179, 2010): with n = ⌊C/ε⌋ and r what is left of C, ⌊x/ε⌋/n, and between
//     the steps, for what is left of x over r, evenly up to the next.
//   - Counting, ε ≤ C/2 (same, f1, which holds for the lengths at hand only):
//     with J the lengths at hand from ε to C/2 and M(c) how many of them go in
//     c at most, 0 for x < ε, 1/M(C) up to C/2, and 1 - M(C-x)/M(C) above.
//
// A function after Threshold is one again (Floor), which helps Rounding and
// Slope. Parts are lifted first where nothing fits beside them; see lift.go.
//
// The proof is the pair of functions and the sum. Anyone can add it up again,
// and package verify does, with code of its own.
package bound

import (
	"slices"
	"sort"

	"rodwork/internal/sheet"
)

// table is a function with its values at the lengths at hand, as whole numbers
// over one denominator.
type table struct {
	f   sheet.Func
	num []int64 // by index in a list of distinct lengths
	den int64
}

// eval fills a table for capacity c; ok is false where the function is not
// defined for it. The lengths are those of each copy at hand, in its ways of
// lying; at are the distinct ones, sorted.
func eval(f sheet.Func, c int64, lengths [][]int64, at []int64) (t table, ok bool) {
	of, den := pick(f, c, lengths)
	if den <= 0 {
		return table{}, false
	}
	t = table{f: f, num: make([]int64, len(at)), den: den}
	for i, x := range at {
		t.num[i] = of(x)
	}
	return t, true
}

// pick returns the function's numerator, and its denominator (0: not defined).
func pick(f sheet.Func, c int64, lengths [][]int64) (at func(x int64) int64, den int64) {
	if e := f.Floor; e > 0 {
		f.Floor = 0
		of, den := pick(f, c, lengths)
		return func(x int64) int64 { return of(threshold(x, e, c)) }, den
	}
	e := f.Param
	switch f.Family {
	case sheet.Identity:
		return func(x int64) int64 { return x }, c
	case sheet.Rounding:
		return func(x int64) int64 {
			if (e+1)*x%c == 0 {
				return x * e
			}
			return (e + 1) * x / c * c
		}, e * c
	case sheet.Threshold:
		return func(x int64) int64 { return threshold(x, e, c) }, c
	case sheet.Division:
		return func(x int64) int64 { return division(x, e, c) }, 2 * (c / e)
	case sheet.Slope:
		n, r := c/e, c%e
		return func(x int64) int64 { return x/e*(e-r) + max(0, x%e-r) }, n * (e - r)
	case sheet.Counting:
		small := within(lengths, e, c/2)
		most := fill(small, c)
		return func(x int64) int64 {
			switch {
			case x < e:
				return 0
			case 2*x <= c:
				return 1
			}
			return most - fill(small, c-x)
		}, most
	}
	return nil, 0
}

func threshold(x, e, c int64) int64 {
	switch {
	case x < e:
		return 0
	case x <= c-e:
		return x
	}
	return c
}

func division(x, e, c int64) int64 {
	switch {
	case 2*x < c:
		return 2 * (x / e)
	case 2*x == c:
		return c / e
	}
	return 2 * (c/e - (c-x)/e)
}

// within returns the sums of the n shortest lengths from lo to hi, n = 0, 1, 2
// …, one of each copy.
func within(lengths [][]int64, lo, hi int64) []int64 {
	var short []int64
	for _, one := range lengths {
		least := hi + 1
		for _, x := range one {
			if x >= lo {
				least = min(least, x)
			}
		}
		if least <= hi {
			short = append(short, least)
		}
	}
	slices.Sort(short)
	sums := []int64{0}
	for _, x := range short {
		sums = append(sums, sums[len(sums)-1]+x)
	}
	return sums
}

// fill is how many of the lengths go in c, the shortest first.
func fill(sums []int64, c int64) int64 {
	return int64(sort.Search(len(sums), func(n int) bool { return sums[n] > c })) - 1
}
