package web

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/web/ui"
)

const (
	testHost  = "127.0.0.1:7410"
	testToken = "a token of this start"
)

// paper stands in for the disk.
type paper struct {
	mu          sync.Mutex
	piece, shop []byte
}

func (d *paper) load() (Loaded, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return Loaded{Source: plan.Source{PieceFile: "piece.yaml", Piece: bytes.Clone(d.piece), ShopFile: "shop.yaml", Shop: bytes.Clone(d.shop)}}, nil
}

func (d *paper) save(f File, was, now []byte) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	to := &d.piece
	if f == ShopFile {
		to = &d.shop
	}
	if !bytes.Equal(*to, was) {
		return ErrChanged
	}
	*to = bytes.Clone(now)
	return nil
}

func (d *paper) replace(from, to string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.piece = bytes.Replace(d.piece, []byte(from), []byte(to), 1)
}

func (d *paper) has(text string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return bytes.Contains(append(bytes.Clone(d.piece), d.shop...), []byte(text))
}

func start(t *testing.T) (*Session, *paper) {
	t.Helper()
	d := &paper{}
	d.piece, d.shop = examples.Main()
	s, err := Open(t.Context(), Config{Load: d.load, Save: d.save, Token: testToken, Host: testHost, Here: "rodwork here"})
	if err != nil {
		t.Fatal(err)
	}
	return s, d
}

// ask makes a request as the page would; change spoils it.
func ask(s *Session, method, path, body string, change func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://"+testHost+path, strings.NewReader(body))
	if method == http.MethodPost {
		r.Header.Set("Origin", "http://"+testHost)
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("X-Rodwork-Token", testToken)
	}
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	if change != nil {
		change(r)
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w
}

// post makes an edit and reads its answer.
func post(t *testing.T, s *Session, path string, r request) (int, Answer, refusal) {
	t.Helper()
	body, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	w := ask(s, "POST", path, string(body), nil)
	var a Answer
	var no refusal
	into := any(&a)
	if w.Code != http.StatusOK {
		into = &no
	}
	if err := json.Unmarshal(w.Body.Bytes(), into); err != nil {
		t.Fatalf("%s: %d %s", path, w.Code, w.Body.String())
	}
	return w.Code, a, no
}

// Whoever is not the page at this address is not answered.
func TestOnlyThePageIsAnswered(t *testing.T) {
	s, d := start(t)
	header := func(k, v string) func(*http.Request) { return func(r *http.Request) { r.Header.Set(k, v) } }
	without := func(k string) func(*http.Request) { return func(r *http.Request) { r.Header.Del(k) } }
	edit := `{"base":1,"path":"sizes.width","text":"1500"}`
	for _, c := range []struct {
		name, method, path, body string
		change                   func(*http.Request)
		want                     int
	}{
		{"the page", "GET", "/", "", nil, 200},
		{"a link from elsewhere", "GET", "/", "", header("Sec-Fetch-Site", "cross-site"), 200},
		{"another name for this machine", "GET", "/", "", func(r *http.Request) { r.Host = "evil.example:7410" }, 403},
		{"no port", "GET", "/", "", func(r *http.Request) { r.Host = "127.0.0.1" }, 403},
		{"another site reads", "GET", "/all", "", header("Sec-Fetch-Site", "cross-site"), 403},
		{"another port reads", "GET", "/all", "", header("Sec-Fetch-Site", "same-site"), 403},
		{"another origin reads", "GET", "/all", "", header("Origin", "http://127.0.0.1:9999"), 403},
		{"another origin watches", "GET", "/events", "", header("Origin", "http://evil.example"), 403},
		{"another origin writes", "POST", "/edit", edit, header("Origin", "http://evil.example"), 403},
		{"an opaque origin writes", "POST", "/edit", edit, header("Origin", "null"), 403},
		{"no origin", "POST", "/edit", edit, without("Origin"), 403},
		{"no token", "POST", "/edit", edit, without("X-Rodwork-Token"), 403},
		{"a wrong token", "POST", "/edit", edit, header("X-Rodwork-Token", testToken+"x"), 403},
		{"a form", "POST", "/edit", "path=sizes.width", header("Content-Type", "application/x-www-form-urlencoded"), 415},
		{"plain text", "POST", "/edit", edit, header("Content-Type", "text/plain"), 415},
		{"not JSON", "POST", "/edit", "{", nil, 400},
		{"an unknown key", "POST", "/edit", `{"base":1,"name":"x"}`, nil, 400},
		{"a file of no name we know", "POST", "/edit", `{"base":1,"file":"../../x","text":"y"}`, nil, 400},
		{"too large", "POST", "/edit", `{"text":"` + strings.Repeat("x", maxBody) + `"}`, nil, 400},
		{"an edit by a link", "GET", "/edit", "", nil, 405},
		{"another method", "PUT", "/edit", edit, nil, 403},
		{"out of the folder", "GET", "/ui/../server.go", "", nil, 404},
		{"out of the folder, hidden", "GET", "/ui/%2e%2e%2fserver.go", "", nil, 404},
		{"the folder", "GET", "/ui/", "", nil, 404},
		{"the source", "GET", "/ui/ui.go", "", nil, 404},
		{"nothing", "GET", "/etc/passwd", "", nil, 404},
	} {
		w := ask(s, c.method, c.path, c.body, c.change)
		if got := w.Code; got != c.want && !(c.want == 404 && (got == 301 || got == 307)) {
			t.Errorf("%s: status %d, want %d: %.80s", c.name, got, c.want, w.Body.String())
		}
		h := w.Result().Header
		if csp := h.Get("Content-Security-Policy"); !strings.HasPrefix(csp, "default-src 'self'") || strings.Contains(csp, "unsafe") {
			t.Errorf("%s: policy %q", c.name, csp)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: headers %v", c.name, h)
		}
	}
	if !d.has("width: 1460") {
		t.Error("one of them wrote to the file")
	}
}

// The page runs and styles nothing inline, so that its policy can forbid it.
func TestNothingInline(t *testing.T) {
	s, _ := start(t)
	page := ask(s, "GET", "/", "", nil).Body.String()
	for _, bad := range []string{"<style", " style=\"", "javascript:", " onclick", " onload"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	if n := strings.Count(page, "<script"); n != 1 || !strings.Contains(page, `<script type="module" src="/ui/page.js"></script>`) {
		t.Errorf("%d scripts", n)
	}
	if strings.Contains(page, `"></b>`) {
		t.Error("a value is empty")
	}
}

// The first load is under a megabyte as it travels: the page, its styles, what
// it asks for at once, and every module that its script imports, by whatever way.
func TestFirstLoadIsSmall(t *testing.T) {
	s, _ := start(t)
	sum := 0
	get := func(path string) {
		w := ask(s, "GET", path, "", func(r *http.Request) { r.Header.Set("Accept-Encoding", "gzip") })
		if w.Code != 200 {
			t.Errorf("%s: %d", path, w.Code)
		}
		sum += w.Body.Len()
	}
	for _, path := range append([]string{"/", "/book.css", "/all?values", "/ui/page.css"}, modules(t, "page.js")...) {
		get(path)
	}
	if sum > 1_000_000 {
		t.Errorf("it is %d bytes", sum)
	}
}

var imported = regexp.MustCompile(`(?m)^import (?:.* from )?'\./(.*)';$`)

// modules are the addresses of a module and of all that it imports at once.
func modules(t *testing.T, first string) []string {
	t.Helper()
	names, paths := []string{first}, []string(nil)
	for i := 0; i < len(names); i++ {
		text, err := ui.Files.ReadFile(names[i])
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, "/ui/"+names[i])
		for _, m := range imported.FindAllStringSubmatch(string(text), -1) {
			if !slices.Contains(names, m[1]) {
				names = append(names, m[1])
			}
		}
	}
	if !slices.Contains(paths, "/ui/changes.js") {
		t.Errorf("the imports were not read: %v", paths)
	}
	return paths
}

// An edit changes the file in place, and its answer has the changed blocks only.
func TestEdit(t *testing.T) {
	s, d := start(t)
	code, p, _ := post(t, s, "/preview", request{Base: 1, Path: "sizes.width", Text: "1500"})
	if code != 200 || !p.Preview || p.Rev != 1 || d.has("width: 1500") {
		t.Fatalf("preview: %d %+v", code, p.Rev)
	}
	_, whole, _ := post(t, s, "/preview", request{Base: 1, Text: ""})
	if len(whole.HTML) != 0 {
		t.Errorf("no change changes %d blocks", len(whole.HTML))
	}
	code, a, _ := post(t, s, "/edit", request{Base: 1, Path: "sizes.width", Text: "4 ft 11 in", Shown: []string{"the-contents"}})
	if code != 200 || a.Rev != 2 || a.From != 1 || !a.Undo || !d.has("width: 4 ft 11 in                        # outside") {
		t.Fatalf("edit: %d %+v", code, a.Rev)
	}
	if v := a.Values["sizes.width"]; v.Shown != "1498.6 mm" {
		t.Errorf("width is %+v", v)
	}
	if _, ok := a.HTML["the-contents"]; !ok {
		t.Error("a block that the page has from a preview was not told")
	}
	all := len(s.view.html)
	if n := len(a.HTML); n == 0 || n > all*3/4 {
		t.Errorf("%d of %d blocks travelled", n, all)
	}
	code, a, _ = post(t, s, "/undo", request{Base: 2})
	if code != 200 || !d.has("width: 1460") || !a.Redo || a.Undo {
		t.Errorf("undo: %d %+v", code, a.Rev)
	}
	code, a, _ = post(t, s, "/redo", request{Base: 3})
	if code != 200 || !d.has("width: 4 ft 11 in") || a.Redo || !a.Undo {
		t.Errorf("redo: %d", code)
	}
}

// An edit of the shop goes into the shop file; a word keeps what stands before it.
func TestEditElsewhere(t *testing.T) {
	s, d := start(t)
	if code, _, no := post(t, s, "/edit", request{Base: 1, Path: "saws.track saw.kerf.mean", Text: "2.31"}); code != 200 {
		t.Fatalf("%d %+v", code, no)
	}
	if bytes.Contains(d.piece, []byte("2.31")) || !bytes.Contains(d.shop, []byte("2.31")) {
		t.Error("not in the shop file")
	}
	if code, _, no := post(t, s, "/edit", request{Base: 2, Path: "fronts.0.pull", Text: "32"}); code != 200 || !d.has("pull: finger hole 32") {
		t.Errorf("%d %+v", code, no)
	}
}

func TestRefusals(t *testing.T) {
	s, d := start(t)
	for _, r := range []request{
		{Base: 1, Path: "sizes.width", Text: "3 kg"}, {Base: 1, Path: "sizes.width", Text: "widht + 3"},
		{Base: 1, Path: "sizes.nosuch", Text: "3"}, {Base: 1, Path: "sizes.width", Text: "1\n2"}, {Base: 1, Path: "body.bend.saw", Text: "bread knife"},
	} {
		code, _, no := post(t, s, "/edit", r)
		if code != 422 || len(no.Problems) == 0 || no.Problems[0].Summary == "" {
			t.Errorf("%+v: %d %+v", r, code, no)
		}
	}
	if !d.has("width: 1460") {
		t.Error("the file was changed")
	}
}

// A file that was changed meanwhile is shown, never written over.
func TestConflicts(t *testing.T) {
	s, d := start(t)
	d.replace("width: 1460", "width: 1444") // on the disk; the page does not know
	code, _, no := post(t, s, "/edit", request{Base: 1, Path: "sizes.width", Text: "1500"})
	if code != 409 || !no.Conflict || no.Theirs != "1444" || no.Mine != "1500" || no.Rev != 2 {
		t.Fatalf("%d %+v", code, no)
	}
	if code, _, no = post(t, s, "/edit", request{Base: 1, File: PieceFile, Text: "x"}); code != 409 || !strings.Contains(no.Theirs, "width: 1444") {
		t.Errorf("%d %+v", code, no.Theirs)
	}
	if code, _, _ = post(t, s, "/edit", request{Base: 2, Path: "sizes.width", Text: "1500"}); code != 200 || !d.has("width: 1500") {
		t.Errorf("%d", code)
	}
}

// A text that cannot be used is kept, since it is the writer's; the book stays
// the last that could be made, and comes back with the next good text.
func TestBrokenText(t *testing.T) {
	s, d := start(t)
	good := string(d.piece)
	bad := strings.Replace(good, "sizes:", "sizse:", 1)
	code, a, _ := post(t, s, "/edit", request{Base: 1, File: PieceFile, Text: bad})
	if code != 200 || a.Whole || len(a.HTML) != 0 || len(a.Problems) == 0 || a.Problems[0].Line == 0 || !d.has("sizse") {
		t.Fatalf("%d whole %v, %d blocks, %+v", code, a.Whole, len(a.HTML), a.Problems)
	}
	code, a, _ = post(t, s, "/edit", request{Base: 2, File: PieceFile, Text: good})
	if code != 200 || !a.Whole || len(a.HTML) < 100 {
		t.Errorf("%d whole %v, %d blocks", code, a.Whole, len(a.HTML))
	}
	if page := ask(s, "GET", "/", "", nil); page.Code != 200 || !strings.Contains(page.Body.String(), "Choir sideboard") {
		t.Error("no page")
	}
}

// A page that watches hears of edits elsewhere, not of its own.
func TestEvents(t *testing.T) {
	s, d := start(t)
	server := httptest.NewUnstartedServer(nil)
	s.cfg.Host = server.Listener.Addr().String()
	server.Config.Handler = s.Handler()
	server.Start()
	defer server.Close()
	r, err := server.Client().Get(server.URL + "/events?client=me")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	heard := make([]byte, 64<<10)
	if n, _ := r.Body.Read(heard); !strings.Contains(string(heard[:n]), "event: hello") {
		t.Fatalf("heard %q", heard[:n])
	}
	if _, no, err := s.edit(t.Context(), request{Client: "me", Base: 1, Path: "sizes.width", Text: "1470"}); no != nil || err != nil {
		t.Fatal(no, err)
	}
	d.replace("width: 1470", "width: 1480")
	if err := s.Reload(t.Context()); err != nil {
		t.Fatal(err)
	}
	n, err := io.ReadAtLeast(r.Body, heard, 60)
	if err != nil || !strings.HasPrefix(string(heard[:n]), "event: revision\ndata: {\"from\":2,\"rev\":3,") {
		t.Errorf("heard %q, %v", heard[:min(n, 100)], err)
	}
}
