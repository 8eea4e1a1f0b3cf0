package model

import (
	"slices"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// OpenTo is how far, in degrees, doors and lids are shown open: past square for
// a door, short of it for a lid, which would fall back. OutBy is how far a
// drawer is shown drawn out, in shares of its box.
const (
	OpenTo    = 105.0
	LidOpenTo = 80.0
	OutBy     = 0.75
)

// Kinds of moves.
const (
	Turns  = "turns"  // by degrees about an axis, by the right-hand rule
	Slides = "slides" // by mm along it
)

// Move is how a door, a lid or a drawer opens, with all that goes along.
type Move struct {
	Name  string     `json:"name"`
	Kind  string     `json:"kind"`
	Words string     `json:"words"` // on which edge it turns: "on its left edge"
	Parts []int      `json:"parts"` // of Scene.Parts
	At    [3]float64 `json:"at"`    // a place on the axis
	Along [3]float64 `json:"along"` // its direction
	Most  float64    `json:"most"`  // degrees or mm
}

// movesOf finds what opens: parts on hinges, and boxes on slides. They come in
// the order of the parts that lead them.
func movesOf(pc *piece.Piece, at map[string]int, boxes map[string]r3.Box) []Move {
	moves := []Move{}
	done := map[string]bool{}
	for _, j := range pc.Joints {
		q := pc.Part(j.B)
		if _, ok := at[j.B]; q == nil || !ok || done[j.B] {
			continue
		}
		var m Move
		var ids []string
		switch j.Kind {
		case "hinges":
			m = turning(q, j.Enter, boxes[j.B])
			ids = withOwn(pc, []string{q.ID})
		case "slides":
			ids = withOwn(pc, boxOf(pc, q))
			m = Move{Name: drawerName(pc, ids, q), Kind: Slides, Words: "towards you", Along: [3]float64{0, 0, 1}, Most: fine(OutBy * boxes[j.B].Size().Z)}
		default:
			continue
		}
		for _, id := range ids {
			done[id] = true
			if i, ok := at[id]; ok {
				m.Parts = append(m.Parts, i)
			}
		}
		slices.Sort(m.Parts)
		moves = append(moves, m)
	}
	slices.SortStableFunc(moves, func(a, b Move) int { return a.Parts[0] - b.Parts[0] })
	return moves
}

// turning is the move of a door or a lid; enter leads from it to what it hangs on.
func turning(q *piece.Part, enter r3.Vec, b r3.Box) Move {
	m := Move{Name: q.Name, Kind: Turns, Most: OpenTo, At: triple(r3.Vec{X: b.Min.X, Y: b.Min.Y, Z: b.Max.Z})}
	switch {
	case q.Role == piece.Lid || enter.Y != 0:
		m.Words, m.Along, m.Most = "on its rear edge", [3]float64{-1, 0, 0}, LidOpenTo
		m.At = triple(r3.Vec{X: b.Min.X, Y: b.Min.Y, Z: b.Min.Z})
	case enter.X > 0:
		m.Words, m.Along = "on its right edge", [3]float64{0, 1, 0}
		m.At[0] = fine(b.Max.X)
	default:
		m.Words, m.Along = "on its left edge", [3]float64{0, -1, 0}
	}
	return m
}

// boxOf are the ids of the drawer's box that a side belongs to, and of the front
// that is screwed to it.
func boxOf(pc *piece.Piece, side *piece.Part) []string {
	var ids []string
	for _, q := range pc.Parts {
		if q.Path == side.Path && (q.Role == piece.DrawerSide || q.Role == piece.DrawerEnd || q.Role == piece.DrawerFloor) {
			ids = append(ids, q.ID)
		}
	}
	for _, j := range pc.Joints {
		if j.Kind == "screwed" && slices.Contains(ids, j.A) {
			if f := pc.Part(j.B); f != nil && f.Role == piece.DrawerFront {
				ids = append(ids, f.ID)
			}
		}
	}
	return ids
}

// withOwn adds the parts that belong to those of the list.
func withOwn(pc *piece.Piece, ids []string) []string {
	for _, q := range pc.Parts {
		if q.Of != "" && slices.Contains(ids, q.Of) && !slices.Contains(ids, q.ID) {
			ids = append(ids, q.ID)
		}
	}
	return ids
}

// drawerName is what a drawer is called: as its front, else as its side.
func drawerName(pc *piece.Piece, ids []string, side *piece.Part) string {
	for _, id := range ids {
		if q := pc.Part(id); q != nil && q.Role == piece.DrawerFront {
			return q.Name
		}
	}
	return side.Name
}
