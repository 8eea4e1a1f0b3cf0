package diag

import "strings"

// Nearest returns the known name that the misspelt one is most likely meant to
// be, or "" where none is near: a third of the letters may differ, two
// neighbours that changed places count once (optimal string alignment).
// Capitals and the space, hyphen and underscore are alike. Ties go to the
// earlier name in known.
func Nearest(misspelt string, known []string) string {
	m := fold(misspelt)
	best, bestDist := "", 0
	for _, k := range known {
		f := fold(k)
		limit := max(1, (max(len([]rune(m)), len([]rune(f)))+1)/3)
		d := alignment(m, f)
		if d <= limit && (best == "" || d < bestDist) {
			best, bestDist = k, d
		}
	}
	return best
}

func fold(s string) string {
	return strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(strings.TrimSpace(s)))
}

// alignment is the optimal-string-alignment distance of two short strings.
func alignment(a, b string) int {
	r, s := []rune(a), []rune(b)
	if len(r) > 64 {
		r = r[:64]
	}
	if len(s) > 64 {
		s = s[:64]
	}
	row := func() []int { return make([]int, len(s)+1) }
	before, last, now := row(), row(), row()
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(r); i++ {
		now[0] = i
		for j := 1; j <= len(s); j++ {
			cost := 1
			if r[i-1] == s[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && r[i-1] == s[j-2] && r[i-2] == s[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(s)]
}
