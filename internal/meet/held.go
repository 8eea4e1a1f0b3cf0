package meet

// held finds the parts that nothing holds. Parts are joined into sets by every
// joint that touches (or nearly does: its gap is told by itself) or hangs on
// hardware. The greatest set counts as held, and
// so does what stands on the floor or rests on a part that is held. To lean
// against a face without a joint holds nothing.
func (m *meeting) held() {
	set := make([]int, len(m.bodies))
	for i := range set {
		set[i] = i
	}
	for i := range m.Meetings {
		w := &m.Meetings[i]
		if w.Area > 0 || w.Rests || hangs(m.piece.Joints[m.joint(w.Joint)].Kind) {
			union(set, m.at[w.A], m.at[w.B])
		}
	}
	for _, c := range m.Clashes {
		union(set, m.at[c.A], m.at[c.B])
	}
	firm := m.firm(set)
	rests := m.rests(set)
	for changed := true; changed; {
		changed = false
		for _, r := range rests {
			if on, up := root(set, r[0]), root(set, r[1]); firm[on] && !firm[up] {
				firm[up], changed = true, true
			}
		}
	}
	m.Loose = m.loose(set, firm)
}

// firm tells of each set, by its root, whether it is the greatest (the first of
// its size) or stands on the floor.
func (m *meeting) firm(set []int) []bool {
	count := make([]int, len(set))
	for i := range set {
		count[root(set, i)]++
	}
	firm := make([]bool, len(set))
	most := 0
	for i, n := range count {
		if n > count[most] {
			most = i
		}
	}
	for i, b := range m.bodies {
		if r := root(set, i); r == most || b.Box().Min.Y <= Touch {
			firm[r] = true
		}
	}
	return firm
}

// rests lists pairs of different sets of which the second lies on the first.
func (m *meeting) rests(set []int) [][2]int {
	var out [][2]int
	for _, pair := range m.near {
		if root(set, pair[0]) == root(set, pair[1]) {
			continue
		}
		ps, err := m.bodies[pair[0]].Contact(m.bodies[pair[1]].Ready, Touch)
		if err != nil {
			m.fail(m.bodies[pair[0]].part.ID, err)
			continue
		}
		for _, p := range ps {
			switch {
			case p.Normal.Y > 0.5:
				out = append(out, pair)
			case p.Normal.Y < -0.5:
				out = append(out, [2]int{pair[1], pair[0]})
			}
		}
	}
	return out
}

// loose lists the sets that are not firm, in the order of their first parts.
func (m *meeting) loose(set []int, firm []bool) [][]string {
	var out [][]string
	place := map[int]int{}
	for i := range set {
		r := root(set, i)
		if firm[r] {
			continue
		}
		if _, ok := place[r]; !ok {
			place[r] = len(out)
			out = append(out, nil)
		}
		out[place[r]] = append(out[place[r]], m.bodies[i].part.ID)
	}
	return out
}

func root(set []int, i int) int {
	for set[i] != i {
		i = set[i]
	}
	return i
}

// union joins two sets; the lower place stays its root.
func union(set []int, a, b int) {
	a, b = root(set, a), root(set, b)
	if a != b {
		set[max(a, b)] = min(a, b)
	}
}

// joint returns the place of a joint in the piece.
func (m *meeting) joint(id string) int {
	for i := range m.piece.Joints {
		if m.piece.Joints[i].ID == id {
			return i
		}
	}
	return -1
}
