package verify

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// mostPlacings bounds the search for fewer sticks: some milliseconds.
const mostPlacings = 200_000

// fewer looks for a way to cut all lengths from n sticks, length by length, the
// longest first, each on every stick that has room (of sticks with the same room
// one). It is the checker's own look at a least number that rests on a complete
// search. Found tells that n do; done that it went through all ways, or found
// one: else it ran out of placings, and says nothing.
func fewer(p sheet.StickProblem, n int) (found, done bool) {
	var all []int64
	for _, q := range p.Lengths {
		for range q.Copies {
			all = append(all, q.Length+p.Kerf)
		}
	}
	slices.SortFunc(all, func(a, b int64) int { return cmp.Compare(b, a) })
	room := make([]int64, max(n, 0))
	for i := range room {
		room[i] = p.Usable() + p.Kerf
	}
	placings := mostPlacings
	return place(all, room, &placings), placings > 0
}

// place puts the lengths on sticks with the room, as long as placings last.
func place(all, room []int64, placings *int) bool {
	if len(all) == 0 {
		return true
	}
	need, have := int64(0), int64(0)
	for _, l := range all {
		need += l
	}
	for _, r := range room {
		have += r
	}
	if need > have {
		return false
	}
	for i, r := range room {
		if r < all[0] || slices.Contains(room[:i], r) {
			continue
		}
		if *placings--; *placings <= 0 {
			return false
		}
		room[i] -= all[0]
		if place(all[1:], room, placings) {
			return true
		}
		room[i] = r
	}
	return false
}
