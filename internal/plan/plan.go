// Package plan is the facade of the computation: from the bytes of a piece
// file and a shop file to one immutable value in which everything is known,
// each number with where it came from. It reads no file, no clock and no
// environment: the same input gives the same Plan.
package plan

import (
	"rodwork/internal/cite"
	"rodwork/internal/design"
	"rodwork/internal/fit"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Source is what a plan is made from.
type Source struct {
	PieceFile string // its name, for diagnostics
	Piece     []byte
	ShopFile  string
	Shop      []byte
	// Files are the drawings that outlines name, by their names relative to the
	// piece file, with slashes.
	Files map[string][]byte
}

// Options bound the work.
type Options struct {
	// Effort is the work that a layout may take, in units of sheet.Effort;
	// 0 is a first layout, made in a few milliseconds.
	Effort int
}

// Plan is everything that is known before the first cut.
type Plan struct {
	Source   Source
	Design   *design.Design
	Piece    *piece.Piece
	Ledger   *trace.Ledger
	Rules    []*cite.Rule
	Findings []work.Finding
	Layouts  []work.Layout
	Order    []work.Step
	GlueUps  []work.GlueUp    // by the clock, from the first
	SetUps   []work.SetUp     // in the order in which they are made
	Tests    []work.TestPiece // cut before them
	Screws   []work.ScrewLine
	Aids     []work.Aid     // formers, blocks and cauls for the bends
	Ways     []work.BendWay // to make each bend, for comparison
	Carries  []work.Carried // by surface, in the order of the parts
	Buying   []work.BuyLine
	Fits     []work.Fit
	Masses   []work.MassLine
	Mass     trace.Num // kg, empty
	Load     trace.Num // kg, what the brief puts in
	Cost     trace.Num // of what is missing, in the piece's currency
	Stock    trace.Num // of all stock and fittings used
	Unpriced []string  // what is missing and has no price: the sums are too low by it
}

// FitInput is what fits and their tests are found in.
func (p *Plan) FitInput() fit.Input {
	return fit.Input{Piece: p.Piece, Design: p.Design, SetUps: p.SetUps, Tests: p.Tests}
}
