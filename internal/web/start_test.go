package web

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"rodwork/examples"
)

// begun is a start page, and what was kept of it.
type begun struct {
	h    http.Handler
	kept []New
	fail error
}

func startDesk(t *testing.T) *begun {
	t.Helper()
	_, shop := examples.Main()
	b := &begun{}
	b.h = StartOnly(Starting{
		Shop: func() []byte { return shop }, NewID: func() string { return "abc123" }, Where: "/data", ShopLine: "shop.yaml",
		Keep: func(n New) (string, error) { b.kept = append(b.kept, n); return "http://127.0.0.1:1/", b.fail },
	}, testToken, testHost, "rodwork start")
	return b
}

func (b *begun) ask(method, path, body string, change func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://"+testHost+path, strings.NewReader(body))
	if method == http.MethodPost {
		r.Header.Set("Origin", "http://"+testHost)
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("X-Rodwork-Token", testToken)
	}
	if change != nil {
		change(r)
	}
	w := httptest.NewRecorder()
	b.h.ServeHTTP(w, r)
	return w
}

const fewSentences = `{"kind":"bookcase","width":"31 in","height":"1500","depth":"280 mm","in":"mm","holds":[{"thing":"novel","count":"60"}],"children":true,"youngest":"4","floor":"boards","wall":"stud","sheet":"birch ply 18"`

// The sentences are tried without anything being written, and kept once.
func TestStartTriesAndKeeps(t *testing.T) {
	b := startDesk(t)
	w := b.ask("POST", "/start/try", fewSentences+`}`, nil)
	var a trial
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != 200 {
		t.Fatal(w.Code, err)
	}
	if !a.Sound || !strings.Contains(a.Figure, "<svg") || a.Shown["width"] != "787 mm" || len(a.Facts) == 0 || a.Counts["stop"] != 0 {
		t.Errorf("%+v", a)
	}
	if len(b.kept) > 0 {
		t.Error("a try was kept")
	}
	w = b.ask("POST", "/start/keep", fewSentences+`,"name":"Stair books"}`, nil)
	if w.Code != 200 || len(b.kept) != 1 || b.kept[0].Name != "Stair books" || b.kept[0].AnyName {
		t.Fatal(w.Code, w.Body.String())
	}
	for _, want := range []string{"id: abc123\n", "piece: Stair books\n", "shop: shop.yaml", "youngest: 4 years"} {
		if !bytes.Contains(b.kept[0].Piece, []byte(want)) {
			t.Errorf("the file lacks %q", want)
		}
	}
	b.fail = ErrTaken
	if w = b.ask("POST", "/start/keep", fewSentences+`}`, nil); w.Code != 422 || !strings.Contains(w.Body.String(), "already") {
		t.Error(w.Code, w.Body.String())
	}
}

// What cannot be read is told by its field, and not kept.
func TestStartTellsWhatIsWrong(t *testing.T) {
	b := startDesk(t)
	bad := strings.Replace(strings.Replace(fewSentences, `"31 in"`, `"3 kg"`, 1), `"60"`, `"many"`, 1) + "}"
	w := b.ask("POST", "/start/try", bad, nil)
	var a trial
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || a.Wrong["width"] == "" || a.Wrong["count0"] == "" || len(a.Wrong) != 2 {
		t.Errorf("%s", w.Body.String())
	}
	if w = b.ask("POST", "/start/keep", bad, nil); w.Code != 422 || len(b.kept) > 0 {
		t.Error(w.Code)
	}
	w = b.ask("POST", "/start/room", strings.Replace(fewSentences, `"60"`, `"120"`, 1)+"}", nil)
	if w.Code != 200 || !strings.Contains(w.Body.String(), `"field"`) {
		t.Error(w.Code, w.Body.String())
	}
}

// An example is copied with an id and a shop of its own.
func TestStartCopies(t *testing.T) {
	b := startDesk(t)
	var all []sample
	if err := json.Unmarshal(b.ask("GET", "/start/samples", "", nil).Body.Bytes(), &all); err != nil || len(all) < 7 {
		t.Fatal(len(all), err)
	}
	for _, s := range all {
		if s.Name == "" || s.About == "" || !strings.Contains(s.Figure, "<svg") {
			t.Errorf("%s: %q, %q", s.Key, s.Name, s.About)
		}
	}
	if w := b.ask("POST", "/start/copy", `{"sample":"bookcase"}`, nil); w.Code != 200 || len(b.kept) != 1 || !b.kept[0].AnyName {
		t.Fatal(w.Code, w.Body.String())
	}
	if text := string(b.kept[0].Piece); !strings.Contains(text, "\nid: abc123\n") || !strings.Contains(text, "\nshop: shop.yaml\n") {
		t.Error(text[:300])
	}
	for _, bad := range []string{"", "..", "main/../chest", "nosuch"} {
		if w := b.ask("POST", "/start/copy", `{"sample":"`+bad+`"}`, nil); w.Code != 422 {
			t.Errorf("%q: %d", bad, w.Code)
		}
	}
}

// Whoever is not the page is not answered here either.
func TestOnlyTheStartPageIsAnswered(t *testing.T) {
	b := startDesk(t)
	header := func(k, v string) func(*http.Request) { return func(r *http.Request) { r.Header.Set(k, v) } }
	without := func(k string) func(*http.Request) { return func(r *http.Request) { r.Header.Del(k) } }
	all := fewSentences + "}"
	for _, c := range []struct {
		name, method, path, body string
		change                   func(*http.Request)
		want                     int
	}{
		{"the page", "GET", "/start", "", nil, 200},
		{"its root leads there", "GET", "/", "", nil, 303},
		{"another name for this machine", "GET", "/start", "", func(r *http.Request) { r.Host = "evil.example" }, 403},
		{"another site reads", "GET", "/start/samples", "", header("Sec-Fetch-Site", "cross-site"), 403},
		{"another origin keeps", "POST", "/start/keep", all, header("Origin", "http://evil.example"), 403},
		{"no origin", "POST", "/start/keep", all, without("Origin"), 403},
		{"no token", "POST", "/start/keep", all, without("X-Rodwork-Token"), 403},
		{"no token, a picture", "POST", "/start/picture", "x", without("X-Rodwork-Token"), 403},
		{"another origin, a picture", "POST", "/start/picture", "x", header("Origin", "http://evil.example"), 403},
		{"a form", "POST", "/start/keep", "kind=bench", header("Content-Type", "application/x-www-form-urlencoded"), 415},
		{"a picture by a form", "POST", "/start/picture", "x", header("Content-Type", "multipart/form-data"), 415},
		{"not JSON", "POST", "/start/try", "{", nil, 400},
		{"an unknown key", "POST", "/start/try", `{"path":"/etc/passwd"}`, nil, 400},
		{"too much", "POST", "/start/try", `{"name":"` + strings.Repeat("x", maxSaid) + `"}`, nil, 400},
		{"too long a word", "POST", "/start/try", `{"width":"` + strings.Repeat("1", 100) + `"}`, nil, 400},
		{"too many shelves", "POST", "/start/try", `{"levels":[` + strings.TrimSuffix(strings.Repeat(`{"bay":0,"at":1},`, 300), ",") + `]}`, nil, 400},
		{"no such picture", "GET", "/start/picture/x", "", nil, 404},
		{"by a link", "GET", "/start/keep", "", nil, 405},
	} {
		w := b.ask(c.method, c.path, c.body, c.change)
		if w.Code != c.want {
			t.Errorf("%s: status %d, want %d: %.80s", c.name, w.Code, c.want, w.Body.String())
		}
		if csp := w.Result().Header.Get("Content-Security-Policy"); !strings.HasPrefix(csp, "default-src 'self'") || strings.Contains(csp, "unsafe") {
			t.Errorf("%s: policy %q", c.name, csp)
		}
	}
	if len(b.kept) > 0 {
		t.Error("one of them was kept")
	}
	page := b.ask("GET", "/start", "", nil).Body.String()
	for _, bad := range []string{"<style", " style=\"", "javascript:", " onclick"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
}

func pngOf(w, h int) []byte {
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = byte(i)
	}
	var b bytes.Buffer
	_ = png.Encode(&b, img) // into memory
	return b.Bytes()
}

// bomb is a PNG that says it is larger than it is.
func bomb(w, h uint32) []byte {
	data := pngOf(20, 20)
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// A picture comes in, and comes out as another file; what is no picture, or
// would unpack to more than the bound, is refused.
func TestPictures(t *testing.T) {
	b := startDesk(t)
	as := func(kind string) func(*http.Request) {
		return func(r *http.Request) { r.Header.Set("Content-Type", kind) }
	}
	src := pngOf(2400, 600)
	w := b.ask("POST", "/start/picture", string(src), as("image/png"))
	var got takenPicture
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 200 || got.Width != pictureSide || got.Height != pictureSide/4 {
		t.Fatal(w.Code, w.Body.String())
	}
	w = b.ask("GET", "/start/picture/"+got.ID, "", nil)
	if c, kind, err := image.DecodeConfig(w.Body); err != nil || kind != "jpeg" || c.Width != pictureSide {
		t.Error(kind, c.Width, err)
	}
	if w = b.ask("POST", "/start/keep", fewSentences+`,"picture":"`+got.ID+`"}`, nil); w.Code != 200 || len(b.kept) != 1 || len(b.kept[0].Picture) == 0 {
		t.Error("it was not kept", w.Code)
	}
	for name, bad := range map[string][]byte{ // each its own: no order shows
		"empty": nil, "a page": []byte("<html><script>alert(1)</script>"), "cut off": src[:200], "tiny": pngOf(4, 4),
		"a drawing": []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`), "a GIF": []byte("GIF89a\x10\x00\x10\x00"),
		"wide": bomb(60000, 20), "vast": bomb(11000, 11000), "overflowing": bomb(1<<31-1, 1<<31-1), "a lie": bomb(2000, 2000),
	} {
		if w := b.ask("POST", "/start/picture", string(bad), as("image/png")); w.Code != 422 {
			t.Errorf("%s: %d %.100s", name, w.Code, w.Body.String())
		}
	}
	if w := b.ask("POST", "/start/picture", strings.Repeat("x", maxPictureBytes+1), as("image/jpeg")); w.Code != 413 {
		t.Error(w.Code)
	}
}

// A photograph stands upright as its camera was held, and what else its file
// told is gone.
func TestPhotographsStandUpright(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 40, 20))
	for y := range 20 {
		for x := range 40 {
			img.Set(x, y, color.RGBA{R: uint8(255 * (1 - x/20)), A: 255}) // red at the left
		}
	}
	var raw bytes.Buffer
	if err := jpeg.Encode(&raw, img, nil); err != nil {
		t.Fatal(err)
	}
	for held, red := range map[byte][2]int{1: {5, 10}, 3: {35, 10}, 6: {10, 5}, 8: {10, 35}} { // each its own: no order shows
		tag := append([]byte("Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00"), held, 0, 0, 0)
		head := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(tag) + 2)}, tag...)
		p, err := repacked(append(head, raw.Bytes()[2:]...))
		if err != nil {
			t.Fatal(held, err)
		}
		out, err := jpeg.Decode(bytes.NewReader(p.jpeg))
		if err != nil || bytes.Contains(p.jpeg, []byte("Exif")) {
			t.Fatal(held, err)
		}
		if r, _, _, _ := out.At(red[0], red[1]).RGBA(); r < 0xc000 {
			t.Errorf("held %d: not red at %v", held, red)
		}
	}
}

// No bytes make it panic, and what comes out can be shown.
func FuzzPicture(f *testing.F) {
	f.Add(pngOf(30, 20))
	f.Add(bomb(5000, 10))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\x08\x00\x00\x00\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		orientation(data)
		p, err := repacked(data)
		if err != nil {
			return
		}
		if _, err := jpeg.DecodeConfig(bytes.NewReader(p.jpeg)); err != nil || p.width > pictureSide || p.height > pictureSide {
			t.Errorf("%d × %d, %v", p.width, p.height, err)
		}
	})
}

// What changed is told, and what did not is not.
func TestDifferences(t *testing.T) {
	was := &sums{parts: 12, sheets: 2, mass: 40.6, cost: 402, currency: "EUR", sizes: map[string]float64{"width": 1200, "depth": 400},
		cut: map[string][3]float64{"a": {1, 2, 3}, "b": {1, 2, 3}}, found: map[string]int{"look": 3, "fine": 9}}
	is := &sums{parts: 12, sheets: 3, mass: 41.3, cost: 402, currency: "EUR", sizes: map[string]float64{"width": 1300, "depth": 400},
		cut: map[string][3]float64{"a": {1, 2, 3}, "b": {1, 2.5, 3}}, found: map[string]int{"look": 3, "stop": 1}}
	got := strings.Join(differences(was, is, "mm"), "; ")
	if want := "width 1200 mm → 1300 mm; 1 part of another size; sheets 2 → 3; mass 40.6 kg → 41.3 kg; stop 0 → 1"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if d := differences(is, is, "mm"); len(d) > 0 {
		t.Error(d)
	}
}

// The page of a piece leads to the start page where it may, and only there.
func TestThePageLeadsToTheStartPage(t *testing.T) {
	d := &paper{}
	d.piece, d.shop = examples.Main()
	for _, starts := range []bool{true, false} {
		cfg := Config{Load: d.load, Save: d.save, Token: testToken, Host: testHost}
		if starts {
			cfg.Starting = &Starting{Shop: func() []byte { return d.shop }, NewID: func() string { return "x" }}
		}
		s, err := Open(t.Context(), cfg)
		if err != nil {
			t.Fatal(err)
		}
		page := ask(s, "GET", "/", "", nil).Body.String()
		w := ask(s, "GET", "/start", "", nil)
		if strings.Contains(page, `href="/start"`) != starts || (w.Code == 200) != starts {
			t.Errorf("starts %v: %d", starts, w.Code)
		}
		if starts && (!strings.Contains(w.Body.String(), `href="/"`) || ask(s, "POST", "/start/keep", "{}", func(r *http.Request) { r.Header.Del("X-Rodwork-Token") }).Code != 403) {
			t.Error("no way back, or no guard")
		}
	}
}

// What a kept change brought comes with its answer, and with no preview.
func TestAnEditTellsWhatItBrought(t *testing.T) {
	s, _ := start(t)
	_, p, _ := post(t, s, "/preview", request{Base: 1, Path: "sizes.width", Text: "1500"})
	_, a, _ := post(t, s, "/edit", request{Base: 1, Path: "sizes.width", Text: "1500"})
	if told := strings.Join(a.Changes, "; "); len(p.Changes) > 0 || !strings.HasPrefix(told, "width 1460 mm → 1500 mm; ") || !strings.Contains(told, "mass ") {
		t.Errorf("told %q, in the preview %q", told, p.Changes)
	}
}
