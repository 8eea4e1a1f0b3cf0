package step

// edge is an edge of the boundary. It runs from one vertex to another; an arc
// runs anticlockwise, seen from above.
type edge struct {
	from, to vertex
	upright  bool
	curve    *curve
}

// use is an edge as a face has it.
type use struct {
	edge    int
	forward bool
}

// boundary is a closed boundary.
type boundary struct {
	*outline
	faces  []face
	bounds [][][]use // of each face, of each loop
	edges  []edge
	shells [][]int // faces that hang together
}

// boundary makes the boundary of what gather found.
func (o *outline) boundary() (*boundary, error) {
	faces, err := o.grow()
	if err != nil {
		return nil, err
	}
	b := &boundary{outline: o, faces: faces}
	shells, err := pair(faces)
	if err != nil {
		return nil, err
	}
	b.shells = shells
	return b, b.straighten()
}

// pair is step 3: it checks that each side has one partner, and returns the
// faces that hang together.
func pair(faces []face) ([][]int, error) {
	type seen struct {
		half half
		n    int
	}
	partners := map[[5]int]seen{}
	trees := newForest(len(faces))
	for _, f := range faces {
		for _, l := range f.loops {
			for _, h := range l {
				s, ok := partners[h.key()]
				if ok && (s.half.from != h.to || s.n == 2) {
					return nil, errTouch
				}
				if ok {
					trees.join(s.half.face, h.face)
				}
				partners[h.key()] = seen{h, s.n + 1}
			}
		}
	}
	for _, s := range partners {
		if s.n != 2 {
			return nil, errTouch
		}
	}
	index := map[int]int{}
	var shells [][]int
	for i := range faces {
		root := trees.root(i)
		k, ok := index[root]
		if !ok {
			k = len(shells)
			index[root] = k
			shells = append(shells, nil)
		}
		shells[k] = append(shells[k], i)
	}
	return shells, nil
}

// straighten is step 4: it makes one edge of sides that run on into each other.
func (b *boundary) straighten() error {
	corner := b.corners()
	edges := map[[5]int]int{} // by each of their sides
	b.bounds = make([][][]use, len(b.faces))
	for i, f := range b.faces {
		for _, l := range f.loops {
			start := -1
			for k, h := range l {
				if corner[h.from] {
					start = k
					break
				}
			}
			if start < 0 {
				return errTouch // a loop without a corner
			}
			var uses []use
			for k := 0; k < len(l); {
				n := 1
				for k+n < len(l) && !corner[l[(start+k+n)%len(l)].from] {
					n++
				}
				first, last := l[(start+k)%len(l)], l[(start+k+n-1)%len(l)]
				uses = append(uses, b.use(edges, first, last))
				k += n
			}
			b.bounds[i] = append(b.bounds[i], uses)
		}
	}
	return nil
}

// use returns the edge that runs from the first side to the last, a new one if
// its other face has not been met yet.
func (b *boundary) use(edges map[[5]int]int, first, last half) use {
	e := edge{from: first.from, to: last.to, upright: first.upright, curve: first.piece.curve}
	i, ok := edges[first.key()]
	if ok {
		return use{i, b.edges[i].from == e.from}
	}
	forward := true
	if e.curve != nil && e.curve.arc && first.piece.edge.Bulge < 0 {
		e.from, e.to, forward = e.to, e.from, false
	}
	b.edges = append(b.edges, e)
	edges[first.key()], edges[last.key()] = len(b.edges)-1, len(b.edges)-1
	return use{len(b.edges) - 1, forward}
}

// corners tells which vertices are corners: those where more than two sides
// meet, or two that don't run on.
func (b *boundary) corners() map[vertex]bool {
	type line struct {
		upright bool
		curve   *curve
	}
	lines := map[vertex][]line{}
	for _, f := range b.faces {
		for _, l := range f.loops {
			for _, h := range l {
				// Each side is met twice, once from each end.
				lines[h.from] = append(lines[h.from], line{h.upright, h.piece.curve})
			}
		}
	}
	corner := map[vertex]bool{}
	for v, ls := range lines {
		corner[v] = len(ls) != 2 || ls[0] != ls[1]
	}
	return corner
}
