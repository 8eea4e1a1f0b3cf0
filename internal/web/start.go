package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"strings"
	"sync"

	"rodwork/internal/starter"
	"rodwork/internal/web/ui"
)

// ErrTaken is what Starting.Keep returns where a file of that name is there.
var ErrTaken = errors.New("there is a piece of that name already; give it another")

// Starting is what the start page needs of the world. With it a page begins
// another piece: from a few sentences, from a picture, or from an example.
type Starting struct {
	// Shop is the text of the shop file that new pieces are cut from.
	Shop func() []byte
	// Keep writes a new piece, never over another, and opens a page on it; it
	// returns the page's address.
	Keep func(New) (address string, err error)
	// NewID makes an id for a piece file.
	NewID func() string
	// Where tells in which folder a piece is kept, or in which file where that
	// is settled already.
	Where string
	Named bool
	// ShopLine is what a piece file says of its shop: "shop.yaml".
	ShopLine string
}

// New is a piece that was begun.
type New struct {
	Name    string // as the maker calls it
	AnyName bool   // nothing was said: what it is stands for it, and a number may follow
	Piece   []byte
	Picture []byte // a JPEG that it was traced from, or nil
}

// desk is the start page at work.
type desk struct {
	cfg     Starting
	token   string
	back    bool // there is a piece to go back to
	compute chan struct{}

	mu       sync.Mutex
	pictures []picture // the latest, oldest first

	sampling sync.Mutex
	samples  []sample // once they are made
}

// StartOnly serves the start page alone, before there is any piece.
func StartOnly(cfg Starting, token, host, here string) http.Handler {
	s := &Session{cfg: Config{Token: token, Host: host, Here: here}}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { http.Redirect(w, r, "/start", http.StatusSeeOther) })
	mux.HandleFunc("GET /here", func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write([]byte(here)) }) // who went away needs no answer
	mux.HandleFunc("GET /book.css", bookSheet)
	mux.Handle("GET /ui/", http.StripPrefix("/ui/", files(http.FileServerFS(ui.Files))))
	newDesk(cfg, token, false).routes(mux)
	return s.guard(mux)
}

// startPage puts the start page beside the page of a piece.
func (s *Session) startPage(mux *http.ServeMux) {
	if s.cfg.Starting != nil {
		newDesk(*s.cfg.Starting, s.cfg.Token, true).routes(mux)
	}
}

func newDesk(cfg Starting, token string, back bool) *desk {
	return &desk{cfg: cfg, token: token, back: back, compute: make(chan struct{}, 1)}
}

func (d *desk) routes(mux *http.ServeMux) {
	mux.HandleFunc("GET /start", d.page)
	mux.HandleFunc("GET /start/samples", d.serveSamples)
	mux.HandleFunc("GET /start/picture/{id}", d.servePicture)
	mux.HandleFunc("POST /start/picture", d.takePicture)
	mux.HandleFunc("POST /start/try", d.posted(d.try))
	mux.HandleFunc("POST /start/room", d.posted(d.room))
	mux.HandleFunc("POST /start/keep", d.posted(d.keep))
	mux.HandleFunc("POST /start/copy", d.posted(d.copy))
}

// maxSaid is the most that a few sentences may carry, in bytes.
const maxSaid = 64 << 10

// posted reads what the page says, and answers.
func (d *desk) posted(do func(context.Context, saidOnPage) (any, *refusal)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";"); kind != "application/json" {
			http.Error(w, "what is said here is JSON", http.StatusUnsupportedMediaType)
			return
		}
		var said saidOnPage
		j := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxSaid))
		j.DisallowUnknownFields()
		if err := j.Decode(&said); err != nil || !said.fits() {
			http.Error(w, "that cannot be read", http.StatusBadRequest)
			return
		}
		select {
		case d.compute <- struct{}{}:
			defer func() { <-d.compute }()
		case <-r.Context().Done():
			return
		}
		a, no := do(r.Context(), said)
		switch {
		case r.Context().Err() != nil: // nobody waits for it
		case no != nil:
			reply(w, no.status(), no)
		default:
			reply(w, http.StatusOK, a)
		}
	}
}

// try answers what would come of the sentences; it writes nothing.
func (d *desk) try(ctx context.Context, said saidOnPage) (any, *refusal) {
	a, wrong := said.answers()
	if len(wrong) > 0 {
		return trial{Wrong: wrong}, nil
	}
	a.ShopLine = d.cfg.ShopLine
	b, err := starter.Begin(ctx, a, d.cfg.Shop())
	if err != nil {
		return nil, &refusal{Why: err.Error()}
	}
	return trialOf(b, said.Bare), nil
}

// roomFor is the nearest size that holds all that was asked for.
type roomFor struct {
	Field string `json:"field,omitempty"` // "" where there is none
	Text  string `json:"text,omitempty"`
}

// room looks for a size that holds everything.
func (d *desk) room(ctx context.Context, said saidOnPage) (any, *refusal) {
	a, wrong := said.answers()
	if len(wrong) > 0 {
		return roomFor{}, nil
	}
	l, ok, err := starter.Room(ctx, a, d.cfg.Shop())
	if err != nil {
		return nil, &refusal{Why: err.Error()}
	}
	if !ok {
		return roomFor{}, nil
	}
	return roomFor{l.Field, lengthText(l.Size, a.System)}, nil
}

// kept tells the page where to go on.
type kept struct {
	Address string `json:"address"`
}

// keep writes the piece that the sentences tell of.
func (d *desk) keep(ctx context.Context, said saidOnPage) (any, *refusal) {
	a, wrong := said.answers()
	if len(wrong) > 0 {
		return nil, &refusal{Why: "a size in the sentences cannot be read yet"}
	}
	a.ID, a.ShopLine = d.cfg.NewID(), d.cfg.ShopLine
	b, err := starter.Begin(ctx, a, d.cfg.Shop())
	if err != nil {
		return nil, &refusal{Why: err.Error()}
	}
	n := New{Name: said.Name, Piece: []byte(b.Text), Picture: d.pictureOf(said.Picture)}
	if strings.TrimSpace(n.Name) == "" {
		n.Name, n.AnyName = said.Kind, true
	}
	return d.written(n)
}

// copy writes an example as a piece of one's own.
func (d *desk) copy(_ context.Context, said saidOnPage) (any, *refusal) {
	src, ok := exampleText(said.Sample)
	if !ok {
		return nil, &refusal{Why: "there is no example of that name"}
	}
	n := New{Name: said.Name, Piece: ownCopy(src, d.cfg.NewID(), d.cfg.ShopLine)}
	if strings.TrimSpace(n.Name) == "" {
		n.Name, n.AnyName = said.Sample, true
	}
	return d.written(n)
}

func (d *desk) written(n New) (any, *refusal) {
	address, err := d.cfg.Keep(n)
	if err != nil {
		return nil, &refusal{Why: err.Error()}
	}
	return kept{address}, nil
}

// ownCopy gives an example an id and a shop of its own.
func ownCopy(src []byte, id, shopLine string) []byte {
	var out [][]byte
	for _, line := range bytes.Split(src, []byte("\n")) {
		switch {
		case bytes.HasPrefix(line, []byte("id:")):
			line = []byte("id: " + id)
		case bytes.HasPrefix(line, []byte("shop:")):
			if shopLine == "" {
				continue
			}
			line = []byte("shop: " + shopLine)
		}
		out = append(out, line)
	}
	return bytes.Join(out, []byte("\n"))
}
