package compile

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// # Frames that splay
//
// Each post turns about the outer corner of its foot, which stands where a plumb
// post's would. Its front and rear faces lie along level lines from left to right,
// so that a rail at an end, which stands plumb, meets them in a plain slanting
// cut; its other two faces lie along no level line, and a rail at the front or
// back meets them in a compound one. Rails stand plumb and level: their outer
// faces lie behind the posts' where those are furthest in, at the rail's upper
// edge.

// splayed reports whether the posts lean.
func (f *frameWork) splayed() bool { return f.w.SplayAcross.V > 0 || f.w.SplayAlong.V > 0 }

// side is the way out of the frame at a post's place: 0 is the left, or the rear.
func side(k int) float64 { return float64(2*k - 1) }

// leaningPost makes one post of a frame that splays.
func (b *builder) leaningPost(f *frameWork, role design.Role, k, i int) *piece.Part {
	id := "post, " + postNames[k][i]
	p := &piece.Part{ID: id, Name: id, Role: piece.Post, Stock: role.Stock, Grain: piece.AlongLength, Path: f.w.Path}
	s := stance{out: r3.Vec{Z: side(k)}, in: r3.Vec{X: side(i)}, foot: [3]trace.Num{f.x[i], b.foot, f.z[k]},
		across: f.w.SplayAlong, along: f.w.SplayAcross, height: f.head.Sub(b.foot), thick: f.deep,
		by: []trace.Num{f.x[i], f.z[k], b.foot}}
	more := f.across.V + f.deep.V + 10
	rough := planar.Rect(-more, 0, s.height.V*2+more, f.across.V)
	if !b.sawLevel(p, s, rough, f.w.Path) {
		return nil
	}
	p.Width, p.Length = f.across, longPoints(s, f.across)
	p.BlankLength, p.BlankWidth = p.Length.Add(b.d.Shop.Habits.Oversize.Scale(2)), p.Width
	return b.add(p)
}

// wall is a flat face in the piece: out looks out of the material.
type wall struct{ at, out r3.Vec }

// reach returns how far out along an axis (0 x, 2 z) the wall lies at a place.
func (w wall) reach(axis int, p r3.Vec) float64 {
	d := w.at.Sub(p)
	if axis == 0 {
		return p.X + d.Dot(w.out)/w.out.X
	}
	return p.Z + d.Dot(w.out)/w.out.Z
}

// walls are a leaning post's faces, as it looks from the frame: outer and inner
// front or rear face, outer and inner left or right one.
func walls(p *piece.Part) (outer, inner, edge, inside wall) {
	a := wall{p.Pose.At(r3.Vec{Z: p.Thick.V}), p.Pose.Z}
	bb := wall{p.Pose.O, p.Pose.Z.Mul(-1)}
	if p.Show == piece.FaceB {
		a, bb = bb, a
	}
	return a, bb, wall{p.Pose.O, p.Pose.Y.Mul(-1)}, wall{p.Pose.At(r3.Vec{Y: p.Width.V}), p.Pose.Y}
}

// leaningRail makes a rail between leaning posts, or the two at the ends.
func (b *builder) leaningRail(f *frameWork, w *design.FrameRail) {
	y := f.head.Sub(w.Height)
	if strings.HasPrefix(w.Where, "bottom") {
		y = b.foot.Add(w.Up)
	}
	id := "rail, " + w.Where
	if !strings.HasSuffix(w.Where, "ends") {
		k := 0
		if strings.HasSuffix(w.Where, "front") {
			k = 1
		}
		b.between(f, w, id, y, [2]*piece.Part{f.posts[k][0], f.posts[k][1]}, 2, side(k))
		return
	}
	for i, name := range []string{"left", "right"} {
		b.between(f, w, strings.TrimSuffix(id, "ends")+name+" end", y, [2]*piece.Part{f.posts[1][i], f.posts[0][i]}, 0, side(i))
	}
}

// between stands a plumb rail between two posts, its outer face towards sign along
// an axis of the piece. Its length runs from the first post to the second.
func (b *builder) between(f *frameWork, w *design.FrameRail, id string, y trace.Num, posts [2]*piece.Part, axis int, sign float64) {
	role := b.pick(w.Role, "rails", "posts")
	t, low, high := b.thick(role), y.V, y.V+w.Height.V
	var ends [2]wall
	most, least := math.Inf(1), math.Inf(-1) // of the outer and the inner faces, outwards
	for n, p := range posts {
		outer, inner, edge, inside := walls(p)
		back := inner // of the post, as the rail sees it
		ends[n] = inside
		if axis == 0 {
			outer, back, ends[n] = edge, inside, inner
		}
		for _, h := range []float64{low, high} {
			for _, c := range contactCorners(ends[n], outer, back, axis, h) {
				most = math.Min(most, sign*outer.reach(axis, c))
				least = math.Max(least, sign*back.reach(axis, c))
			}
		}
	}
	face := most - w.SetBack.V
	if face-t.V < least-1e-6 || high > f.head.V+1e-6 || low < b.foot.V {
		b.errorAt(w.Path, "no-room", "the rail does not meet its posts",
			fmt.Sprintf("Over its height the leaning posts have %.1f mm in common; it is %.1f mm thick and set back %.1f mm. Make it lower, thinner, or the splay less.", most-least, t.V, w.SetBack.V))
		return
	}
	p := &piece.Part{ID: id, Name: id, Role: piece.Rail, Stock: role.Stock, Thick: t, Grain: piece.AlongLength, Path: w.Path}
	at := sign * face // of the outer face
	pose := r3.Pose{O: r3.Vec{Y: low}, X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
	back := at
	if sign > 0 { // the A face looks to the right, or to the front
		back -= t.V
	}
	if axis == 0 {
		pose.X, pose.Z = r3.Vec{Z: -1}, r3.Vec{X: 1}
		pose.O.X = back
	} else {
		pose.O.Z = back
	}
	b.sawBetween(f, w, p, pose, ends, y)
	for n, q := range posts {
		enter := pose.X.Mul(float64(2*n - 1))
		b.pegged(f, p, q, enter)
		j := &b.out.Joints[len(b.out.Joints)-1]
		if area, ok := b.sharedFace(p, q); ok {
			j.Area = trace.Step(area, p.Thick, p.Width)
		}
	}
}

// contactCorners are places where a rail meets a post at a height: on the post's
// end face, at its outer and its back edge.
func contactCorners(end, outer, back wall, axis int, h float64) []r3.Vec {
	var out []r3.Vec
	for _, w := range []wall{outer, back} {
		p := r3.Vec{Y: h}
		for range 20 { // two planes and a height: they settle at once, as they are nearly square
			if axis == 0 {
				p.X = w.reach(0, p)
				p.Z = end.reach(2, p)
			} else {
				p.Z = w.reach(2, p)
				p.X = end.reach(0, p)
			}
		}
		out = append(out, p)
	}
	return out
}

// sawBetween gives a rail its ends against two posts' faces, and its sizes.
func (b *builder) sawBetween(f *frameWork, w *design.FrameRail, p *piece.Part, pose r3.Pose, ends [2]wall, y trace.Num) {
	x0 := pose.Local(ends[0].at).X
	x1 := pose.Local(ends[1].at).X
	more := f.head.V + p.Thick.V // more than any lean takes
	p.Pose = pose
	p.Rough = planar.Rect(math.Min(x0, x1)-more, 0, math.Max(x0, x1)+more, w.Height.V)
	by := []trace.Num{f.x[0], f.x[1], f.z[0], f.z[1], f.w.SplayAcross, f.w.SplayAlong, w.Height, y, f.across, f.deep}
	for n, name := range []string{"datum end", "far end"} {
		v := piece.BevelOf(name, pose, ends[n].at, ends[n].out.Mul(-1))
		v.Tilt, v.Mitre = trace.Step(v.Tilt.V, by...), trace.Step(v.Mitre.V, by...)
		p.Bevels = append(p.Bevels, v)
	}
	seen, err := piece.Seen(p)
	if err != nil || len(seen) != 1 {
		b.errorAt(w.Path, "no-room", "the rail has no room between its posts", "They lean too far.")
		return
	}
	box := seen.Box()
	shift := box.Min.Mul(-1)
	p.Outline, p.Rough = seen.Moved(shift), p.Rough.Moved(shift)
	p.Pose.O = pose.At(r3.Vec{X: box.Min.X, Y: box.Min.Y})
	for n := range p.Bevels {
		v := &p.Bevels[n]
		v.D += r2.Vec{X: v.N.X, Y: v.N.Y}.Dot(shift)
	}
	p.Origin = [3]trace.Num{trace.Step(p.Pose.O.X, by...), y, trace.Step(p.Pose.O.Z, by...)}
	p.Length, p.Width = trace.Step(box.Size().X, by...), w.Height
	p.BlankLength, p.BlankWidth, p.Show = p.Length.Add(b.d.Shop.Habits.Oversize.Scale(2)), p.Width, piece.FaceA
	p.NameA, p.NameB = faceNames(p.Pose)
	p.Notes = append(p.Notes, say.F("Its length is told between the long points of its ends, which are sawn to the leaning posts."))
	b.add(p)
}

// plainSplay refuses what is not built between leaning posts.
func (b *builder) plainSplay(f *frameWork) {
	if f.w.Joint == "lap" {
		b.errorAt(f.w.Path+".joint", "not-yet", "rails are not lapped to leaning posts yet", "Write joint: dowel, or loose tenon.")
	}
	if b.d.Back != nil || len(b.d.Shelves) > 0 {
		b.errorAt(f.w.Path+".splay", "not-yet", "a frame that splays has no back and no shelves yet", "Place them as free parts.")
	}
}

// sharedFace is the area on which two parts lie on each other.
func (b *builder) sharedFace(p, q *piece.Part) (float64, bool) {
	mine, err := piece.Solid(p, 0)
	theirs, err2 := piece.Solid(q, 0)
	if err != nil || err2 != nil {
		return 0, false
	}
	area, _, err := solid.Contact(mine, theirs, touch)
	return area, err == nil
}

// countPegs books the dowels or tenons of a joint with a part whose ends are sawn
// obliquely: they are bored square to the sawn end, and no cut of a part can say
// so yet.
func (b *builder) countPegs(j *piece.Joint, kind string, p *piece.Part) {
	if kind == screw {
		return
	}
	n := 1
	if kind == dowel {
		n = int(max(2, p.Width.V/35))
	}
	b.out.Fittings = append(b.out.Fittings, piece.Fitting{What: kind, Kind: kind, Count: n, On: p.ID, Path: p.Path})
}
