package design

import (
	"fmt"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// bend reads how bends are made.
func (p *pieceReader) bend(body *rec, bent int) {
	r := body.sub("bend")
	if r == nil {
		r = p.d.silent(bendObject, "body.bend")
	}
	w := &p.out.Body.Bend
	w.At, w.Path = r.at, r.path
	if bent == 0 && len(p.root.lists["strips"]) == 0 {
		return
	}
	w.Way = r.wordOr("way")
	w.Soaked = r.wordOr("bent") == "soaked"
	w.AcrossGrain = r.wordOr("face grain") == "along the kerfs"
	if w.Way == Laminated || w.Way == Cold {
		p.plies(r, w)
		return
	}
	p.notHere(r, "only a laminated bend has plies", "plies")
	w.Kerfs = r.whole("kerfs")
	w.Outside = r.wordOr("kerfs on") == "outside"
	w.Fill = r.wordOr("fill") == "glue"
	if r.vals["inner ply"] != nil {
		w.InnerPly = p.role(r, "inner ply")
	}
	w.Saw = p.saw(r)
	if n, ok := r.num("skin"); ok {
		w.Skin = n
	} else if s := p.out.Roles["shell"].Stock; s != nil {
		w.Skin = s.FaceVeneer.Add(r.numOr("skin"))
	}
	if s := p.out.Roles["shell"].Stock; s != nil && w.Skin.V > 0 && w.Skin.V >= s.Thickness.Mean.V && s.Thickness.Mean.V > 0 {
		p.d.add(diag.Diagnostic{Code: "out-of-bounds", At: r.where("skin"), Path: "body.bend.skin", Summary: "The skin is as thick as the panel",
			Detail: "Nothing would be cut.", Expected: fmt.Sprintf("less than %s", printed(s.Thickness.Mean.V, units.Length))})
	}
}

// plies reads a bend without kerfs.
func (p *pieceReader) plies(r *rec, w *BendWish) {
	p.notHere(r, "a bend that is "+w.Way+" has no kerfs", "saw", "kerfs", "skin", "kerfs on", "fill", "inner ply")
	if w.Way == Cold {
		p.notHere(r, "a cold bend is one sheet", "plies")
		w.Plies = 1
		return
	}
	w.Plies = r.whole("plies")
	if w.Plies == 0 && r.vals["plies"] == nil {
		p.d.missing(r, bendObject.field("plies"))
	}
}

// bendOfStrips reads the body's way of bending for a piece whose body itself
// bends nowhere.
func (p *pieceReader) bendOfStrips() {
	r := p.root.sub("body")
	if r == nil || len(p.root.lists["strips"]) == 0 || p.out.Body.Bend.Way != "" {
		return
	}
	p.bend(r, 0)
}

// strips reads the strips that are placed by themselves.
func (p *pieceReader) strips() {
	p.bendOfStrips()
	for _, r := range p.root.lists["strips"] {
		s := FreeStrip{Name: r.word("name"), Role: p.role(r, "stock"), Width: r.must("width"), InPlan: r.wordOr("turn") == "level",
			Heading: r.numOr("heading"), Fix: r.wordOr("fix"), At: r.at, Path: r.path}
		at, ok := p.place(r, 3)
		if ok {
			s.Place = [3]trace.Num{at[0], at[1], at[2]}
		}
		for _, q := range r.lists["run"] {
			if st, good := p.stretch(q); good {
				s.Run = append(s.Run, st)
			} else {
				ok = false
			}
		}
		if len(s.Run) == 0 && !p.d.complained(r.path) {
			p.d.missing(r, stripObject.field("run"))
			ok = false
		}
		if ok {
			p.out.Strips = append(p.out.Strips, s)
		}
	}
	p.ownNames("strips", "strip")
}

func (p *pieceReader) stretch(r *rec) (StripStretch, bool) {
	st := StripStretch{Path: r.path}
	flat, turn := r.vals["flat"] != nil, r.vals["turn"] != nil || r.vals["radius"] != nil
	if flat == turn {
		if !p.d.complained(r.path) {
			p.d.add(diag.Diagnostic{Code: "either-or", At: r.at, Path: r.path, Summary: "A stretch is flat or it turns",
				Detail: stretchObject.doc, Expected: "{flat: …} or {turn: right, radius: …}"})
		}
		return st, false
	}
	if flat {
		p.notHere(r, "a flat stretch does not bend", "angle", "kerfs on")
		st.Flat = r.must("flat")
		return st, st.Flat.V > 0
	}
	for _, k := range []string{"turn", "radius"} {
		if r.vals[k] == nil {
			p.d.missing(r, stretchObject.field(k))
			return st, false
		}
	}
	st.Radius, st.Angle, st.Left = r.must("radius"), r.numOr("angle"), r.word("turn") == "left"
	st.Outside = r.wordOr("kerfs on") == "outside"
	return st, st.Radius.V > 0 && st.Angle.V > 0
}
