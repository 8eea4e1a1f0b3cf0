package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"rodwork/internal/book/pdf"
	"rodwork/internal/units"
)

type demoCmd struct {
	Data      string     `placeholder:"DIR" help:"folder for what rodwork writes of its own; else the system's place for such data"`
	NoBrowser bool       `help:"only write the book and print its path"`
	Units     systemFlag `placeholder:"mm|in" help:"how lengths are printed; else as the piece file says"`
	Paper     paperFlag  `placeholder:"a4|letter" help:"the paper of book.pdf; else a4, or letter where lengths are in inches"`
}

// Help tells more of the command.
func (*demoCmd) Help() string {
	return `Writes the book of the example, a choir sideboard with one bent corner, prints the path of its page, and opens it where there is a display. The folder also holds the piece file and the shop file that it was made from: copy them to begin a piece of your own.

The folder is example, in rodwork's data folder: $XDG_DATA_HOME/rodwork or ~/.local/share/rodwork, on macOS ~/Library/Application Support/rodwork, on Windows %LocalAppData%\rodwork.`
}

func (*demoCmd) exits() string { return exitOfPiece }

// Run writes the example's book.
func (c *demoCmd) Run(s *session) error {
	data := c.Data
	if data == "" {
		var err error
		if data, err = dataFolder(s.getenv, goos); err != nil {
			return err
		}
	}
	data, err := filepath.Abs(data)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(data, 0o755); err != nil {
		return told(err)
	}
	p, err := s.planSource(demo(), 0, false)
	if err != nil {
		return err
	}
	dir := filepath.Join(data, "example")
	if err := s.writeBook(p, dir, units.System(c.Units), pdf.Paper(c.Paper)); err != nil {
		return err
	}
	if c.NoBrowser {
		return nil
	}
	if err := s.open(filepath.Join(dir, pageName)); errors.Is(err, errNoDisplay) {
		s.say("no display here; open that file in a browser")
	} else if err != nil {
		s.say("cannot open it: %v; open that file in a browser", err)
	}
	return nil
}

// dataFolder returns the system's place for rodwork's own data.
func dataFolder(getenv func(string) string, system string) (string, error) {
	under := func(root string, parts ...string) (string, error) {
		if root == "" {
			return "", fmt.Errorf("no home folder is known here; name one with --data DIR")
		}
		return filepath.Join(append([]string{root}, append(parts, "rodwork")...)...), nil
	}
	switch system {
	case "windows":
		return under(getenv("LocalAppData"))
	case "darwin", "ios":
		return under(getenv("HOME"), "Library", "Application Support")
	}
	// The base directory specification: a relative path there is to be ignored.
	if x := getenv("XDG_DATA_HOME"); filepath.IsAbs(x) {
		return under(x)
	}
	return under(getenv("HOME"), ".local", "share")
}
