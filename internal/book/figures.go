package book

import (
	"slices"

	"rodwork/internal/drawing"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

func (w *writer) drawn() drawing.Options { return drawing.Options{System: w.sys} }

// group is figures that are drawn together, and the ids of the blocks that they
// came to stand in.
type group struct {
	leaves []leaf.Leaf
	ids    []string
}

// group draws figures, or takes them from the older book where the reader has
// no need of new ones.
func (w *writer) group(name string, draw func() []leaf.Leaf) []leaf.Leaf {
	if g, ok := w.old(name); ok {
		w.groups[name] = g
		for _, l := range g.leaves {
			w.behind[l.Key] = true
		}
		return g.leaves
	}
	g := group{leaves: draw()}
	for _, l := range g.leaves {
		g.ids = append(g.ids, w.figureID(l))
	}
	w.groups[name] = g
	return g.leaves
}

// old is a group of the older book that will do.
func (w *writer) old(name string) (group, bool) {
	if w.opt.Old == nil || w.opt.Draw == nil {
		return group{}, false
	}
	g, ok := w.opt.Old.drawn[name]
	return g, ok && len(g.ids) > 0 && !slices.ContainsFunc(g.ids, w.opt.Draw)
}

func (w *writer) figureID(l leaf.Leaf) string { return w.key + "/figure " + l.Key }

// views are the figures of the piece as a whole; of these each may be that of
// the older book.
func (w *writer) views() []leaf.Leaf {
	opt := w.drawn()
	var old group
	if w.opt.Old != nil && w.opt.Draw != nil {
		old = w.opt.Old.drawn["views"]
	}
	if len(old.leaves) > 0 {
		opt.Only = func(key string) bool {
			return w.opt.Draw(w.key+"/figure "+key) || !slices.ContainsFunc(old.leaves, func(l leaf.Leaf) bool { return l.Key == key })
		}
	}
	return w.group("views", func() []leaf.Leaf {
		return w.among(old.leaves, drawing.Views(w.p, opt))
	})
}

// among puts new figures in the places of older ones of the same keys, and marks
// those that stay as behind. What has no older one comes last.
func (w *writer) among(older, drawn []leaf.Leaf) []leaf.Leaf {
	if len(older) == 0 {
		return drawn
	}
	out := slices.Clone(older)
	for _, l := range older {
		w.behind[l.Key] = true
	}
	for _, l := range drawn {
		i := slices.IndexFunc(out, func(o leaf.Leaf) bool { return o.Key == l.Key })
		if i < 0 {
			out = append(out, l)
			continue
		}
		out[i] = l
		delete(w.behind, l.Key)
	}
	return out
}

// partLeaves are the figures of one part.
func (w *writer) partLeaves(q *piece.Part) []leaf.Leaf {
	return w.group("part "+q.ID, func() []leaf.Leaf { return drawing.Part(w.p, q, w.drawn()) })
}

// sheetLeaves are the figures of all layouts.
func (w *writer) sheetLeaves() []leaf.Leaf {
	return w.group("sheets", func() []leaf.Leaf { return drawing.Sheets(w.p, w.drawn()) })
}

// jointLeaves are sections of the joints.
func (w *writer) jointLeaves() []leaf.Leaf {
	return w.group("joints", func() []leaf.Leaf { return drawing.Joints(w.p, w.drawn()) })
}

// apartLeaves are the piece taken apart.
func (w *writer) apartLeaves() []leaf.Leaf {
	return w.group("apart", func() []leaf.Leaf { return drawing.Exploded(w.p, w.drawn()) })
}

// leaves adds figures, numbered through the book.
func (w *writer) leaves(ls []leaf.Leaf, about ...string) {
	for _, l := range ls {
		w.figure++
		f := Figure{ID: ID(w.figureID(l)), Number: w.figure, Leaf: l, Behind: w.behind[l.Key], Turns: l.Key == wholeKey}
		if f.Turns && w.opt.Model {
			f.Model = w.model()
		}
		w.add(f, about...)
		if f.Turns {
			w.table(w.modelTable())
		}
	}
}
