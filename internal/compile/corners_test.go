package compile

import (
	"fmt"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// Any corner may be bent or square, and any of the two may run through: in each
// of the sound combinations the parts meet and share no wood.
func TestEveryChoiceOfCorners(t *testing.T) {
	for mask := range 15 { // all four bent needs a seam
		for _, side := range []bool{false, true} {
			for _, joint := range []string{"rabbet", "butt"} {
				d := choir()
				for c, name := range design.CornerNames {
					k := design.Corner{Joint: joint, Path: "body.corners." + name}
					k.Through = map[bool]string{true: "side", false: []string{"bottom", "top", "top", "bottom"}[c]}[side]
					if mask>>c&1 == 1 {
						k = design.Corner{Bent: true, Radius: trace.Const(140), Path: k.Path}
					}
					d.Body.Corners[name] = k
				}
				if mask>>2&1 == 1 { // a drawer does not follow a bend
					d.Fronts, d.Drawers = d.Fronts[:1], nil
				}
				t.Run(fmt.Sprintf("%04b side %v %s", mask, side, joint), func(t *testing.T) { noShare(t, d) })
			}
		}
	}
}

func noShare(t *testing.T, d *design.Design) {
	p := built(t, d)
	bodies := make([]solid.Body, len(p.Parts))
	for i, q := range p.Parts {
		b, err := piece.Solid(q, 20)
		if err != nil {
			t.Fatal(err)
		}
		bodies[i] = b
	}
	for i := range bodies {
		for k := range bodies {
			if i == k {
				continue
			}
			if at, hit := shared(bodies[i], bodies[k]); hit {
				t.Errorf("%s and %s share wood at %.1f", p.Parts[i].ID, p.Parts[k].ID, at)
			}
		}
	}
}
