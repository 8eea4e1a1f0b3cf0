package web

import (
	"encoding/hex"
	"hash/fnv"
	"net/http"
	"strings"

	"rodwork/internal/book"
	"rodwork/internal/book/html"
	"rodwork/internal/plan"
)

// mark tells one pair of texts from another, for a page to ask by.
func (t texts) mark() string {
	h := fnv.New128a()
	for _, s := range []string{t.piece, "\x00", t.shop} {
		_, _ = h.Write([]byte(s)) // a hash takes all
	}
	return hex.EncodeToString(h.Sum(nil))
}

// planOf is the plan of the texts with a mark, if it is at hand: in force, or of
// a preview a moment ago. A page that asks too late asks again when it hears more.
func (s *Session) planOf(mark string) *plan.Plan {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, v := range []*view{s.view, s.last} {
		if v != nil && v.plan != nil && v.texts.mark() == mark {
			return v.plan
		}
	}
	if m := s.planned; m != nil && m.plan != nil && m.texts.mark() == mark {
		return m.plan
	}
	return nil
}

// model writes the data of the model of the piece in a state that an answer told
// the mark of. It is made when it is asked for, so that nobody waits for it who
// does not look at it.
func (s *Session) model(w http.ResponseWriter, r *http.Request) {
	p := s.planOf(r.URL.Query().Get("of"))
	if p == nil {
		http.Error(w, "the piece has changed meanwhile", http.StatusGone)
		return
	}
	if s.turnToCompute(r.Context()) != nil {
		return // nobody waits for it
	}
	scene := book.Model(p, book.Options{System: s.cfg.System})
	<-s.compute
	if scene == nil {
		http.Error(w, "there is nothing to be seen yet", http.StatusNotFound)
		return
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	packed(w, r, string(scene.JSON()))
}

// modelScript is the script that makes a model alive, asked for by pages on
// which one comes near the window.
func modelScript(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
	w.Header().Set("Cache-Control", "no-cache")
	packed(w, r, strings.TrimSpace(html.ModelScript()))
}
