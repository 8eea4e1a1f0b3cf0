package compile

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// leg is a straight stretch of a member without a seam in it, between u0 and u1
// of the member.
type leg struct {
	index  int // of the member
	u0, u1 trace.Num
	joined bool // it goes on from the leg before it, round a bend
	part   *piece.Part
	along  func(c trace.Num) trace.Num
}

// legAt returns the stretch of member i that coordinate c lies on.
func (b *builder) legAt(i int, c trace.Num) *leg {
	m := b.members[i]
	if m == nil {
		return nil
	}
	u := b.u(i, c).V
	for _, l := range m.legs {
		if u <= l.u1.V {
			return l
		}
	}
	return m.legs[len(m.legs)-1]
}

// shellParts are the parts of the members, in their order.
func (b *builder) shellParts() []*piece.Part {
	var out []*piece.Part
	for i := range b.members {
		out = append(out, b.memberParts(i)...)
	}
	return uniq(out)
}

// memberParts are the parts that member i is made of, none where it is absent.
func (b *builder) memberParts(i int) []*piece.Part {
	var out []*piece.Part
	if m := b.members[i]; m != nil {
		for _, l := range m.legs {
			out = append(out, l.part)
		}
	}
	return uniq(out)
}

func uniq(ps []*piece.Part) []*piece.Part {
	var out []*piece.Part
	seen := map[*piece.Part]bool{}
	for _, p := range ps {
		if p != nil && !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	return out
}

// seamX is a seam's place from the left of the piece.
func (b *builder) seamX(s *design.Seam) trace.Num {
	if s.From == "right" {
		return b.width.Sub(s.Place)
	}
	return s.Place
}

// cutLegs parts the members at the seams.
func (b *builder) cutLegs() bool {
	for i, m := range b.members {
		if m == nil {
			continue
		}
		m.legs = []*leg{{index: i, u0: m.from, u1: m.to, joined: b.corner(i).Bent && !b.absent(i+3)}}
	}
	for n := range b.d.Body.Seams {
		s := &b.d.Body.Seams[n]
		i := map[string]int{"bottom": bottom, "top": top}[s.On]
		m := b.members[i]
		if m == nil || !b.corner(i).Bent && !b.corner(i+1).Bent || len(m.legs) > 1 {
			b.errorAt(s.Path, "seam-misplaced", "no seam can lie there", "A seam parts the bottom or the top of a shell that bends at both ends of it, once.")
			return false
		}
		u := b.u(i, b.seamX(s))
		if u.V <= m.from.V || u.V >= m.to.V || !b.corner(i).Bent || !b.corner(i+1).Bent {
			b.errorAt(s.Path, "seam-misplaced", "the seam does not lie between two bends",
				fmt.Sprintf("The %s is straight from %.1f to %.1f mm.", s.On, m.from.V, m.to.V))
			return false
		}
		m.legs = []*leg{{index: i, u0: m.from, u1: u, joined: m.legs[0].joined}, {index: i, u0: u, u1: m.to}}
	}
	return true
}

// runs groups the legs into strips: rows that go on round bent corners, each in
// clockwise order. It returns nil where there is no end to begin from.
func (b *builder) runs() [][]*leg {
	if !b.cutLegs() {
		return nil
	}
	var all []*leg
	for _, m := range b.members {
		if m != nil {
			all = append(all, m.legs...)
		}
	}
	start := -1
	for k, l := range all {
		if !l.joined {
			start = k
			break
		}
	}
	if start < 0 {
		return nil
	}
	var runs [][]*leg
	for k := range all {
		l := all[(start+k)%len(all)]
		if l.joined {
			runs[len(runs)-1] = append(runs[len(runs)-1], l)
		} else {
			runs = append(runs, []*leg{l})
		}
	}
	return runs
}

// strips counts the runs that bend.
func (b *builder) strips(runs [][]*leg) int {
	n := 0
	for _, r := range runs {
		if len(r) > 1 {
			n++
		}
	}
	return n
}

// strip makes a run of legs that meet at bent corners one part. The only strip
// is called 'shell'.
func (b *builder) strip(run []*leg, only bool) {
	role := b.role("shell")
	over := b.d.Shop.Habits.Oversize
	var names []string
	for _, l := range run {
		if n := memberNames[l.index]; len(names) == 0 || names[len(names)-1] != n {
			names = append(names, n)
		}
	}
	p := &piece.Part{ID: "shell", Role: piece.Strip, Stock: role.Stock, Thick: b.thick(role),
		Name: "shell: " + strings.Join(names, " and "), Width: b.front.Sub(b.rear), Grain: b.stripGrain(),
		NameA: "show face, outside", NameB: b.insideFace(), Show: piece.FaceA, Path: "body",
		Pose: r3.Identity()}
	if !only {
		p.ID = "shell from " + memberNames[run[0].index]
	}
	x := trace.Num{}
	at, dir := b.startOf(run[0])
	for k, l := range run {
		m := b.members[l.index]
		start := x
		l.part = p
		l.along = func(c trace.Num) trace.Num { return start.Add(b.u(l.index, c).Sub(l.u0)) }
		m.face = piece.FaceB
		if l == m.legs[0] {
			m.part, m.along = p, l.along
		}
		flat := l.u1.Sub(l.u0)
		p.Run = append(p.Run, piece.Stretch{X0: x.V, X1: x.Add(flat).V, From: at, Dir: dir})
		at, x = at.Add(dir.Mul(flat.V)), x.Add(flat)
		if k == len(run)-1 {
			break
		}
		bend := b.bend((l.index+1)%4, x)
		p.Bends = append(p.Bends, bend)
		p.Run = append(p.Run, piece.Stretch{X0: x.V, X1: x.Add(bend.Length).V, From: at, Dir: dir, Radius: bend.Radius.V, Angle: bend.Angle.V})
		centre := at.Sub(dir.Left().Mul(bend.Radius.V))
		at, dir = centre.Add(at.Sub(centre).Turn(-bend.Angle.V)), dir.Turn(-bend.Angle.V)
		x = x.Add(bend.Length)
	}
	p.Length = x
	p.BlankLength, p.BlankWidth = p.Length.Add(over.Scale(2)), p.Width
	p.Origin = [3]trace.Num{{}, {}, b.front}
	p.Outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	b.add(p)
	p.Pose = r3.Identity()
}

// startOf returns the place of a leg's outer face where its wood starts, and
// the direction in which it runs.
func (b *builder) startOf(l *leg) (r2.Vec, r2.Vec) {
	f, h := b.foot.V, b.foot.Add(b.height).V
	u := l.u0.V
	switch l.index {
	case left:
		return r2.Vec{X: 0, Y: f + u}, r2.Vec{Y: 1}
	case top:
		return r2.Vec{X: u, Y: h}, r2.Vec{X: 1}
	case right:
		return r2.Vec{X: b.width.V, Y: h - u}, r2.Vec{Y: -1}
	}
	return r2.Vec{X: b.width.V - u, Y: f}, r2.Vec{X: -1}
}

// seams joins the strips' ends where they meet.
func (b *builder) seams() {
	for n := range b.d.Body.Seams {
		s := &b.d.Body.Seams[n]
		m := b.members[map[string]int{"bottom": bottom, "top": top}[s.On]]
		if m == nil || len(m.legs) != 2 {
			continue
		}
		before, after := m.legs[0], m.legs[1] // clockwise: on the bottom 'before' lies to the right
		if s.Joint == "loose tongue" {
			b.tongue(s, before, after)
			continue
		}
		note := say.F("Its end meets the next in a plain butt at the seam on the {}, {} from the {}.", s.On, say.LenN(s.Place, 1), s.From)
		before.part.Notes = append(before.part.Notes, note)
		if before.part == after.part {
			continue
		}
		after.part.Notes = append(after.part.Notes, note)
		dir := map[string]float64{"bottom": 1, "top": -1}[s.On]
		b.join(piece.Joint{Kind: "butt", A: before.part.ID, B: after.part.ID, Enter: r3.Vec{X: dir}, Glued: true,
			Area: b.inner[0].Mul(b.front.Sub(b.rear)), Path: s.Path})
	}
}

// tongue lets a loose strip into both ends at a seam, in the middle of their
// thickness, clear of the front edge and of the back.
func (b *builder) tongue(s *design.Seam, before, after *leg) {
	role := b.role("tongues", "back")
	t, deep := b.thick(role), b.constant("rule.tongue reach", 10, "a loose tongue reaches 10 mm into each end: common practice, no source")
	shell := b.inner[0]
	if t.V > shell.V/2 {
		b.errorAt(s.Path, "tongue-thick", "the tongue is too thick for the shell",
			fmt.Sprintf("It is %.1f mm thick, the shell %.1f mm: a tongue takes a third to a half of it. Give the role 'tongues' a thinner stock.", t.V, shell.V))
		return
	}
	fit, clear := b.fit("shell", "tongue")
	play := b.constant("rule.tongue play", 0.5, "a tongue ends 0.5 mm before the floor of its grooves: common practice, no source")
	z0 := shell.Sub(t).Sub(clear).Scale(0.5)
	z1 := z0.Add(t).Add(clear)
	width := before.part.Width
	y0, y1 := b.stopShort(), width.Sub(b.stopShort())
	if b.backThick.V > 0 && b.d.Back.Set == "rabbet" && y1.V > width.V-b.backThick.V-2 {
		y1 = width.Sub(b.backThick).Plus(-2)
	}
	id := "tongue"
	if len(b.d.Body.Seams) > 1 {
		id = "tongue, " + s.On
	}
	x := b.seamX(s)
	p := &piece.Part{ID: id, Name: "loose tongue at the " + s.On + "'s seam", Role: piece.Tongue, Stock: role.Stock, Thick: t,
		Length: y1.Sub(y0), Width: deep.Sub(play).Scale(2), Grain: piece.AlongWidth, Path: s.Path,
		Pose: r3.Pose{X: r3.Vec{Z: -1}, Y: r3.Vec{X: 1}, Z: r3.Vec{Y: -1}}, NameA: "underside", NameB: "upper face"}
	middle := b.foot.Add(shell.Scale(0.5))
	if s.On == "top" {
		middle = b.foot.Add(b.height).Sub(shell.Scale(0.5))
	}
	p.Origin = [3]trace.Num{x.Sub(p.Width.Scale(0.5)), middle.Add(t.Scale(0.5)), b.front.Sub(y0)}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	b.add(p)
	end := before.part.Length
	groove := func(part *piece.Part, x0, x1 trace.Num, dir float64) {
		cut(part, piece.Cut{Kind: piece.EndGroove, Face: piece.FaceB, X0: x0, X1: x1, Y0: y0, Y1: y1, Z0: z0, Z1: z1, Depth: deep, For: id})
		b.join(piece.Joint{Kind: "loose tongue", A: part.ID, B: p.ID, Enter: r3.Vec{X: dir}, Depth: deep, Fit: fit, Clearance: clear, Glued: true,
			Area: deep.Scale(2).Mul(p.Length), Path: s.Path})
	}
	dir := map[string]float64{"bottom": 1, "top": -1}[s.On]
	groove(before.part, end.Sub(deep), end, dir)
	groove(after.part, trace.Num{}, deep, -dir)
}

// clearOfSeams says so where a housing would lie over a seam.
func (b *builder) clearOfSeams(on string, c0, c1 trace.Num, path string) {
	for n := range b.d.Body.Seams {
		s := &b.d.Body.Seams[n]
		if x := b.seamX(s).V; s.On == on && x > c0.V-12 && x < c1.V+12 {
			b.errorAt(s.Path, "seam-in-housing", "a divider would stand on the seam",
				fmt.Sprintf("It stands from %.1f to %.1f mm from the left; set the seam 12 mm or more clear of it.", c0.V, c1.V))
		}
	}
}
