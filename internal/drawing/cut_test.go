package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// TestBehindPlane: what is kept of a panel and what is kept by the plane seen
// from its other side make up the panel.
func TestBehindPlane(t *testing.T) {
	poses := []r3.Pose{r3.Identity(), {X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}}, {X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}}
	views := []view.View{view.Front(), view.Back(), view.Plan(), view.EndLeft(), view.EndRight()}
	rapid.Check(t, func(t *rapid.T) {
		pose := rapid.SampledFrom(poses).Draw(t, "pose").Moved(r3.Vec{X: rapid.Float64Range(-50, 50).Draw(t, "x")})
		groove := solid.Pocket{Region: planar.Rect(20, -1, 35, 51), Face: solid.A, Depth: 6}
		body, err := solid.Panel(pose, planar.Rect(0, 0, 100, 50), 18, []solid.Pocket{groove})
		if err != nil {
			t.Fatal(err)
		}
		v := rapid.SampledFrom(views).Draw(t, "view")
		lo, hi := body.Extent(v.Eye)
		at := lo + (hi-lo)*rapid.Float64Range(0.01, 0.99).Draw(t, "share")
		back, ok := behindPlane(body, knife{at, v}.pose())
		other := view.View{Right: v.Right.Mul(-1), Up: v.Up, Eye: v.Eye.Mul(-1)}
		front, ok2 := behindPlane(body, knife{-at, other}.pose())
		if !ok || !ok2 {
			t.Fatal("a panel square to the plane was not cut")
		}
		if d := back.Volume() + front.Volume() - body.Volume(); math.Abs(d) > 1e-3 {
			t.Fatalf("halves and whole differ by %v mm³", d)
		}
		if _, top := back.Extent(v.Eye); top > at+1e-6 {
			t.Fatalf("something is left before the plane: %v over %v", top, at)
		}
	})
}

// TestJointsAreTrue: in each figure of a joint the recess ends at the depth that
// the joint has, A is as thick as measured, and B stands within its clearance.
func TestJointsAreTrue(t *testing.T) {
	seen := 0
	for _, name := range examples {
		p := planOf(t, name)
		kinds, counts := jointKinds(p.Piece)
		for i := range kinds {
			c := &kinds[i]
			seen++
			if counts[c.likeness()] < 1 {
				t.Errorf("%s: %s is like none", name, c.j.ID)
			}
			if c.plain != nil {
				plainIsTrue(t, name, c)
				continue
			}
			if d := math.Abs(c.outer - c.inner); math.Abs(d-c.a.Thick.V) > 0.01 {
				t.Errorf("%s: %s: A is %v thick, not %v", name, c.j.ID, d, c.a.Thick.V)
			}
			// Just over the floor there is a recess, just under it there is wood.
			over, under := c.to(c.floor()+0.1*c.side(), c.mid), c.to(c.floor()-0.1*c.side(), c.mid)
			if c.inA.Contains(over) || !c.inA.Contains(under) {
				t.Errorf("%s: %s is not %v deep", name, c.j.ID, c.j.Depth.V)
			}
			if open := c.gaps[0] + c.gaps[1]; math.Abs(open-c.j.Clearance.V) > 0.01 {
				t.Errorf("%s: %s stands open by %v, not %v", name, c.j.ID, open, c.j.Clearance.V)
			}
		}
	}
	if seen < 12 {
		t.Errorf("only %d joints were drawn", seen)
	}
}

// plainIsTrue: where the faces of a joint meet A has wood on the one side and B
// on the other, and a peg's holes end in it.
func plainIsTrue(t *testing.T, name string, c *jointCut) {
	t.Helper()
	if c.whole() {
		return
	}
	at := func(a float64) r2.Vec { return c.to(c.plain.plane+c.plain.out*a, c.mid) }
	if !c.inA.Contains(at(-0.3)) || !c.inB.Contains(at(0.3)) {
		t.Errorf("%s: %s: its faces do not meet where it is drawn", name, c.j.ID)
	}
	if g := c.plain.peg; g != nil && g.Kind != "screw" && (!c.inA.Contains(at(0.2-g.InA.V)) || !c.inB.Contains(at(g.InB.V-0.2))) {
		t.Errorf("%s: %s: a hole ends outside the wood", name, c.j.ID)
	}
}

// TestApart: taken apart, no two parts share space unless they hold together,
// and every part that the order brings in has moved.
func TestApart(t *testing.T) {
	for _, name := range examples {
		p := planOf(t, name)
		bodies, _ := bodiesOf(p.Piece)
		a := takeApart(p.Piece, p.Order, bodies)
		for k, it := range bodies {
			i := a.index[it.ID]
			it.Body.Pose = it.Body.Pose.Moved(a.off[i])
			for _, o := range bodies[:k] {
				j := a.index[o.ID]
				if a.unit[i] == a.unit[j] {
					continue
				}
				o.Body.Pose = o.Body.Pose.Moved(a.off[j])
				if v, err := solid.Overlap(it.Body, o.Body); err != nil || v > 1 {
					t.Errorf("%s: %s and %s share %v mm³ (%v)", name, it.ID, o.ID, v, err)
				}
			}
		}
		for _, w := range a.ways {
			if w.distance < a.gap/2 {
				t.Errorf("%s: %s moved out by only %v", name, p.Piece.Parts[w.part].ID, w.distance)
			}
		}
	}
}

// TestCallouts: numbers never lie on each other or off the field, and no leader
// crosses another or a number.
func TestCallouts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := &pen{}
		for range 6 {
			at := func(s string) r2.Vec {
				return pt(rapid.Float64Range(10, 90).Draw(t, s), rapid.Float64Range(10, 90).Draw(t, s))
			}
			p.line(leaf.Visible, at("a"), at("b"))
		}
		field := boxOf(0, 0, 100, 100)
		c := newCallouts(p, field)
		set := 0
		for range rapid.IntRange(1, 25).Draw(t, "n") {
			if c.put([]r2.Vec{pt(rapid.Float64Range(5, 95).Draw(t, "x"), rapid.Float64Range(5, 95).Draw(t, "y"))}, "12") {
				set++
			}
		}
		if len(c.words) != set || len(c.lines) != 2*set {
			t.Fatalf("%d words and %d lines for %d numbers", len(c.words), len(c.lines), set)
		}
		for i, a := range c.words {
			if a.Min.X < 0 || a.Min.Y < 0 || a.Max.X > 100 || a.Max.Y > 100 {
				t.Fatalf("off the field: %v", a)
			}
			for j := range i {
				if a.Overlaps(c.words[j]) {
					t.Fatalf("numbers %d and %d overlap", i, j)
				}
				for _, m := range c.lines[2*i : 2*i+2] {
					for _, n := range c.lines[2*j : 2*j+2] {
						if meet(m[0], m[1], n[0], n[1]) {
							t.Fatalf("leaders %d and %d cross", i, j)
						}
					}
				}
			}
			for k, l := range c.lines {
				if k/2 != i && crosses(l[0], l[1], a) {
					t.Fatalf("leader %d runs over number %d", k/2, i)
				}
			}
		}
	})
}

// TestSectionsNameEachCutPart: the number of each part that is cut stands on
// the leaf of sections.
func TestSectionsNameEachCutPart(t *testing.T) {
	for _, name := range examples {
		p := planOf(t, name)
		bodies, _ := bodiesOf(p.Piece)
		leaves := sections(p, Options{}, bodies, nil)
		if len(leaves) != 1 {
			t.Fatalf("%s: %d leaves", name, len(leaves))
		}
		told := map[string]bool{}
		for _, it := range leaves[0].Items {
			if w, ok := it.(leaf.Text); ok {
				told[w.S] = true
			}
		}
		d := &sectionDrawing{viewDrawing: viewDrawing{pc: p.Piece, p: p}}
		at, _ := d.planes()
		cut := knife{at.Y, view.Plan()}.cutBy(p.Piece, bodies)
		if len(cut.faces) == 0 {
			t.Errorf("%s: nothing is cut by B–B", name)
		}
		for _, f := range cut.faces {
			if n := (ink{}).size(float64(f.q.Number), 0); !told[n] {
				t.Errorf("%s: part %s of %s is cut and has no number", name, n, piece.Role(f.q.Role))
			}
		}
	}
}
