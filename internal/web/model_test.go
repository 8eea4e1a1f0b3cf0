package web

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

// scene is what a page reads of a model.
type scene struct {
	Format int
	Size   [3]float64
	Parts  []struct{ Place string }
}

// modelOf asks for a model by its mark.
func modelOf(t *testing.T, s *Session, mark string) (int, scene) {
	t.Helper()
	w := ask(s, "GET", "/model?of="+mark, "", nil)
	var sc scene
	if w.Code == http.StatusOK {
		if err := json.Unmarshal(w.Body.Bytes(), &sc); err != nil {
			t.Fatal(err)
		}
	}
	return w.Code, sc
}

func allOf(t *testing.T, s *Session) Answer {
	t.Helper()
	var a Answer
	if err := json.Unmarshal(ask(s, "GET", "/all?values", "", nil).Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// A model is of the very state that an answer told the mark of: in force, or of
// a preview; of another there is none.
func TestModelOfAState(t *testing.T) {
	s, _ := start(t)
	first := allOf(t, s)
	code, sc := modelOf(t, s, first.Model)
	if code != http.StatusOK || sc.Format != 1 || sc.Size[0] != 1460 || len(sc.Parts) < 10 || !strings.HasPrefix(sc.Parts[0].Place, "#part-") {
		t.Fatalf("status %d: %+v", code, sc)
	}
	status, a, no := post(t, s, "/preview", request{Base: first.Rev, Path: "sizes.width", Text: "1500"})
	if status != http.StatusOK {
		t.Fatalf("%d %+v", status, no)
	}
	if a.Model == first.Model || a.Model == "" {
		t.Fatalf("a preview of another width has the mark %q", a.Model)
	}
	if code, sc = modelOf(t, s, a.Model); code != http.StatusOK || sc.Size[0] != 1500 {
		t.Errorf("of the preview: status %d, width %g", code, sc.Size[0])
	}
	if code, sc = modelOf(t, s, first.Model); code != http.StatusOK || sc.Size[0] != 1460 {
		t.Errorf("of what is in force still: status %d, width %g", code, sc.Size[0])
	}
	for _, mark := range []string{"", "0", strings.Repeat("a", 32)} {
		if code, _ := modelOf(t, s, mark); code != http.StatusGone {
			t.Errorf("of no state (%q): status %d", mark, code)
		}
	}
}

// The page that is served first carries neither the model's data nor its script;
// both are there to be asked for.
func TestModelComesLater(t *testing.T) {
	s, _ := start(t)
	page := ask(s, "GET", "/", "", nil).Body.String()
	if strings.Contains(page, `"corners"`) || !strings.Contains(page, `data-model="/model"`) {
		t.Error("the page holds the model, or does not say that there is one")
	}
	w := ask(s, "GET", "/model.js", "", nil)
	if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/javascript") || !strings.Contains(w.Body.String(), "export{") {
		t.Errorf("the script: status %d, %s", w.Code, w.Header().Get("Content-Type"))
	}
	elsewhere := ask(s, "GET", "/model?of="+allOf(t, s).Model, "", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") })
	if elsewhere.Code != http.StatusForbidden {
		t.Errorf("another site is given the model: %d", elsewhere.Code)
	}
}
