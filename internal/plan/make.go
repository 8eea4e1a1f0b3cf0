package plan

import (
	"context"

	"rodwork/internal/brief"
	"rodwork/internal/check"
	"rodwork/internal/cite"
	"rodwork/internal/compile"
	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/dryfit"
	"rodwork/internal/fit"
	"rodwork/internal/layout"
	"rodwork/internal/making"
	"rodwork/internal/mech/chain"
	"rodwork/internal/mech/lean"
	"rodwork/internal/mech/learn"
	"rodwork/internal/mech/rout"
	"rodwork/internal/mech/spread"
	"rodwork/internal/meet"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Make computes everything. It returns what it could, and the diagnostics of
// the two files; where they hold errors the plan is nil or incomplete, and
// nothing of it is to be cut. A cancelled context ends the layout search early
// with what it has; the rest runs through.
func Make(ctx context.Context, src Source, opt Options) (*Plan, diag.List) {
	d, ds := design.Resolve(src.PieceFile, src.Piece, src.ShopFile, src.Shop)
	if d == nil || ds.HasErrors() {
		return nil, ds
	}
	q, more := compile.Make(d, compile.Options{Files: src.Files})
	ds = append(ds, more...)
	if ds.HasErrors() {
		ds.Sort()
		return nil, ds
	}
	p := &Plan{Source: src, Design: d, Ledger: d.Ledger, Rules: Rules()}
	held := p.place(q)
	compile.Seek(p.Piece, d)
	p.Masses, p.Mass = making.Masses(p.Piece)
	for i, m := range p.Masses { // in the order of the parts
		p.Piece.Parts[i].Mass = m.Mass
	}
	var loose []work.Finding
	aids := making.Aids(p.Piece, d)
	p.Layouts, loose = layout.Make(ctx, making.WithAids(p.Piece, aids, d), layoutSaw(d.Shop), d.Shop.Habits, opt.Effort)
	p.Ways = making.Ways(p.Piece, d)
	order := dryfit.Order(p.Piece, d)
	p.Order = making.MindSteps(p.Piece, order.Steps)
	p.GlueUps = order.GlueUps
	ups := making.SetUps(p.Piece, d, p.Layouts)
	p.SetUps, p.Tests, p.Screws = ups.SetUps, ups.Tests, ups.Screws
	p.Aids = making.PlaceAids(aids, d, p.Layouts, ups)
	p.Carries = making.Carries(p.Piece, held.Contents, held.Loads)
	bill := making.Buying(p.Piece, d, p.Layouts)
	p.Buying, p.Cost, p.Stock, p.Unpriced = bill.Lines, bill.Missing, bill.Stock, bill.Unpriced
	p.Findings = append(p.Findings, held.Findings...)
	p.Findings = append(p.Findings, check.Make(check.Input{Piece: p.Piece, Design: d, Masses: p.Masses, Contents: held.Contents, Loads: held.Loads})...)
	for _, more := range [][]work.Finding{loose, ups.Findings, meet.Make(p.Piece).Findings, order.Findings} {
		p.Findings = append(p.Findings, more...)
	}
	fit.Apply(p.FitInput(), p.Findings)
	p.Findings = append(p.Findings, fit.Findings(p.FitInput())...)
	p.locate()
	compile.Record(p.Piece, p.Ledger)
	p.record()
	ds.Sort()
	return p, ds
}

// place puts the things of the brief into the piece, and the shelves on pins
// where the things want them: the piece is built once more with those holes.
func (p *Plan) place(q *piece.Piece) brief.Result {
	held := brief.Make(q, p.Design)
	holes := map[string]int{}
	for _, s := range held.Shelves {
		if s.Hole > 0 {
			holes[s.Part] = s.Hole
		}
	}
	if len(holes) > 0 {
		q, _ = compile.Make(p.Design, compile.Options{Holes: holes, Files: p.Source.Files})
		held = brief.Make(q, p.Design)
	}
	p.Piece, p.Fits, p.Load = q, held.Fits, held.Load
	return held
}

// layoutSaw is the saw that breaks down sheets: the first one of the shop that
// cuts straight.
func layoutSaw(s *design.ShopFile) *design.Saw {
	for _, saw := range s.Saws {
		if saw.Kind != "jigsaw" {
			return saw
		}
	}
	return nil
}

// locate gives each finding its place in the piece file.
func (p *Plan) locate() {
	for i := range p.Findings {
		f := &p.Findings[i]
		if f.At.IsZero() && f.Path != "" {
			f.At = p.Design.At(f.Path)
		}
	}
}

// record books the results of the stages in the ledger.
func (p *Plan) record() {
	book := func(id, title string, dim units.Dim, n trace.Num, formula, rule string) {
		p.Ledger.Record(trace.Value{ID: id, Title: title, Dim: dim, Num: n, Formula: formula, Rule: rule})
	}
	for _, l := range p.Masses {
		book(l.Part+"/mass", l.Part+", mass", units.Mass, l.Mass, "volume × density", "")
	}
	book("piece/mass", "the piece, mass when empty", units.Mass, p.Mass, "sum of its parts", "")
	book("piece/load", "mass of what the brief puts in", units.Mass, p.Load, "", "")
	for _, l := range p.Layouts {
		book("layout "+l.Stock+"/count", l.Stock+", sheets or sticks", units.Count, l.Count, "", "")
	}
	book("piece/cost", "what is missing, money", units.Money, p.Cost, "", "")
	for i := range p.Findings {
		f := &p.Findings[i]
		book("finding "+f.ID+"/value", f.Title+", value", DimOf(f.Unit), f.Value, "", f.Rule)
		book("finding "+f.ID+"/limit", f.Title+", limit", DimOf(f.Unit), f.Limit, "", f.Rule)
	}
}

// DimOf returns the dimension of a finding's unit word.
func DimOf(unit string) units.Dim {
	switch unit {
	case "mm":
		return units.Length
	case "mm2":
		return units.Area
	case "kg":
		return units.Mass
	case "N":
		return units.Force
	case "MPa":
		return units.Stress
	case "rad":
		return units.Angle
	case "N·mm":
		return units.Moment
	}
	return units.None
}

// Rules returns every rule that the plan may stand on, by id.
func Rules() []*cite.Rule {
	out := check.Rules()
	for _, rs := range [][]*cite.Rule{brief.Rules, layout.Rules, making.Rules, dryfit.Rules, rout.Rules, meet.Rules, chain.Rules, lean.Rules, learn.Rules, spread.Rules} {
		out = append(out, rs...)
	}
	return out
}

// Worst returns the gravest verdict among the findings.
func (p *Plan) Worst() work.Verdict {
	worst := work.Fine
	for _, f := range p.Findings {
		switch {
		case f.Verdict == work.Stop:
			return work.Stop
		case f.Verdict != work.Fine:
			worst = work.Look
		}
	}
	return worst
}
