package compile

import (
	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
)

// Blades are the shop's saws that can cut a kerf across a board, as a search
// over them takes them.
func Blades(s *design.ShopFile) []bend.Blade {
	var out []bend.Blade
	for _, w := range s.Saws {
		if w.Kind == "jigsaw" || w.Kerf.Mean.V <= 0 {
			continue
		}
		out = append(out, bend.Blade{Name: w.Name, Kerf: w.Kerf.Mean.V, KerfSD: w.Kerf.SD.V, DepthSD: w.Depth.SD.V,
			ShowFace: w.DepthFrom == "show face", FloorRise: bend.FloorRise(w.Kerf.Mean.V, w.Bevel.V),
			Deepest: w.Depth.Mean.V, Longest: w.Longest.V})
	}
	return out
}

// Seek looks for the best that the shop's blades and skins make of each kerfed
// bend, and where none does, for the nearest radius and blade. Bends that are
// alike are looked at once.
func Seek(p *piece.Piece, d *design.Design) {
	type key struct {
		radius, angle, width, skin, kerf float64
		count                            int
		outside                          bool
		stock                            *design.Stock
	}
	known := map[key]*bend.Sought{}
	for _, q := range p.Parts {
		for i := range q.Bends {
			b := &q.Bends[i]
			if b.Plan.Count == 0 || q.Stock == nil {
				continue
			}
			s := b.Plan.Spec
			k := key{s.Radius, s.Angle, s.Width, s.Skin, s.Kerf, s.Count, s.Outside, q.Stock}
			if known[k] == nil {
				got, err := bend.Seek(s, Blades(d.Shop), q.Stock.Thickness.SD.V)
				if err != nil {
					continue
				}
				known[k] = &got
			}
			b.Sought = known[k]
		}
	}
}
