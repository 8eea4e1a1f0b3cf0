package dryfit

import (
	"sort"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// joint is a joint by the indices of its parts, with the ways in.
type joint struct {
	*piece.Joint
	index int
	a, b  int
	ways  []dir
	loose bool
}

// search holds the piece as a graph, and the moves found, the last one first.
type search struct {
	p      *piece.Piece
	boxes  [][]box
	joints []joint
	of     map[[2]int][]int // joints between a pair, lower index first
	at     [][]int          // joints of each part
	dirs   []dir
	arrows map[dir][][]int // for each part those that it takes along
	moves  []move          // in order of assembly, body after body
	stuck  [][]string
	subs   int  // sub-assemblies so far
	large  bool // a body was too large to be searched
}

// move is one act: the parts that come in, the parts that they meet, the way.
type move struct {
	parts, into []int
	dir         dir
	how         manner
	joints      []int
	sub         int // of the sub-assembly that it makes; 0: the body itself
}

type manner int

const (
	first    manner = iota // lies ready
	straight               // moves along dir
	wrapped                // bent round what it encloses
	hung                   // on pins, hinges or slides, after the glue
)

func newSearch(p *piece.Piece) *search {
	s := &search{p: p, of: map[[2]int][]int{}, at: make([][]int, len(p.Parts)), arrows: map[dir][][]int{}}
	at := map[string]int{}
	for i, q := range p.Parts {
		at[q.ID] = i
		s.boxes = append(s.boxes, boxesOf(q))
	}
	seen := map[dir]bool{}
	for i := range p.Joints {
		j := &p.Joints[i]
		a, okA := at[j.A]
		b, okB := at[j.B]
		if !okA || !okB || a == b {
			continue
		}
		n := joint{Joint: j, index: i, a: a, b: b, loose: isLoose(p, j)}
		for _, v := range append([]r3.Vec{j.Enter}, j.Also...) {
			if d, ok := dirOf(v); ok {
				n.ways = append(n.ways, d)
				for _, e := range []dir{d, d.back()} {
					if !seen[e] && !n.loose {
						seen[e] = true
						s.dirs = append(s.dirs, e)
					}
				}
			}
		}
		s.of[pair(a, b)] = append(s.of[pair(a, b)], len(s.joints))
		s.at[a], s.at[b] = append(s.at[a], len(s.joints)), append(s.at[b], len(s.joints))
		s.joints = append(s.joints, n)
	}
	return s
}

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// isLoose tells a joint that is never glued: what hangs or lies on it, or is
// screwed, can come after the glue.
func isLoose(p *piece.Piece, j *piece.Joint) bool {
	if hangRank(j.Kind) < 9 {
		return true
	}
	a, b := p.Part(j.A), p.Part(j.B)
	return !j.Glued && a != nil && b != nil && (a.Loose != b.Loose)
}

// bodies are the sets of parts that joints hold together for good, in the
// order of their first parts.
func (s *search) bodies() []set {
	all, done := newSet(len(s.p.Parts)), newSet(len(s.p.Parts))
	for i := range s.p.Parts {
		all.add(i)
	}
	var out []set
	for i := range s.p.Parts {
		if done.has(i) {
			continue
		}
		c := s.reach(i, all)
		for w := range done {
			done[w] |= c[w]
		}
		out = append(out, c)
	}
	return out
}

// connected tells whether joints hold the set together without the others. A
// loose tongue is held by nothing before a seam closes on it, and does not count.
func (s *search) connected(c set) bool {
	rest, seen := c, set(nil)
	for i, q := range s.p.Parts {
		if !c.has(i) {
			continue
		}
		if q.Role == piece.Tongue {
			one := newSet(len(s.p.Parts))
			one.add(i)
			rest = rest.without(one)
		}
	}
	for i := range s.p.Parts {
		if rest.has(i) {
			seen = s.reach(i, rest)
			break
		}
	}
	return seen == nil || seen.size() == rest.size()
}

// reach is what joints hold to part i inside the set.
func (s *search) reach(i int, c set) set {
	seen := newSet(len(s.p.Parts))
	seen.add(i)
	todo := []int{i}
	for len(todo) > 0 {
		k := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, n := range s.at[k] {
			j := &s.joints[n]
			other := j.a + j.b - k
			if !j.loose && c.has(other) && !seen.has(other) {
				seen.add(other)
				todo = append(todo, other)
			}
		}
	}
	return seen
}

// between lists the joints that hold the two sets together.
func (s *search) between(a, b set) []int {
	var out []int
	for i := range s.joints {
		j := &s.joints[i]
		if !j.loose && (a.has(j.a) && b.has(j.b) || a.has(j.b) && b.has(j.a)) {
			out = append(out, i)
		}
	}
	return out
}

// together books the moves of all bodies, the small ones first so that they
// are dry when the carcase is done, then hangs them on it.
func (s *search) together() {
	bodies := s.bodies()
	if len(bodies) == 0 {
		return
	}
	main := 0
	for i, c := range bodies {
		if c.size() > bodies[main].size() {
			main = i
		}
	}
	for i, c := range bodies {
		if i == main || c.size() == 1 {
			continue
		}
		s.subs++
		own := s.take(c, s.units(c))
		for k := range own {
			if own[k].sub == 0 {
				own[k].sub = s.subs
			}
		}
		s.moves = append(s.moves, own...)
	}
	s.moves = append(s.moves, s.take(bodies[main], s.units(bodies[main]))...)
	s.hang(bodies, main)
}

// loner is a body that is hung on the others.
type loner struct {
	parts  set
	joints []int // loose ones
	rank   int
	low    float64
}

// hang brings the loose bodies to the carcase, each when what it hangs on is
// there: what is screwed to it, what lies on pins, what runs on slides, what
// turns on hinges; the lower ones first.
func (s *search) hang(bodies []set, main int) {
	placed := append(set(nil), bodies[main]...)
	var todo []loner
	for i, c := range bodies {
		if i != main {
			todo = append(todo, s.loner(c))
		}
	}
	sort.SliceStable(todo, func(i, j int) bool {
		if todo[i].rank != todo[j].rank {
			return todo[i].rank < todo[j].rank
		}
		return todo[i].low < todo[j].low
	})
	for len(todo) > 0 {
		next := 0
		for i, o := range todo {
			if len(s.meeting(o, placed)) > 0 {
				next = i
				break
			}
		}
		// What nothing holds to the others stands by itself once it is made.
		if m := s.hangMove(todo[next], placed); len(m.joints) > 0 || len(m.parts) == 1 {
			s.moves = append(s.moves, m)
		}
		for w, word := range todo[next].parts {
			placed[w] |= word
		}
		todo = append(todo[:next], todo[next+1:]...)
	}
}

func (s *search) loner(c set) loner {
	o := loner{parts: c, rank: 9, low: 1e9}
	for n, j := range s.joints {
		if j.loose && c.has(j.a) != c.has(j.b) {
			o.joints = append(o.joints, n)
			o.rank = min(o.rank, hangRank(j.Kind))
		}
	}
	for _, k := range c.sorted() {
		o.low = min(o.low, s.boxes[k][0].lo[1])
	}
	return o
}

// meeting lists the loose joints of a body with what is in place.
func (s *search) meeting(o loner, placed set) []int {
	var out []int
	for _, n := range o.joints {
		if placed.has(s.joints[n].a) || placed.has(s.joints[n].b) {
			out = append(out, n)
		}
	}
	return out
}

// hangMove is the act of hanging a body. Where the joints leave a choice it
// comes from the front.
func (s *search) hangMove(o loner, placed set) move {
	m := move{parts: o.parts.sorted(), how: hung, joints: s.meeting(o, placed)}
	met := newSet(len(s.p.Parts))
	for i, n := range m.joints {
		j := s.joints[n]
		other, moving := j.a, j.ways
		if o.parts.has(j.a) {
			other, moving = j.b, nil
			for _, w := range j.ways {
				moving = append(moving, w.back())
			}
		}
		met.add(other)
		if i == 0 && len(moving) > 0 {
			m.dir = moving[0]
		}
		if i == 0 && has(moving, dir{2, -1}) {
			m.dir = dir{2, -1}
		}
	}
	m.into = met.sorted()
	return m
}

// hangRank orders the ways of hanging; 9 is none of them.
func hangRank(kind string) int {
	switch kind {
	case "screwed":
		return 0
	case "pins":
		return 1
	case "slides":
		return 2
	case "hinges":
		return 3
	case "rests":
		return 4
	}
	return 9
}

// take returns the moves that put the set together.
func (s *search) take(c set, unit map[int]int) []move {
	if c.size() == 1 || c.size() > MostParts {
		s.large = s.large || c.size() > 1
		return []move{{parts: c.sorted(), how: first}}
	}
	if cs := s.apart(c); len(cs) > 1 { // nothing of them meets before the next move
		var out []move
		for _, one := range cs {
			out = append(out, s.take(one, unit)...)
		}
		return out
	}
	if s.oneUnit(c, unit) { // an edging and its shelf: now they part
		unit = nil
	}
	best, ok := s.bestSplit(c, unit)
	if !ok {
		var names []string
		for _, i := range c.sorted() {
			names = append(names, s.p.Parts[i].ID)
		}
		s.stuck = append(s.stuck, names)
		return []move{{parts: c.sorted(), how: first}}
	}
	out := s.take(best.rest, unit)
	if best.moving.size() > 1 {
		s.subs++
		sub := s.take(best.moving, unit)
		for i := range sub {
			if sub[i].sub == 0 {
				sub[i].sub = s.subs
			}
		}
		out = append(sub, out...)
	}
	return append(out, move{
		parts: best.moving.sorted(), into: s.metBy(best), dir: best.dir, how: best.how, joints: best.joints,
	})
}

// apart parts a set into what joints hold together inside it, in the order of
// the first parts: a tongue and a divider that a shell is to be wrapped round.
func (s *search) apart(c set) []set {
	var out []set
	done := newSet(len(s.p.Parts))
	for _, i := range c.sorted() {
		if done.has(i) {
			continue
		}
		one := s.reach(i, c)
		for w := range done {
			done[w] |= one[w]
		}
		out = append(out, one)
	}
	return out
}

// metBy lists the parts of the rest that the joints of a split reach.
func (s *search) metBy(b split) []int {
	met := newSet(len(s.p.Parts))
	for _, k := range b.joints {
		if j := s.joints[k]; b.rest.has(j.a) {
			met.add(j.a)
		} else {
			met.add(j.b)
		}
	}
	return met.sorted()
}

// units maps each part of a body to the part that it is glued to beforehand:
// an edging goes with its shelf.
func (s *search) units(c set) map[int]int {
	u := map[int]int{}
	ix := c.sorted()
	for _, i := range ix {
		u[i] = i
		if s.p.Parts[i].Of == "" {
			continue
		}
		for _, n := range s.at[i] {
			k := s.joints[n].a + s.joints[n].b - i
			if c.has(k) && s.p.Parts[k].ID == s.p.Parts[i].Of {
				u[i] = k
			}
		}
	}
	return u
}

func (s *search) oneUnit(c set, unit map[int]int) bool {
	if unit == nil {
		return true
	}
	ix := c.sorted()
	for _, i := range ix {
		if unit[i] != unit[ix[0]] {
			return false
		}
	}
	return true
}
