package design

import (
	"fmt"
	"slices"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// notHere reports keys that say nothing in the kind of thing that is written.
func (p *pieceReader) notHere(r *rec, why string, keys ...string) {
	if r == nil {
		return
	}
	for _, k := range keys {
		if !r.has(k) {
			continue
		}
		at := r.at
		if q := r.sub(k); q != nil {
			at = q.at
		} else if s := r.vals[k]; s != nil {
			at = s.keyAt
		}
		p.d.add(diag.Diagnostic{Code: "either-or", At: at, Path: join(r.path, k), Summary: fmt.Sprintf("'%s' says nothing here", k),
			Detail: upperFirst(why) + ".", Expected: "no '" + k + "'"})
	}
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// planBody reads a shell that bends in plan: two front corners, and how it is
// closed above and opened in front.
func (p *pieceReader) planBody(r *rec) {
	b := &p.out.Body
	b.Open = []string{"front"}
	p.notHere(r, "a body of this kind has none", "frame", "seams")
	if slices.ContainsFunc(r.strings("open"), func(side string) bool { return side != "front" }) {
		p.notHere(r, "a shell that bends in plan is open by its window", "open")
	}
	b.Plan = &PlanBody{Top: r.wordOr("top")}
	cr := r.sub("corners")
	p.notHere(cr, "a shell that bends in plan has front corners only", CornerNames...)
	for i, name := range []string{FrontLeft, FrontRight} {
		b.Plan.Paths[i] = "body.corners." + name
		q := cr.sub(name)
		if q == nil || q.vals["radius"] == nil {
			if !p.d.complained("body.corners") && !p.d.complained("body.corners."+name) {
				p.d.add(diag.Diagnostic{Code: "no-bend", At: r.at, Path: "body.corners." + name, Summary: "The " + name + " corner has no radius",
					Detail: "A shell that bends in plan bends at both front corners; half its width makes a half round.", Expected: name + ": {radius: …}"})
			}
			continue
		}
		p.notHere(q, "it is bent", "square", "runs through")
		b.Plan.Radius[i] = q.must("radius")
		p.planRadius(b.Plan.Radius[i], b.Plan.Paths[i])
	}
	b.Corners = map[string]Corner{}
	if w := r.sub("window"); w != nil {
		b.Plan.Window = &Window{Above: w.must("above"), Below: w.must("below"), Sides: w.must("sides"), Round: w.numOr("round"), At: w.at, Path: w.path}
	}
	p.bend(r, 2)
}

// meantInPlan reports whether a body whose kind could not be read is one that
// bends in plan: only such a one has front corners.
func (p *pieceReader) meantInPlan(r *rec) bool {
	cr := r.sub("corners")
	return (p.d.complained("body.kind") || p.d.complained("body.bends in")) && (cr.sub(FrontLeft) != nil || cr.sub(FrontRight) != nil)
}

// planRadius checks that a front corner is neither tighter than the sheet is
// thick nor wider than the body.
func (p *pieceReader) planRadius(radius trace.Num, path string) {
	b := &p.out.Body
	lo, hi := 0.0, min(b.Width.V/2, b.Depth.V)
	if s := p.out.Roles["shell"].Stock; s != nil {
		lo = s.Thickness.Mean.V + 5
	}
	if radius.V > lo && (radius.V <= hi+1e-6 || hi == 0) || radius.V == 0 {
		return
	}
	p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: placeOf(p.d.places, path+".radius"), Path: path + ".radius", Summary: "The bend has no room",
		Detail:   "Its radius is that of the outside: at most half the width, and the depth.",
		Expected: fmt.Sprintf("from %s to %s", printed(lo, units.Length), printed(hi, units.Length))})
}

// openBody reads a body that is no carcase: a frame, or none.
func (p *pieceReader) openBody(r *rec) {
	b := &p.out.Body
	b.Open = []string{"front", "top"}
	why := "a body without a shell has none"
	p.notHere(r, why, "corners", "bends in", "window", "top", "open", "seams")
	if len(p.root.lists["strips"]) == 0 {
		p.notHere(r, why, "bend")
	}
	b.Corners = map[string]Corner{}
	if b.Kind == Loose {
		p.notHere(r, why, "frame")
		return
	}
	f := r.sub("frame")
	if f == nil {
		p.d.missing(r, bodyObject.field("frame"))
		return
	}
	fr := &Frames{Posts: p.role(f, "posts"), Across: f.must("post width"), Joint: f.wordOr("joint"), At: f.at, Path: f.path}
	if fr.Posts.Name == "" && !f.has("posts") {
		fr.Posts = p.out.Roles["posts"]
	}
	for _, q := range f.lists["rails"] {
		w := FrameRail{Where: q.word("at"), Height: q.must("height"), SetBack: q.numOr("set back"), Role: p.role(q, "stock"), At: q.at, Path: q.path}
		if strings.HasPrefix(w.Where, "bottom") {
			w.Up = q.numOr("up")
		} else {
			p.notHere(q, "a top rail lies under the top", "up")
		}
		fr.Rails = append(fr.Rails, w)
	}
	if t := f.sub("top"); t != nil {
		fr.Top = &FrameTop{Role: p.role(t, "stock"), Joint: t.wordOr("joint"), Over: t.numOr("over"), Path: t.path}
	}
	if s := f.sub("splay"); s != nil {
		fr.SplayAcross, fr.SplayAlong = s.numOr("across"), s.numOr("along")
	}
	b.Frames = fr
}

// shapes reads the outlines and the free parts.
func (p *pieceReader) shapes() {
	names := glossary{what: "outline", lost: p.d.gone("outlines")}
	for _, r := range p.root.lists["outlines"] {
		names.define(r.name, r.at)
		p.out.Outlines = append(p.out.Outlines, p.outline(r))
	}
	for _, r := range p.root.lists["parts"] {
		p.freePart(r, &names)
	}
	p.ownNames("parts", "part")
	p.strips()
	if l := p.out.Base.Legs; l != nil && l.Shape.Name != "" {
		r := p.root.sub("base")
		names.refer(l.Shape.Name, r.where("outline"), "base.outline", "Outlines are named under 'outlines'.")
	}
	names.report(p.d)
}

func (p *pieceReader) outline(r *rec) Outline {
	o := Outline{Name: r.name, At: r.at, Path: r.path}
	corners, file := r.lists["corners"], r.word("path")
	switch {
	case len(corners) > 0 && file != "":
		p.d.add(diag.Diagnostic{Code: "either-or", At: r.where("path"), Path: join(r.path, "path"), Summary: "An outline has corners or a drawing",
			Detail: "It has both.", Expected: "corners, or path"})
	case file != "":
		p.notHere(r, "holes are in the drawing", "cut-outs")
		if why := badDrawing(file); why != "" {
			p.d.add(diag.Diagnostic{Code: "bad-name", At: r.where("path"), Path: join(r.path, "path"), Summary: "This drawing is not read", Detail: why,
				Expected: "the name of an SVG file beside the piece file: leg.svg"})
			return o
		}
		o.File = file
		return o
	case len(corners) < 3 && !p.d.complained(r.path) && r.vals["path"] == nil:
		p.d.add(diag.Diagnostic{Code: "missing-key", At: r.at, Path: r.path, Summary: "The outline has no shape",
			Detail: outlineObject.doc, Expected: "corners, three or more, or path"})
	}
	o.Corners = p.corners(corners)
	for _, q := range r.lists["cut-outs"] {
		o.CutOuts = append(o.CutOuts, p.cutOut(q))
	}
	return o
}

// badDrawing says why a drawing's name is not read: a piece file may come from
// a stranger, and must not make the program read any file.
func badDrawing(name string) string {
	switch {
	case len(name) > 200 || strings.ContainsAny(name, `\:`) || strings.HasPrefix(name, "/"):
		return "A drawing lies in the piece file's folder, and is named relative to it."
	case strings.Contains(name, "..") || strings.HasPrefix(name, "."):
		return "A drawing lies in the piece file's folder or below it."
	case !strings.HasSuffix(strings.ToLower(name), ".svg"):
		return "Its name ends in .svg."
	}
	return ""
}

func (p *pieceReader) corners(list []*rec) []OutlineCorner {
	var out []OutlineCorner
	for _, r := range list {
		at, ok := p.place(r, 2)
		if !ok {
			continue
		}
		out = append(out, OutlineCorner{X: at[0], Y: at[1], Round: r.numOr("round"), Path: r.path})
	}
	return out
}

func (p *pieceReader) cutOut(r *rec) CutOut {
	c := CutOut{Path: r.path}
	round := r.vals["at"] != nil || r.vals["diameter"] != nil
	corners := r.lists["corners"]
	switch {
	case round && len(corners) > 0 || !round && len(corners) < 3 && !p.d.complained(r.path):
		p.d.add(diag.Diagnostic{Code: "either-or", At: r.at, Path: r.path, Summary: "A cut-out has corners, or a centre and a diameter",
			Detail: cutOutObject.doc, Expected: "corners, three or more; or at and diameter"})
	case round:
		for _, k := range []string{"at", "diameter"} {
			if r.vals[k] == nil {
				p.d.missing(r, cutOutObject.field(k))
			}
		}
		if at, ok := p.place(r, 2); ok {
			c.X, c.Y, c.Diameter = at[0], at[1], r.must("diameter")
		}
	default:
		c.Corners = p.corners(corners)
	}
	return c
}

// place reads a place of n numbers under 'at'.
func (p *pieceReader) place(r *rec, n int) ([]trace.Num, bool) {
	s := r.vals["at"]
	if s == nil {
		return nil, false
	}
	at := r.nums("at")
	if len(at) == n {
		return at, true
	}
	if len(s.items) != n && !p.d.complained(join(r.path, "at")) {
		p.d.add(diag.Diagnostic{Code: "wrong-kind", At: s.n.at, Path: join(r.path, "at"), Summary: fmt.Sprintf("A place has %d numbers here", n),
			Detail: fmt.Sprintf("Found %d.", len(s.items)), Expected: map[int]string{2: "[x, y]", 3: "[x, y, z]"}[n]})
	}
	return nil, false
}

func (p *pieceReader) freePart(r *rec, names *glossary) {
	f := FreePart{Name: r.word("name"), Role: p.role(r, "stock"), Turn: r.word("turn"), Angle: r.numOr("angle"), Grain: r.wordOr("grain"),
		Fix: r.wordOr("fix"), At: r.at, Path: r.path}
	at, ok := p.place(r, 3)
	if ok {
		f.Place = [3]trace.Num{at[0], at[1], at[2]}
	}
	f.Shape = p.shape(r, "outline")
	if f.Shape.Name != "" {
		names.refer(f.Shape.Name, r.where("outline"), join(r.path, "outline"), "Outlines are named under 'outlines'.")
	}
	if ok && f.Shape.Given() {
		p.out.Free = append(p.out.Free, f)
	}
}

// shape reads an outline's name, or 'rect(a, b)'.
func (p *pieceReader) shape(r *rec, key string) Shape {
	s := r.vals[key]
	out := Shape{Path: join(r.path, key)}
	if s == nil || !s.ok || s.n.shape != scalar {
		return out
	}
	text := s.n.text
	inner, rect := strings.CutPrefix(text, "rect(")
	if !rect {
		out.Name = text
		return out
	}
	cut := topComma(inner)
	if !strings.HasSuffix(inner, ")") || cut < 0 {
		p.d.add(diag.Diagnostic{Code: "formula", At: s.n.at, Path: s.path, Summary: "A rectangle has a width and a height",
			Detail: "They stand in brackets, with a comma between, and the whole in quotes.", Expected: `"rect(width, height)"`})
		return out
	}
	from := len([]rune("rect("))
	a, aOK := p.inText(s, from, from+len([]rune(inner[:cut])))
	b, bOK := p.inText(s, from+len([]rune(inner[:cut]))+1, len([]rune(text))-1)
	if aOK && bOK {
		out.A, out.B = a, b
	}
	return out
}

// topComma finds the comma that is in no inner brackets, -1 where there is none.
func topComma(s string) int {
	depth := 0
	for i, c := range s {
		switch c {
		case '(':
			depth++
		case ')':
			depth--
		case ',':
			if depth == 0 {
				return i
			}
		}
	}
	return -1
}

// inText reckons a length that stands inside a longer text, between two runes.
func (p *pieceReader) inText(s *slot, from, to int) (trace.Num, bool) {
	whole := []rune(s.n.text)
	for from < to && whole[from] == ' ' {
		from++
	}
	for to > from && whole[to-1] == ' ' {
		to--
	}
	part := &slot{f: &field{key: s.f.key, kind: aQuantity, dim: units.Length, doc: "A side of a rectangle."}, lo: 5, hi: 6000, path: s.path,
		n: &node{shape: scalar, text: string(whole[from:to]), at: s.n.within(from, to)}}
	p.d.evaluate(part)
	return part.val.Num, part.ok
}

// legs reads what a base of legs has beyond its height.
func (p *pieceReader) legs(r *rec, b *Base) {
	l := &Legs{Shape: p.shape(r, "outline"), Plane: r.wordOr("plane"), Where: r.nums("at"), Inset: r.numOr("inset"), Mirrored: r.wordOr("mirrored") == "yes", Joint: r.wordOr("joint")}
	if !l.Shape.Given() {
		l.Wide = r.numOr("width")
	} else {
		p.notHere(r, "the outline says how wide a leg is", "width")
	}
	if s := r.sub("splay"); s != nil {
		l.Across, l.Along = s.numOr("across"), s.numOr("along")
	}
	if q := r.sub("rail"); q != nil {
		l.Rail = &LegRail{Height: q.must("height"), Inset: q.numOr("inset"), At: q.at, Path: q.path}
		if l.Joint != "lap" {
			p.d.add(diag.Diagnostic{Code: "either-or", At: q.at, Path: q.path, Summary: "Legs meet their rail in a lap",
				Detail: "The joint is '" + l.Joint + "'.", Expected: "joint: lap"})
		}
	}
	b.Legs = l
}

// Drawings returns the names of the SVG drawings that the outlines of a piece
// file ask for, each once, relative to the file. Only names that lie in its
// folder or below are returned. It reads no further than it must, and returns
// none where the file cannot be read.
func Drawings(src []byte) []string {
	tree, _ := readTree("", src)
	if tree == nil {
		return nil
	}
	all, ok := tree.get("outlines")
	if !ok || all.val.shape != mapping {
		return nil
	}
	var out []string
	for _, e := range all.val.entries {
		p, ok := e.val.get("path")
		if ok && p.val.shape == scalar && badDrawing(p.val.text) == "" && !slices.Contains(out, p.val.text) && len(out) < maxDrawings {
			out = append(out, p.val.text)
		}
	}
	return out
}

// maxDrawings bounds how many drawings one piece file can ask for.
const maxDrawings = 40
