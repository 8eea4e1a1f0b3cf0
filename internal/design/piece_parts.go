package design

import (
	"fmt"
	"slices"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// in resolves the bay or level that an object lies in.
func (p *pieceReader) in(r *rec) string {
	name := r.word("in")
	if name != "" {
		p.spaces.refer(name, r.where("in"), join(r.path, "in"), "Bays and levels are named under 'inside'.")
	}
	return name
}

func (p *pieceReader) shelves() {
	for _, r := range p.root.lists["shelves"] {
		s := Shelf{In: p.in(r), Role: p.role(r, "stock"), Pins: r.word("on") == "pins", Count: r.whole("count"), SetBack: r.numOr("set back"),
			Follow: r.word("follow") == "shell", At: r.at, Path: r.path}
		on, fixed := r.vals["on"] != nil, r.vals["fixed at"] != nil
		if on == fixed && !p.d.complained(r.path) {
			p.d.add(diag.Diagnostic{Code: "either-or", At: r.at, Path: r.path, Summary: "A shelf lies on pins or is fixed",
				Detail: "Write one of 'on' and 'fixed at'.", Expected: "on: pins, or fixed at: a height"})
		}
		if s.Pins && s.Follow {
			p.d.add(diag.Diagnostic{Code: "not-for-kind", At: r.where("follow"), Path: join(r.path, "follow"), Summary: "A shelf on pins does not follow the bend",
				Detail: "No hole for a pin may be bored in a bend, so that it never lies there.", Expected: "fixed at: a height, or no 'follow'"})
		}
		if s.Pins {
			s.FirstHole, s.Pitch = r.numOr("above floor"), r.numOr("pitch")
			if r.vals["to"] == nil {
				r.wordOr("to")
			}
			s.LastHole = r.maybe("to")
		} else {
			s.FixedAt = r.must("fixed at")
		}
		if e := r.sub("edging"); e != nil {
			if role := p.role(e, "stock"); role.Name != "" {
				s.EdgingRole = &role
			}
			s.EdgingHigh = e.must("height")
		}
		p.out.Shelves = append(p.out.Shelves, s)
	}
}

func (p *pieceReader) fronts() {
	before, under := map[string]diag.Range{}, map[string]diag.Range{}
	for _, r := range p.root.lists["fronts"] {
		f := Front{Name: r.word("name"), As: r.word("as"), Set: r.wordOr("set"), Gap: r.numOr("gap"), Role: p.role(r, "stock"),
			Follow: r.word("follow") == "shell", HangOn: r.strings("hang on"), HingeAt: r.nums("at"), Late: r.word("late") != "", At: r.at, Path: r.path}
		if f.Set == "full overlay" {
			f.Set = "overlay"
		}
		covered := before
		if f.As == "lid" {
			covered = under
		}
		if c := r.vals["covers"]; c != nil {
			for _, it := range c.items {
				if !it.ok {
					continue
				}
				p.spaces.refer(it.n.text, it.n.at, it.path, "Bays and levels are named under 'inside'.")
				if first, twice := covered[it.n.text]; twice {
					p.d.add(diag.Diagnostic{Code: "covered-twice", At: it.n.at, Path: it.path, Summary: fmt.Sprintf("'%s' is covered twice", clip(it.n.text)),
						Detail: fmt.Sprintf("Line %d covers it already.", first.Start.Line), Expected: "one front before a space"})
				}
				covered[it.n.text] = it.n.at
				f.Covers = append(f.Covers, it.n.text)
			}
		}
		p.hinge(r, &f)
		p.lid(r, &f)
		p.pull(r, &f)
		p.out.Fronts = append(p.out.Fronts, f)
	}
	p.ownNames("fronts", "front")
}

// ownNames checks that the names of a list differ.
func (p *pieceReader) ownNames(key, what string) {
	seen := map[string]int{}
	for _, r := range p.root.lists[key] {
		n := r.word("name")
		if line, twice := seen[n]; twice && n != "" {
			p.d.add(diag.Diagnostic{Code: "duplicate-name", At: r.where("name"), Path: join(r.path, "name"), Summary: fmt.Sprintf("Two %ss are called '%s'", what, clip(n)),
				Detail: fmt.Sprintf("Line %d has the first.", line), Expected: "a name of its own"})
			continue
		}
		seen[n] = r.where("name").Start.Line
	}
}

// hinge finds a door's hinge. A drawer's front has none.
func (p *pieceReader) hinge(r *rec, f *Front) {
	name := r.word("hinge")
	door := f.As == "door" || f.As == "pair"
	switch {
	case !door: // a lid's hinge is read with the lid
		return
	case r.vals["hinge"] == nil:
		if !p.d.complained(r.path) {
			p.d.missing(r, frontObject.field("hinge"))
		}
		return
	case name == "" || p.unreadShop() || !p.hinges.refer(name, r.where("hinge"), join(r.path, "hinge"), "The shop file lists its hinges under 'hinges'."):
		return
	}
	for _, h := range p.shop.Hinges {
		if h.Name != name {
			continue
		}
		f.Hinge = h
		if f.Set != "" && len(h.Sets) > 0 && !slices.Contains(h.Sets, f.HingeSet()) {
			p.d.add(diag.Diagnostic{Code: "wrong-hinge", At: r.where("hinge"), Path: join(r.path, "hinge"), Summary: fmt.Sprintf("This hinge is not for a front that is set %s", f.Set),
				Detail: "It suits: " + strings.Join(h.Sets, ", ") + ".", Expected: "a hinge that suits: " + f.HingeSet()})
		}
	}
	if r.vals["hang on"] == nil {
		p.d.led.Var(0, trace.Input{Kind: trace.Rule, Path: join(r.path, "hang on"), At: r.at,
			Text: "a single door hangs on the left, a pair on both sides, where the file does not say it: common practice"})
	}
}

const fingerHole = "finger hole "

// pull reads 'finger hole 30'.
func (p *pieceReader) pull(r *rec, f *Front) {
	s := r.vals["pull"]
	if s == nil || !s.ok {
		if s == nil {
			f.Pull = r.wordOr("pull")
		}
		return
	}
	f.Pull = s.n.text
	if f.Pull == "none" {
		return
	}
	if !strings.HasPrefix(f.Pull, fingerHole) {
		x := diag.Diagnostic{Code: "unknown-word", At: s.n.at, Path: s.path, Summary: fmt.Sprintf("There is no pull '%s'", clip(f.Pull)),
			Detail: "Handles and knobs are yours to choose: write 'none', and drill for them.", Expected: "finger hole and its diameter, or none"}
		words := strings.TrimRight(f.Pull, "0123456789. ")
		if near := diag.Nearest(words, []string{"finger hole", "none"}); near != "" {
			x.Nearest = near + strings.TrimPrefix(f.Pull, words)
			x.Mend = &diag.Edit{At: s.n.at, New: x.Nearest}
		}
		p.d.add(x)
		return
	}
	at := s.n.within(len(fingerHole), len([]rune(s.n.text)))
	dia := &slot{f: &field{key: "pull", kind: aQuantity, dim: units.Length, doc: "Diameter of a finger hole."}, lo: 8, hi: 120, path: s.path,
		n: &node{shape: scalar, text: strings.TrimPrefix(s.n.text, fingerHole), at: at}}
	p.d.evaluate(dia)
	if dia.ok {
		f.PullDia = dia.val.Num
	}
}

func (p *pieceReader) drawers() {
	for _, r := range p.root.lists["drawers"] {
		w := Drawer{In: p.in(r), Stop: r.numOr("stop"), At: r.at, Path: r.path}
		b := r.sub("box")
		if b == nil {
			b = p.d.silent(boxObject, join(r.path, "box"))
		}
		w.Role, w.Joint = p.role(b, "stock"), b.wordOr("joint")
		b.wordOr("bottom")
		if name := r.word("run"); name != "" && !p.unreadShop() {
			p.slide(r, name, &w)
		}
		p.out.Drawers = append(p.out.Drawers, w)
	}
}

func (p *pieceReader) slide(r *rec, name string, w *Drawer) {
	at, path := r.where("run"), join(r.path, "run")
	if instead := drawerObject.field("run").later[name]; instead != "" {
		p.d.add(diag.Diagnostic{Code: "not-yet", At: at, Path: path, Summary: fmt.Sprintf("'run: %s' is not built yet", name), Detail: "What works instead: " + instead + "."})
		return
	}
	if !p.slides.refer(name, at, path, "The shop file lists its slides under 'slides'.") {
		return
	}
	for _, s := range p.shop.Slides {
		if s.Name == name {
			w.Slide = s
		}
	}
}

// rest reads back, rails, base, joints and finish.
func (p *pieceReader) rest() {
	if r := p.root.sub("back"); r != nil && r.word("set") != "none" {
		b := &Back{Set: r.word("set"), Role: p.role(r, "stock"), At: r.at, Path: r.path}
		if b.Set == "rabbet" {
			b.Depth = r.numOr("depth")
		}
		if b.Role.Name == "" && !r.has("stock") {
			b.Role = p.out.Roles["back"]
		}
		p.out.Back = b
	}
	for _, r := range p.root.lists["rails"] {
		p.out.Rails = append(p.out.Rails, Rail{Where: r.word("at"), Height: r.must("height"), Role: p.role(r, "stock"), Follow: r.word("follow") == "shell", At: r.at, Path: r.path})
	}
	p.base()
	for _, r := range p.root.lists["joints"] {
		p.joint(r)
	}
	p.edges(p.root.sub("edges"))
	if r := p.root.sub("finish"); r != nil {
		p.out.Finish = Finish{Kind: r.word("kind"), Coats: r.whole("coats"), Before: r.wordOr("before"), At: r.at}
	}
}

// joint reads a wish: 'divider / top'.
func (p *pieceReader) joint(r *rec) {
	a, b, ok := strings.Cut(r.name, "/")
	a, b = strings.TrimSpace(a), strings.TrimSpace(b)
	if !ok || a == "" || b == "" {
		p.d.add(diag.Diagnostic{Code: "bad-name", At: r.at, Path: r.path, Summary: "A joint is named by its two partners", Detail: "Found one.", Expected: "two parts or roles: divider / top"})
		return
	}
	for _, w := range []string{a, b} {
		base := strings.TrimRight(w, " 0123456789")
		if slices.Contains(partners, base) || slices.ContainsFunc(p.root.lists["parts"], func(q *rec) bool { return q.word("name") == w }) {
			continue
		}
		x := diag.Diagnostic{Code: "unknown-name", At: r.at, Path: r.path, Summary: fmt.Sprintf("There is no part '%s'", clip(w)), Offending: clip(w),
			Expected: "one of: " + strings.Join(partners, ", "), Nearest: diag.Nearest(base, partners)}
		if x.Nearest != "" {
			x.Mend = &diag.Edit{At: r.at, New: strings.Replace(r.name, w, x.Nearest, 1)}
		}
		p.d.add(x)
	}
	w := JointWish{A: a, B: b, Kind: r.word("kind"), Depth: r.maybe("depth"), Fit: r.word("fit"), Tool: r.word("tool"), Diameter: r.maybe("diameter"), At: r.at, Path: r.path}
	if r.vals["count"] != nil {
		w.Count = r.whole("count")
	}
	if w.Tool != "" && !p.unreadShop() {
		p.tools.refer(w.Tool, r.where("tool"), join(r.path, "tool"), "The shop file lists saws and bits.")
	}
	p.out.Joints = append(p.out.Joints, w)
}
