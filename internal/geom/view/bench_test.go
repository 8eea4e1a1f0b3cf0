package view_test

import (
	"fmt"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
)

// sideboard is a large piece to be timed with: a bent shell over ten bays, and
// in all 36 bodies, most of them three slabs thick.
func sideboard(tb testing.TB) []view.Item {
	tb.Helper()
	const t, wide, high, deep = 17.7, 2400.0, 760.0, 400.0
	c := func(x, y, r float64) planar.Corner { return planar.Corner{P: r2.Vec{X: x, Y: y}, Round: r} }
	l, err := planar.Rounded(c(0, 0, 0), c(t, 0, 0), c(t, high-t, 140-t), c(wide, high-t, 0), c(wide, high, 0), c(0, high, 140))
	if err != nil {
		tb.Fatal(err)
	}
	shell := planar.Of(l)
	housed := shell
	items := []view.Item{}
	add := func(name string, b solid.Body, err error) {
		if err != nil {
			tb.Fatal(err)
		}
		items = append(items, view.Item{ID: fmt.Sprintf("%s %d", name, len(items)), Body: b})
	}
	upright := r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}} // a panel on its edge, A face to the right
	level := r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}
	for i := range 10 {
		x := 240.0 * float64(i+1)
		if i < 9 {
			if housed, err = planar.Difference(housed, planar.Rect(x, high-t, x+t, high-t+6)); err != nil {
				tb.Fatal(err)
			}
			pockets := []solid.Pocket{
				{Region: planar.Rect(300, 0, 300+t, deep-30), Face: solid.A, Depth: 6},
				{Region: planar.Rect(500, 0, 500+t, deep-30), Face: solid.B, Depth: 6},
			}
			if i < 4 { // two rows for shelf pins
				for k := range 12 {
					for _, y := range []float64{37, deep - 70} {
						pockets = append(pockets, solid.Pocket{Region: planar.Disc(r2.Vec{X: 330 + 10*float64(k), Y: y}, 2.5), Face: solid.A, Depth: 10})
					}
				}
			}
			b, err := solid.Panel(upright.Moved(r3.Vec{X: x, Y: t}), planar.Rect(0, 0, high-2*t+6, deep), t, pockets)
			add("divider", b, err)
		}
		for k, y := range []float64{300, 500} {
			b, err := solid.Panel(level.Moved(r3.Vec{X: x - 240 + t, Y: y + t, Z: deep - 30}), planar.Rect(0, 0, 240-t, deep-30), t, []solid.Pocket{
				{Region: planar.Rect(0, 20, 240, 26), Face: solid.A, Depth: 3},
				{Region: planar.Rect(0, 60, 240, 66), Face: solid.B, Depth: 4 + float64(k)},
			})
			add("shelf", b, err)
		}
	}
	b, err := solid.Extrude(r3.Identity(), solid.Slab{Region: shell, Z1: 12}, solid.Slab{Region: housed, Z0: 12, Z1: deep})
	add("shell", b, err)
	add("bottom", solid.Block(r3.Vec{X: t}, r3.Vec{X: wide - t, Y: t, Z: deep}), nil)
	add("side", solid.Block(r3.Vec{X: wide - t}, r3.Vec{X: wide, Y: high - t, Z: deep}), nil)
	for i := range 4 {
		x := 600 * float64(i)
		door := r3.Identity().Moved(r3.Vec{X: x + 20, Y: 20, Z: deep})
		b, err := solid.Panel(door, planar.Rect(0, 0, 560, 600), t, []solid.Pocket{
			{Region: planar.Disc(r2.Vec{X: 40, Y: 560}, 15), Through: true},
			{Region: planar.Disc(r2.Vec{X: 540, Y: 80}, 17.5), Face: solid.B, Depth: 13},
			{Region: planar.Disc(r2.Vec{X: 540, Y: 480}, 17.5), Face: solid.B, Depth: 13},
		})
		add("door", b, err)
	}
	return items
}

func BenchmarkScene(b *testing.B) {
	items := sideboard(b)
	for b.Loop() {
		if _, err := view.NewScene(items, 0.1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	s, err := view.NewScene(sideboard(b), 0.1)
	if err != nil {
		b.Fatal(err)
	}
	for _, v := range []view.View{view.Front(), view.Plan(), view.EndRight(), view.Isometric(false), view.Dimetric(false)} {
		for _, hidden := range []bool{false, true} {
			b.Run(fmt.Sprintf("%s/hidden=%v", v.Name, hidden), func(b *testing.B) {
				for b.Loop() {
					s.Draw(v, view.Options{HiddenToo: hidden})
				}
			})
		}
	}
}
