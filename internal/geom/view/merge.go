package view

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
)

// mark is a stretch of a line or a circle of the paper. A line is told by its
// direction (0 to π) and its distance from the origin to the left, places on it
// by the distance along; a circle by its centre and radius, places on it by the
// angle.
type mark struct {
	turn, off float64 // line; or centre's x and y
	radius    float64 // 0: line
	lo, hi    float64
	rank      int8 // 0, 1, 2 as stroke.rank; 3 more where hidden
	body      int32
}

// mark sends a stretch of a stroke on.
func (d *drawing) mark(s *stroke, t0, t1 float64, hidden bool) {
	if s.unseen {
		hidden = true
	}
	if hidden && !d.hidden {
		return
	}
	m := mark{rank: int8(s.rank), body: int32(s.body)}
	if hidden {
		m.rank += 3
	}
	if s.radius > 0 {
		m.turn, m.off, m.radius = s.center.X, s.center.Y, s.radius
		d.markArc(m, s.from+t0*(s.to-s.from), s.from+t1*(s.to-s.from))
		return
	}
	u := s.b.Sub(s.a).Mul(1 / s.long)
	if u.Y < -1e-9 || math.Abs(u.Y) <= 1e-9 && u.X < 0 {
		u = u.Mul(-1)
	}
	m.turn = math.Atan2(u.Y, u.X)
	m.off = u.Cross(s.a)
	p, q := u.Dot(s.a), u.Dot(s.b)
	m.lo, m.hi = p+t0*(q-p), p+t1*(q-p)
	if m.lo > m.hi {
		m.lo, m.hi = m.hi, m.lo
	}
	d.marks = append(d.marks, m)
}

// markArc brings angles into 0 to 2π; an arc over the seam becomes two.
func (d *drawing) markArc(m mark, lo, hi float64) {
	const full = 2 * math.Pi
	k := math.Floor(lo/full+1e-12) * full
	lo, hi = max(0, lo-k), hi-k
	if hi > full+1e-9 {
		m.lo, m.hi = 0, hi-full
		d.marks = append(d.marks, m)
		hi = full
	}
	m.lo, m.hi = lo, min(hi, full)
	d.marks = append(d.marks, m)
}

// Places on paper nearer than this are one.
const (
	sameTurn  = 1e-7
	samePlace = 1e-3
)

// sorted clears what lies on each other and returns the lines.
func (d *drawing) sorted() []Line {
	cluster(d.marks, byRadius, radiusOf, samePlace, func(ms []mark) {
		tol := samePlace
		if ms[0].radius == 0 {
			tol = sameTurn
		}
		cluster(ms, byTurn, turnOf, tol, func(ms []mark) {
			cluster(ms, byOff, offOf, samePlace, d.settle)
		})
	})
	slices.SortFunc(d.done, order)
	out := make([]Line, len(d.done))
	for i := range d.done {
		out[i] = d.line(&d.done[i])
	}
	return out
}

// settle clears the marks of one line or circle: by rank, and within a rank by
// body, each keeps only what no earlier one covers, and its runs that touch
// become one.
func (d *drawing) settle(ms []mark) {
	if len(ms) > 1 {
		slices.SortFunc(ms, func(a, b mark) int {
			return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.body, b.body),
				cmp.Compare(a.lo, b.lo), cmp.Compare(a.hi, b.hi))
		})
	}
	tol := samePlace
	if ms[0].radius > 0 {
		tol /= ms[0].radius
	}
	d.taken = d.taken[:0]
	for i := 0; i < len(ms); {
		first, rank, body := len(d.done), ms[i].rank, ms[i].body
		for i < len(ms) && ms[i].rank == rank && ms[i].body == body {
			m := ms[0]
			m.rank, m.body, m.lo, m.hi = rank, body, ms[i].lo, ms[i].hi
			for i++; i < len(ms) && ms[i].rank == rank && ms[i].body == body && ms[i].lo <= m.hi+tol; i++ {
				m.hi = max(m.hi, ms[i].hi)
			}
			d.keep(m, tol)
		}
		for _, m := range d.done[first:] {
			d.taken = append(d.taken, span{m.lo, m.hi})
		}
		d.round(first, tol)
		slices.SortFunc(d.taken, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	}
}

// keep appends what of the mark is not taken.
func (d *drawing) keep(m mark, tol float64) {
	at, hi := m.lo, m.hi
	for _, t := range d.taken {
		if t.hi <= at {
			continue
		}
		if t.lo >= hi {
			break
		}
		if t.lo-at > tol {
			m.lo, m.hi = at, t.lo
			d.done = append(d.done, m)
		}
		at = t.hi
	}
	if hi-at > tol {
		m.lo, m.hi = at, hi
		d.done = append(d.done, m)
	}
}

// round joins the last and the first run of a circle over its seam; the result
// ends past 2π.
func (d *drawing) round(first int, tol float64) {
	n := len(d.done)
	if n-first < 2 || d.done[first].radius == 0 {
		return
	}
	a, b := &d.done[first], &d.done[n-1]
	if a.lo <= tol && b.hi >= 2*math.Pi-tol {
		b.hi = 2*math.Pi + a.hi
		d.done = append(d.done[:first], d.done[first+1:]...)
	}
}

// line tells a mark as a line.
func (d *drawing) line(m *mark) Line {
	l := Line{Hidden: m.rank > 2, Kind: kinds[m.rank%3], Body: d.scene.ids[m.body]}
	if m.radius == 0 {
		s, c := math.Sincos(m.turn)
		u := r2.Vec{X: c, Y: s}
		foot := u.Left().Mul(m.off)
		l.A, l.B = foot.Add(u.Mul(m.lo)), foot.Add(u.Mul(m.hi))
		return l
	}
	l.Center, l.Radius, l.Sweep = r2.Vec{X: m.turn, Y: m.off}, m.radius, m.hi-m.lo
	l.A = l.Center.Add(r2.Vec{X: m.radius}.Turn(m.lo))
	l.B = l.Center.Add(r2.Vec{X: m.radius}.Turn(m.hi))
	return l
}

func radiusOf(m *mark) float64 { return m.radius }
func turnOf(m *mark) float64   { return m.turn }
func offOf(m *mark) float64    { return m.off }

func byRadius(a, b mark) int { return cmp.Compare(a.radius, b.radius) }
func byTurn(a, b mark) int   { return cmp.Compare(a.turn, b.turn) }
func byOff(a, b mark) int    { return cmp.Compare(a.off, b.off) }

// cluster sorts the marks by a value and calls f for each group without a gap
// wider than tol.
func cluster(ms []mark, by func(a, b mark) int, value func(*mark) float64, tol float64, f func([]mark)) {
	if len(ms) > 1 {
		slices.SortFunc(ms, by)
	}
	first := 0
	for i := 1; i <= len(ms); i++ {
		if i == len(ms) || value(&ms[i])-value(&ms[i-1]) > tol {
			f(ms[first:i])
			first = i
		}
	}
}

func order(a, b mark) int {
	return cmp.Or(
		cmp.Compare(a.body, b.body), cmp.Compare(a.rank, b.rank), cmp.Compare(a.radius, b.radius),
		cmp.Compare(a.turn, b.turn), cmp.Compare(a.off, b.off), cmp.Compare(a.lo, b.lo), cmp.Compare(a.hi, b.hi))
}
