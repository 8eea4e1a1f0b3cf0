package bound

import (
	"slices"

	"rodwork/internal/sheet"
)

// Sticks returns the best proof found of how many sticks are needed at least:
// the function, what the lengths weigh together, and the number.
func Sticks(p sheet.StickProblem) (f sheet.Func, sum float64, least int) {
	var xs [][]int64
	for _, q := range p.Lengths {
		for range q.Copies {
			xs = append(xs, []int64{q.Length + p.Kerf})
		}
	}
	at := once(xs)
	for _, t := range functions(p.Usable()+p.Kerf, xs, mostFunctions) {
		var s wide
		for _, x := range xs {
			k, _ := slices.BinarySearch(at, x[0])
			s = s.add(1, t.num[k])
		}
		n, w := int(s.over(t.den)), s.float()/float64(t.den)
		if n > least {
			f, sum, least = t.f, w, n
		}
	}
	return f, sum, least
}
