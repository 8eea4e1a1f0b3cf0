package model

import (
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// Told is what the model shows of one part, for who cannot see it.
type Told struct {
	Part *piece.Part
	Box  r3.Box // round it, where it stands; mm
	Move *Move  // how it opens; nil where it does not
}

// TableOf tells where each part stands and how it opens, in the order of the
// parts. Parts of which no body can be made are left out.
func TableOf(pc *piece.Piece) []Told {
	const noHoles = 1e6 // mm: a hole takes nothing from the box
	var out []Told
	at := map[string]int{}
	boxes := map[string]r3.Box{}
	for _, q := range pc.Parts {
		b, err := piece.Solid(q, noHoles)
		if err != nil {
			continue
		}
		at[q.ID] = len(out)
		boxes[q.ID] = b.Box()
		out = append(out, Told{Part: q, Box: boxes[q.ID]})
	}
	for _, m := range movesOf(pc, at, boxes) {
		for _, i := range m.Parts {
			out[i].Move = &m
		}
	}
	return out
}
