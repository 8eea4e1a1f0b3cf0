package bound

import (
	"slices"

	"rodwork/internal/sheet"
)

// Sticks returns the best proof found of how many sticks are needed at least:
// the function, what the lengths weigh together, and the number.
func Sticks(p sheet.StickProblem) (f sheet.Func, sum float64, least int) {
	var xs []int64
	for _, q := range p.Lengths {
		for range q.Copies {
			xs = append(xs, q.Length+p.Kerf)
		}
	}
	slices.Sort(xs)
	at := once(xs)
	for _, t := range functions(p.Usable()+p.Kerf, xs, true, 400) {
		var s wide
		k := 0
		for _, x := range xs {
			for at[k] != x {
				k++
			}
			s = s.add(1, t.num[k])
		}
		n, w := int(s.over(t.den)), s.float()/float64(t.den)
		if n > least || n == least && w > sum+1e-9 {
			f, sum, least = t.f, w, n
		}
	}
	return f, sum, least
}
