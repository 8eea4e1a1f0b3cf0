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
	Save   func(f File, was, now []byte) error
	System units.System // how lengths are printed; "" as the piece file says
	Token  string       // that edits must carry, made anew at each start
	Host   string       // "127.0.0.1:7410", that requests must name
	Here   string       // what tells another start of the program that this file is open here
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
	past     []texts
	future   []texts
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
	return s, nil
}

// make computes the book of a source, unless it is at hand. Only one runs at a
// time; who gives up waiting gets the context's error.
func (s *Session) make(ctx context.Context, l Loaded) (*view, error) {
	select {
	case s.compute <- struct{}{}:
		defer func() { <-s.compute }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	t := textsOf(l.Source)
	s.mu.Lock()
	for _, v := range []*view{s.view, s.last} {
		if v != nil && v.texts == t && len(l.Remarks) == 0 {
			s.mu.Unlock()
			return v, nil
		}
	}
	s.mu.Unlock()
	v, err := makeView(ctx, l, s.cfg.System)
	if err == nil {
		s.mu.Lock()
		s.last = v
		s.mu.Unlock()
	}
	return v, err
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
