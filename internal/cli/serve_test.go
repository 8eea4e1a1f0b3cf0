//go:build unix

package cli

import (
	"bufio"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
)

// A page is served from a copy of the example, an edit of the page reaches the
// disk, a second start hands over to the first, and Ctrl-C ends it cleanly.
func TestOpen(t *testing.T) {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	data := t.TempDir()
	command := func() *exec.Cmd {
		c := exec.Command(program, "--data", data, "--no-browser") // open is what it does without a command
		c.Args[0] = "rodwork"                                      // see TestMain
		return c
	}
	first := command()
	out, err := first.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := first.Start(); err != nil {
		t.Fatal(err)
	}
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || !strings.HasPrefix(address, "http://127.0.0.1:") {
		t.Fatalf("said %q, %v", address, err)
	}
	address = strings.TrimSpace(address)
	page := fetch(t, address)
	if !strings.Contains(page, "Choir sideboard") {
		t.Errorf("the page is %.200s", page)
	}
	edit(t, address, page)
	second, err := command().Output()
	if err != nil || strings.TrimSpace(string(second)) != address {
		t.Errorf("a second start said %q, %v; the first is at %s", second, err, address)
	}
	if err := first.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	if err := first.Wait(); err != nil {
		t.Errorf("Ctrl-C: %v", err)
	}
	left, err := filepath.Glob(filepath.Join(data, "open-*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %q, %v", left, err)
	}
	text, err := os.ReadFile(filepath.Join(data, "choir sideboard", "piece.yaml"))
	if err != nil || !strings.Contains(string(text), "width: 1500 ") {
		t.Errorf("the file does not have the edit: %v", err)
	}
}

func fetch(t *testing.T, address string) string {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// edit posts a new width, as the page would.
func edit(t *testing.T, address, page string) {
	t.Helper()
	token := regexp.MustCompile(`rodwork-token" content="([0-9a-f]{48})"`).FindStringSubmatch(page)
	if token == nil {
		t.Fatal("the page has no token")
	}
	req, err := http.NewRequest(http.MethodPost, address+"edit", strings.NewReader(`{"base":1,"path":"sizes.width","text":"1500"}`))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Origin", strings.TrimSuffix(address, "/"))
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("X-Rodwork-Token", token[1])
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if r.StatusCode != http.StatusOK {
		said, _ := io.ReadAll(r.Body)
		t.Errorf("the edit: %s %s", r.Status, said)
	}
}

// A new piece is begun on a page, kept where it was said, never over another,
// and served from then on.
func TestOpenNew(t *testing.T) {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	data, file := t.TempDir(), filepath.Join(t.TempDir(), "stair.yaml")
	run := exec.Command(program, "open", "--new", "--data", data, "--no-browser", file)
	run.Args[0] = "rodwork"
	out, err := run.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	address, err := bufio.NewReader(out).ReadString('\n')
	address, start := strings.CutSuffix(strings.TrimSpace(address), "/start")
	if err != nil || !start {
		t.Fatalf("said %q, %v", address, err)
	}
	said := `{"kind":"wall shelf","width":"800","height":"500","depth":"200","in":"mm","wall":"stud","sheet":"birch ply 18","name":"Stair shelf"}`
	keep := func() (int, string) {
		r, err := http.DefaultClient.Do(keepRequest(t, address, said))
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		b, err := io.ReadAll(r.Body)
		if err != nil {
			t.Fatal(err)
		}
		return r.StatusCode, string(b)
	}
	status, answer := keep()
	piece := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(answer)
	if status != http.StatusOK || piece == "" || piece == address+"/" {
		t.Fatalf("%d %s", status, answer)
	}
	if page := fetch(t, piece); !strings.Contains(page, "Stair shelf") || !strings.Contains(page, `href="/start"`) {
		t.Errorf("the page is %.200s", page)
	}
	if status, answer = keep(); status != http.StatusUnprocessableEntity || !strings.Contains(answer, "already") {
		t.Errorf("kept twice: %d %s", status, answer)
	}
	if err := run.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	if err := run.Wait(); err != nil {
		t.Errorf("Ctrl-C: %v", err)
	}
	for _, name := range []string{file, filepath.Join(filepath.Dir(file), "shop.yaml")} {
		if _, err := os.Stat(name); err != nil {
			t.Error(err)
		}
	}
	again := exec.Command(program, "open", "--new", "--data", data, "--no-browser", file)
	again.Args[0] = "rodwork"
	if text, err := again.CombinedOutput(); err == nil || !strings.Contains(string(text), "never overwritten") {
		t.Errorf("said %s, %v", text, err)
	}
}

// keepRequest is what the start page asks.
func keepRequest(t *testing.T, address, said string) *http.Request {
	t.Helper()
	token := regexp.MustCompile(`rodwork-token" content="([0-9a-f]{48})"`).FindStringSubmatch(fetch(t, address+"/start"))
	if token == nil {
		t.Fatal("the start page has no token")
	}
	req, err := http.NewRequest(http.MethodPost, address+"/start/keep", strings.NewReader(said))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Origin", address)
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("X-Rodwork-Token", token[1])
	return req
}
