package cli

import (
	"errors"
	"os"
	"os/exec"
	"runtime"
)

const goos = runtime.GOOS

// errNoDisplay says that nobody would see a browser here.
var errNoDisplay = errors.New("no display")

// openInBrowser hands a file to the system's opener and does not wait for it.
func openInBrowser(path string) error {
	args := opener(goos, os.Getenv)
	if args == nil {
		return errNoDisplay
	}
	program, err := exec.LookPath(args[0])
	if err != nil {
		return errNoDisplay
	}
	cmd := exec.Command(program, append(args[1:], path)...)
	if err := cmd.Start(); err != nil {
		return err
	}
	return cmd.Process.Release()
}

// opener returns the command that opens a file, or nil where there is no display.
func opener(system string, getenv func(string) string) []string {
	switch system {
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler"}
	case "darwin":
		if getenv("SSH_CONNECTION") != "" {
			return nil
		}
		return []string{"open"}
	}
	if getenv("DISPLAY") == "" && getenv("WAYLAND_DISPLAY") == "" {
		return nil
	}
	return []string{"xdg-open"}
}
