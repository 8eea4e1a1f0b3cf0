package fit

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/mech/learn"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// State is how a joint or a bend stands as to its test piece.
type State string

// The states.
const (
	Fresh   State = "fresh"
	Stale   State = "stale"
	Missing State = "missing"
)

// Proof is the state of one test piece that the piece wants.
type Proof struct {
	Test  *work.TestPiece
	State State
	Log   *design.Test // the entry that counts, or the last stale one; nil: none
	Why   string       // of a stale one
}

// Proofs returns the state of each test piece, in their order.
func Proofs(in Input) []Proof {
	out := make([]Proof, len(in.Tests))
	for i := range in.Tests {
		t := &in.Tests[i]
		var fresh, last *design.Test
		u := in.setUp(t.SetUp)
		if t.Kind == "bend" {
			fresh, last = in.Design.Shop.BendTest(u.With, t.Stock)
		} else {
			fresh, last = in.Design.Shop.FitTest(u.Kind, u.With, t.Stock, t.Other)
		}
		out[i] = Proof{Test: t, State: Missing}
		switch {
		case fresh != nil:
			out[i].State, out[i].Log = Fresh, fresh
		case last != nil:
			out[i].State, out[i].Log, out[i].Why = Stale, last, in.Design.Shop.Stale(last)
		}
	}
	return out
}

// Findings says which joints and bends stand on a stale test or on none.
func Findings(in Input) []work.Finding {
	if in.Design == nil || in.Design.Shop == nil || len(in.Tests) == 0 {
		return nil
	}
	proofs := Proofs(in)
	fresh := 0
	var out []work.Finding
	var untried []string
	stale := map[*design.Test][]string{}
	var order []*design.Test
	for _, p := range proofs {
		switch p.State {
		case Fresh:
			fresh++
		case Missing:
			untried = append(untried, in.what(p.Test))
		case Stale:
			if stale[p.Log] == nil {
				order = append(order, p.Log)
			}
			stale[p.Log] = append(stale[p.Log], in.what(p.Test))
		}
	}
	base := work.Finding{Rule: "LEARN-04", Value: trace.Const(float64(fresh)), Limit: trace.Const(float64(len(proofs))), Unit: "1", Chapter: "test"}
	for _, t := range order {
		f := base
		f.ID, f.Verdict, f.Title, f.Path = "tests/stale/"+t.Name, work.Look, "a stale test: "+t.Name, t.Path
		f.At = t.At
		f.Text = say.F("The test of {} no longer counts: {}. On it stand: {}. Cut it again.", t.Measured, say.Name(in.Design.Shop.Stale(t)), say.Name(strings.Join(stale[t], "; ")))
		out = append(out, f)
	}
	f := base
	f.ID, f.Verdict, f.Title = "tests/missing", work.Fine, "test pieces"
	f.Text = say.F("Each of the {} set-ups that want a test piece has one that counts.", len(proofs))
	if len(untried) > 0 {
		f.Verdict = work.Look
		f.Text = say.F("{} of {} set-ups stand on a test piece that counts. Not tried yet: {}.", fresh, len(proofs), say.Name(strings.Join(untried, "; ")))
	}
	if len(untried) > 0 || len(order) == 0 {
		out = append(out, f)
	}
	return out
}

// what names what a test piece proves, in a few words.
func (in Input) what(t *work.TestPiece) string {
	if t.Kind == "bend" {
		return "the bend at the " + t.Bend[strings.LastIndex(t.Bend, "/bend ")+len("/bend "):]
	}
	return fmt.Sprintf("%s in its %s", in.names(t.For), in.setUp(t.SetUp).Kind)
}

// names are the names of the first few parts.
func (in Input) names(ids []string) string {
	var out []string
	for _, id := range ids {
		if q := in.Piece.Part(id); q != nil {
			out = append(out, q.Name)
		}
	}
	if len(out) > 2 {
		out = append(out[:1], fmt.Sprintf("%d more", len(out)-1))
	}
	return strings.Join(out, " and ")
}

// Apply puts what fresh test strips say in the place of the published radii: the
// findings on strain of bends whose strip was bent are judged by it.
func Apply(in Input, findings []work.Finding) {
	if in.Design == nil || in.Design.Shop == nil || in.Piece == nil || in.Design.Body.Bend.Saw == nil {
		return
	}
	for i := range findings {
		f := &findings[i]
		q, b := in.strained(f)
		if q == nil || q.Stock == nil {
			continue
		}
		t, _ := in.Design.Shop.BendTest(in.Design.Body.Bend.Saw.Name, q.Stock.Name)
		if t == nil || t.HeldTo == nil && t.CrackedAt == nil {
			continue
		}
		judged(f, b, t)
	}
}

// strained is the bend that a finding on strain is about.
func (in Input) strained(f *work.Finding) (*piece.Part, piece.Bend) {
	q := in.Piece.Part(f.Part)
	if q == nil || !strings.HasSuffix(f.ID, "/strain") {
		return nil, piece.Bend{}
	}
	for _, b := range q.Bends {
		if f.ID == "bend/"+q.ID+"/"+b.Corner+"/strain" && kerfed(b) {
			return q, b
		}
	}
	return nil, piece.Bend{}
}

func judged(f *work.Finding, b piece.Bend, t *design.Test) {
	var held, cracked trace.Num
	if t.HeldTo != nil {
		held = *t.HeldTo
	}
	if t.CrackedAt != nil {
		cracked = *t.CrackedAt
	}
	if held.V == 0 { // it was not written, and it cracked later than that
		held = cracked
	}
	a := b.Plan.Alpha
	switch learn.Bent(a, heldTo(t), cracked.V) {
	case learn.Holds:
		f.Verdict = work.Fine
		f.Text = say.F("A test strip of this blade and batch bore {} at each kerf on {}; the part needs {}. That counts for more than the published radii. ",
			say.Angle(held.V, 2), t.Measured, say.Angle(a, 2))
		f.Mends = nil
	case learn.Barely:
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" A test strip bore {} at each kerf on {}, and the part needs {}: bend one further, for a reserve.",
			say.Angle(held.V, 2), t.Measured, say.Angle(a, 2))...)
	case learn.Breaks:
		f.Verdict = work.Stop
		f.Text = append(say.F("A test strip of this blade and batch cracked at {} a kerf on {}; the part needs {}. ", say.Angle(cracked.V, 2), t.Measured, say.Angle(a, 2)), f.Text...)
	}
}

// heldTo is what a strip surely bore.
func heldTo(t *design.Test) float64 {
	if t.HeldTo != nil {
		return t.HeldTo.V
	}
	return 0
}
