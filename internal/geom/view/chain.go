package view

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Reverse returns the line drawn the other way; an arc then has a negative
// Sweep, and runs clockwise.
func (l Line) Reverse() Line {
	l.A, l.B, l.Sweep = l.B, l.A, -l.Sweep
	return l
}

// Chains returns the lines as runs that can be drawn without lifting the pencil:
// of one body and kind, seen or hidden, each line starting where the last ended.
// A run ends where three or more lines meet. A pen then has proper corners, a
// dash does not start anew at each chord, and files are smaller. Lines may be
// reversed; a closed run ends where it began.
func Chains(lines []Line) [][]Line {
	var out [][]Line
	for first := 0; first < len(lines); {
		end := first + 1
		for end < len(lines) && alike(lines[first], lines[end]) {
			end++
		}
		out = chainsOf(out, lines[first:end])
		first = end
	}
	return out
}

func alike(a, b Line) bool {
	return a.Body == b.Body && a.Kind == b.Kind && a.Hidden == b.Hidden
}

// knots finds the lines that end at a place.
type knots struct {
	cells map[[2]int64][]knot
	lines []Line
}

type knot struct {
	at   r2.Vec
	line int
}

const cell = 16 * samePlace

func (k *knots) add(p r2.Vec, line int) {
	c := [2]int64{int64(math.Floor(p.X / cell)), int64(math.Floor(p.Y / cell))}
	k.cells[c] = append(k.cells[c], knot{p, line})
}

// near returns the ends at p, as many as there are up to three.
func (k *knots) near(p r2.Vec) (found []int) {
	x0, x1 := int64(math.Floor((p.X-2*samePlace)/cell)), int64(math.Floor((p.X+2*samePlace)/cell))
	y0, y1 := int64(math.Floor((p.Y-2*samePlace)/cell)), int64(math.Floor((p.Y+2*samePlace)/cell))
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for _, n := range k.cells[[2]int64{x, y}] {
				if n.at.Sub(p).Len() <= 2*samePlace && len(found) < 3 {
					found = append(found, n.line)
				}
			}
		}
	}
	return found
}

func chainsOf(out [][]Line, lines []Line) [][]Line {
	if len(lines) == 1 {
		return append(out, lines)
	}
	k := knots{cells: make(map[[2]int64][]knot, 2*len(lines)), lines: lines}
	for i, l := range lines {
		k.add(l.A, i)
		k.add(l.B, i)
	}
	used := make([]bool, len(lines))
	for i := range lines {
		if used[i] {
			continue
		}
		used[i] = true
		tail := k.follow(lines[i], i, used)
		head := k.follow(lines[i].Reverse(), i, used)
		run := make([]Line, 0, len(head)+1+len(tail))
		for j := len(head) - 1; j >= 0; j-- {
			run = append(run, head[j].Reverse())
		}
		out = append(out, append(append(run, lines[i]), tail...))
	}
	return out
}

// follow walks on from the end of a line while exactly one other starts there.
func (k *knots) follow(from Line, index int, used []bool) (run []Line) {
	for {
		ends := k.near(from.B)
		if len(ends) != 2 {
			return run
		}
		next := ends[0]
		if next == index {
			next = ends[1]
		}
		if used[next] {
			return run
		}
		used[next] = true
		l := k.lines[next]
		if l.A.Sub(from.B).Len() > 2*samePlace {
			l = l.Reverse()
		}
		run = append(run, l)
		from, index = l, next
	}
}
