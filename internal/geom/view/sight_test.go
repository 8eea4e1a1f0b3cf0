package view_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/view"
)

// block is an upright box.
type block struct{ lo, hi r3.Vec }

// through returns how long the ray from p towards eye runs inside the block.
func (b block) through(p, eye r3.Vec) float64 {
	from, to := 0.0, math.Inf(1)
	for _, c := range [3][4]float64{
		{p.X, eye.X, b.lo.X, b.hi.X}, {p.Y, eye.Y, b.lo.Y, b.hi.Y}, {p.Z, eye.Z, b.lo.Z, b.hi.Z},
	} {
		s, t := (c[2]-c[0])/c[1], (c[3]-c[0])/c[1]
		from, to = max(from, min(s, t)), min(to, max(s, t))
	}
	return max(0, to-from)
}

// edges returns the twelve edges of the block.
func (b block) edges() (out [][2]r3.Vec) {
	pick := func(bits int) r3.Vec {
		p := b.lo
		if bits&1 > 0 {
			p.X = b.hi.X
		}
		if bits&2 > 0 {
			p.Y = b.hi.Y
		}
		if bits&4 > 0 {
			p.Z = b.hi.Z
		}
		return p
	}
	for i := range 8 {
		for _, bit := range []int{1, 2, 4} {
			if i&bit == 0 {
				out = append(out, [2]r3.Vec{pick(i), pick(i | bit)})
			}
		}
	}
	return out
}

// Blocks on a coarse grid, which often touch, seen from anywhere: a place on an
// edge must be drawn if and only if no block stands between it and the eye. The
// judge is a ray through the blocks, which knows nothing of faces.
func TestSight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var blocks []block
		var items []view.Item
		n := func(name string, lo, hi int) float64 { return 10 * float64(rapid.IntRange(lo, hi).Draw(t, name)) }
		for range rapid.IntRange(1, 6).Draw(t, "blocks") {
			lo := r3.Vec{X: n("x", 0, 5), Y: n("y", 0, 5), Z: n("z", 0, 5)}
			hi := lo.Add(r3.Vec{X: n("w", 1, 4), Y: n("h", 1, 4), Z: n("d", 1, 4)})
			blocks = append(blocks, block{lo, hi})
			items = append(items, box("b", lo.X, lo.Y, lo.Z, hi.X, hi.Y, hi.Z))
		}
		f := func(name string) float64 { return rapid.Float64Range(0.13, 0.9).Draw(t, name) }
		v := view.From("any", r3.Vec{X: f("ex") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign"), Y: f("ey"), Z: f("ez")})
		lines, err := view.Draw(items, v, view.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range blocks {
			for _, e := range b.edges() {
				for _, share := range []float64{0.137, 0.5123, 0.871} {
					judge(t, v, blocks, lines, e, share)
				}
			}
		}
	})
}

// onPaper is how near lines on paper are drawn as one, with some room, mm.
const onPaper = 2e-3

func judge(t *rapid.T, v view.View, blocks []block, lines []view.Line, e [2]r3.Vec, share float64) {
	p := e[0].Add(e[1].Sub(e[0]).Mul(share))
	longest := 0.0
	for _, b := range blocks {
		longest = max(longest, b.through(p, v.Eye))
	}
	if longest > 1e-9 && longest < 0.2 {
		return // just past a rim
	}
	at, _ := v.Project(p)
	a, _ := v.Project(e[0])
	drawn := false
	for _, l := range lines {
		u := l.B.Sub(l.A)
		k := at.Sub(l.A).Dot(u) / u.Dot(u)
		along := math.Abs(u.Unit().Cross(at.Sub(a).Unit())) < 1e-6
		if along && k > 0 && k < 1 && at.Sub(l.A.Lerp(l.B, k)).Len() < onPaper {
			drawn = true
		}
	}
	if longest > 0.2 && drawn && !twin(v, blocks, at, e) {
		t.Fatalf("%v on %v is drawn, %g mm behind", p, e, longest)
	}
	if longest <= 1e-9 && !drawn {
		t.Fatalf("%v on %v is in sight and not drawn", p, e)
	}
}

// twin reports whether another edge that is in sight is drawn over the same
// place in the same direction.
func twin(v view.View, blocks []block, at r2.Vec, e [2]r3.Vec) bool {
	dir, _ := v.Project(e[1].Sub(e[0]))
	for _, b := range blocks {
		for _, g := range b.edges() {
			a, _ := v.Project(g[0])
			c, _ := v.Project(g[1])
			u := c.Sub(a)
			k := at.Sub(a).Dot(u) / u.Dot(u)
			if math.Abs(u.Unit().Cross(dir.Unit())) > 1e-6 || k < 0 || k > 1 || at.Sub(a.Lerp(c, k)).Len() > onPaper {
				continue
			}
			p := g[0].Add(g[1].Sub(g[0]).Mul(k))
			open := true
			for _, o := range blocks {
				open = open && o.through(p, v.Eye) < 0.2
			}
			if open {
				return true
			}
		}
	}
	return false
}

// The order of the items changes which body a shared line is given to, but not
// what is on the paper.
func TestOrderOfItems(t *testing.T) {
	items := shelfCase(t)
	for _, v := range []view.View{view.Front(), view.Plan(), view.Dimetric(true)} {
		total := func(items []view.Item, hidden bool) (sum float64) {
			for _, l := range draw(t, v, true, items...) {
				if l.Hidden == hidden {
					sum += l.B.Sub(l.A).Len()
				}
			}
			return sum
		}
		back := make([]view.Item, 0, len(items))
		for i := range items {
			back = append(back, items[len(items)-1-i])
		}
		for _, hidden := range []bool{false, true} {
			if a, b := total(items, hidden), total(back, hidden); math.Abs(a-b) > 1e-3 {
				t.Errorf("%s, hidden %v: %v mm and %v mm", v.Name, hidden, a, b)
			}
		}
	}
}

// Moved along the line of sight all of it stays the same drawing.
func TestSameSight(t *testing.T) {
	v := view.Dimetric(false)
	want := draw(t, v, true, bent(t)...)
	items := bent(t)
	for i := range items {
		items[i].Body.Pose = items[i].Body.Pose.Moved(v.Eye.Mul(321))
	}
	got := draw(t, v, true, items...)
	if len(got) != len(want) {
		t.Fatalf("%d lines, were %d", len(got), len(want))
	}
	key := func(l view.Line) string {
		return fmt.Sprint(l.Body, l.Kind, l.Hidden, math.Round(1e3*l.B.Sub(l.A).Len()), math.Round(1e2*l.A.Add(l.B).X), math.Round(1e2*l.A.Add(l.B).Y))
	}
	n := map[string]int{}
	for i := range got {
		n[key(got[i])]++
		n[key(want[i])]--
	}
	for k, v := range n {
		if v != 0 {
			t.Errorf("%+d of %s", v, k)
		}
	}
}
