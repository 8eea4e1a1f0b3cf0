package check

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// planFootprint is the rectangle round a strip that bends in plan. Between two
// of its corners a round piece stands on less: it is a little easier to push
// over across a corner than this says.
func planFootprint(q *piece.Part) (lo, hi [2]trace.Num, y float64) {
	x0, x1, z0, z1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, s := range q.Run {
		for i := range 5 {
			v := piece.Place(q, s.X0+(s.X1-s.X0)*float64(i)/4, 0, q.Thick.V)
			x0, x1, z0, z1 = math.Min(x0, v.X), math.Max(x1, v.X), math.Min(z0, v.Z), math.Max(z1, v.Z)
		}
	}
	lo = [2]trace.Num{trace.Step(x0, q.Length), trace.Step(z0, q.Length)}
	hi = [2]trace.Num{trace.Step(x1, q.Length), trace.Step(z1, q.Length)}
	return lo, hi, q.Edge() - q.Width.V
}

// onFloor is how high over the lowest place of a part what it stands on may
// lie, mm.
const onFloor = 1

// shapedFootprint is the rectangle round what of a shaped part touches the
// floor: a leg may reach further out higher up, and stands on its foot.
func shapedFootprint(q *piece.Part) (lo, hi [2]trace.Num, y float64) {
	var ps []r3.Vec
	y = math.Inf(1)
	for _, z := range []float64{0, q.Thick.V} {
		face := piece.FaceB
		if z > 0 {
			face = piece.FaceA
		}
		outline, err := piece.OnFace(q, face)
		if err != nil {
			outline = q.Outline
		}
		for l := range outline.All {
			for _, v := range l.Flatten(0.1) {
				p := q.Pose.At(r3.Vec{X: v.X, Y: v.Y, Z: z})
				ps, y = append(ps, p), math.Min(y, p.Y)
			}
		}
	}
	x0, x1, z0, z1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		if p.Y < y+onFloor {
			x0, x1, z0, z1 = math.Min(x0, p.X), math.Max(x1, p.X), math.Min(z0, p.Z), math.Max(z1, p.Z)
		}
	}
	step := func(v float64) trace.Num { return trace.Step(v, q.Origin[0], q.Origin[2], q.Length, q.Width) }
	return [2]trace.Num{step(x0), step(z0)}, [2]trace.Num{step(x1), step(z1)}, y
}
