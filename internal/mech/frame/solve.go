package frame

import (
	"math"

	"rodwork/internal/geom/r3"
)

// Solution is what came out.
type Solution struct {
	// Moves of each node: along x, y, z (mm) and about them (rad).
	Moves [][6]float64
	// Ends of each bar in its own directions: the forces (N) and moments (N·mm)
	// with which the nodes hold it, at A and then at B.
	Ends [][12]float64
	// Holds are the forces and moments with which the ground holds each node.
	Holds [][6]float64
}

// Moment is the largest bending moment at an end of the bar, N·mm.
func (s Solution) Moment(bar int) float64 {
	e := s.Ends[bar]
	return math.Max(math.Hypot(e[4], e[5]), math.Hypot(e[10], e[11]))
}

// Force is the bar's force along it, N: positive where it is pulled.
func (s Solution) Force(bar int) float64 { return (s.Ends[bar][6] - s.Ends[bar][0]) / 2 }

// Solve computes the frame. The error is an *Error: a frame that is no frame,
// or one that falls down (a mechanism).
func (f *Frame) Solve() (Solution, error) {
	if err := f.check(); err != nil {
		return Solution{}, err
	}
	s := f.number()
	for i := range f.Bars {
		s.addBar(i)
	}
	for _, p := range f.Panels {
		s.addPanel(p)
	}
	for _, l := range f.Loads {
		for c, v := range []float64{l.Force.X, l.Force.Y, l.Force.Z, l.Moment.X, l.Moment.Y, l.Moment.Z} {
			s.load[6*l.Node+c] += v
		}
	}
	if !s.solve() {
		return Solution{}, &Error{"it falls down: something in it moves without resistance"}
	}
	return s.solution(), nil
}

// system is the set of equations: row and column of each move that is free.
type system struct {
	f     *Frame
	index []int // of each of the six moves of each node; -1: held
	free  int
	k     [][]float64
	load  []float64 // by move, held ones too
	moves []float64
	bars  []barSystem
}

type barSystem struct {
	k    square
	turn [3]r3.Vec
	held [12]float64
}

// number gives each free move that some bar holds a row. A turn that no bar
// resists (all ends hinged) would make the frame a mechanism without being one:
// it is left out.
func (f *Frame) number() *system {
	s := &system{f: f, index: make([]int, 6*len(f.Nodes)), load: make([]float64, 6*len(f.Nodes)), moves: make([]float64, 6*len(f.Nodes))}
	s.bars = make([]barSystem, len(f.Bars))
	stiff := make([]bool, 6*len(f.Nodes))
	for i := range f.Bars {
		s.prepare(i, stiff)
	}
	for i, n := range f.Nodes {
		for c := range 6 {
			out := f.Plane && (c == 2 || c == 3 || c == 4)
			if n.Fix[c] || out || c >= 3 && !stiff[6*i+c] {
				s.index[6*i+c] = -1
				continue
			}
			s.index[6*i+c] = s.free
			s.free++
		}
	}
	s.k = make([][]float64, s.free)
	for i := range s.k {
		s.k[i] = make([]float64, s.free)
	}
	return s
}

func (s *system) prepare(i int, stiff []bool) {
	b := &s.f.Bars[i]
	x, y, z, l := s.f.axes(b)
	own := &s.bars[i]
	own.turn = [3]r3.Vec{x, y, z}
	own.k = b.stiffness(l)
	for _, w := range s.f.Spreads {
		if w.Bar == i {
			for c, v := range b.spread(l, r3.Vec{X: w.Per.Dot(x), Y: w.Per.Dot(y), Z: w.Per.Dot(z)}) {
				own.held[c] += v
			}
		}
	}
	for end, n := range []int{b.A, b.B} {
		for c := range 3 {
			var sum float64
			for a := range 3 { // its own turns about a, seen about the frame's c
				d := own.k[6*end+3+a][6*end+3+a]
				sum += d * math.Abs(comp(own.turn[a], c))
			}
			if sum > 1e-9 {
				stiff[6*n+3+c] = true
			}
		}
	}
}

func comp(v r3.Vec, c int) float64 { return [3]float64{v.X, v.Y, v.Z}[c] }

// move is the number of the i-th of a bar's twelve moves among all.
func (s *system) move(b *Bar, i int) int {
	if i < 6 {
		return 6*b.A + i
	}
	return 6*b.B + i - 6
}

// out turns a matrix in the bar's own directions into the frame's: TᵀkT, where
// T turns each group of three.
func (b *barSystem) out() square {
	var half, out square
	for i := range 12 {
		for j := range 12 {
			for a := range 3 {
				half[i][j] += b.k[i][j/3*3+a] * comp(b.turn[a], j%3)
			}
		}
	}
	for i := range 12 {
		for j := range 12 {
			for a := range 3 {
				out[i][j] += comp(b.turn[a], i%3) * half[i/3*3+a][j]
			}
		}
	}
	return out
}

func (s *system) addBar(i int) {
	b, own := &s.f.Bars[i], &s.bars[i]
	k := own.out()
	for r := range 12 {
		var held float64
		for a := range 3 {
			held += comp(own.turn[a], r%3) * own.held[r/3*3+a]
		}
		m := s.move(b, r)
		s.load[m] -= held
		if s.index[m] < 0 {
			continue
		}
		for c := range 12 {
			if n := s.index[s.move(b, c)]; n >= 0 {
				s.k[s.index[m]][n] += k[r][c]
			}
		}
	}
}

// lozenge tells by how much the rectangle of a panel is sheared for each of its
// nodes' twelve moves: the mean turn of its two pairs of sides, one against the
// other. area is 0 where it is no rectangle.
func (f *Frame) lozenge(p Panel) (by [12]float64, moves [12]int, area float64) {
	at := func(i int) r3.Vec { return f.Nodes[p.Nodes[i]].At }
	u, v := at(1).Sub(at(0)), at(3).Sub(at(0))
	w, h := u.Len(), v.Len()
	if w < 1e-6 || h < 1e-6 {
		return by, moves, 0
	}
	u, v = u.Mul(1/w), v.Mul(1/h)
	for i, n := range p.Nodes {
		su, sv := 1.0, 1.0 // which end of each side the node is
		if i == 0 || i == 3 {
			su = -1
		}
		if i == 0 || i == 1 {
			sv = -1
		}
		for c := range 3 {
			by[3*i+c] = su*comp(v, c)/(2*w) + sv*comp(u, c)/(2*h)
			moves[3*i+c] = 6*n + c
		}
	}
	return by, moves, w * h
}

// addPanel adds what it costs to shear a panel.
func (s *system) addPanel(p Panel) {
	by, moves, area := s.f.lozenge(p)
	for i, m := range moves {
		for j, n := range moves {
			if r, c := s.index[m], s.index[n]; r >= 0 && c >= 0 {
				s.k[r][c] += p.Shear * area * by[i] * by[j]
			}
		}
	}
}

// solve runs Cholesky's method in place; false where the frame is a mechanism.
func (s *system) solve() bool {
	n := s.free
	x := make([]float64, n)
	for m, i := range s.index {
		if i >= 0 {
			x[i] = s.load[m]
		}
	}
	most := 0.0
	for i := range n {
		most = math.Max(most, s.k[i][i])
	}
	for j := range n {
		d := s.k[j][j]
		was := d
		for k := range j {
			d -= s.k[j][k] * s.k[j][k]
		}
		if !(d > 1e-12*was) || !(was > 0) {
			return false
		}
		d = math.Sqrt(d)
		s.k[j][j] = d
		for i := j + 1; i < n; i++ {
			v := s.k[i][j]
			for k := range j {
				v -= s.k[i][k] * s.k[j][k]
			}
			s.k[i][j] = v / d
		}
	}
	for i := range n {
		for k := range i {
			x[i] -= s.k[i][k] * x[k]
		}
		x[i] /= s.k[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= s.k[k][i] * x[k]
		}
		x[i] /= s.k[i][i]
	}
	for m, i := range s.index {
		if i >= 0 {
			s.moves[m] = x[i]
		}
	}
	return true
}

func (s *system) solution() Solution {
	out := Solution{Moves: make([][6]float64, len(s.f.Nodes)), Ends: make([][12]float64, len(s.f.Bars)), Holds: make([][6]float64, len(s.f.Nodes))}
	for m, v := range s.moves {
		out.Moves[m/6][m%6] = v
	}
	for i := range s.f.Bars {
		b, own := &s.f.Bars[i], &s.bars[i]
		var u [12]float64 // the ends' moves in the bar's own directions
		for r := range 12 {
			for c := range 3 {
				u[r] += comp(own.turn[r%3], c) * s.moves[s.move(b, r/3*3+c)]
			}
		}
		for r := range 12 {
			v := own.held[r]
			for c := range 12 {
				v += own.k[r][c] * u[c]
			}
			out.Ends[i][r] = v
		}
		for r := range 12 {
			m := s.move(b, r)
			for a := range 3 {
				out.Holds[m/6][m%6] += comp(own.turn[a], r%3) * out.Ends[i][r/3*3+a]
			}
		}
	}
	for _, p := range s.f.Panels {
		by, moves, area := s.f.lozenge(p)
		var turn float64
		for i, m := range moves {
			turn += by[i] * s.moves[m]
		}
		for i, m := range moves {
			out.Holds[m/6][m%6] += p.Shear * area * turn * by[i]
		}
	}
	for _, l := range s.f.Loads {
		for c, v := range []float64{l.Force.X, l.Force.Y, l.Force.Z, l.Moment.X, l.Moment.Y, l.Moment.Z} {
			out.Holds[l.Node][c] -= v
		}
	}
	for i := range out.Holds {
		for c := range 6 {
			if s.index[6*i+c] >= 0 {
				out.Holds[i][c] = 0
			}
		}
	}
	return out
}
