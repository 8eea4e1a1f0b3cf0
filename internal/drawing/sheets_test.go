package drawing

import (
	"math"
	"testing"
)

// A place on a layout's left side is where wood that is kept ends: one who cuts
// to it gets the blank's size, not half a kerf less.
func TestSheetPlacesAreEdgesOfBlanks(t *testing.T) {
	seen := 0
	for _, name := range examples {
		p := planOf(t, name)
		for _, l := range p.Layouts {
			for i := range l.Sheets {
				d := sheetOf(p.Piece, &l.Sheets[i], Options{})
				for _, y := range d.rowEnds() {
					seen++
					if !d.edgeOfKept(y) {
						t.Errorf("%s: %s, sheet %d: nothing that is kept ends at %.2f", name, l.Stock, i+1, y)
					}
				}
			}
		}
	}
	if seen < 8 {
		t.Errorf("only %d places", seen)
	}
}

func (d *sheetDrawing) edgeOfKept(y float64) bool {
	for _, q := range d.s.Placements {
		if math.Abs(q.Y+q.Width-y) < 0.01 {
			return true
		}
	}
	for _, o := range d.s.Offcuts {
		if math.Abs(o.Y+o.Width-y) < 0.01 {
			return true
		}
	}
	return false
}
