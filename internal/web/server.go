package web

import (
	"context"
	"crypto/subtle"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"time"

	"rodwork/internal/web/ui"
)

// maxBody is the most that an edit may carry, in bytes: a whole text, which is
// at most a megabyte, written as JSON.
const maxBody = 4 << 20

// maxWatchers is how many pages may watch at once.
const maxWatchers = 32

// policy is what the page may load and do: its own files, and nothing else.
const policy = "default-src 'self'; font-src 'self' data:; img-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// Handler answers the requests of pages.
func (s *Session) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.page)
	mux.HandleFunc("GET /book.css", bookSheet)
	mux.Handle("GET /ui/", http.StripPrefix("/ui/", files(http.FileServerFS(ui.Files))))
	mux.HandleFunc("GET /all", s.all)
	mux.HandleFunc("GET /model", s.model)
	mux.HandleFunc("GET /model.js", modelScript)
	mux.HandleFunc("GET /events", s.events)
	mux.HandleFunc("GET /here", func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, s.cfg.Here) })
	mux.HandleFunc("POST /preview", s.posted(s.preview))
	mux.HandleFunc("POST /edit", s.posted(s.edit))
	mux.HandleFunc("POST /undo", s.posted(func(ctx context.Context, r request) (Answer, *refusal, error) { return s.turn(ctx, r, undone) }))
	mux.HandleFunc("POST /redo", s.posted(func(ctx context.Context, r request) (Answer, *refusal, error) { return s.turn(ctx, r, redone) }))
	s.startPage(mux)
	return s.guard(mux)
}

// guard lets only the page itself ask.
func (s *Session) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if why := s.unwelcome(r); why != "" {
			http.Error(w, why, http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// unwelcome says why a request is not answered; "" where it is.
func (s *Session) unwelcome(r *http.Request) string {
	if r.Host != s.cfg.Host {
		return "this is not the host that was asked for"
	}
	switch site := r.Header.Get("Sec-Fetch-Site"); site {
	case "", "same-origin", "none":
	default:
		if r.Method != http.MethodGet || r.URL.Path != "/" { // a link to the page from elsewhere is no harm
			return "another site may not ask this"
		}
	}
	origin := r.Header.Get("Origin")
	if origin != "" && origin != "http://"+s.cfg.Host {
		return "another origin may not ask this"
	}
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		return ""
	}
	switch {
	case origin == "":
		return "an edit must say where it comes from"
	case subtle.ConstantTimeCompare([]byte(r.Header.Get("X-Rodwork-Token")), []byte(s.cfg.Token)) != 1:
		return "the page is from an earlier start; load it again"
	}
	return ""
}

// files serves the page's own files; they change only with the program.
func files(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/") || r.URL.Path == "" {
			http.NotFound(w, r) // no lists of files
			return
		}
		w.Header().Set("Cache-Control", "no-cache")
		next.ServeHTTP(w, r)
	})
}

// posted reads an edit, has it done, and writes the answer.
func (s *Session) posted(do func(context.Context, request) (Answer, *refusal, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";"); kind != "application/json" {
			http.Error(w, "an edit is JSON", http.StatusUnsupportedMediaType)
			return
		}
		var req request
		d := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxBody))
		d.DisallowUnknownFields()
		if err := d.Decode(&req); err != nil || !req.fits() {
			http.Error(w, "the edit cannot be read", http.StatusBadRequest)
			return
		}
		a, no, err := do(r.Context(), req)
		switch {
		case r.Context().Err() != nil:
			return // nobody waits for it
		case err != nil:
			reply(w, http.StatusInternalServerError, refusal{Why: err.Error()})
		case no != nil:
			reply(w, no.status(), no)
		default:
			reply(w, http.StatusOK, a)
		}
	}
}

func reply(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false) // it is read as JSON, never as a page
	_ = e.Encode(v)        // a page that went away needs no answer
}

// all is everything that a page shows, for one that missed something; with
// ?values all but the fragments, for one that has just been loaded.
func (s *Session) all(w http.ResponseWriter, r *http.Request) {
	s.mu.Lock()
	a := s.answer(nil, s.view, 0, nil)
	s.mu.Unlock()
	if r.URL.Query().Has("values") {
		a.HTML, a.Sections = nil, nil
	}
	reply(w, http.StatusOK, a)
}

// events tells a page of every new revision, as server-sent events.
func (s *Session) events(w http.ResponseWriter, r *http.Request) {
	me := make(chan event, 8)
	s.mu.Lock()
	full := len(s.watchers) >= maxWatchers
	if !full {
		s.watchers[me] = true
	}
	rev := s.rev
	s.mu.Unlock()
	if full {
		http.Error(w, "too many pages watch", http.StatusServiceUnavailable)
		return
	}
	defer func() {
		s.mu.Lock()
		delete(s.watchers, me)
		s.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	fmt.Fprintf(w, "event: hello\ndata: {\"rev\":%d}\n\n", rev)
	beat := time.NewTicker(20 * time.Second)
	defer beat.Stop()
	for {
		if out.Flush() != nil {
			return
		}
		select {
		case e := <-me:
			if e.by == "" || e.by != r.URL.Query().Get("client") {
				fmt.Fprint(w, "event: revision\ndata: ")
				if json.NewEncoder(w).Encode(e.answer) != nil {
					return
				}
				fmt.Fprint(w, "\n")
			}
		case <-beat.C:
			fmt.Fprint(w, ": here\n\n")
		case <-r.Context().Done():
			return
		}
	}
}

// Watch looks at the disk again and again until the context ends. What goes
// wrong is told and looked at again: a file may be away for a moment while an
// editor writes it.
func (s *Session) Watch(ctx context.Context, every time.Duration) {
	t := time.NewTicker(every)
	defer t.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-t.C:
			_ = s.Reload(ctx) // a file may be away while an editor writes it; the next look tells
		}
	}
}
