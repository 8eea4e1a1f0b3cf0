package dryfit

import "math/bits"

// set is a set of parts by index, one bit each.
type set []uint64

func newSet(parts int) set { return make(set, (parts+63)/64) }

func (s set) has(i int) bool { return s[i/64]&(1<<(i%64)) != 0 }

func (s set) add(i int) { s[i/64] |= 1 << (i % 64) }

// size is the number of parts in the set.
func (s set) size() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// sorted lists the parts, rising.
func (s set) sorted() []int {
	out := make([]int, 0, s.size())
	for w, word := range s {
		for word != 0 {
			out = append(out, w*64+bits.TrailingZeros64(word))
			word &= word - 1
		}
	}
	return out
}

// without returns what is in s and not in o.
func (s set) without(o set) set {
	out := make(set, len(s))
	for w := range s {
		out[w] = s[w] &^ o[w]
	}
	return out
}

// key tells sets apart in a map.
func (s set) key() string {
	b := make([]byte, 0, 8*len(s))
	for _, w := range s {
		for k := range 8 {
			b = append(b, byte(w>>(8*k)))
		}
	}
	return string(b)
}
