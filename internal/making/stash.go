package making

import "rodwork/internal/work"

// stash is what is left of kept offcuts once test pieces and aids were promised
// from them: rectangles that a saw can still part, so that nothing is promised
// twice. An offcut that is not in it is whole. The zero stash cannot be taken
// from.
type stash map[*work.Offcut][]leftover

type leftover struct{ length, width float64 } // mm

// sawn is room for a saw cut beside each piece, mm.
const sawn = 4.0

func (s stash) of(o *work.Offcut) []leftover {
	if left, ok := s[o]; ok {
		return left
	}
	return []leftover{{o.Length, o.Width}}
}

// holds tells which of an offcut's leftovers a piece comes from: the smallest.
func (s stash) holds(o *work.Offcut, length, width float64) (at int, ok bool) {
	for i, r := range s.of(o) {
		if r.length >= length && r.width >= width && (!ok || r.length*r.width < s.of(o)[at].length*s.of(o)[at].width-1e-6) {
			at, ok = i, true
		}
	}
	return at, ok
}

// take saws a piece off: by a cut right across the leftover, so that the larger
// of the two rests stays whole.
func (s stash) take(o *work.Offcut, length, width float64) {
	at, ok := s.holds(o, length, width)
	if !ok {
		return
	}
	left := s.of(o)
	r := left[at]
	end, side := leftover{r.length - length - sawn, r.width}, leftover{length, r.width - width - sawn}
	if r.length*max(r.width-width-sawn, 0) > r.width*max(r.length-length-sawn, 0) {
		end, side = leftover{r.length - length - sawn, width}, leftover{r.length, r.width - width - sawn}
	}
	out := append([]leftover(nil), left[:at]...)
	for _, n := range []leftover{end, side} {
		if n.length > 0 && n.width > 0 {
			out = append(out, n)
		}
	}
	s[o] = append(out, left[at+1:]...)
}

// block is the place that some like pieces take side by side in an offcut: the
// first of the ways to lay them in rows that it holds.
func (s stash) block(o *work.Offcut, length, width float64, count int) (l, w float64, ok bool) {
	for _, d := range [][2]float64{{length, width}, {width, length}} {
		for rows := 1; rows <= count; rows++ {
			columns := (count + rows - 1) / rows
			l, w = float64(columns)*(d[0]+sawn)-sawn, float64(rows)*(d[1]+sawn)-sawn
			if _, ok := s.holds(o, l, w); ok {
				return l, w, true
			}
		}
	}
	return 0, 0, false
}
