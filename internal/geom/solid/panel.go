package solid

import (
	"fmt"
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
)

// Side names a face of a panel: A lies at z = thickness, B at z = 0.
type Side string

const (
	A Side = "A"
	B Side = "B"
)

// Pocket is what is cut out of a panel: a region from one face to a depth, or
// through all of it.
type Pocket struct {
	Region  planar.Region
	Face    Side    // from which Depth counts; of no matter where Through
	Depth   float64 // mm
	Through bool
	// Where Z1 is over Z0 the pocket lies between these heights, whatever the face:
	// a groove into an edge.
	Z0, Z1 float64
}

// Panel returns the body of a flat panel: the outline between z = 0 and z =
// thickness, less its pockets, which may overlap each other and reach past the
// outline. Pockets as deep as the panel or deeper go through.
func Panel(pose r3.Pose, outline planar.Region, thickness float64, pockets []Pocket) (Body, error) {
	if !(thickness > 0) {
		return Body{}, fmt.Errorf("solid: a panel %g mm thick", thickness)
	}
	cuts := make([]span, len(pockets))
	levels := []float64{0, thickness}
	for i, p := range pockets {
		s, err := p.span(thickness)
		if err != nil {
			return Body{}, fmt.Errorf("solid: pocket %d: %w", i+1, err)
		}
		cuts[i] = s
		levels = append(levels, s.z0, s.z1)
	}
	slices.Sort(levels)
	levels = slices.CompactFunc(levels, func(a, b float64) bool { return math.Abs(b-a) < planar.Near })
	// Straight-edged cuts first: a region is the quicker to cut the fewer arcs
	// are near, and round holes seldom meet anything.
	slices.SortStableFunc(cuts, func(a, b span) int { return a.arcs - b.arcs })
	var slabs []Slab
	for k := 1; k < len(levels); k++ {
		z0, z1 := levels[k-1], levels[k]
		left := outline
		for _, c := range cuts {
			if c.z0 > z0+planar.Near || c.z1 < z1-planar.Near {
				continue
			}
			var err error
			if left, err = planar.Difference(left, c.region); err != nil {
				return Body{}, err
			}
		}
		if len(left) > 0 {
			slabs = append(slabs, Slab{Region: left, Z0: z0, Z1: z1})
		}
	}
	return Body{Pose: pose, Slabs: slabs}, nil
}

// span is a pocket as heights.
type span struct {
	region planar.Region
	z0, z1 float64
	arcs   int
}

func (p Pocket) span(thickness float64) (span, error) {
	s := span{region: p.Region, z0: 0, z1: thickness}
	for l := range p.Region.All {
		for _, v := range l {
			if v.Bulge != 0 {
				s.arcs++
			}
		}
	}
	if p.Z1 > p.Z0 {
		s.z0, s.z1 = max(0, p.Z0), min(thickness, p.Z1)
		return s, nil
	}
	if p.Through {
		return s, nil
	}
	switch {
	case !(p.Depth > 0):
		return s, fmt.Errorf("a depth of %g mm", p.Depth)
	case p.Depth >= thickness-planar.Near:
	case p.Face == A:
		s.z0 = thickness - p.Depth
	case p.Face == B:
		s.z1 = p.Depth
	default:
		return s, fmt.Errorf("no face %q: A or B", p.Face)
	}
	return s, nil
}

// Extrude returns the body of sections that follow each other in height. Empty
// and flat ones are left out; it fails where two overlap in height.
func Extrude(pose r3.Pose, sections ...Slab) (Body, error) {
	b := Body{Pose: pose}
	for _, s := range sections {
		if s.Z1-s.Z0 > planar.Near && len(s.Region) > 0 {
			b.Slabs = append(b.Slabs, s)
		}
	}
	slices.SortStableFunc(b.Slabs, func(s, t Slab) int {
		if s.Z0 < t.Z0 {
			return -1
		} else if s.Z0 > t.Z0 {
			return 1
		}
		return 0
	})
	for i := 1; i < len(b.Slabs); i++ {
		if b.Slabs[i].Z0 < b.Slabs[i-1].Z1-planar.Near {
			return Body{}, fmt.Errorf("solid: sections overlap at height %g", b.Slabs[i].Z0)
		}
	}
	return b, nil
}

// Block returns an upright box between two opposite corners, its depth along z.
func Block(p, q r3.Vec) Body {
	b, _ := Extrude(r3.Identity(), Slab{planar.Rect(p.X, p.Y, q.X, q.Y), min(p.Z, q.Z), max(p.Z, q.Z)})
	return b // a single section overlaps none
}
