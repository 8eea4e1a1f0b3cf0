package web

import (
	"context"
	"errors"
	"sync"

	"rodwork/internal/diag"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// File names one of the two files of a session.
type File string

// The two files.
const (
	PieceFile File = "piece"
	ShopFile  File = "shop"
)

// ErrChanged is what Config.Save returns where the file does not hold what it
// was thought to hold.
var ErrChanged = errors.New("the file was changed meanwhile")

// Loaded is what stands on the disk.
type Loaded struct {
	Source  plan.Source
	Remarks diag.List // about files that could not be read
	// ShopFixed says that the shop file is the program's own and cannot be
	// written.
	ShopFixed bool
}

// Config is what a session needs of the world.
type Config struct {
	// Load reads the files from the disk.
	Load func() (Loaded, error)
	// Save writes one file anew if it still holds the bytes in was, else it
	// returns ErrChanged.
	Save func(f File, was, now []byte) error
	// Recall reads the log of revisions that Remember wrote at an earlier start,
	// and Remember writes it; nil where none is kept.
	Recall   func() ([]byte, error)
	Remember func([]byte) error
	System   units.System // how lengths are printed; "" as the piece file says
	Token    string       // that edits must carry, made anew at each start
	Host     string       // "127.0.0.1:7410", that requests must name
	Here     string       // what tells another start of the program that this file is open here
	// Starting lets a page begin another piece; nil where it cannot.
	Starting *Starting
}

// Session is one piece file being read and changed.
type Session struct {
	cfg     Config
	compute chan struct{} // holds one token: one computation at a time

	mu       sync.Mutex
	loaded   Loaded // the texts of the revision in force
	rev      int    // its number, from 1
	view     *view  // and its book
	last     *view  // the latest preview, which an edit may turn out to be
	planned  *made  // the latest plan, of which more of the book may be wanted
	past     []texts
	future   []texts
	word     string // to be said to whoever loads the page
	watchers map[chan event]bool
}

// texts are the two working texts.
type texts struct{ piece, shop string }

func textsOf(src plan.Source) texts { return texts{string(src.Piece), string(src.Shop)} }

// most is how many revisions can be taken back.
const most = 200

// Open reads the files and makes the first revision.
func Open(ctx context.Context, cfg Config) (*Session, error) {
	s := &Session{cfg: cfg, compute: make(chan struct{}, 1), watchers: map[chan event]bool{}}
	l, err := cfg.Load()
	if err != nil {
		return nil, err
	}
	v, err := s.make(ctx, l)
	if err != nil {
		return nil, err
	}
	s.loaded, s.view, s.rev = l, v, 1
	s.recall()
	return s, nil
}

// make computes the book of a source, unless it is at hand. Only one runs at a
// time; who gives up waiting gets the context's error.
func (s *Session) make(ctx context.Context, l Loaded) (*view, error) {
	if err := s.turnToCompute(ctx); err != nil {
		return nil, err
	}
	defer func() { <-s.compute }()
	if v := s.atHand(l); v != nil {
		return v, nil
	}
	m, err := s.plan(ctx, l)
	if err != nil {
		return nil, err
	}
	v := makeView(m, l, s.cfg.System, nil)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	s.last = v
	s.mu.Unlock()
	return v, nil
}

// atHand is the whole view of a source, if it was made a moment ago.
func (s *Session) atHand(l Loaded) *view {
	t := textsOf(l.Source)
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, v := range []*view{s.view, s.last} {
		if v != nil && v.texts == t && len(l.Remarks) == 0 {
			return v
		}
	}
	return nil
}

// plan computes the plan of a source, unless it is at hand. The token is held.
func (s *Session) plan(ctx context.Context, l Loaded) (*made, error) {
	s.mu.Lock()
	m := s.planned
	s.mu.Unlock()
	if m != nil && m.texts == textsOf(l.Source) && len(l.Remarks) == 0 {
		return m, nil
	}
	m, err := makePlan(ctx, l)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	s.planned = m
	s.mu.Unlock()
	return m, nil
}

// glance is make for a reader who waits: only what is near the window is made.
func (s *Session) glance(ctx context.Context, l Loaded, g *glance) (*view, error) {
	if err := s.turnToCompute(ctx); err != nil {
		return nil, err
	}
	defer func() { <-s.compute }()
	if v := s.atHand(l); v != nil {
		return v, nil
	}
	m, err := s.plan(ctx, l)
	if err != nil {
		return nil, err
	}
	return makeView(m, l, s.cfg.System, g), ctx.Err()
}

// turnToCompute waits until nothing else is computed.
func (s *Session) turnToCompute(ctx context.Context) error {
	select {
	case s.compute <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	if err := ctx.Err(); err != nil {
		<-s.compute
		return err
	}
	return nil
}

// now returns the revision in force.
func (s *Session) now() (int, *view, Loaded) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.rev, s.view, s.loaded
}

// how tells what brought a revision about.
type how int

const (
	edited how = iota
	undone
	redone
)

// commit writes a new source to the disk and makes it the revision in force. It
// fails with ErrChanged where base is no longer in force, on the disk or here.
func (s *Session) commit(base int, l Loaded, v *view, by string, h how) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if base != s.rev {
		return ErrChanged
	}
	was, is := textsOf(s.loaded.Source), textsOf(l.Source)
	if was.piece != is.piece {
		if err := s.cfg.Save(PieceFile, []byte(was.piece), []byte(is.piece)); err != nil {
			return err
		}
	}
	if was.shop != is.shop {
		if err := s.cfg.Save(ShopFile, []byte(was.shop), []byte(is.shop)); err != nil {
			return err
		}
	}
	s.keep(was, h)
	s.take(l, v, by)
	return nil
}

// keep puts the text that is left behind where it can be had again.
func (s *Session) keep(was texts, h how) {
	switch h {
	case undone:
		s.past = s.past[:len(s.past)-1]
		s.future = append(s.future, was)
	case redone:
		s.future = s.future[:len(s.future)-1]
		s.past = append(s.past, was)
	default:
		s.past, s.future = append(s.past, was), nil
	}
	if len(s.past) > most {
		s.past = s.past[len(s.past)-most:]
	}
}

// take makes a source the revision in force and tells who watches.
func (s *Session) take(l Loaded, v *view, by string) {
	from := s.view
	s.loaded, s.view = l, v
	s.rev++
	s.remember()
	e := event{by: by, answer: s.answer(from, v, s.rev-1, nil)}
	for c := range s.watchers { // a set of equals: no order shows
		select {
		case c <- e:
		default: // it lags; its page will see a gap and ask for everything
		}
	}
}

// older returns the text that undo, or redo, leads to.
func (s *Session) older(h how) (texts, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	from := s.past
	if h == redone {
		from = s.future
	}
	if len(from) == 0 {
		return texts{}, false
	}
	return from[len(from)-1], true
}

// Reload looks at the disk; where another text stands there it becomes a new
// revision, which can be taken back like any other.
func (s *Session) Reload(ctx context.Context) error {
	l, err := s.cfg.Load()
	if err != nil {
		return err
	}
	base, _, old := s.now()
	if textsOf(l.Source) == textsOf(old.Source) && len(l.Remarks) == len(old.Remarks) {
		return nil
	}
	v, err := s.make(ctx, l)
	if err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if base != s.rev {
		return nil // the next look will tell
	}
	s.keep(textsOf(s.loaded.Source), edited)
	s.take(l, v, "")
	return nil
}
