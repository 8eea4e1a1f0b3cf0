package design

import "rodwork/internal/diag"

// air reads the room's humidity over the year.
func (p *pieceReader) air(r *rec) {
	if r == nil {
		return
	}
	a := &Air{Dry: r.numOr("dry"), Damp: r.numOr("damp"), Path: r.path}
	if a.Dry.V >= a.Damp.V && a.Damp.V > 0 {
		p.d.add(diag.Diagnostic{Code: "out-of-range", At: r.at, Path: r.path, Summary: "The dry end of the air is not drier than the damp end",
			Detail: "Both are relative humidities of the same room, in winter and in summer.", Expected: "{dry: 30 %, damp: 65 %}"})
		return
	}
	p.out.Brief.Air = a
}

// edges reads how edges are broken.
func (p *pieceReader) edges(r *rec) {
	if r == nil {
		return
	}
	e := &Edges{Round: r.maybe("round"), Chamfer: r.maybe("chamfer"), Sharp: r.strings("sharp"), At: r.at, Path: r.path}
	if (e.Round == nil) == (e.Chamfer == nil) {
		p.d.add(diag.Diagnostic{Code: "missing-key", At: r.at, Path: r.path, Summary: "Edges are either rounded or chamfered",
			Detail: "Found both, or neither.", Expected: "{round: 3 mm} or {chamfer: 2 mm}"})
		return
	}
	p.out.Edges = e
}
