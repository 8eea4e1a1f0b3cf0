package model

import (
	"encoding/json"
	"math"

	"rodwork/internal/drawing"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/view"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Chord is how far, mm, a triangle may lie from a round face.
const Chord = 0.15

// Scene is the model of one piece.
type Scene struct {
	Format int          `json:"format"` // of this data: 1
	Name   string       `json:"name"`
	Units  units.System `json:"units"`  // in which lengths are told to the reader
	Size   [3]float64   `json:"size"`   // width, height, depth over all, mm
	Ground string       `json:"ground"` // "floor" where it stands, "wall" where it hangs, "" where neither is known
	// Left tells that it is best seen from its left end, as its picture is drawn.
	Left   bool     `json:"left"`
	Stocks []Stock  `json:"stocks"`
	Parts  []Part   `json:"parts"`
	Moves  []Move   `json:"moves"`
	Lost   []string `json:"lost,omitempty"` // names of parts without a body
	// The four lists that parts have their stretches of, each little-endian and
	// written in base64: corners (3 × float32, mm), their normals (3 × int8, of
	// 127), triangles (3 × uint16, counted from the part's first corner), and
	// hard edges (two corners, 6 × float32, mm).
	Corners   []byte `json:"corners"`
	Normals   []byte `json:"normals"`
	Triangles []byte `json:"triangles"`
	Edges     []byte `json:"edges"`
}

// Part is one part of the model in its own frame.
type Part struct {
	ID     string `json:"id"`
	Number int    `json:"number"` // in the book; 0 of what is bought
	Name   string `json:"name"`
	// Place is where a page tells of it, as an address within the page; it is
	// for who makes the page to fill in.
	Place string `json:"place,omitempty"`
	Stock int    `json:"stock"` // of Scene.Stocks; -1: none
	// Pose has the images of the unit vectors and of the origin, one after the
	// other, and Apart is the way out of its place when the piece is taken apart.
	Pose  [12]float64 `json:"pose"`
	Apart [3]float64  `json:"apart"`
	Thick float64     `json:"thick"`
	// Grain is the way of the face grain: "x", "y" or "" (none) of the flat part,
	// of a bent one "x" along the strip and "y" across it.
	Grain string    `json:"grain,omitempty"`
	Run   []Stretch `json:"run,omitempty"` // of a bent part
	// First and number of its corners, triangles and edges.
	Corner   [2]int `json:"corner"`
	Triangle [2]int `json:"triangle"`
	Edge     [2]int `json:"edge"`
}

// Stretch is a stretch of a strip in the frame of its section; see
// piece.Stretch. It is written as a list: x0, x1, from x, from y, direction x,
// direction y, radius, angle.
type Stretch [8]float64

// Of makes the model of a plan; nil where there is no part that has a body.
func Of(p *plan.Plan, sys units.System) *Scene {
	if p == nil || p.Piece == nil {
		return nil
	}
	pc := p.Piece
	s := &Scene{Format: 1, Name: pc.Name, Units: sys, Ground: groundOf(p.Design.Base.Kind), Left: drawing.FromLeft(pc), Moves: []Move{},
		Size: [3]float64{fine(pc.Width.V), fine(pc.Height.V), fine(pc.Depth.V)}}
	var bodies []view.Item
	for _, q := range pc.Parts {
		b, err := piece.Solid(q, 0)
		if err != nil {
			s.Lost = append(s.Lost, q.Name)
			continue
		}
		bodies = append(bodies, view.Item{ID: q.ID, Body: b})
	}
	at := map[string]int{} // parts of the scene by id
	boxes := map[string]r3.Box{}
	k := packer{scene: s, stocks: map[string]int{}}
	for _, it := range bodies {
		q := pc.Part(it.ID)
		if err := k.add(q, it.Body); err != nil {
			s.Lost = append(s.Lost, q.Name)
			continue
		}
		at[q.ID] = len(s.Parts) - 1
		boxes[q.ID] = it.Body.Box()
	}
	if len(s.Parts) == 0 {
		return nil
	}
	away := drawing.Apart(pc, p.Order, bodies)
	for i, q := range pc.Parts {
		if n, ok := at[q.ID]; ok {
			s.Parts[n].Apart = triple(away[i])
		}
	}
	k.feet(pc, at)
	s.Moves = movesOf(pc, at, boxes)
	return s
}

// groundOf is what a piece with a kind of base throws its shadow on.
func groundOf(base string) string {
	switch base {
	case "", "none":
		return ""
	case "wall":
		return "wall"
	}
	return "floor"
}

// JSON returns the scene as a document. The same scene gives the same bytes.
func (s *Scene) JSON() []byte {
	b, err := json.Marshal(s) // escapes '<', so it may stand in a page
	if err != nil {
		panic("model: a scene holds a number that is none: " + err.Error())
	}
	return b
}

// fine rounds to a thousandth.
func fine(v float64) float64 {
	r := math.Round(v*1000) / 1000
	if r == 0 {
		return 0 // never −0
	}
	return r
}

// unit rounds a number of a unit vector.
func unit(v float64) float64 {
	r := math.Round(v*1e7) / 1e7
	if r == 0 {
		return 0
	}
	return r
}

func triple(v r3.Vec) [3]float64 { return [3]float64{fine(v.X), fine(v.Y), fine(v.Z)} }

func poseOf(p r3.Pose) [12]float64 {
	return [12]float64{unit(p.X.X), unit(p.X.Y), unit(p.X.Z), unit(p.Y.X), unit(p.Y.Y), unit(p.Y.Z),
		unit(p.Z.X), unit(p.Z.Y), unit(p.Z.Z), fine(p.O.X), fine(p.O.Y), fine(p.O.Z)}
}
