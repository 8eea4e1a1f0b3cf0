package cli

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rodwork/examples"
)

var update = flag.Bool("update", false, "rewrite goldens")

const manual = "../../docs/cli.md"

// manualText is docs/cli.md: the help of every command, from the same values
// that --help prints.
func manualText() []byte {
	var g grammar
	p := newParser(&g, &session{world: world{out: new(bytes.Buffer), err: new(bytes.Buffer)}})
	var b bytes.Buffer
	b.WriteString("# The commands\n\nThis file is written by `go test ./internal/cli -update`, from what `rodwork --help` prints.\n\n```\n")
	writeAppHelp(&b, p.Model)
	b.WriteString("```\n")
	for _, c := range p.Model.Children {
		if c.Hidden {
			continue
		}
		fmt.Fprintf(&b, "\n## %s\n\n```\n", c.Name)
		writeHelp(&b, c)
		b.WriteString("```\n")
	}
	return b.Bytes()
}

func TestManualIsCurrent(t *testing.T) {
	want := manualText()
	if *update {
		if err := os.WriteFile(manual, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(manual)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is stale; go test ./internal/cli -update", filepath.Base(manual))
	}
}

// Every command tells what it does, gives an example where it takes arguments,
// and says how it ends; no line is wider than a terminal.
func TestHelpIsComplete(t *testing.T) {
	var g grammar
	p := newParser(&g, &session{world: world{out: new(bytes.Buffer), err: new(bytes.Buffer)}})
	for _, c := range p.Model.Children {
		if c.Hidden {
			continue // it has no help of its own
		}
		var b bytes.Buffer
		writeHelp(&b, c)
		text := b.String()
		for _, want := range []string{"usage: rodwork " + c.Name, "exit status:", "--help"} {
			if !strings.Contains(text, want) {
				t.Errorf("help of %s lacks %q", c.Name, want)
			}
		}
		if len(c.Positional) > 0 && !strings.Contains(text, "Example:\n\n  rodwork "+c.Name) {
			t.Errorf("help of %s has no example", c.Name)
		}
		for _, f := range c.Flags {
			if f.Help == "" {
				t.Errorf("flag --%s of %s says nothing", f.Name, c.Name)
			}
		}
		for _, line := range strings.Split(text, "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("help of %s has a line of %d columns: %s", c.Name, len([]rune(line)), line)
			}
		}
	}
}

func readme(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// The README gives two commands; .ci/run calls the second of them word for word.
func TestReadmeAndContinuousIntegrationAgree(t *testing.T) {
	readmeText := readme(t)
	ci, err := os.ReadFile("../../.ci/run")
	if err != nil {
		t.Fatal(err)
	}
	var commands []string
	for _, line := range strings.Split(readmeText, "\n") {
		if c, ok := strings.CutPrefix(line, "    go "); ok {
			commands = append(commands, "go "+c)
		}
	}
	if len(commands) < 2 || commands[0] != "go run ./cmd/rodwork" || commands[1] != "go test ./..." {
		t.Fatalf("the README's commands are %q", commands)
	}
	if !strings.Contains(string(ci), "\n\t"+commands[1]+"\n") {
		t.Errorf(".ci/run does not call %q", commands[1])
	}
}

// The remark that the README shows is what the program says.
func TestReadmeShowsARealRemark(t *testing.T) {
	src, err := os.ReadFile(demoPiece)
	if err != nil {
		t.Fatal(err)
	}
	wrong := strings.Replace(string(src), "top left: {radius: turn}", "top left: {raduis: turn}", 1)
	text := readme(t)
	t.Chdir(t.TempDir())
	if err := os.WriteFile("sideboard.yaml", []byte(wrong), 0o644); err != nil {
		t.Fatal(err)
	}
	_, shop := examples.Main()
	if err := os.WriteFile("shop.yaml", shop, 0o644); err != nil {
		t.Fatal(err)
	}
	var d desk
	if status := d.run(t.Context(), "check", "sideboard.yaml"); status != exitBad {
		t.Errorf("status %d", status)
	}
	remark, _, _ := strings.Cut(d.err.String(), "\n\n")
	if !strings.Contains(text, "```\n"+remark+"\n```") {
		t.Errorf("the README lacks this, word for word:\n%s", remark)
	}
}
