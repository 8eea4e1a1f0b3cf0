package piece

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/solid"
)

// GlueLine is how far a strip's two ends stand apart at a seam once glued, mm, for
// those who need a solid that does not touch itself: a glue line of a tenth of a
// millimetre by common practice.
const GlueLine = 0.1

// Opened returns the body of a bent part whose two ends touch, as those of a shell
// that is closed all round do, opened at its far end by the width of a glue line;
// it reports whether they do. Any other body is returned as it is.
func Opened(p *Part, b solid.Body) (solid.Body, bool, error) {
	if len(p.Run) == 0 {
		return b, false, nil
	}
	long := p.Length.V
	end := Fold(p, long, p.Thick.V)
	if end.Sub(Fold(p, 0, p.Thick.V)).Len() > 1e-3 || end.Sub(Fold(p, long, 0)).Sub(Fold(p, 0, p.Thick.V).Sub(Fold(p, 0, 0))).Len() > 1e-3 {
		return b, false, nil
	}
	last := p.Run[len(p.Run)-1]
	slot := planar.Rect(-GlueLine, -p.Thick.V-1, 0, 1).Placed(end, last.Dir, last.Dir.Left())
	out := solid.Body{Pose: b.Pose, Within: b.Within}
	for _, s := range b.Slabs {
		r, err := planar.Difference(s.Region, slot)
		if err != nil {
			return b, false, err
		}
		s.Region = r
		out.Slabs = append(out.Slabs, s)
	}
	return out, true, nil
}
