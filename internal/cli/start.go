package cli

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"rodwork/examples"
	"rodwork/internal/outdir"
	"rodwork/internal/web"
)

// homeCmd is what rodwork does without a command: the page on the example.
type homeCmd struct {
	Units     systemFlag `placeholder:"mm|in" help:"how lengths are printed; else as the piece file says"`
	Data      string     `placeholder:"DIR" help:"folder for what rodwork writes of its own; else the system's place for such data"`
	Port      uint16     `placeholder:"N" help:"the port to listen on; else the first free one from 7410 on"`
	NoBrowser bool       `help:"only print the page's address"`
}

// Run opens the example.
func (c *homeCmd) Run(s *session) error {
	return (&openCmd{Units: c.Units, Data: c.Data, Port: c.Port, NoBrowser: c.NoBrowser}).Run(s)
}

// house is one run that serves pages: of the piece that it was opened on, and
// of those that are begun on the way. Each piece has an address of its own.
type house struct {
	*session
	c    *openCmd
	data string

	mu    sync.Mutex // held while a piece is being opened
	pages sync.WaitGroup
}

// serveMore opens another piece in this run, and returns its address.
func (h *house) serveMore(file string) (string, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	note := noteOf(h.data, file)
	if address := note.running(h.ctx); address != "" {
		return address, nil
	}
	l, err := listen(0)
	if err != nil {
		return "", err
	}
	c := *h.c
	c.File, c.Shop = file, ""
	page, err := c.begin(h, l.Addr().String(), note.here())
	if err != nil {
		return "", errors.Join(err, l.Close())
	}
	address := "http://" + l.Addr().String() + "/"
	if err := note.write(l.Addr().String()); err != nil {
		h.say("a second start will not find %s: %v", address, err)
	}
	h.pages.Go(func() {
		defer note.remove()
		if err := h.serve(l, page.Handler(), page.Watch); err != nil {
			h.say("%s is no longer served: %v", address, err)
		}
	})
	return address, nil
}

// serveStart serves the start page alone, for a file that is not there yet.
func (h *house) serveStart() error {
	if h.c.File != "" {
		whole, err := filepath.Abs(h.c.File)
		if err != nil {
			return err
		}
		if _, err := os.Lstat(whole); err == nil {
			return fmt.Errorf("%s is there already; it is never overwritten", h.c.File)
		}
		h.c.File = whole
	}
	l, err := listen(h.c.Port)
	if err != nil {
		return err
	}
	defer l.Close()
	token, err := newToken()
	if err != nil {
		return err
	}
	start := h.starting(h.c.File, func() []byte { return h.shopBeside(h.c.File) })
	if err := h.point("http://"+l.Addr().String()+"/start", h.c.NoBrowser); err != nil {
		return err
	}
	h.ended = true
	err = h.serve(l, web.StartOnly(*start, token, l.Addr().String(), "rodwork start"), func(context.Context, time.Duration) {})
	h.pages.Wait()
	return err
}

// starting is what the start page may do here. file names the piece that is to
// be written, "" leaves it to the maker.
func (h *house) starting(file string, shop func() []byte) *web.Starting {
	where := file
	if where == "" {
		where = h.data
	}
	return &web.Starting{
		Shop: shop, NewID: newID, ShopLine: besideShop, Where: where, Named: file != "",
		Keep: func(n web.New) (string, error) {
			whole, err := h.keepNew(file, n, shop())
			if err != nil {
				return "", err
			}
			return h.serveMore(whole)
		},
	}
}

// besideShop is what the shop file of a new piece is called.
const besideShop = "shop.yaml"

// shopBeside is the shop file that lies beside a piece to come, else the
// example's.
func (h *house) shopBeside(file string) []byte {
	if file != "" {
		if b, err := h.read(filepath.Join(filepath.Dir(file), besideShop)); err == nil {
			return b
		}
	}
	_, shop := examples.Main()
	return shop
}

// keepNew writes a new piece with its shop beside it, and returns its file.
// What is there already stays as it is.
func (h *house) keepNew(file string, n web.New, shop []byte) (string, error) {
	if file == "" {
		dir, err := h.folderFor(n)
		if err != nil {
			return "", err
		}
		file = filepath.Join(dir, "piece.yaml")
	}
	if _, err := os.Lstat(file); err == nil {
		return "", web.ErrTaken
	}
	dir := filepath.Dir(file)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", told(err)
	}
	beside := func(name string, data []byte) error {
		err := outdir.Create(filepath.Join(dir, name), data)
		if errors.Is(err, fs.ErrExist) {
			return nil
		}
		return told(err)
	}
	if err := beside(besideShop, shop); err != nil {
		return "", err
	}
	if n.Picture != nil {
		if err := beside("picture.jpg", n.Picture); err != nil {
			return "", err
		}
	}
	err := outdir.Create(file, n.Piece)
	if errors.Is(err, fs.ErrExist) {
		return "", web.ErrTaken
	}
	return file, told(err)
}

// folderFor is where a piece of that name is kept; one that was given no name
// takes the first that is free.
func (h *house) folderFor(n web.New) (string, error) {
	name := outdir.Slug(n.Name)
	if err := outdir.CheckName(name); err != nil {
		return "", fmt.Errorf("a folder cannot be called %q", name)
	}
	dir := filepath.Join(h.data, name)
	for i := 2; n.AnyName && i < 1000; i++ {
		if _, err := os.Lstat(filepath.Join(dir, "piece.yaml")); err != nil {
			break
		}
		dir = filepath.Join(h.data, fmt.Sprintf("%s-%d", name, i))
	}
	return dir, nil
}

// newID makes an id that ties a piece file to its trials.
func newID() string {
	id := make([]byte, 6)
	_, _ = rand.Read(id) // never fails: it ends the program instead
	return hex.EncodeToString(id)
}

// newToken makes what edits must carry.
func newToken() (string, error) {
	token := make([]byte, 24)
	if _, err := rand.Read(token); err != nil {
		return "", err
	}
	return hex.EncodeToString(token), nil
}
