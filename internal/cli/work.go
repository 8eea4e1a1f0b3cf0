package cli

import (
	"fmt"
	"strconv"
	"strings"
	"sync"
	"time"

	"rodwork/internal/book"
	"rodwork/internal/book/text"
	"rodwork/internal/diag"
	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// made is a plan with the remarks that came with it, none of them an error.
type made struct {
	*plan.Plan
	warnings diag.List
}

// plan makes the plan of a piece. What is wrong with the files is told: as a
// document on the standard output where JSON was asked for, else as text on
// the standard error.
func (s *session) plan(a dataArgs) (made, error) {
	src, remarks, err := s.source(a.pieceArgs)
	if err != nil {
		return made{}, err
	}
	if remarks.HasErrors() {
		return made{}, s.refuse(src, remarks, a.JSON)
	}
	return s.planSource(src, int(a.Effort), a.JSON)
}

func (s *session) planSource(src plan.Source, effort int, asJSON bool) (made, error) {
	done := s.progress("working on " + src.PieceFile)
	p, remarks := plan.Make(s.ctx, src, plan.Options{Effort: effort})
	done()
	if err := s.ctx.Err(); err != nil {
		return made{}, err
	}
	if remarks.HasErrors() || p == nil {
		return made{}, s.refuse(src, remarks, asJSON)
	}
	if len(remarks) > 0 && !asJSON {
		if err := remarks.Write(s.err, texts(src)); err != nil {
			return made{}, err
		}
	}
	if n := export.Stops(p); n > 0 {
		s.stop = true
	}
	return made{p, remarks}, nil
}

// refuse tells what is wrong with the files and returns errSaid.
func (s *session) refuse(src plan.Source, remarks diag.List, asJSON bool) error {
	if asJSON {
		if err := export.Write(s.out, export.DiagnosticsOf(remarks)); err != nil {
			return err
		}
		return errSaid
	}
	if err := remarks.Write(s.err, texts(src)); err != nil {
		return err
	}
	fmt.Fprintln(s.err)
	s.say("%s; nothing was computed", plural(errorsIn(remarks), "error", "errors"))
	return errSaid
}

// texts finds the text of a file by its name, for the lines that remarks show.
func texts(src plan.Source) func(string) []byte {
	return func(file string) []byte {
		switch file {
		case src.PieceFile:
			return src.Piece
		case src.ShopFile:
			return src.Shop
		}
		return nil
	}
}

// progress says that work goes on, if it goes on for more than a second. The
// returned function ends it.
func (s *session) progress(what string) (done func()) {
	return s.progressAfter(what, time.Second, 5*time.Second)
}

func (s *session) progressAfter(what string, patience, again time.Duration) (done func()) {
	end := make(chan struct{})
	var wait sync.WaitGroup
	wait.Go(func() {
		t := time.NewTimer(patience)
		defer t.Stop()
		for {
			select {
			case <-end:
				return
			case <-t.C:
				s.say("%s … (Ctrl-C stops; nothing is left half done)", what)
				t.Reset(again)
			}
		}
	})
	return func() { close(end); wait.Wait() }
}

// keeper chooses blocks of the book by their chapter and by the heading, if
// any, that they stand under.
type keeper func(chapter, heading string, b book.Block) bool

// inChapter keeps a whole chapter.
func inChapter(key string) keeper {
	return func(chapter, _ string, _ book.Block) bool { return chapter == key }
}

// show prints the blocks of the book that keep accepts, as text.
func (s *session) show(p made, sys units.System, keep keeper) error {
	b := book.Make(p.Plan, book.Options{System: sys})
	var chapters []book.Chapter
	for _, c := range b.Chapters {
		var blocks []book.Block
		heading := ""
		for _, x := range c.Blocks {
			if h, ok := x.(book.Heading); ok {
				heading = h.BlockID()
			}
			if keep(c.Key, heading, x) {
				blocks = append(blocks, x)
			}
		}
		if len(blocks) > 0 {
			c.Blocks = blocks
			chapters = append(chapters, c)
		}
	}
	b.Chapters = chapters
	_, err := s.out.Write(text.Render(b, text.Options{Width: s.columns()}))
	return err
}

// data prints what a data command prints: the document, or blocks of the book.
func (s *session) data(a dataArgs, doc func(made) any, keep keeper) error {
	p, err := s.plan(a)
	if err != nil {
		return err
	}
	if a.JSON {
		err = export.Write(s.out, doc(p))
	} else {
		err = s.show(p, units.System(a.Units), keep)
	}
	if err == nil {
		s.sayStops(p.Plan, a.File)
	}
	return err
}

// sayStops tells of findings that say stop, so that nobody cuts from a list
// without having seen them.
func (s *session) sayStops(p *plan.Plan, file string) {
	if n := export.Stops(p); n > 0 {
		s.say("don't cut yet: %s stop (rodwork check %s)", plural(n, "finding says", "findings say"), commandLine([]string{file}))
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// showBlocks prints blocks of our own under a title, as the text of a book is
// printed.
func (s *session) showBlocks(title string, blocks ...book.Block) error {
	const key = "answer"
	b := &book.Book{Chapters: []book.Chapter{{Key: key, Number: 1, Blocks: blocks}}}
	out := string(text.Chapters(b, text.Options{Width: s.columns()}, key))
	// A chapter opens with its number over a rule; an answer has neither.
	if _, rest, ok := strings.Cut(out, "-\n"); ok {
		out = strings.TrimLeft(rest, "\n")
	}
	_, err := fmt.Fprintf(s.out, "%s\n%s\n\n%s", title, strings.Repeat("=", len([]rune(title))), out)
	return err
}

// columns is the width of the terminal where the shell tells it, else the
// renderer's own; the book's file is always set in the renderer's own.
func (s *session) columns() int {
	n, err := strconv.Atoi(s.getenv("COLUMNS"))
	if err != nil || n < 40 || n > 400 {
		return 0
	}
	return n
}
