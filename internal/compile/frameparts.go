package compile

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// lapRail lays a rail over the posts of its side and half laps it to both: rail
// and posts lie in one plane, and each gives half of its thickness.
func (b *builder) lapRail(f *frameWork, w *design.FrameRail, p *piece.Part, k int) {
	post := f.posts[k][0]
	if math.Abs(p.Thick.V-post.Thick.V) > 0.3 {
		b.errorAt(w.Path, "no-lap", "a lap wants posts and rails of one thickness",
			fmt.Sprintf("The posts measure %.1f mm from front to back, the rail %.1f mm.", post.Thick.V, p.Thick.V))
		return
	}
	for _, q := range f.posts[k] { // the rail lies outside, so that the posts are whole within
		if k == 1 {
			b.lap(q, p, w.Path)
		} else {
			b.lap(p, q, w.Path)
		}
	}
}

// lappedHeads reports whether the heads of the posts are half cut away by rails
// that are lapped to them: then the rails carry what lies on the frame.
func (f *frameWork) lappedHeads() bool {
	if f.w.Joint != "lap" {
		return false
	}
	for _, r := range f.w.Rails {
		if r.Where == "top front" || r.Where == "top back" {
			return true
		}
	}
	return false
}

// frameShelves lays shelves on the low rails, notched round the posts.
func (b *builder) frameShelves(f *frameWork) {
	for i := range b.d.Shelves {
		w := &b.d.Shelves[i]
		if i > 0 || w.Count > 1 || w.Pins {
			b.errorAt(w.Path, "not-yet", "a frame has one shelf, fixed on its low rails", "Place further ones under 'parts', on rails of their own.")
			return
		}
		b.frameShelf(f, w)
	}
}

// lowRails are the bottom rails of the frame, and the height of the upper edge
// that the most of them share.
func (b *builder) lowRails(f *frameWork) (rails []*piece.Part, y trace.Num) {
	for _, q := range b.out.Parts {
		if q.Role != piece.Rail || !strings.Contains(q.ID, "bottom") {
			continue
		}
		head := q.Origin[1].Add(q.Width)
		if len(rails) == 0 {
			y = head
		}
		if math.Abs(head.V-y.V) < touch {
			rails = append(rails, q)
		}
	}
	return rails, y
}

func (b *builder) frameShelf(f *frameWork, w *design.Shelf) {
	rails, y := b.lowRails(f)
	if len(rails) < 2 {
		b.errorAt(w.Path, "no-rails", "the shelf has nothing to lie on", "Give the frame bottom rails, at the ends or at the front and the back: a shelf lies on them.")
		return
	}
	if w.FixedAt.V > 0 && math.Abs(w.FixedAt.V-(y.V-b.foot.V)) > 1 {
		b.errorAt(w.Path, "shelf-outside", "the shelf does not lie on the low rails",
			fmt.Sprintf("Their upper edges are %.1f mm up, the shelf's underside is to be %.1f mm up. Write 'fixed at: evenly', or move the rails.", y.V-b.foot.V, w.FixedAt.V))
		return
	}
	role := b.pick(w.Role, "shelves", "panels")
	play := b.constant("rule.shelf round post", 0.5, "a shelf is notched 0.5 mm wide round a post: common practice, no source")
	in := b.frameInset(f)
	x0, x1 := f.x[0].Add(in[0]), f.x[1].Sub(in[0])
	z0, z1 := f.z[0].Add(in[1]), f.z[1].Sub(in[2])
	p := &piece.Part{ID: "shelf", Name: "shelf", Role: piece.Shelf, Stock: role.Stock, Thick: b.thick(role), Length: x1.Sub(x0), Width: z1.Sub(z0),
		Grain: piece.AlongLength, Pose: horizontal3, Path: w.Path, NameA: "upper face", NameB: "underside", Show: piece.FaceA}
	p.Origin = [3]trace.Num{x0, y, z1}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	var ns notches
	for _, c := range []int{frontFoot, frontHead, rearHead, rearFoot} {
		deep := f.deep.Sub(in[2])
		if c == rearHead || c == rearFoot {
			deep = f.deep.Sub(in[1])
		}
		ns[c] = notch{high: f.across.Sub(in[0]).Add(play), deep: deep.Add(play)}
	}
	p.Outline = notched(p.Length, p.Width, ns)
	b.add(p)
	from := len(p.Cuts)
	noteNotches(p, ns)
	for i := from; i < len(p.Cuts); i++ {
		p.Cuts[i].For = "post"
	}
	for _, q := range rails {
		long := trace.Min(q.Length, p.Length)
		b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Glued: true, Area: q.Thick.Mul(long), Path: w.Path})
	}
	b.frameSpace(f, p)
}

// frameInset is how far the outer faces of the rails stand in from those of the
// posts: at the ends, the rear and the front; where there is no rail, as at the
// others.
func (b *builder) frameInset(f *frameWork) [3]trace.Num {
	var in [3]trace.Num
	for _, r := range f.w.Rails {
		if !strings.HasPrefix(r.Where, "bottom") {
			continue
		}
		back := r.SetBack
		if f.w.Joint == "lap" && r.Where != "bottom ends" {
			back = trace.Num{}
		}
		switch r.Where {
		case "bottom ends":
			in[0] = back
		case "bottom back":
			in[1] = back
		case "bottom front":
			in[2] = back
		}
	}
	if b.d.Back != nil && b.d.Back.Set == "rabbet" {
		in[1] = trace.Max(in[1], b.backThick)
	}
	return in
}

// frameSpace is the room over the shelf, under the top.
func (b *builder) frameSpace(f *frameWork, shelf *piece.Part) {
	y0 := shelf.Origin[1].Add(shelf.Thick)
	x0, x1 := f.x[0].Add(f.across), f.x[1].Sub(f.across)
	s := piece.Space{Name: b.d.Bays[0].Name, Min: [3]trace.Num{x0, y0, f.z[0].Add(f.deep)},
		Size:  [3]trace.Num{x1.Sub(x0), f.head.Sub(y0), f.z[1].Sub(f.z[0]).Sub(f.deep.Scale(2))},
		Floor: shelf.ID, Round: map[string]trace.Num{}, Path: shelf.Path}
	for _, q := range b.out.Parts {
		if q.Role != piece.Rail || !strings.Contains(q.ID, "top") { // what hangs down from the head
			continue
		}
		s.Size[1] = trace.Min(s.Size[1], q.Origin[1].Sub(y0))
	}
	if t := b.out.Part("top"); t != nil {
		s.Ceiling = t.ID
	}
	if s.Size[1].V > 20 {
		b.out.Spaces = append(b.out.Spaces, s)
	}
}

// frameBack closes a frame behind: on the rear faces of its posts, or in
// rabbets in them.
func (b *builder) frameBack(f *frameWork) {
	w := b.d.Back
	if w == nil {
		return
	}
	y0, ok := b.backFoot(f, w)
	if !ok {
		return
	}
	role := b.pick(w.Role, "back")
	in, z := trace.Num{}, f.z[0].Sub(b.backThick)
	kind := "on"
	if w.Set == "rabbet" {
		play := b.constant("rule.back play", 0.5, "a back is cut 0.5 mm smaller than its rabbet on each side: common practice, no source")
		kind, in, z = "rabbet", f.across.Sub(w.Depth).Add(play), f.z[0]
	}
	p := &piece.Part{ID: "back", Name: "back", Role: piece.BackPanel, Stock: role.Stock, Thick: b.thick(role),
		Length: f.x[1].Sub(f.x[0]).Sub(in.Scale(2)), Width: f.head.Sub(y0), Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face, inside", NameB: "rear face, to the wall", Show: piece.FaceA, Path: w.Path}
	p.Origin = [3]trace.Num{f.x[0].Add(in), y0, z}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	b.add(p)
	for i, q := range f.posts[0] {
		broad := f.across
		if kind == "rabbet" {
			broad = w.Depth
			c := piece.Cut{Kind: piece.Rabbet, Face: piece.FaceB, X0: y0.Sub(b.foot), X1: q.Length, Y1: w.Depth, Depth: b.backThick, For: "back"}
			if i == 1 {
				c.Y0, c.Y1 = q.Width.Sub(w.Depth), q.Width
			}
			cut(q, c)
		}
		b.join(piece.Joint{Kind: kind, A: q.ID, B: p.ID, Enter: r3.Vec{Z: 1}, Depth: depthOf(kind, b.backThick), Glued: true, Area: p.Width.Mul(broad), Path: w.Path})
	}
}

func depthOf(kind string, d trace.Num) trace.Num {
	if kind == "rabbet" {
		return d
	}
	return trace.Num{}
}

// backFoot is the height at which a frame's back begins: with the lowest rail at
// the back, or with the posts. In a rabbet it must find no rail in its way.
func (b *builder) backFoot(f *frameWork, w *design.Back) (trace.Num, bool) {
	y0 := b.foot
	found := false
	for i := range f.w.Rails {
		r := &f.w.Rails[i]
		if !strings.HasSuffix(r.Where, "back") {
			continue
		}
		if w.Set == "rabbet" && (r.SetBack.V < b.backThick.V-touch || f.w.Joint == "lap") {
			b.errorAt(w.Path, "rail-in-way", "the back would stand in the rail at the "+r.Where,
				fmt.Sprintf("It is %.1f mm thick and lies in the posts' rear faces: set that rail back by as much or more, or write 'back: on'.", b.backThick.V))
			return y0, false
		}
		if strings.HasPrefix(r.Where, "bottom") && !found {
			y0, found = b.foot.Add(r.Up), true
		}
	}
	if w.Set == "rabbet" && w.Depth.V > f.across.V/2 {
		b.errorAt(w.Path, "rabbet-deep", "the rabbet for the back takes more than half of the posts", fmt.Sprintf("It takes %.1f of %.1f mm.", w.Depth.V, f.across.V))
		return y0, false
	}
	return y0, true
}
