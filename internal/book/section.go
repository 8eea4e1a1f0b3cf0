package book

import (
	"maps"
	"slices"
)

// section is a run of blocks that takes long to reckon, with what it told of
// where findings belong.
type section struct {
	blocks []Block
	about  map[string][]string
	shown  map[string]bool
}

// section writes a run of blocks, or takes it from the older book where nothing
// of it is in sight of a reader who waits. Such a page shows none of these: it
// knows that they are behind, as all that is out of sight.
func (w *writer) section(name string, write func()) {
	if s, ok := w.oldSection(name); ok {
		w.blocks = append(w.blocks, s.blocks...)
		maps.Copy(w.about, s.about)
		maps.Copy(w.shown, s.shown)
		w.sections[name] = s
		return
	}
	from, had := len(w.blocks), maps.Clone(w.shown)
	write()
	s := section{blocks: slices.Clone(w.blocks[from:]), about: map[string][]string{}, shown: map[string]bool{}}
	for _, b := range s.blocks {
		s.about[b.BlockID()] = w.about[b.BlockID()]
	}
	for path := range w.shown { // into a set: no order shows
		if !had[path] {
			s.shown[path] = true
		}
	}
	w.sections[name] = s
}

// oldSection is a section of the older book that will do.
func (w *writer) oldSection(name string) (section, bool) {
	if w.opt.Old == nil || w.opt.Draw == nil {
		return section{}, false
	}
	s, ok := w.opt.Old.sections[name]
	return s, ok && len(s.blocks) > 0 && !slices.ContainsFunc(s.blocks, func(b Block) bool { return w.opt.Draw(b.BlockID()) })
}
