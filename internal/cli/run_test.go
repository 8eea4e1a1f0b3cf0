package cli

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// desk is a world of buffers.
type desk struct {
	out, err bytes.Buffer
	opened   []string
	fail     error
}

func (d *desk) run(ctx context.Context, args ...string) int {
	return run(ctx, args, world{
		in: strings.NewReader(""), out: &d.out, err: &d.err,
		getenv: func(string) string { return "" },
		open:   func(path string) error { d.opened = append(d.opened, path); return d.fail },
	})
}

const demoPiece = "../../examples/main/piece.yaml"

// Ctrl-C while a book is made: the exit status says so, and nothing is left.
func TestInterruptedLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var d desk
	if status := d.run(ctx, "book", demoPiece, "-o", filepath.Join(dir, "out")); status != exitInterrupted {
		t.Errorf("status %d: %s", status, d.err.String())
	}
	if !strings.Contains(d.err.String(), "rodwork: interrupted") || d.out.Len() > 0 {
		t.Errorf("said %q, printed %q", d.err.String(), d.out.String())
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) > 0 {
		t.Errorf("left %v, %v", left, err)
	}
}

func TestTheExampleIsOpenedOnce(t *testing.T) {
	dir := t.TempDir()
	want := filepath.Join(dir, "example", pageName)
	var d desk
	if status := d.run(t.Context(), "demo", "--data", dir); status != exitFine {
		t.Fatalf("status %d: %s", status, d.err.String())
	}
	if len(d.opened) != 1 || d.opened[0] != want || d.out.String() != want+"\n" {
		t.Errorf("opened %q, printed %q", d.opened, d.out.String())
	}
	d = desk{fail: errors.New("it has no hands")}
	if status := d.run(t.Context(), "demo", "--data", dir); status != exitFine || !strings.Contains(d.err.String(), "it has no hands") {
		t.Errorf("status %d: %s", status, d.err.String())
	}
}

// A full disk below the standard output is not success.
func TestOutputThatCannotBeWritten(t *testing.T) {
	var errs bytes.Buffer
	status := run(t.Context(), []string{"rules"}, world{
		in: strings.NewReader(""), out: broken{}, err: &errs, getenv: func(string) string { return "" }})
	if status != exitBad || !strings.Contains(errs.String(), "cannot write the output") {
		t.Errorf("status %d: %s", status, errs.String())
	}
}

// A finding that says stop ends with 1, prints the data all the same, and says
// so where the data does not.
func TestStopEndsWithOne(t *testing.T) {
	src, err := os.ReadFile(demoPiece)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	piece := filepath.Join(dir, "wide.yaml")
	// Three metres wide: the strip is longer than any sheet.
	wide := bytes.Replace(src, []byte("width: 1460"), []byte("width: 3460"), 1)
	if bytes.Equal(wide, src) {
		t.Fatal("the example has no width of 1460 any longer")
	}
	if err := os.WriteFile(piece, wide, 0o644); err != nil {
		t.Fatal(err)
	}
	shop := "../../examples/main/shop.yaml"
	for _, command := range []string{"check", "parts", "sheets"} {
		var d desk
		if status := d.run(t.Context(), command, piece, "--shop", shop); status != exitStop {
			t.Errorf("%s: status %d: %s", command, status, d.err.String())
		}
		if d.out.Len() == 0 || !strings.Contains(d.err.String(), "don't cut yet") {
			t.Errorf("%s printed %d bytes and said %q", command, d.out.Len(), d.err.String())
		}
	}
	var d desk
	if status := d.run(t.Context(), "book", piece, "--shop", shop, "-o", filepath.Join(dir, "book")); status != exitStop {
		t.Errorf("book: status %d: %s", status, d.err.String())
	}
}

// Long work says that it goes on; short work says nothing.
func TestProgress(t *testing.T) {
	var d desk
	s := &session{world: world{err: &d.err}}
	s.progress("short work")()
	if d.err.Len() > 0 {
		t.Errorf("said %q", d.err.String())
	}
	said := make(chan string, 1)
	s.err = told1{said}
	done := s.progressAfter("long work", time.Millisecond, time.Hour)
	defer done()
	if text := <-said; !strings.HasPrefix(text, "rodwork: long work …") {
		t.Errorf("said %q", text)
	}
}

// told1 hands on the first thing that is written.
type told1 struct{ c chan string }

func (w told1) Write(p []byte) (int, error) {
	select {
	case w.c <- string(p):
	default:
	}
	return len(p), nil
}

// Whatever bytes a piece file holds, a command ends with a status, and remarks
// rather than a panic.
func FuzzCheck(f *testing.F) {
	src, err := os.ReadFile(demoPiece)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(src)
	f.Add([]byte("rodwork: 1"))
	f.Add([]byte{0xff, 0x00})
	f.Fuzz(func(t *testing.T, piece []byte) {
		var d desk
		status := run(t.Context(), []string{"check", "-", "--shop", "../../examples/main/shop.yaml", "--json"}, world{
			in: bytes.NewReader(piece), out: &d.out, err: &d.err, getenv: func(string) string { return "" }})
		if status != exitFine && status != exitStop && status != exitBad {
			t.Errorf("status %d", status)
		}
		if d.out.Len() == 0 {
			t.Errorf("no document: %s", d.err.String())
		}
	})
}
