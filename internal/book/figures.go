package book

import (
	"rodwork/internal/drawing"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

func (w *writer) drawn() drawing.Options { return drawing.Options{System: w.sys} }

// views are the figures of the piece as a whole.
func (w *writer) views() []leaf.Leaf { return drawing.Views(w.p, w.drawn()) }

// partLeaves are the figures of one part.
func (w *writer) partLeaves(q *piece.Part) []leaf.Leaf { return drawing.Part(w.p, q, w.drawn()) }

// sheetLeaves are the figures of all layouts.
func (w *writer) sheetLeaves() []leaf.Leaf { return drawing.Sheets(w.p, w.drawn()) }

// jointLeaves are sections of the joints.
func (w *writer) jointLeaves() []leaf.Leaf { return drawing.Joints(w.p, w.drawn()) }

// apartLeaves are the piece taken apart.
func (w *writer) apartLeaves() []leaf.Leaf { return drawing.Exploded(w.p, w.drawn()) }

// leaves adds figures, numbered through the book.
func (w *writer) leaves(ls []leaf.Leaf, about ...string) {
	for _, l := range ls {
		w.figure++
		w.add(Figure{ID: ID(w.key + "/figure " + l.Key), Number: w.figure, Leaf: l}, about...)
	}
}
