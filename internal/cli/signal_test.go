//go:build unix

package cli

import (
	"bufio"
	"errors"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
)

// Ctrl-C in the middle of long work ends a real process in good order. The
// test waits for the program to say that it is at work, not for a time.
func TestCtrlC(t *testing.T) {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "sheets", demoPiece, "--effort", "4000000000")
	cmd.Args[0] = "rodwork" // see TestMain
	said, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(said)
	if !lines.Scan() || !strings.Contains(lines.Text(), "working on") {
		t.Errorf("said %q first", lines.Text())
	}
	if err := cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	last := ""
	for lines.Scan() {
		last = lines.Text()
	}
	var exit *exec.ExitError
	if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted || last != "rodwork: interrupted" {
		t.Errorf("ended with %v, saying %q", err, last)
	}
}
