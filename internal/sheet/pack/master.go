package pack

import "slices"

// The linear program of sticks: how often is each way to fill a stick used, if
// a stick may be used in part, so that every length is there and the sticks are
// as few as can be (Gilmore and Gomory, 'A linear programming approach to the
// cutting-stock problem', Operations Research 9, 1961, and 11, 1963). The ways
// are too many to list; those that help are found one by one, each the fill
// worth most at the prices that the program sets on lengths. The program is
// solved by the revised simplex method with the inverse of the basis at hand.
//
// Products are rounded before they are added (float64 of a product), so that no
// machine fuses the two: the way of the search is the same on all.

// term is a number of one size on a stick, and pattern a way to fill one.
type term struct{ size, n int }

type pattern []term

// A pattern that starts with a number under 0 is an exchange: a longer length
// that is there stands in for a shorter one, and costs nothing. So the program
// knows from the start that a longer length is worth no less, which saves many
// steps (Valério de Carvalho, 'Using extra dual cuts to accelerate column
// generation', INFORMS Journal on Computing 17, 2005).
func (p pattern) cost() float64 {
	if p[0].n < 0 {
		return 0
	}
	return 1
}

// tolerance of prices and amounts in the program, in sticks.
const tolerance = 1e-9

// master is the program with all patterns found so far.
type master struct {
	*bins
	unit int64 // of which all lengths and the stick are multiples
	pool []pattern
	work int64 // what may still be spent, in products of the simplex method
}

// relaxed is an answer to the program: how much of which patterns, and what each
// size is worth in sticks.
type relaxed struct {
	value  float64
	amount []float64 // of each pattern in the pool
	price  []float64 // of each size; 0 of those that are not wanted
}

// simplex is one run; rows are the sizes wanted.
type simplex struct {
	m       *master
	rows    []int // sizes
	row     []int // of each size, -1 where not wanted
	inverse [][]float64
	basis   []int // pattern, or -1-row for the surplus of a row
	x       []float64
	y       []float64 // price by row
	value   float64   // sticks used
	pivots  int
}

func newMaster(b *bins, work int64) *master {
	m := &master{bins: b, unit: b.capacity, work: work}
	for _, x := range b.sizes {
		for x != 0 {
			m.unit, x = x, m.unit%x
		}
	}
	return m
}

// solve solves the program for the counts, or until no more than so many sticks
// are used; ok is false where the work ran out. The prices are those of the best
// answer only if target is 0.
func (m *master) solve(counts []int, target float64) (r relaxed, ok bool) {
	s := m.start(counts)
	price := make([]float64, len(m.sizes))
	for s.value > target {
		enter, column := s.enter(price)
		if column == nil {
			if enter = s.knapsack(price, counts); enter < 0 {
				break
			}
			column = s.column(enter)
		}
		if !s.pivot(enter, column) || m.work <= 0 {
			return r, false
		}
	}
	for k := range price {
		if i := s.row[k]; i >= 0 {
			price[k] = max(s.y[i], 0)
		}
	}
	r.amount, r.price = make([]float64, len(m.pool)), price
	for i, b := range s.basis {
		if b >= 0 && m.pool[b].cost() > 0 {
			r.amount[b] += s.x[i]
			r.value += s.x[i]
		}
	}
	return r, true
}

// start sets a basis: each size on sticks of its own.
func (m *master) start(counts []int) *simplex {
	s := &simplex{m: m, row: make([]int, len(m.sizes))}
	m.pool = slices.DeleteFunc(m.pool, func(p pattern) bool { return len(p) == 1 || p.cost() == 0 })
	for k, n := range counts {
		s.row[k] = -1
		if n > 0 {
			s.row[k] = len(s.rows)
			s.rows = append(s.rows, k)
		}
	}
	s.inverse = make([][]float64, len(s.rows))
	for i, k := range s.rows {
		n := min(int(m.capacity/m.sizes[k]), counts[k])
		s.inverse[i] = make([]float64, len(s.rows))
		s.inverse[i][i] = 1 / float64(n)
		s.basis = append(s.basis, m.add(pattern{{k, n}}))
		s.x = append(s.x, (float64(counts[k])+jitter(i))/float64(n))
		s.y = append(s.y, 1/float64(n))
		s.value += s.x[i]
	}
	for i, k := range s.rows[1:] {
		m.add(pattern{{s.rows[i], -1}, {k, 1}})
	}
	return s
}

// jitter is a little more of each row that is wanted, of each another, so that
// no two rows run out at once: else the method could go round in a circle.
func jitter(row int) float64 { return 1e-7 * (1 + float64(row*7919%1009)/1009) }

// add puts a pattern in the pool and returns its index.
func (m *master) add(p pattern) int {
	m.pool = append(m.pool, p)
	return len(m.pool) - 1
}

// enter returns what pays most: a pattern of the pool, or a surplus; a nil
// column where none does. It sets the price of each size.
func (s *simplex) enter(price []float64) (enter int, column []float64) {
	clear(price)
	best := tolerance
	for i, k := range s.rows {
		price[k] = max(s.y[i], 0)
		if -s.y[i] > best {
			best, enter = -s.y[i], -1-i
		}
	}
	for c, p := range s.m.pool {
		v := -p.cost()
		for _, t := range p {
			if i := s.row[t.size]; i >= 0 {
				v += float64(float64(t.n) * s.y[i])
			}
		}
		if v > best {
			best, enter = v, c
		}
	}
	if best <= tolerance {
		return 0, nil
	}
	return enter, s.column(enter)
}

// column is the inverse times what enters.
func (s *simplex) column(enter int) []float64 {
	w := make([]float64, len(s.rows))
	for i, inv := range s.inverse {
		if enter < 0 {
			w[i] = -inv[-1-enter]
			continue
		}
		for _, t := range s.m.pool[enter] {
			if r := s.row[t.size]; r >= 0 {
				w[i] += float64(float64(t.n) * inv[r])
			}
		}
	}
	return w
}

// pivot brings what enters into the basis; false where nothing leaves it.
func (s *simplex) pivot(enter int, w []float64) bool {
	out := -1
	for i, v := range w {
		if v > tolerance && (out < 0 || s.x[i]*w[out] < s.x[out]*v || s.x[i]*w[out] == s.x[out]*v && s.basis[i] < s.basis[out]) {
			out = i
		}
	}
	if out < 0 {
		return false
	}
	gain := 0.0 // what the entering one is worth beyond its cost
	if enter < 0 {
		gain = -s.y[-1-enter]
	} else {
		gain = -s.m.pool[enter].cost()
		for _, t := range s.m.pool[enter] {
			if i := s.row[t.size]; i >= 0 {
				gain += float64(float64(t.n) * s.y[i])
			}
		}
	}
	pivot := s.inverse[out]
	for j := range pivot {
		pivot[j] /= w[out]
		s.y[j] -= float64(gain * pivot[j])
	}
	s.x[out] /= w[out]
	s.value -= float64(gain * s.x[out])
	for i, inv := range s.inverse {
		if f := w[i]; i != out && f != 0 {
			for j, v := range pivot {
				inv[j] -= float64(f * v)
			}
			s.x[i] = max(s.x[i]-float64(f*s.x[out]), 0)
		}
	}
	s.basis[out] = enter
	if s.pivots++; s.pivots%64 == 0 {
		s.reprice()
	}
	s.m.work -= int64(len(w)) * int64(len(w))
	return true
}

// reprice sums the prices up anew, to shed what rounding has added.
func (s *simplex) reprice() {
	clear(s.y)
	for i, b := range s.basis {
		if b < 0 || s.m.pool[b].cost() == 0 {
			continue // a surplus costs nothing
		}
		for j, v := range s.inverse[i] {
			s.y[j] += v
		}
	}
}

// knapsack looks for fills worth more than a stick, and adds them to the pool; it
// returns the best, or -1 where there is none. Where a table is small it is taken
// at once, else when the plain search has found nothing for a while.
func (s *simplex) knapsack(price []float64, counts []int) int {
	m, floor := s.m, 1+tolerance
	k := newKnapsack(m.sizes, counts, price)
	t := k.newTable(m.capacity, m.unit)
	if t == nil || t.cells() > smallTable {
		k.enough, k.most = enoughNodes, mostNodes
		if t == nil {
			k.most = m.work
		}
		k.fill(m.capacity, floor)
		m.work -= 4 * k.nodes
		switch {
		case k.value > floor:
			return m.addAll(k.all)
		case k.nodes < k.most:
			return -1
		case t == nil:
			m.work = 0
			return -1
		}
	}
	m.work -= t.cells()
	if t.fill() <= floor {
		return -1
	}
	return m.addAll(t.patterns(floor, 3))
}

// addAll adds the patterns and returns the index of the last.
func (m *master) addAll(ps []pattern) int {
	last := -1
	for _, p := range ps {
		last = m.add(p)
	}
	return last
}

const (
	enoughNodes = 2_000  // for the fill worth most, once there is one worth more than a stick
	mostNodes   = 20_000 // for any worth more than a stick, if a table can be taken
	smallTable  = 1_000_000
)
