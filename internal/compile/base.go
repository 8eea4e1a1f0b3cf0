package compile

import (
	"fmt"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// base makes what the body stands on or hangs from.
func (b *builder) base() {
	switch b.d.Base.Kind {
	case "plinth":
		b.plinth()
	case "feet":
		b.feet()
	case "sides":
		b.kickBoard()
	case "wall":
		b.hangOnWall()
	}
}

// plinth makes the plinth: a front and a rear from side to side, two ends between
// them, all upright, and set back under the body. At the rear it stands as far
// off the wall as the skirting is thick, or flush where there is none.
func (b *builder) plinth() {
	w := b.d.Base
	role := b.pick(w.Role, "plinth", "panels")
	t := b.thick(role)
	x0, x1 := w.SetBack, b.width.Sub(w.SetBack)
	z1 := b.front.Sub(w.SetBack)
	z0 := trace.Num{}
	if s := b.d.Brief.Place.SkirtingDeep; s != nil {
		z0 = *s
	}
	if x1.V-x0.V < 4*t.V || z1.V-z0.V < 4*t.V {
		b.errorAt(w.Path, "no-room", "the plinth is set back too far", fmt.Sprintf("It would be %.0f × %.0f mm.", x1.V-x0.V, z1.V-z0.V))
		return
	}
	plank := func(id string, pose r3.Pose, length trace.Num, origin [3]trace.Num, a, bb string) *piece.Part {
		p := &piece.Part{ID: id, Name: id, Role: piece.Plinth, Stock: role.Stock, Thick: t, Length: length, Width: w.Height,
			Grain: piece.AlongLength, Pose: pose, NameA: a, NameB: bb, Show: piece.FaceA, Path: w.Path, Origin: origin,
			BlankLength: length, BlankWidth: w.Height}
		return b.add(p)
	}
	zero := trace.Num{}
	front := plank("plinth, front", facing3, x1.Sub(x0), [3]trace.Num{x0, zero, z1.Sub(t)}, "front face", "rear face")
	rear := plank("plinth, rear", facing3, x1.Sub(x0), [3]trace.Num{x0, zero, z0}, "front face", "rear face")
	rear.Show = ""
	sideways := r3.Pose{X: r3.Vec{Z: -1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: 1}}
	deep := z1.Sub(z0).Sub(t.Scale(2))
	l := plank("plinth, left end", sideways, deep, [3]trace.Num{x0, zero, z1.Sub(t)}, "right face", "left face")
	r := plank("plinth, right end", sideways, deep, [3]trace.Num{x1.Sub(t), zero, z1.Sub(t)}, "right face", "left face")
	l.Show = piece.FaceB
	for _, e := range []*piece.Part{l, r} {
		for _, long := range []*piece.Part{front, rear} {
			enter := r3.Vec{Z: 1}
			if long == rear {
				enter.Z = -1
			}
			b.join(piece.Joint{Kind: "butt", A: long.ID, B: e.ID, Enter: enter, Also: []r3.Vec{{Y: 1}, {Y: -1}}, Glued: true,
				Area: t.Mul(w.Height), Path: w.Path})
		}
	}
	for _, floor := range b.memberParts(bottom) {
		for _, p := range []*piece.Part{front, rear, l, r} {
			b.join(piece.Joint{Kind: "screwed", A: p.ID, B: floor.ID, Enter: r3.Vec{Y: -1}, Path: w.Path})
		}
	}
}
