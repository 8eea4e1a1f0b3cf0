package chain

// Clamped is a strip with the clamps that bring it on its former.
type Clamped struct {
	Shape  Shape
	Clamps []int // links, in the order in which they were set
	Along  []float64
	Enough bool // the largest gap is within the limit
}

// Place sets clamps until no place of the strip stands off its former by more
// than the limit, mm: the first ones as given, each next where the gap is the
// largest. It stops at the most that may be set. The error is that of Solve.
func Place(p Problem, limit float64, most int) (Clamped, error) {
	out := Clamped{Clamps: append([]int{}, p.Clamps...)}
	for {
		p.Clamps = out.Clamps
		s, err := Solve(p)
		if err != nil {
			return out, err
		}
		out.Shape, out.Enough = s, s.Worst.Off <= limit
		if out.Enough || len(out.Clamps) >= most || has(out.Clamps, s.Worst.Link) {
			out.Along = p.along(out.Clamps)
			return out, nil
		}
		out.Clamps = append(out.Clamps, s.Worst.Link)
		p.Start = s.Turned
	}
}

func has(list []int, i int) bool {
	for _, x := range list {
		if x == i {
			return true
		}
	}
	return false
}

// along are the middles of the faces of links, from the chain's start, mm.
func (p Problem) along(links []int) []float64 {
	out := make([]float64, len(links))
	for i, k := range links {
		for _, l := range p.Links[:k] {
			out[i] += l.Length
		}
		out[i] += (p.Links[k].From + p.Links[k].To) / 2
	}
	return out
}
