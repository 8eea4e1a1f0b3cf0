// Package cli is the program: its commands, its help, its exit status. It is
// the only package that reads files named by a person, looks at the clock or
// the environment, or ends the process.
//
// # Manners
//
// Data goes to the standard output, and nothing else does. What is said to the
// person goes to the standard error, with the program's name before it. A
// command that prints data prints it as JSON with --json; the names of fields
// carry their units, and a field that was once printed is never taken away.
//
// # Exit status
//
//	0    fine
//	1    done, but a finding says stop: don't cut yet
//	2    the input could not be used, or the output not written
//	130  interrupted; nothing was half written
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/alecthomas/kong"
)

// The exit statuses.
const (
	exitFine        = 0
	exitStop        = 1
	exitBad         = 2
	exitInterrupted = 130
)

// Main runs the program with its arguments (without its name) and returns the
// exit status.
func Main(args []string, in io.Reader, out, err io.Writer) int {
	if os.Getenv("GOGC") == "" {
		// A plan with its figures leaves some 25 MB behind, and the collector's
		// default would walk a small heap many times for it: a third of the time.
		debug.SetGCPercent(Garbage)
	}
	ctx, release := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer release()
	context.AfterFunc(ctx, release) // a second Ctrl-C ends the process at once
	return run(ctx, args, world{in: in, out: out, err: err, getenv: os.Getenv, open: openInBrowser})
}

// Garbage is how far the heap may grow before it is collected, in percent of
// what is alive: some 100 MB on the largest example.
const Garbage = 400

// world is what lies outside of the program, so that tests can stand in for it.
type world struct {
	in       io.Reader
	out, err io.Writer
	getenv   func(string) string
	open     func(path string) error
}

// session is one run of one command.
type session struct {
	world
	ctx context.Context
	// stop is set when a finding says stop.
	stop bool
	// ended is set when an interruption is how the command is meant to end.
	ended bool
}

// errSaid is returned by a command that has already told what is wrong.
var errSaid = errors.New("said already")

func run(ctx context.Context, args []string, w world) (status int) {
	checked := &stickyWriter{w: w.out}
	w.out = checked
	s := &session{world: w, ctx: ctx}
	status = s.dispatch(args)
	if checked.err != nil && status != exitInterrupted {
		s.say("cannot write the output: %v", checked.err)
		return exitBad
	}
	return status
}

func (s *session) dispatch(args []string) int {
	var g grammar
	parser := newParser(&g, s)
	kctx, done, err := parse(parser, args)
	if done {
		return exitFine
	}
	if err != nil {
		s.say("%v", err)
		if better := mend(parser.Model, args); better != "" {
			s.hint("%s", better)
		} else {
			s.hint("rodwork --help tells what there is")
		}
		return exitBad
	}
	err = kctx.Run(s)
	switch {
	case s.ctx.Err() != nil && !s.ended:
		s.say("interrupted")
		return exitInterrupted
	case err != nil:
		if !errors.Is(err, errSaid) {
			s.say("%v", err)
		}
		return exitBad
	case s.stop:
		return exitStop
	}
	return exitFine
}

// helpShown is thrown by the parser's exit hook once it has printed help.
type helpShown struct{}

// parse reads the arguments; done says that help was asked for and printed.
func parse(p *kong.Kong, args []string) (ctx *kong.Context, done bool, err error) {
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(helpShown); !ok {
				panic(r)
			}
			done = true
		}
	}()
	ctx, err = p.Parse(args)
	return ctx, false, err
}

// say tells the person something; hint adds what to do about it.
func (s *session) say(format string, args ...any) {
	fmt.Fprintf(s.err, "rodwork: "+format+"\n", args...)
}

func (s *session) hint(format string, args ...any) {
	fmt.Fprintf(s.err, "rodwork: hint: "+format+"\n", args...)
}

// stickyWriter remembers the first error of the writer below it, as when the
// disk is full, so that commands need not look at every line they print.
type stickyWriter struct {
	w   io.Writer
	err error
}

// Write writes unless an earlier write failed.
func (s *stickyWriter) Write(p []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.w.Write(p)
	s.err = err
	return n, err
}
