package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// stripGrain is the way of a bent strip's face grain.
func (b *builder) stripGrain() piece.Grain {
	if b.d.Body.Bend.AcrossGrain {
		return piece.AlongWidth
	}
	return piece.AlongLength
}

// insideFace is what a shell's inner face is called.
func (b *builder) insideFace() string {
	if w := b.d.Body.Bend; w.Way == design.Kerfed && !w.Outside {
		return "kerfed face, inside"
	}
	return "inside"
}

// ordinals name the bends of a strip that has no corners to name them by.
var ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"}

func ordinal(n int) string {
	if n < len(ordinals) {
		return ordinals[n]
	}
	return fmt.Sprintf("%dth", n+1)
}

// freeStrips makes the strips that are placed by themselves.
func (b *builder) freeStrips() []*piece.Part {
	var out []*piece.Part
	for i := range b.d.Strips {
		if p := b.freeStrip(&b.d.Strips[i]); p != nil {
			out = append(out, p)
		}
	}
	return out
}

func (b *builder) freeStrip(f *design.FreeStrip) *piece.Part {
	role := b.pick(f.Role, "shell")
	if role.Stock == nil {
		b.errorAt(f.Path, "no-stock", fmt.Sprintf("no stock for %q", f.Name), "Name one under 'stock', or give the role 'shell' one.")
		return nil
	}
	p := &piece.Part{ID: f.Name, Name: f.Name, Role: piece.Strip, Stock: role.Stock, Thick: b.thick(role), Width: f.Width, Grain: b.stripGrain(),
		NameA: "outer face", NameB: "inner face", Show: piece.FaceA, Path: f.Path, Loose: f.Fix == "loose"}
	sin, cos := math.Sincos(f.Heading.V)
	w := stripWalk{p: p, at: r2.Vec{X: f.Place[0].V, Y: f.Place[1].V}, dir: r2.Vec{X: cos, Y: sin}}
	if f.InPlan {
		w.at.Y = -f.Place[2].V
	}
	for _, s := range f.Run {
		if s.Flat.V > 0 {
			w.straight(s.Flat)
			continue
		}
		if s.Radius.V <= p.Thick.V+5 {
			b.errorAt(s.Path+".radius", "out-of-bounds", "the bend is as tight as the strip is thick",
				fmt.Sprintf("Its radius is that of the convex face; the strip is %.1f mm thick.", p.Thick.V))
			return nil
		}
		d := b.turned(turn{name: ordinal(len(p.Bends)), radius: s.Radius, angle: s.Angle.V, path: s.Path, width: f.Width, x: w.x,
			stock: role.Stock, left: s.Left, outside: s.Outside})
		if d.Length.V <= 0 {
			return nil // it was told why
		}
		w.bend(d)
	}
	p.Length = w.x
	p.BlankLength, p.BlankWidth = p.Length.Add(b.d.Shop.Habits.Oversize.Scale(2)), p.Width
	p.Outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	pose := r3.Identity()
	p.Origin = [3]trace.Num{{}, {}, f.Place[2].Add(f.Width)}
	if f.InPlan {
		pose, p.Origin = plan3, [3]trace.Num{{}, f.Place[1].Add(f.Width), {}}
	}
	if len(p.Bends) == 0 {
		b.errorAt(f.Path, "no-bend", fmt.Sprintf("%s bends nowhere", f.Name), "Place it under 'parts'.")
		return nil
	}
	b.add(p)
	p.Pose = pose
	return p
}
