package deliver

import (
	"fmt"

	"rodwork/internal/export"
	"rodwork/internal/format/glb"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// chord is how far a triangle may lie from a round face in GLB, mm.
const chord = 0.1

// The colours of a GLB: a pale face and a darker edge of sheet stock, and solid
// wood between them.
var (
	face      = glb.Material{Name: "face", Color: [3]float64{0.91, 0.85, 0.74}}
	edge      = glb.Material{Name: "edge", Color: [3]float64{0.72, 0.60, 0.45}}
	bought    = glb.Material{Name: "bought", Color: [3]float64{0.55, 0.55, 0.55}}
	solidWood = glb.Material{Name: "solid wood", Color: [3]float64{0.80, 0.70, 0.55}}
)

// palette is the colours that a scene uses, in the order of their first use.
type palette []glb.Material

func (p *palette) index(m glb.Material) int {
	for i, have := range *p {
		if have == m {
			return i
		}
	}
	*p = append(*p, m)
	return len(*p) - 1
}

// painter tells the colour of a facet of a part. A flat part lies in its frame,
// so its faces are the caps; the section of a bent one does, so its faces are
// the walls, but for those that are no longer than the stock is thick.
func (p *palette) painter(q *piece.Part) func(glb.Facet) int {
	return func(f glb.Facet) int {
		m := edge
		switch {
		case q.Stock != nil && q.Stock.Stick:
			m = solidWood
		case len(q.Run) == 0 && f.Cap, len(q.Run) > 0 && !f.Cap && (f.Round || f.Length > 1.01*q.Thick.V):
			m = face
		}
		return p.index(m)
	}
}

// label is what a node of a GLB tells of its part.
type label struct {
	Part   string        `json:"part"`
	Number int           `json:"number"`
	Role   string        `json:"role"`
	Stock  string        `json:"stock,omitempty"`
	Length export.Number `json:"length_mm"`
	Width  export.Number `json:"width_mm"`
	Thick  export.Number `json:"thickness_mm"`
	Bent   bool          `json:"bent"`
	Loose  bool          `json:"loose"`
	Late   bool          `json:"late"`
}

func labelOf(q *piece.Part) label {
	l := label{q.ID, q.Number, string(q.Role), "", export.Number(q.Length.V), export.Number(q.Width.V), export.Number(q.Thick.V),
		len(q.Run) > 0, q.Loose, q.Late}
	if q.Stock != nil {
		l.Stock = q.Stock.Name
	}
	return l
}

// GLB returns the whole piece in space.
func GLB(p *plan.Plan) ([]byte, error) {
	all, err := bodies(p)
	if err != nil {
		return nil, err
	}
	scene := glb.Scene{Name: title(p)}
	var colours palette
	for _, b := range all {
		meshes, err := glb.Meshes(b.body, chord, colours.painter(b.part), b.bores...)
		if err != nil {
			return nil, fmt.Errorf("part %q: %w", b.part.ID, err)
		}
		scene.Nodes = append(scene.Nodes, glb.Node{Name: b.part.Name, Pose: b.body.Pose, Meshes: meshes, Extras: labelOf(b.part)})
	}
	for i, b := range piece.Feet(p.Piece) {
		meshes, err := glb.Meshes(b, chord, func(glb.Facet) int { return colours.index(bought) })
		if err != nil {
			return nil, fmt.Errorf("foot %d: %w", i+1, err)
		}
		scene.Nodes = append(scene.Nodes, glb.Node{Name: fmt.Sprintf("foot %d, bought", i+1), Pose: b.Pose, Meshes: meshes})
	}
	scene.Materials = colours
	return glb.Render(scene)
}
