package design

import (
	"fmt"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

func (p *pieceReader) brief() {
	r := p.root.sub("brief")
	if r == nil {
		return
	}
	b := &p.out.Brief
	if q := r.sub("place"); q != nil {
		b.Place = Place{Width: q.maybe("width"), Height: q.maybe("height"), Depth: q.maybe("depth"), Floor: q.word("floor"), Wall: q.word("wall"), At: q.at}
		if s := q.sub("skirting"); s != nil {
			b.Place.SkirtingHigh, b.Place.SkirtingDeep = s.maybe("height"), s.maybe("depth")
		}
	}
	if n, ok := r.sub("people").num("youngest"); ok {
		years := n.Scale(1 / units.SecondsPerYear)
		b.Youngest = &years
	}
	p.air(r.sub("air"))
	for _, t := range r.lists["holds"] {
		b.Holds = append(b.Holds, Thing{What: t.word("what"), Count: t.whole("count"), Height: t.must("height"), Depth: t.must("depth"),
			Thickness: t.must("thickness"), Mass: t.must("mass"), At: t.at, Path: t.path})
	}
}

func (p *pieceReader) body() {
	r := p.root.sub("body")
	if r == nil || r.obj != bodyObject {
		r = p.d.silent(bodyObject, "body")
	}
	b := &p.out.Body
	b.Kind = BodyKind(r.word("kind"))
	b.Width, b.Height, b.Depth, b.At = r.must("width"), r.must("height"), r.must("depth"), r.at
	if b.Kind == BentShell && r.wordOr("bends in") == "plan" || p.meantInPlan(r) {
		p.planBody(r)
		return
	}
	if b.Kind == Frame || b.Kind == Loose {
		p.openBody(r)
		return
	}
	if b.Kind == BentShell || b.Kind == Box { // of a kind that is none it was told already
		p.notHere(r, "a body of this kind has none", "top", "window", "frame")
	}
	p.notHere(r.sub("corners"), "front corners bend in plan", FrontLeft, FrontRight)
	b.Corners = map[string]Corner{}
	cr := r.sub("corners")
	bent := 0
	for _, name := range CornerNames {
		q := cr.sub(name)
		written := q != nil
		if !written {
			q = p.d.silent(cornerObject, "body.corners."+name)
		}
		c := p.corner(q, name, written)
		if c.Bent || q.vals["radius"] != nil {
			bent++
		}
		b.Corners[name] = c
	}
	if b.Kind == BentShell && bent == 0 && !p.d.complained("body.corners") {
		at := r.at
		if cr != nil {
			at = cr.at
		}
		p.d.add(diag.Diagnostic{Code: "no-bend", At: at, Path: "body.corners", Summary: "A bent shell without a bent corner",
			Detail: "Give one corner a radius, or write 'kind: box'.", Expected: "a corner with a radius, such as top left: {radius: 140}"})
	}
	b.Open = p.open(r)
	p.closedLoop(r, bent)
	p.radii()
	p.bend(r, bent)
}

// complained reports whether a remark about the path, or about something in it,
// was made already.
func (d *decoder) complained(path string) bool {
	for _, x := range d.out {
		if x.Path == path || len(x.Path) > len(path) && x.Path[:len(path)] == path && x.Path[len(path)] == '.' {
			return true
		}
	}
	for _, h := range d.held {
		if len(h.d.Path) > len(path) && h.d.Path[:len(path)] == path {
			return true
		}
	}
	return false
}

// corner reads one corner: bent or square.
func (p *pieceReader) corner(r *rec, name string, written bool) Corner {
	c := Corner{At: r.at, Path: r.path}
	radius, square := r.vals["radius"] != nil, r.vals["square"] != nil
	switch {
	case radius && (square || r.vals["runs through"] != nil):
		p.d.add(diag.Diagnostic{Code: "either-or", At: r.at, Path: r.path, Summary: "A corner is bent or square",
			Detail: "It has both a radius and a joint.", Expected: "{radius: …} or {square: …, runs through: …}"})
	case radius && p.out.Body.Kind == Box:
		p.d.add(diag.Diagnostic{Code: "no-bend", At: r.where("radius"), Path: join(r.path, "radius"), Summary: "A box has no bent corner",
			Detail: "Write 'kind: bent shell' for a body with a bent corner.", Expected: "{square: …, runs through: …}"})
	case radius:
		n, ok := r.num("radius")
		c.Bent, c.Radius = ok, n
		return c
	case written && !square && r.vals["runs through"] == nil && !p.d.complained(r.path):
		p.d.add(diag.Diagnostic{Code: "missing-key", At: r.at, Path: r.path, Summary: "The corner says neither 'radius' nor 'square'",
			Detail: cornerObject.doc, Expected: "{radius: …} or {square: …, runs through: …}"})
	}
	c.Joint = r.wordOr("square")
	c.Through = r.wordOr("runs through")
	own := "top"
	if name == BottomLeft || name == BottomRight {
		own = "bottom"
	}
	if c.Through != "" && c.Through != "side" && c.Through != own {
		x := diag.Diagnostic{Code: "unknown-word", At: r.where("runs through"), Path: join(r.path, "runs through"),
			Summary: fmt.Sprintf("The %s does not reach the %s corner", c.Through, name), Expected: "one of: " + own + ", side", Nearest: own}
		x.Mend = &diag.Edit{At: x.At, New: own}
		p.d.add(x)
	}
	return c
}

// radii checks that the bends have room between them, and outside of the
// shell's own thickness.
func (p *pieceReader) radii() {
	b := &p.out.Body
	var t trace.Num
	if s := p.out.Roles["shell"].Stock; s != nil {
		t = s.Thickness.Mean
	}
	for _, name := range CornerNames {
		c := b.Corners[name]
		if c.Bent && t.V > 0 && c.Radius.V <= t.V+5 {
			p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: placeOf(p.d.places, c.Path+".radius"), Path: c.Path + ".radius", Summary: "The bend is as tight as the panel is thick",
				Detail: "The radius is that of the outside.", Expected: fmt.Sprintf("more than %s", printed(t.V+5, units.Length))})
		}
	}
	for _, e := range []struct {
		a, b string
		room trace.Num
		what string
	}{
		{TopLeft, TopRight, b.Width, "width"}, {BottomLeft, BottomRight, b.Width, "width"},
		{BottomLeft, TopLeft, b.Height, "height"}, {BottomRight, TopRight, b.Height, "height"},
	} {
		ca, cb := b.Corners[e.a], b.Corners[e.b]
		if sum := ca.Radius.V + cb.Radius.V; sum > 0 && e.room.V > 0 && sum > e.room.V {
			c := ca
			if !ca.Bent || cb.Bent && cb.Radius.V > ca.Radius.V {
				c = cb
			}
			p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: placeOf(p.d.places, c.Path+".radius"), Path: c.Path + ".radius", Summary: "The bend has no room",
				Detail:   fmt.Sprintf("The body's %s is %s.", e.what, printed(e.room.V, units.Length)),
				Expected: fmt.Sprintf("bends of %s together at most", printed(e.room.V, units.Length))})
		}
	}
}

// saw finds the saw that cuts kerfs: named here, by the shop's habit, or the
// first of the shop.
func (p *pieceReader) saw(r *rec) *Saw {
	name := ""
	switch _, habit := p.d.habits["kerf saw"]; {
	case r.vals["saw"] != nil:
		name = r.word("saw")
		if name == "" || p.unreadShop() || !p.saws.refer(name, r.where("saw"), join(r.path, "saw"), "The shop file lists its saws under 'saws'.") {
			return nil
		}
	case habit:
		name = r.wordOr("saw") // whether there is such a saw was asked when the shop was read
	case len(p.shop.Saws) > 0:
		name = p.shop.Saws[0].Name
		p.d.led.Var(0, trace.Input{Kind: trace.Rule, Path: join(r.path, "saw"), Text: name + ": the first saw of the shop, where neither the file nor a habit names one", At: r.at})
	default:
		if !p.unreadShop() && !p.sd.gone("saws") {
			p.d.add(diag.Diagnostic{Code: "missing-key", At: r.at, Path: "body.bend.saw", Summary: "The shop has no saw for the kerfs", Detail: "Describe one in the shop file under 'saws'.", Expected: "a saw"})
		}
		return nil
	}
	for _, s := range p.shop.Saws {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// inside reads bays and levels, and gives their names to shelves and fronts.
func (p *pieceReader) inside() {
	r := p.root.sub("inside")
	if r == nil {
		r = p.d.silent(insideObject, "inside")
	}
	p.out.Uprights = r.wordOr("uprights")
	bays := r.lists["bays"]
	if len(bays) == 0 {
		p.d.led.Var(0, trace.Input{Kind: trace.Rule, Path: "inside.bays", Text: "one bay called 'inside', where the file names none", At: r.at})
		p.out.Bays = []Bay{{Name: "inside", Kind: Rest, At: r.at, Path: "inside"}}
		p.spaces.define("inside", diag.Range{})
		return
	}
	for _, q := range bays {
		b := Bay{Name: q.word("name"), At: q.at, Path: q.path}
		b.Kind, b.Width = p.extent(q, "width")
		levels := q.lists["levels"]
		p.space(q, len(levels) > 0)
		for _, l := range levels {
			v := Level{Name: l.word("name"), At: l.at, Path: l.path}
			v.Kind, v.Height = p.extent(l, "height")
			v.Follow = l.word("follow") == "shell"
			p.space(l, false)
			b.Levels = append(b.Levels, v)
		}
		p.out.Bays = append(p.out.Bays, b)
	}
}

// space defines a bay's or level's name, which must be its own. A bay that is
// divided into levels need not be used by name, and is not blamed for that.
func (p *pieceReader) space(r *rec, divided bool) {
	name := r.word("name")
	if name == "" {
		return
	}
	for _, t := range p.spaces.defs {
		if t.name == name {
			p.d.add(diag.Diagnostic{Code: "duplicate-name", At: r.where("name"), Path: join(r.path, "name"), Summary: fmt.Sprintf("Two spaces are called '%s'", clip(name)),
				Detail: fmt.Sprintf("Line %d has the first.", t.at.Start.Line), Expected: "a name of its own"})
			return
		}
	}
	p.spaces.define(name, r.where("name"))
	if divided {
		p.spaces.use(name)
	}
}

// extent reads a bay's width or a level's height.
func (p *pieceReader) extent(r *rec, key string) (WidthKind, trace.Num) {
	switch {
	case r.said(key, "equal"):
		return Equal, trace.Num{}
	case r.said(key, "rest"):
		return Rest, trace.Num{}
	case r.vals[key] != nil:
		return Given, r.must(key)
	}
	return WidthKind(r.wordOr(key)), trace.Num{}
}
