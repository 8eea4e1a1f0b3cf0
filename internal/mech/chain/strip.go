package chain

import "math"

// Link is a stiff straight of the chain.
type Link struct {
	Length float64 // along the neutral line, mm
	// Stiff is that of the hinge before it, N·mm/rad; the first link has none.
	Stiff float64
	// Shut is the turn at which that hinge shuts, rad; 0: it never does.
	Shut float64
	// Stop is how stiff it is past that, N·mm/rad; 0: as good as rigid.
	Stop float64
	// Over is how high the face that meets the former lies over the neutral line,
	// mm; From and To are where that face begins and ends along the link.
	Over, From, To float64
	// Rib is true for a rib between two kerfs, false for a piece of a flat.
	Rib bool
}

// Kerfed is what a chain is made from: a kerfed bend between two flats.
type Kerfed struct {
	Before, After float64 // flats, mm
	Positions     []float64
	// Flat is the developed length of the bend, mm; Positions are measured from
	// its beginning.
	Flat  float64
	Kerf  float64 // mm
	Alpha float64 // turn wanted at each kerf, rad: sets where the hinge's point lies
	Stiff float64 // of one hinge, N·mm/rad
	Shut  float64 // turn at which a kerf is shut, rad; 0: never
	Stop  float64 // of a shut hinge, N·mm/rad; 0: as good as rigid
	Over  float64 // inner face over the neutral line of the skin, mm
	EI    float64 // of the flats, N·mm²
	// Pieces is how many links each flat is cut into; 0: one for each 20 mm, at
	// least 4 and at most 12.
	Pieces int
}

// Links returns the chain of a kerfed strip, laid out along +x with the kerfed
// face up.
func (k Kerfed) Links() []Link {
	leg := k.Kerf / 2
	if k.Alpha > 0 {
		leg = k.Kerf / k.Alpha * math.Tan(k.Alpha/2)
	}
	out := k.flat(k.Before)
	at := 0.0
	for i, x := range append(append([]float64{}, k.Positions...), k.Flat+k.Kerf/2) {
		rib := x - k.Kerf/2 - at
		l := Link{Length: rib + 2*leg, Stiff: k.Stiff, Shut: k.Shut, Stop: k.Stop, Over: k.Over, From: leg, To: leg + rib, Rib: true}
		switch {
		case i == 0: // from the tangent point: one with the flat before it
			l.Length, l.From, l.To, l.Stiff, l.Shut = rib+leg, 0, rib, 0, 0
			out = joined(out, l)
		case i == len(k.Positions):
			l.Length, l.To = leg+rib, leg+rib
			out = append(out, l)
			out = append(out, k.tail(out)...)
		default:
			out = append(out, l)
		}
		at = x + k.Kerf/2
	}
	return out
}

// pieces cuts a flat into n links; the hinges between them stand in the middle
// of what bends, so the first and the last are half as long.
func (k Kerfed) pieces(length float64) int {
	if k.Pieces > 0 {
		return k.Pieces
	}
	return max(4, min(12, int(length/20)))
}

func (k Kerfed) flat(length float64) []Link {
	if length <= 0 {
		return nil
	}
	n := k.pieces(length)
	l := length / float64(n)
	out := []Link{{Length: l / 2, Over: k.Over, To: l / 2}}
	for i := range n {
		m := l
		if i == n-1 {
			m = l / 2
		}
		out = append(out, Link{Length: m, Stiff: k.EI / l, Over: k.Over, To: m})
	}
	return out
}

// joined adds the half rib after a flat to the flat's last link.
func joined(out []Link, l Link) []Link {
	if len(out) == 0 {
		return []Link{l}
	}
	last := &out[len(out)-1]
	last.Length, last.To = last.Length+l.Length, last.Length+l.To
	return out
}

// tail is the flat after the bend; its first piece is joined to the last rib.
func (k Kerfed) tail(out []Link) []Link {
	f := k.flat(k.After)
	if len(f) == 0 {
		return nil
	}
	last := &out[len(out)-1]
	last.To += f[0].Length
	last.Length += f[0].Length
	return f[1:]
}

// Even returns a chain of n like hinges in a strip of the given length, mm,
// whose stiffness smeared out is ei, N·mm². It is a strip kerfed from end to
// end, and the elastica where n is large.
func Even(length, ei float64, n int) []Link {
	s := length / float64(n)
	out := []Link{{Length: s / 2}}
	for i := range n {
		m := s
		if i == n-1 {
			m = s / 2
		}
		out = append(out, Link{Length: m, Stiff: ei / s})
	}
	return out
}
