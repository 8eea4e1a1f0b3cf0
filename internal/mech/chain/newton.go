package chain

import (
	"math"

	"rodwork/internal/geom/r2"
)

// derivatives fills in the gradient and the lower half of the second
// derivatives (h[i][j], j ≤ i) at q, and returns the energy.
func (s *system) derivatives(q, g []float64, h [][]float64) float64 {
	s.place(q)
	for i := range g {
		g[i] = 0
		for j := range h[i] {
			h[i][j] = 0
		}
	}
	e := 0.0
	for i := 1; i < s.n; i++ {
		v, m, k := s.hinge(i, q[2+i]-q[1+i])
		e += v
		a, b := 1+i, 2+i
		g[a], g[b] = g[a]-m, g[b]+m
		h[a][a], h[b][b], h[b][a] = h[a][a]+k, h[b][b]+k, h[b][a]-k
	}
	return e + s.faces(g, h)
}

// sym is a symmetric 2 × 2.
type sym struct{ xx, xy, yy float64 }

func (m sym) mul(v r2.Vec) r2.Vec { return r2.Vec{X: m.xx*v.X + m.xy*v.Y, Y: m.xy*v.X + m.yy*v.Y} }

// faces adds what probes bring. A probe hangs on the direction of its own link
// by its arm, and on that of each link before it by that link's length; so the
// sums over all probes beyond a link are carried from the end to the start.
func (s *system) faces(g []float64, h [][]float64) float64 {
	e := 0.0
	var pull r2.Vec // sum of gradients of probes beyond the link in hand
	var stiff sym   // and of second derivatives
	byLink := s.byLink()
	for i := s.n - 1; i >= 0; i-- {
		l := s.Links[i].Length
		d, n := s.dir[i], s.dir[i].Left()
		row := 2 + i
		turn := stiff.mul(n.Mul(l)) // how the pull changes as this link turns
		g[row] += pull.Dot(n) * l
		h[row][row] += n.Mul(l).Dot(turn) - l*pull.Dot(d)
		for _, k := range byLink[i] {
			p := s.probes[k]
			v, f, xx, xy, yy := s.push(p)
			m := sym{xx, xy, yy}
			arm := n.Mul(p.along).Sub(d.Mul(p.over))
			bow := d.Mul(-p.along).Sub(n.Mul(p.over))
			e += v
			g[row] += f.Dot(arm)
			h[row][row] += arm.Dot(m.mul(arm)) + f.Dot(bow)
			turn = turn.Add(m.mul(arm))
			pull = pull.Add(f)
			stiff = sym{stiff.xx + xx, stiff.xy + xy, stiff.yy + yy}
		}
		for j := range i {
			h[row][2+j] += s.dir[j].Left().Dot(turn) * s.Links[j].Length
		}
		h[row][0] += turn.X
		h[row][1] += turn.Y
	}
	g[0], g[1] = g[0]+pull.X, g[1]+pull.Y
	h[0][0], h[1][0], h[1][1] = h[0][0]+stiff.xx, h[1][0]+stiff.xy, h[1][1]+stiff.yy
	return e
}

func (s *system) byLink() [][]int {
	out := make([][]int, s.n)
	for k, p := range s.probes {
		out[p.link] = append(out[p.link], k)
	}
	return out
}

// fix takes unknowns that do not move out of the equations.
func (s *system) fix(g []float64, h [][]float64) {
	fixed := []int{0}
	switch {
	case s.HeldStart:
		fixed = []int{0, 1, 2}
	case s.Slides:
		return
	}
	for _, i := range fixed {
		g[i] = 0
		for j := range i {
			h[i][j] = 0
		}
		for j := i + 1; j < len(g); j++ {
			h[j][i] = 0
		}
		h[i][i] = 1
	}
}

// mostSteps bounds the search; a start near the end takes ten or so.
const mostSteps = 400

// solve walks down to the least energy. It returns the unknowns, the energies on
// the way, and whether the forces balance at the end.
func (s *system) solve() (q []float64, way []float64, ok bool) {
	n := s.n + 2
	q = make([]float64, n)
	q[0], q[1] = s.From.X, s.From.Y
	copy(q[2:], s.Start)
	g, step, try := make([]float64, n), make([]float64, n), make([]float64, n)
	h, f := square(n), square(n)
	e := s.derivatives(q, g, h)
	way = append(way, e)
	raise := 0.0
	for range mostSteps {
		s.fix(g, h)
		if s.balanced(g) {
			return q, way, true
		}
		raise = factor(h, f, raise)
		descend(f, g, step)
		next, moved := s.shorten(q, step, try, g, e)
		if !moved {
			return s.polish(q, step, g, h, f), way, s.nearly(g)
		}
		copy(q, try)
		e = next
		way = append(way, e)
		s.derivatives(q, g, h)
	}
	s.fix(g, h)
	return q, way, s.balanced(g)
}

// polish takes whole Newton steps while the forces come nearer to balance: near
// the end the energy's own rounding hides by how much it still falls. g is left
// as it is at the end.
func (s *system) polish(q, step, g []float64, h, f [][]float64) []float64 {
	best := norm(g)
	try, trial := make([]float64, len(q)), make([]float64, len(g))
	for range 20 {
		if factor(h, f, 0) > 0 {
			break
		}
		descend(f, g, step)
		for i := range q {
			try[i] = q[i] + step[i]
		}
		s.derivatives(try, trial, h)
		s.fix(trial, h)
		if norm(trial) >= best/2 {
			break
		}
		best = norm(trial)
		copy(q, try)
		copy(g, trial)
	}
	return q
}

// balanced: no moment over what turns the softest hinge by a billionth.
func (s *system) balanced(g []float64) bool { return norm(g) < 1e-9*s.scale() }

// nearly is taken where rounding lets nothing come nearer: a micrometre of play
// in a strip of a metre.
func (s *system) nearly(g []float64) bool { return norm(g) < 1e-5*s.scale() }

func (s *system) scale() float64 {
	k := 0.0
	for _, l := range s.Links[1:] {
		if k == 0 || l.Stiff < k {
			k = l.Stiff
		}
	}
	return math.Max(k, 1e-3)
}

func norm(g []float64) float64 {
	m := 0.0
	for _, v := range g {
		m = math.Max(m, math.Abs(v))
	}
	return m
}

// shorten halves the step until the energy falls as it should (Armijo).
func (s *system) shorten(q, step, try, g []float64, e float64) (float64, bool) {
	slope, longest := 0.0, 0.0
	for i, v := range step {
		slope += v * g[i]
		if i >= 2 {
			longest = math.Max(longest, math.Abs(v))
		}
	}
	t := 1.0
	if longest > 0.5 { // no link turns by more than half a radian at once
		t = 0.5 / longest
	}
	for range 40 {
		for i := range q {
			try[i] = q[i] + t*step[i]
		}
		if v := s.energy(try); v <= e+1e-4*t*slope && v < e {
			return v, true
		}
		t /= 2
	}
	return e, false
}

func square(n int) [][]float64 {
	h := make([][]float64, n)
	for i := range h {
		h[i] = make([]float64, i+1)
	}
	return h
}

// factor writes the Cholesky factor of h into f, its diagonal raised by as much
// as it takes; it starts from a tenth of what the last step took.
func factor(h, f [][]float64, last float64) (raise float64) {
	top := 0.0
	for i := range h {
		top = math.Max(top, math.Abs(h[i][i]))
	}
	raise = last / 10
	if raise < 1e-14*top {
		raise = 0
	}
	for range 60 { // bounded, as what is no number never has a factor
		if cholesky(h, f, raise) {
			break
		}
		raise = math.Max(10*raise, 1e-12*top)
	}
	return raise
}

func cholesky(h, f [][]float64, raise float64) bool {
	for i := range h {
		fi := f[i]
		for j := 0; j <= i; j++ {
			sum := h[i][j]
			fj := f[j]
			for k := range j {
				sum -= fi[k] * fj[k]
			}
			if j < i {
				fi[j] = sum / fj[j]
				continue
			}
			sum += raise
			if !(sum > 0) {
				return false
			}
			fi[i] = math.Sqrt(sum)
		}
	}
	return true
}

// descend solves f·fᵀ·step = −g.
func descend(f [][]float64, g, step []float64) {
	n := len(g)
	for i := range n {
		v := -g[i]
		for k := range i {
			v -= f[i][k] * step[k]
		}
		step[i] = v / f[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		v := step[i]
		for k := i + 1; k < n; k++ {
			v -= f[k][i] * step[k]
		}
		step[i] = v / f[i][i]
	}
}
