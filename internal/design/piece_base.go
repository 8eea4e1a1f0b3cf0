package design

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// open reads the sides that stay open.
func (p *pieceReader) open(r *rec) []string {
	if v := r.strings("open"); len(v) > 0 {
		return v
	}
	if r.vals["open"] == nil {
		p.d.led.Var(0, trace.Input{Kind: trace.Rule, Path: "body.open", Text: "the front is open where the file does not say", At: r.at})
	}
	return []string{"front"}
}

// closedLoop reads the seams, and asks for one where the shell has no end.
func (p *pieceReader) closedLoop(body *rec, bent int) {
	b := &p.out.Body
	for _, r := range body.lists["seams"] {
		s := Seam{On: r.word("on"), From: r.wordOr("from"), Place: r.must("at"), Joint: r.wordOr("joint"), At: r.at, Path: r.path}
		if len(b.Seams) == 2 {
			p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: r.at, Path: r.path, Summary: "A shell has two seams at most",
				Detail: "Each seam wants its tongue and its clamps.", Expected: "one seam, or two"})
			break
		}
		p.seamRoom(r, s)
		b.Seams = append(b.Seams, s)
	}
	if bent == 4 && len(body.lists["seams"]) == 0 && !b.OpenAt("top") {
		x := diag.Diagnostic{Code: "no-seam", At: body.at, Path: "body", Summary: "A shell round four bent corners needs a seam",
			Detail: "It would have no end to bend it from.", Expected: "seams: " + p.seamProposal()}
		if k := body.vals["kind"]; k != nil && !k.n.quoted {
			at := k.n.at
			lead := ", "
			if !p.inBrackets("body") {
				lead = "\n" + strings.Repeat(" ", max(0, k.keyAt.Start.Col-1))
			}
			x.At, x.Mend = at, &diag.Edit{At: at, New: k.n.text + lead + "seams: " + p.seamProposal()}
		}
		p.d.add(x)
	}
	if b.OpenAt("top") {
		for _, name := range []string{TopLeft, TopRight} {
			if b.Corners[name].Bent {
				p.d.add(diag.Diagnostic{Code: "either-or", At: placeOf(p.d.places, b.Corners[name].Path), Path: b.Corners[name].Path,
					Summary: "There is no corner where the body is open", Detail: "It is open at the top.", Expected: "no radius there"})
			}
		}
	}
}

// inBrackets reports whether the object behind a top-level key is written in
// brackets.
func (p *pieceReader) inBrackets(key string) bool {
	e, ok := p.tree.get(key)
	return ok && e.val.flow
}

// seamReach is how far a seam keeps from where a bend starts: the tongue's half
// and the room that a bend wants (half a rib and 12 mm), rounded up.
const seamReach = 40

// seamProposal is a seam on the bottom, clear of the left bend, as the file
// would write it.
func (p *pieceReader) seamProposal() string {
	b := &p.out.Body
	at := math.Ceil(b.Corners[BottomLeft].Radius.V) + seamReach
	if r := b.Width.V - b.Corners[BottomRight].Radius.V - seamReach; at > r {
		at = math.Round((b.Corners[BottomLeft].Radius.V + b.Width.V - b.Corners[BottomRight].Radius.V) / 2)
	}
	return fmt.Sprintf("[{on: bottom, from: left, at: %g mm, joint: loose tongue}]", at)
}

// seamRoom says so where a seam would lie in a bend, or where there is none.
func (p *pieceReader) seamRoom(r *rec, s Seam) {
	b := &p.out.Body
	l, rt := b.Corners[BottomLeft], b.Corners[BottomRight]
	if s.On == "top" {
		l, rt = b.Corners[TopLeft], b.Corners[TopRight]
	}
	if s.On == "" || s.Place.V <= 0 {
		return
	}
	if !l.Bent || !rt.Bent || s.On == "top" && b.OpenAt("top") {
		p.d.add(diag.Diagnostic{Code: "no-bend", At: r.where("on"), Path: join(r.path, "on"), Summary: fmt.Sprintf("The %s does not bend at both ends", s.On),
			Detail: "A seam parts a strip between two bends; elsewhere it begins at a square corner.", Expected: "a member between two bent corners"})
		return
	}
	x := s.Place.V
	if s.From == "right" {
		x = b.Width.V - x
	}
	if lo, hi := l.Radius.V, b.Width.V-rt.Radius.V; b.Width.V > 0 && (x < lo || x > hi) {
		p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: r.where("at"), Path: join(r.path, "at"), Summary: "The seam lies in the bend",
			Detail:   fmt.Sprintf("The %s is straight from %s to %s.", s.On, printed(lo, units.Length), printed(hi, units.Length)),
			Expected: fmt.Sprintf("%s or more clear of a bend", printed(seamReach, units.Length))})
	}
}

// HingeSet is the word that a hinge of the shop file has for the way in which
// the front is set.
func (f *Front) HingeSet() string {
	if f.Set == "overlay" {
		return "full overlay"
	}
	return f.Set
}

// Overlays reports whether the front stands before the body's edges.
func (f *Front) Overlays() bool { return f.Set == "overlay" || f.Set == "half overlay" }

// hardwareOf finds a thing of the shop's hardware that a field names; it must
// be of the kind.
func (p *pieceReader) hardwareOf(r *rec, key, kind string) *Hardware {
	name := r.word(key)
	if name == "" || p.unreadShop() || !p.hardware.refer(name, r.where(key), join(r.path, key), "The shop file lists it under 'hardware'.") {
		return nil
	}
	for _, h := range p.shop.Hardware {
		if h.Name != name {
			continue
		}
		if h.Kind != "" && h.Kind != kind {
			p.d.add(diag.Diagnostic{Code: "wrong-hardware", At: r.where(key), Path: join(r.path, key), Summary: fmt.Sprintf("'%s' is no %s", clip(name), kind),
				Detail: fmt.Sprintf("The shop file calls it a %s.", h.Kind), Expected: "a " + kind})
		}
		return h
	}
	return nil
}

// only says so where keys are written that another kind of the object wants.
func (p *pieceReader) only(r *rec, kind string, keys ...string) {
	for _, f := range r.obj.fields {
		if slices.Contains(keys, f.key) || r.vals[f.key] == nil && r.subs[f.key] == nil {
			continue
		}
		p.d.add(diag.Diagnostic{Code: "not-for-kind", At: r.where(f.key), Path: join(r.path, f.key), Summary: fmt.Sprintf("A %s has no '%s'", kind, f.key),
			Detail: f.doc, Expected: "one of: " + strings.Join(keys, ", ")})
	}
}

// lid reads what only a lid has.
func (p *pieceReader) lid(r *rec, f *Front) {
	if f.As != "lid" {
		if f.As != "" {
			var keys []string
			for _, k := range r.obj.fields {
				if k.key != "overhang" && k.key != "stay" && k.key != "vents" {
					keys = append(keys, k.key)
				}
			}
			p.only(r, f.As, keys...)
		}
		return
	}
	p.only(r, "lid", "name", "covers", "as", "gap", "stock", "hinge", "at", "pull", "late", "overhang", "stay", "vents")
	if !p.out.Body.OpenAt("top") && !p.d.complained("body.open") && !p.d.lost["body"] {
		p.d.add(diag.Diagnostic{Code: "no-opening", At: r.where("as"), Path: join(r.path, "as"), Summary: "The body has a top under the lid",
			Detail: "A lid closes a body that is open at the top.", Expected: "body: {open: [top]}"})
	}
	f.Lid = Lid{Overhang: r.numOr("overhang"), Hinge: p.hardwareOf(r, "hinge", "lid hinge"), Stay: p.hardwareOf(r, "stay", "stay")}
	if v := r.sub("vents"); v != nil {
		f.Lid.Vents = &Vents{In: v.wordOr("in"), Count: v.whole("count"), Diameter: v.numOr("diameter"), Below: v.numOr("below"), At: v.at, Path: v.path}
		if f.Lid.Vents.In == "sides" && f.Lid.Vents.Count%2 != 0 {
			p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: v.where("count"), Path: join(v.path, "count"), Summary: "The sides have as many vents each",
				Detail: "Half of them are in each side.", Expected: "an even count"})
		}
		if f.Lid.Vents.In == "front" && p.out.Body.OpenAt("front") {
			p.d.add(diag.Diagnostic{Code: "no-opening", At: v.where("in"), Path: join(v.path, "in"), Summary: "The body has no panel at its front",
				Detail: "It is open there.", Expected: "in: sides"})
		}
	}
}

// base reads what the body stands on or hangs from.
func (p *pieceReader) base() {
	r := p.root.sub("base")
	if r == nil {
		p.d.led.Var(0, trace.Input{Kind: trace.Rule, Path: "base", Text: "none: the body stands on the floor itself where the file names no base", At: placeOf(p.d.places, "")})
		p.out.Base = Base{Kind: "none", Path: "base"}
		return
	}
	b := Base{Kind: r.word("kind"), Role: p.role(r, "stock"), At: r.at, Path: r.path}
	need := func(keys ...string) {
		for _, k := range keys {
			if r.vals[k] == nil && !p.d.complained(r.path) {
				p.d.missing(r, baseObject.field(k))
			}
		}
	}
	switch b.Kind {
	case "plinth":
		p.only(r, "plinth", "kind", "height", "set back", "stock")
		need("height")
		b.Height, b.SetBack = r.must("height"), r.numOr("set back")
	case "feet":
		p.only(r, "base of feet", "kind", "set back", "use", "count")
		need("use")
		b.SetBack, b.Count, b.Use = r.numOr("set back"), r.whole("count"), p.hardwareOf(r, "use", "foot")
		if b.Use != nil {
			b.Height = b.Use.Height
		}
		if b.Count < 4 || b.Count%2 != 0 {
			p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: r.where("count"), Path: "base.count", Summary: "Feet stand in two rows",
				Detail: "Half of them at the front, half at the rear.", Expected: "an even count, four or more"})
		}
	case "sides":
		p.only(r, "base of sides", "kind", "height", "set back", "stock", "kick")
		need("height")
		b.Height, b.Kick = r.must("height"), r.wordOr("kick") == "board"
		if b.Kick {
			b.SetBack = r.numOr("set back")
		}
		p.sidesRunOn(r)
	case "legs":
		p.only(r, "base of legs", "kind", "height", "stock", "outline", "width", "plane", "at", "inset", "mirrored", "splay", "joint", "rail")
		need("height", "at")
		b.Height = r.must("height")
		p.legs(r, &b)
	case "wall":
		p.only(r, "hanging piece", "kind", "height", "stock", "use", "count")
		need("height", "use")
		b.Height, b.Count, b.Use = r.must("height"), r.whole("count"), p.hardwareOf(r, "use", "wall screw")
	}
	p.out.Base = b
}

// sidesRunOn checks that both sides can run on to the floor.
func (p *pieceReader) sidesRunOn(r *rec) {
	for _, name := range []string{BottomLeft, BottomRight} {
		c := p.out.Body.Corners[name]
		if c.Bent || c.Through != "" && c.Through != "side" {
			p.d.add(diag.Diagnostic{Code: "either-or", At: r.where("kind"), Path: "base.kind", Summary: "A side cannot run on to the floor here",
				Detail: fmt.Sprintf("At the %s it is bent, or the bottom runs through.", name), Expected: "{square: …, runs through: side} at both lower corners"})
			return
		}
	}
}
