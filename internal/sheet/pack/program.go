package pack

import (
	"math/rand/v2"
	"slices"
)

// mostRows is how many sizes the linear program is set up for.
const mostRows = 400

// fine is what a stick is worth in whole numbers, when prices are rounded down.
const fine = 1 << 26

// program solves the linear program, takes its prices for the bound and rounds
// its amounts to sticks.
func (s *sticks) program(products, nodes int64) {
	if len(s.sizes) > mostRows {
		return
	}
	m := newMaster(s.bins, products)
	for _, f := range s.best {
		m.add(f.pattern())
	}
	for least := s.Least; least < len(s.best); {
		n := (least + len(s.best) - 1) / 2
		r, ok := m.solve(s.counts, float64(n))
		if !ok {
			return
		}
		w := s.weigh(r.price)
		for try := uint64(0); try < dives && m.work > 0 && n < len(s.best) && s.ctx.Err() == nil; try++ {
			if found := s.dive(m, w, n, try); found != nil {
				s.best = found
			}
		}
		if n < len(s.best) {
			least = n + 1
		}
	}
	if len(s.best) <= s.Least {
		return
	}
	if r, ok := m.solve(s.counts, 0); ok {
		s.search(s.weigh(r.price), nodes)
	}
}

// dives is how often the program is rounded to one number of sticks.
const dives = 20

// weigh rounds the prices to whole numbers and, if they prove more than is
// proved so far, keeps them as the proof.
func (s *sticks) weigh(price []float64) worth {
	of, asFloat, sum := make([]int64, len(price)), make([]float64, len(price)), int64(0)
	for k, v := range price {
		of[k] = int64(v * fine)
		asFloat[k] = float64(of[k])
		sum += of[k] * int64(s.counts[k])
	}
	_, most := newKnapsack(s.sizes, s.counts, asFloat).fill(s.capacity, 0)
	w := s.newWorth(of, int64(most))
	if least := int((sum + w.carries - 1) / w.carries); least > s.Least {
		s.Least, s.Searched = least, false
		s.Sum, s.Carries = float64(sum)/float64(w.carries), w.carries
		s.Weights = make([]int64, len(s.p.Lengths))
		for k, pieces := range s.of {
			for _, q := range pieces {
				s.Weights[q.Length] = of[k]
			}
		}
	}
	return w
}

// dive rounds the program to n sticks: it takes what is used whole, then what is
// used most, solves the program for what is left, and so on; the last few sticks
// are left to the complete search. Each try but the first strays a little.
func (s *sticks) dive(m *master, w worth, n int, try uint64) []fill {
	rng := rand.New(rand.NewPCG(try, 0x64697665))
	left := slices.Clone(s.counts)
	var done []fill
	for len(done) < n {
		if n-len(done) <= lastSticks {
			rest := *s.bins
			rest.counts = left
			nodes := int64(lastNodes)
			m.work -= lastNodes
			if found, _ := rest.search(s.ctx, w, n-len(done), &nodes, false); found != nil {
				return append(done, found...)
			}
			if n-len(done) <= lastSticks/2 {
				return nil
			}
		}
		r, ok := m.solve(left, float64(n-len(done)))
		if !ok || r.value > float64(n-len(done))+1e-4 {
			return nil
		}
		stray := 0.0
		if try > 0 {
			stray = 0.5
		}
		before := len(done)
		for c, p := range m.pool {
			for range int(r.amount[c] + 1e-4) {
				done = s.take(p, left, done)
			}
		}
		if len(done) > before {
			continue
		}
		best, most := -1, -1.0
		for c := range m.pool {
			if a := r.amount[c]; a > 1e-6 && a+float64(stray*rng.Float64()) > most {
				best, most = c, a+float64(stray*rng.Float64())
			}
		}
		if best < 0 {
			break
		}
		done = s.take(m.pool[best], left, done)
	}
	if slices.Max(left) > 0 {
		return nil
	}
	return done
}

const (
	lastSticks = 12
	lastNodes  = 20_000
)

// take cuts a stick to the pattern. Where no length of a size is left, the next
// shorter one stands in.
func (s *sticks) take(p pattern, left []int, done []fill) []fill {
	f := make(fill, len(s.sizes))
	any := false
	for _, t := range p {
		k := t.size
		for n := t.n; n > 0 && k < len(left); {
			if left[k] == 0 {
				k++
				continue
			}
			f[k]++
			left[k]--
			n--
			any = true
		}
	}
	if !any {
		return done
	}
	return append(done, f)
}

// pattern is the fill without its zeros.
func (f fill) pattern() pattern {
	var p pattern
	for k, n := range f {
		if n > 0 {
			p = append(p, term{k, n})
		}
	}
	return p
}
