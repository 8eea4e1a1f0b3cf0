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
//   - Counting, ε ≤ C/2 (same, f1, which holds for the lengths at hand only):
//     with J the lengths at hand from ε to C/2 and M(c) how many of them go in
//     c at most, 0 for x < ε, 1/M(C) up to C/2, and 1 - M(C-x)/M(C) above.
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
// defined for it. The lengths are sorted, copies repeated; at are the distinct
// ones.
func eval(f sheet.Func, c int64, lengths, at []int64) (t table, ok bool) {
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
func pick(f sheet.Func, c int64, lengths []int64) (at func(x int64) int64, den int64) {
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

// within returns the sums of the first n lengths from lo to hi, n = 0, 1, 2 …
func within(sorted []int64, lo, hi int64) []int64 {
	sums := []int64{0}
	for _, x := range sorted {
		if x >= lo && x <= hi {
			sums = append(sums, sums[len(sums)-1]+x)
		}
	}
	return sums
}

// fill is how many of the lengths go in c, the shortest first.
func fill(sums []int64, c int64) int64 {
	return int64(sort.Search(len(sums), func(n int) bool { return sums[n] > c })) - 1
}

// mostRounding is the largest k of the rounding family that is tried.
const mostRounding = 30

// functions lists what is tried for capacity c and the sorted lengths, the most
// telling first, no more than most of them.
func functions(c int64, lengths []int64, counting bool, most int) []table {
	fs := []sheet.Func{{Family: sheet.Identity}}
	for k := int64(1); k <= 4; k++ {
		fs = append(fs, sheet.Func{Family: sheet.Rounding, Param: k})
	}
	params := distinct(lengths, c)
	fs = spread(fs, sheet.Division, params, most/4)
	if counting {
		fs = spread(fs, sheet.Counting, params, most/4)
	}
	fs = spread(fs, sheet.Threshold, params, most/4)
	for k := int64(5); k <= mostRounding; k++ {
		fs = append(fs, sheet.Func{Family: sheet.Rounding, Param: k})
	}
	if len(fs) > most {
		fs = fs[:most]
	}
	at := once(lengths)
	var out []table
	for _, f := range fs {
		if t, ok := eval(f, c, lengths, at); ok {
			out = append(out, t)
		}
	}
	return out
}

// distinct returns the parameters worth trying: the lengths up to half the
// capacity, and what the longer ones leave.
func distinct(lengths []int64, c int64) []int64 {
	var ps []int64
	for _, x := range lengths {
		for _, e := range []int64{x, c - x, c - x + 1} {
			if e >= 1 && 2*e <= c {
				ps = append(ps, e)
			}
		}
	}
	slices.Sort(ps)
	return slices.Compact(ps)
}

// once returns each of the sorted lengths once.
func once(lengths []int64) []int64 { return slices.Compact(slices.Clone(lengths)) }

// spread adds functions of the family, with up to n of the parameters, evenly
// taken.
func spread(fs []sheet.Func, family sheet.Family, params []int64, n int) []sheet.Func {
	n = min(n, len(params))
	for i := range n {
		fs = append(fs, sheet.Func{Family: family, Param: params[i*len(params)/n]})
	}
	return fs
}
