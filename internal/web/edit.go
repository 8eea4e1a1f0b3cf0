package web

import (
	"context"
	"errors"
	"maps"
	"net/http"
	"slices"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/plan"
)

// request is what a page posts.
type request struct {
	Client string   `json:"client"`
	Base   int      `json:"base"`           // the revision that it shows
	Path   string   `json:"path,omitempty"` // of the value to change …
	File   File     `json:"file,omitempty"` // … or the file to change
	Text   string   `json:"text"`           // its new text; "" with no path and no file: as it was
	Do     string   `json:"do,omitempty"`   // with the item of a list at the path: doubled or without, below
	Shown  []string `json:"shown,omitempty"`
	// Near are the fragments in sight, of a preview that is to come at once; the
	// rest is behind until a preview is asked for without them.
	Near []string `json:"near,omitempty"`
}

// What may be done with an item of a list.
const (
	doubled = "another"
	without = "without"
)

// refusal is why an edit was not made.
type refusal struct {
	Why      string    `json:"why"`
	Problems []Problem `json:"problems,omitempty"`
	// Of a conflict: the text that stands now, and the one that was wanted.
	Conflict bool   `json:"conflict,omitempty"`
	Rev      int    `json:"rev,omitempty"`
	Theirs   string `json:"theirs,omitempty"`
	Mine     string `json:"mine,omitempty"`
}

// changed returns the source with an edit in it.
func changed(l Loaded, v *view, r request) (Loaded, *refusal) {
	if r.Path == "" && r.File == "" {
		return l, nil
	}
	if r.Path == "" {
		put(&l.Source, r.File, []byte(r.Text))
		l.Remarks = nil
		return l, nil
	}
	file, name, src := PieceFile, l.Source.PieceFile, l.Source.Piece
	if x, ok := v.values[r.Path]; ok && x.File == ShopFile {
		file, name, src = ShopFile, l.Source.ShopFile, l.Source.Shop
	}
	out, err := []byte(nil), error(nil)
	switch r.Do {
	case doubled:
		out, err = design.Another(name, src, r.Path)
	case without:
		out, err = design.Without(name, src, r.Path)
	default:
		out, err = design.Splice(name, src, r.Path, v.values[r.Path].before+r.Text)
	}
	if err != nil {
		why := err.Error()
		var se *design.SpliceError
		if errors.As(err, &se) {
			why = se.Reason
		}
		return l, &refusal{Why: why, Problems: []Problem{{File: file, Path: r.Path, Severity: "error", Summary: upper(why)}}}
	}
	put(&l.Source, file, out)
	return l, nil
}

func put(src *plan.Source, f File, text []byte) {
	if f == ShopFile {
		src.Shop = text
	} else {
		src.Piece = text
	}
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// preview answers what an edit would bring, and writes nothing.
func (s *Session) preview(ctx context.Context, r request) (Answer, *refusal, error) {
	rev, from, l := s.now()
	if r.Base != rev {
		return Answer{}, s.conflict(r), nil
	}
	next, no := changed(l, from, r)
	if no != nil {
		return Answer{}, no, nil
	}
	var v *view
	var err error
	var g *glance
	if len(r.Near) > 0 && from.whole {
		g = &glance{older: from, near: map[string]bool{}}
		for _, id := range r.Near {
			g.near[id] = true
		}
		v, err = s.glance(ctx, next, g)
	} else {
		v, err = s.make(ctx, next)
	}
	if err != nil {
		return Answer{}, nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	a := s.answer(from, v, rev, r.Shown)
	a.Preview, a.Rev = true, rev
	if g != nil && v.whole {
		a.Behind = true
		maps.DeleteFunc(a.HTML, func(id, _ string) bool { return strings.HasPrefix(id, "r-") && !g.wanted(id) })
	}
	return a, nil, nil
}

// edit makes an edit a revision. A value that brings a new error is refused; a
// whole text is kept as it is, since it is the writer's.
func (s *Session) edit(ctx context.Context, r request) (Answer, *refusal, error) {
	rev, from, l := s.now()
	if r.Base != rev {
		return Answer{}, s.conflict(r), nil
	}
	next, no := changed(l, from, r)
	if no != nil {
		return Answer{}, no, nil
	}
	if textsOf(next.Source) == textsOf(l.Source) {
		return s.told(from, from, rev, r.Shown), nil, nil
	}
	v, err := s.make(ctx, next)
	if err != nil {
		return Answer{}, nil, err
	}
	if r.Path != "" && v.errors() > from.errors() {
		return Answer{}, &refusal{Why: "the file could not be used with it", Problems: v.problems}, nil
	}
	return s.write(ctx, rev, from, next, v, r, edited)
}

// turn takes back the last edit, or puts it in again.
func (s *Session) turn(ctx context.Context, r request, h how) (Answer, *refusal, error) {
	rev, from, l := s.now()
	if r.Base != rev {
		return Answer{}, s.conflict(r), nil
	}
	t, ok := s.older(h)
	if !ok {
		return Answer{}, &refusal{Why: "there is nothing to take back"}, nil
	}
	next := l
	next.Source.Piece, next.Source.Shop = []byte(t.piece), []byte(t.shop)
	v, err := s.make(ctx, next)
	if err != nil {
		return Answer{}, nil, err
	}
	return s.write(ctx, rev, from, next, v, r, h)
}

func (s *Session) write(ctx context.Context, rev int, from *view, next Loaded, v *view, r request, h how) (Answer, *refusal, error) {
	err := s.commit(rev, next, v, r.Client, h)
	if errors.Is(err, ErrChanged) {
		if err := s.Reload(ctx); err != nil {
			return Answer{}, nil, err
		}
		return Answer{}, s.conflict(r), nil
	}
	if err != nil {
		return Answer{}, &refusal{Why: "it could not be written: " + err.Error()}, nil
	}
	return s.told(from, v, rev, r.Shown), nil, nil
}

func (s *Session) told(from, to *view, base int, shown []string) Answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	a := s.answer(from, to, base, shown)
	a.Changes = changesOf(from, to)
	return a
}

// conflict shows both: what stands now, and what was wanted.
func (s *Session) conflict(r request) *refusal {
	rev, v, l := s.now()
	c := &refusal{Why: "the file was changed meanwhile, by someone else or by another page", Conflict: true, Rev: rev, Mine: r.Text}
	switch {
	case r.Path != "":
		c.Theirs = v.values[r.Path].Text
	case r.File == ShopFile:
		c.Theirs = string(l.Source.Shop)
	default:
		c.Theirs = string(l.Source.Piece)
	}
	return c
}

// status is the answer's HTTP status for a refusal.
func (r *refusal) status() int {
	if r.Conflict {
		return http.StatusConflict
	}
	return http.StatusUnprocessableEntity
}

// fits bounds what a request may carry beyond its size.
func (r *request) fits() bool {
	return len(r.Shown) <= 4000 && len(r.Near) <= 1000 && len(r.Path) <= 1000 && len(r.Client) <= 100 &&
		slices.Contains([]File{"", PieceFile, ShopFile}, r.File) && slices.Contains([]string{"", doubled, without}, r.Do)
}
