package export

import (
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// Pose is how the frame of a part lies in the piece: a place (x, y, z) of the part
// lies at origin + x · x_axis + y · y_axis + z · z_axis.
type Pose struct {
	Origin []Number `json:"origin_mm" doc:"where the frame's origin lies: x to the right, y up from the floor, z from the back"`
	X      []Number `json:"x_axis_ratio" doc:"direction of the frame's x in the piece, length 1"`
	Y      []Number `json:"y_axis_ratio" doc:"direction of the frame's y in the piece, length 1"`
	Z      []Number `json:"z_axis_ratio" doc:"direction of the frame's z in the piece, length 1"`
}

// Corner is a corner of an outline, with the way to the next.
type Corner struct {
	X     Number `json:"x_mm" doc:"in the part's frame"`
	Y     Number `json:"y_mm" doc:"in the part's frame"`
	Bulge Number `json:"bulge_ratio" doc:"of the edge to the next corner: tangent of a quarter of the angle that its arc turns anticlockwise; 0: straight"`
}

// Loop is a closed line: anticlockwise round material, clockwise round a hole.
type Loop struct {
	Corners []Corner `json:"corners" doc:"in order; the last is followed by the first"`
}

// Shape is a flat shape with its holes.
type Shape struct {
	Outer Loop   `json:"outer" doc:"round the shape"`
	Holes []Loop `json:"holes" doc:"in it"`
}

// Bevel is an end that is sawn off obliquely.
type Bevel struct {
	At     string   `json:"at" doc:"which end"`
	Out    []Number `json:"out_ratio" doc:"normal of the saw's plane in the part's frame, out of what is kept, length 1"`
	Offset Number   `json:"offset_mm" doc:"what is kept has out · (x, y, z) no greater than this"`
	Tilt   Number   `json:"tilt_rad" doc:"of the blade from upright"`
	Mitre  Number   `json:"mitre_rad" doc:"of the mitre gauge from square"`
}

// Run is a straight or bent stretch of a strip in the frame of its section.
type Run struct {
	From   Number   `json:"from_mm" doc:"along the flat strip, where it starts"`
	To     Number   `json:"to_mm" doc:"along the flat strip, where it ends"`
	Start  []Number `json:"start_mm" doc:"x and y of its outer face, where it starts"`
	Along  []Number `json:"along_ratio" doc:"direction there, length 1"`
	Radius Number   `json:"radius_mm" doc:"of the outer face; 0: straight"`
	Turn   Number   `json:"turn_rad" doc:"that it bends to the right"`
}

func three(v r3.Vec) []Number { return []Number{Number(v.X), Number(v.Y), Number(v.Z)} }

func two(v r2.Vec) []Number { return []Number{Number(v.X), Number(v.Y)} }

func poseOf(p r3.Pose) Pose { return Pose{three(p.O), three(p.X), three(p.Y), three(p.Z)} }

func shapesOf(r planar.Region) []Shape {
	return each(r, func(s planar.Shape) Shape { return Shape{loopOf(s.Outer), each(s.Holes, loopOf)} })
}

func loopOf(l planar.Loop) Loop {
	return Loop{each(l, func(v planar.Vertex) Corner { return Corner{Number(v.P.X), Number(v.P.Y), Number(v.Bulge)} })}
}

// outlineOf is the outline of a flat part, of a bent one that of its flat strip.
func outlineOf(q *piece.Part) []Shape {
	r := q.Outline
	if len(r) == 0 {
		r = planar.Rect(0, 0, q.Length.V, q.Width.V)
	}
	return shapesOf(r)
}

func bevelsOf(q *piece.Part) []Bevel {
	return each(q.Bevels, func(v piece.Bevel) Bevel {
		return Bevel{v.At, three(v.N), Number(v.D), num(v.Tilt), num(v.Mitre)}
	})
}

func runOf(q *piece.Part) []Run {
	return each(q.Run, func(s piece.Stretch) Run {
		return Run{Number(s.X0), Number(s.X1), two(s.From), two(s.Dir), Number(s.Radius), Number(s.Angle)}
	})
}
