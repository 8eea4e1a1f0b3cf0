package model

import (
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/piece"
)

// Stock is what parts are made of, as far as it is seen.
type Stock struct {
	Name string `json:"name"`
	Kind string `json:"kind"` // "plywood", "solid", "board"
	// Face and End are colours of a face along the grain and of end grain, shares
	// of red, green and blue as a screen shows them (sRGB), 0 to 255.
	Face [3]int `json:"face"`
	End  [3]int `json:"end"`
	// Layers are the thicknesses of the veneers, mm, from one face to the other;
	// every second one runs across the face grain. None where they are not known.
	Layers []float64 `json:"layers,omitempty"`
}

// woods are the colours of clean, dry wood under an oil, by a word in the name
// of a species; the first that fits is taken. They are common experience and
// carry no measure.
var woods = []struct {
	word      string
	face, end [3]int
}{
	{"birch", [3]int{236, 218, 188}, [3]int{196, 160, 116}},
	{"maple", [3]int{238, 222, 194}, [3]int{200, 168, 124}},
	{"ash", [3]int{230, 211, 176}, [3]int{188, 154, 108}},
	{"beech", [3]int{226, 192, 156}, [3]int{184, 142, 102}},
	{"oak", [3]int{212, 181, 136}, [3]int{166, 129, 84}},
	{"walnut", [3]int{142, 107, 80}, [3]int{98, 70, 50}},
	{"cherry", [3]int{208, 154, 116}, [3]int{164, 112, 78}},
	{"larch", [3]int{222, 182, 136}, [3]int{178, 132, 86}},
	{"spruce", [3]int{238, 220, 184}, [3]int{204, 170, 122}},
	{"pine", [3]int{234, 206, 160}, [3]int{198, 156, 104}},
	{"poplar", [3]int{230, 220, 194}, [3]int{190, 168, 130}},
	{"okoume", [3]int{214, 168, 138}, [3]int{168, 120, 92}},
}

// The colours of what has no species that is known, and of boards.
var (
	otherWood = [2][3]int{{230, 210, 176}, {188, 154, 112}}
	fibre     = [3]int{190, 168, 140}
	chip      = [3]int{206, 186, 152}
)

// stock returns the number of the part's stock in the scene.
func (k *packer) stock(q *piece.Part) int {
	if q.Stock == nil {
		return -1
	}
	i, ok := k.stocks[q.Stock.Name]
	if !ok {
		i = len(k.scene.Stocks)
		k.stocks[q.Stock.Name] = i
		k.scene.Stocks = append(k.scene.Stocks, stockOf(q.Stock, q.Thick.V))
	}
	return i
}

func stockOf(s *design.Stock, thick float64) Stock {
	out := Stock{Name: s.Name, Kind: "board"}
	switch s.Kind {
	case design.MDF:
		out.Face, out.End = fibre, fibre
		return out
	case design.Chip:
		out.Face, out.End = chip, chip
		return out
	}
	out.Kind = "solid"
	out.Face, out.End = otherWood[0], otherWood[1]
	for _, w := range woods {
		if strings.Contains(strings.ToLower(s.Species+" "+s.Name), w.word) {
			out.Face, out.End = w.face, w.end
			break
		}
	}
	if s.Kind == design.Plywood {
		out.Kind = "plywood"
		out.Layers = layersOf(s, thick)
	}
	return out
}

// layersOf are the veneers of a plywood: two of the face, sanded, and inner ones
// that share what is left, so that they add up to the thickness as measured.
func layersOf(s *design.Stock, thick float64) []float64 {
	n, face := s.Layers, s.FaceVeneer.V
	if n < 2 || n > 99 {
		return nil
	}
	if face <= 0 || 2*face >= thick || n == 2 {
		face = thick / float64(n)
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = fine((thick - 2*face) / float64(max(n-2, 1)))
	}
	out[0], out[n-1] = fine(face), fine(face)
	return out
}
