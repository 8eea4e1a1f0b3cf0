package compile

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// frameWork is a body of four posts and the rails between them.
type frameWork struct {
	w            *design.Frames
	x, z         [2]trace.Num // outer faces of the posts: left and right, rear and front
	across, deep trace.Num    // section of a post
	head         trace.Num    // y of the posts' heads
	posts        [2][2]*piece.Part
}

var postNames = [2][2]string{{"rear left", "rear right"}, {"front left", "front right"}}

// frames builds posts, rails and top.
func (b *builder) frames(w *design.Frames) {
	post := b.pick(w.Posts, "posts")
	if post.Stock == nil {
		b.errorAt(w.Path, "no-stock", "no stock for the posts", "Name one under the role 'posts'.")
		return
	}
	f := &frameWork{w: w, x: [2]trace.Num{{}, b.width}, z: [2]trace.Num{b.rear, b.front}, across: w.Across, deep: b.thick(post), head: b.foot.Add(b.height)}
	if w.Top != nil {
		o := w.Top.Over
		f.x = [2]trace.Num{o, b.width.Sub(o)}
		f.z = [2]trace.Num{b.rear.Add(o), b.front.Sub(o)}
		f.head = f.head.Sub(b.thick(b.pick(w.Top.Role, "panels")))
	}
	if f.x[1].V-f.x[0].V < 3*f.across.V || f.z[1].V-f.z[0].V < 3*f.deep.V || f.head.V-b.foot.V < 100 {
		b.errorAt(w.Path, "no-room", "the frame has no room for its posts",
			fmt.Sprintf("Between their outer faces it is %.0f × %.0f mm.", f.x[1].V-f.x[0].V, f.z[1].V-f.z[0].V))
		return
	}
	for k := range 2 {
		for i := range 2 {
			if f.splayed() {
				f.posts[k][i] = b.leaningPost(f, post, k, i)
			} else {
				f.posts[k][i] = b.post(f, post, k, i)
			}
		}
	}
	if b.diags.HasErrors() {
		return
	}
	for i := range w.Rails {
		b.frameRail(f, &w.Rails[i])
	}
	if b.diags.HasErrors() {
		return
	}
	b.frameTop(f)
	if f.splayed() {
		b.plainSplay(f)
		return
	}
	b.frameBack(f)
	b.frameShelves(f)
}

// post makes one post: k 0 at the rear, i 0 at the left.
func (b *builder) post(f *frameWork, role design.Role, k, i int) *piece.Part {
	id := "post, " + postNames[k][i]
	p := &piece.Part{ID: id, Name: id, Role: piece.Post, Stock: role.Stock, Thick: f.deep, Length: f.head.Sub(b.foot), Width: f.across,
		Grain: piece.AlongLength, Pose: standing3, Path: f.w.Path, Show: piece.FaceA, NameA: "front face", NameB: "rear face"}
	right := f.x[0].Add(f.across)
	if i == 1 {
		right = f.x[1]
	}
	rear := f.z[0]
	if k == 1 {
		rear = f.z[1].Sub(f.deep)
	}
	p.Origin = [3]trace.Num{right, b.foot, rear}
	p.BlankLength, p.BlankWidth = p.Length.Add(b.d.Shop.Habits.Oversize.Scale(2)), p.Width
	return b.add(p)
}

// frameRail makes a rail, or the two at the ends.
func (b *builder) frameRail(f *frameWork, w *design.FrameRail) {
	if f.splayed() {
		b.leaningRail(f, w)
		return
	}
	role := b.pick(w.Role, "rails", "posts")
	t := b.thick(role)
	y := f.head.Sub(w.Height)
	if strings.HasPrefix(w.Where, "bottom") {
		y = b.foot.Add(w.Up)
	}
	ends := strings.HasSuffix(w.Where, "ends")
	room := f.deep
	if ends {
		room = f.across
	}
	lapped := f.w.Joint == "lap" && !ends
	if !lapped && w.SetBack.V+t.V > room.V+1e-6 || y.V+w.Height.V > f.head.V+1e-6 || y.V < b.foot.V {
		b.errorAt(w.Path, "no-room", "the rail does not meet its posts",
			fmt.Sprintf("It is %.1f mm thick and set back %.1f mm before posts of %.1f mm, and runs from %.0f to %.0f mm over the floor.",
				t.V, w.SetBack.V, room.V, y.V, y.V+w.Height.V))
		return
	}
	plank := func(id string, pose r3.Pose, length trace.Num, origin [3]trace.Num) *piece.Part {
		p := &piece.Part{ID: id, Name: id, Role: piece.Rail, Stock: role.Stock, Thick: t, Length: length, Width: w.Height, Grain: piece.AlongLength,
			Pose: pose, Origin: origin, Path: w.Path, Show: piece.FaceA, BlankLength: length, BlankWidth: w.Height}
		p.NameA, p.NameB = faceNames(pose)
		return b.add(p)
	}
	id := "rail, " + w.Where
	if !ends {
		k, z := 0, f.z[0].Add(w.SetBack)
		if strings.HasSuffix(w.Where, "front") {
			k, z = 1, f.z[1].Sub(w.SetBack).Sub(t)
		}
		x0, x1 := f.x[0].Add(f.across), f.x[1].Sub(f.across)
		if f.w.Joint == "lap" {
			z := f.z[0]
			if k == 1 {
				z = f.z[1].Sub(t)
			}
			p := plank(id, facing3, f.x[1].Sub(f.x[0]), [3]trace.Num{f.x[0], y, z})
			b.lapRail(f, w, p, k)
			return
		}
		p := plank(id, facing3, x1.Sub(x0), [3]trace.Num{x0, y, z})
		b.pegged(f, p, f.posts[k][0], r3.Vec{X: -1})
		b.pegged(f, p, f.posts[k][1], r3.Vec{X: 1})
		return
	}
	z0, z1 := f.z[0].Add(f.deep), f.z[1].Sub(f.deep)
	for i, side := range []string{"left", "right"} {
		x := f.x[0].Add(w.SetBack)
		if i == 1 {
			x = f.x[1].Sub(w.SetBack).Sub(t)
		}
		p := plank(strings.TrimSuffix(id, "ends")+side+" end", turned["upright"], z1.Sub(z0), [3]trace.Num{x, y, z1})
		b.pegged(f, p, f.posts[0][i], r3.Vec{Z: -1})
		b.pegged(f, p, f.posts[1][i], r3.Vec{Z: 1})
	}
}

// pegged joins a rail's end to a post by dowels or loose tenons. Where the frame
// is lapped the rails that do not lie in the plane of their posts are dowelled.
func (b *builder) pegged(f *frameWork, rail, post *piece.Part, enter r3.Vec) {
	kind := f.w.Joint
	if kind == "lap" {
		kind = dowel
	}
	b.join(piece.Joint{Kind: kind, A: post.ID, B: rail.ID, Enter: enter, Glued: true, Area: rail.Thick.Mul(rail.Width), Path: rail.Path})
}

// frameTop lays the panel on posts and rails.
func (b *builder) frameTop(f *frameWork) {
	w := f.w.Top
	if w == nil {
		return
	}
	role := b.pick(w.Role, "panels")
	p := &piece.Part{ID: "top", Name: "top", Role: piece.Top, Stock: role.Stock, Thick: b.thick(role), Length: b.width, Width: b.front,
		Grain: piece.AlongLength, Pose: horizontal3, Path: w.Path, Show: piece.FaceA, NameA: "upper face", NameB: "underside",
		BlankLength: b.width, BlankWidth: b.front}
	p.Origin = [3]trace.Num{{}, f.head, b.front}
	b.add(p)
	for _, q := range b.out.Parts {
		if q.Role == piece.Post && f.lappedHeads() {
			b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Glued: true, Area: q.Thick.Mul(q.Width).Scale(0.5), Path: w.Path})
			continue
		}
		if q.Role == piece.Post && f.splayed() { // sawn aslant: the rails hold the top
			b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Path: w.Path})
			continue
		}
		onHead := q.Role == piece.Post || q.Role == piece.Rail && q.Origin[1].V+q.Width.V > f.head.V-0.01
		if onHead {
			b.join(piece.Joint{Kind: topJoint(w.Joint), A: q.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Path: w.Path})
		}
	}
}

// topJoint is the kind of joint that a frame's top is held by.
func topJoint(word string) string {
	if word == screw {
		return "screwed"
	}
	return word
}
