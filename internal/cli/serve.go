package cli

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"rodwork/internal/outdir"
	"rodwork/internal/units"
	"rodwork/internal/web"
)

type openCmd struct {
	File      string     `arg:"" optional:"" name:"file" help:"the piece file; without one, a copy of the example in the data folder"`
	Shop      string     `placeholder:"FILE" help:"the shop file; else the one that the piece file names, else the example's"`
	Units     systemFlag `placeholder:"mm|in" help:"how lengths are printed; else as the piece file says"`
	Data      string     `placeholder:"DIR" help:"folder for what rodwork writes of its own; else the system's place for such data"`
	Port      uint16     `placeholder:"N" help:"the port to listen on; else the first free one from 7410 on"`
	NoBrowser bool       `help:"only print the page's address"`
	New       bool       `help:"begin a new piece: from a few sentences, a picture or an example; FILE, which must not be there yet, is where it is kept"`
}

// Help tells more of the command.
func (*openCmd) Help() string {
	return `Serves the book of a piece as a page on this machine only, prints its address, and opens it where there is a display. Every value that is written in the file can be changed on the page, where it stands; the file on the disk is changed with it, and nothing else in it moves. What an editor changes meanwhile appears on the page.

The page also begins another piece, and so does --new: say what it is, how large and what it holds, and the front beside the sentences follows. What is kept is a new file, with a shop file beside it; nothing is ever written over.

A second start with the same file hands over to the first. Ctrl-C ends it.

Example:

  rodwork open sideboard.yaml`
}

func (*openCmd) exits() string { return exitOfPlain }

const (
	firstPort = 7410
	portsTry  = 64
)

// Run serves the page until it is interrupted.
func (c *openCmd) Run(s *session) error {
	data, err := s.dataAt(c.Data)
	if err != nil {
		return err
	}
	h := &house{session: s, c: c, data: data}
	if c.New {
		return h.serveStart()
	}
	if c.File == "" {
		if c.File, err = copyDemo(data); err != nil {
			return told(err)
		}
	}
	whole, err := filepath.Abs(c.File)
	if err != nil {
		return err
	}
	note := noteOf(data, whole)
	if address := note.running(s.ctx); address != "" {
		s.say("it is open already")
		return s.point(address, c.NoBrowser)
	}
	l, err := listen(c.Port)
	if err != nil {
		return err
	}
	defer l.Close()
	host := l.Addr().String()
	page, err := c.begin(h, host, note.here())
	if err != nil {
		return err
	}
	if err := note.write(host); err != nil {
		s.say("a second start will not find this one: %v", err)
	}
	defer note.remove()
	if err := s.point("http://"+host+"/", c.NoBrowser); err != nil {
		return err
	}
	s.ended = true
	err = s.serve(l, page.Handler(), page.Watch)
	h.pages.Wait()
	return err
}

// dataAt returns the data folder, made if need be.
func (s *session) dataAt(named string) (string, error) {
	var err error
	if named == "" {
		if named, err = dataFolder(s.getenv, goos); err != nil {
			return "", err
		}
	}
	if named, err = filepath.Abs(named); err != nil {
		return "", err
	}
	return named, told(os.MkdirAll(named, 0o755))
}

// copyDemo puts the example's files into the data folder, where they are not
// there yet, and returns the piece file.
func copyDemo(data string) (string, error) {
	src := demo()
	dir := filepath.Join(data, "choir sideboard")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	for name, text := range map[string][]byte{"piece.yaml": src.Piece, "shop.yaml": src.Shop} {
		if err := outdir.Create(filepath.Join(dir, name), text); err != nil && !errors.Is(err, fs.ErrExist) {
			return "", err
		}
	}
	return filepath.Join(dir, "piece.yaml"), nil
}

// listen takes the port that was asked for, or the first free one.
func listen(port uint16) (net.Listener, error) {
	if port != 0 {
		return net.Listen("tcp4", "127.0.0.1:"+strconv.Itoa(int(port)))
	}
	var l net.Listener
	var err error
	for i := range portsTry {
		if l, err = net.Listen("tcp4", "127.0.0.1:"+strconv.Itoa(firstPort+i)); err == nil {
			return l, nil
		}
	}
	return nil, err
}

// begin reads the files and starts the session of the page.
func (c *openCmd) begin(h *house, host, here string) (*web.Session, error) {
	s := h.session
	token, err := newToken()
	if err != nil {
		return nil, err
	}
	quiet := *s
	files := pieceArgs{File: c.File, Shop: c.Shop}
	load := func() (web.Loaded, error) {
		src, remarks, err := quiet.source(files)
		quiet.err = io.Discard // what is said once need not be said at every look
		return web.Loaded{Source: src, Remarks: remarks, ShopFixed: src.ShopFile == demoShop}, err
	}
	save := func(f web.File, was, now []byte) error {
		src, _, err := quiet.source(files)
		if err != nil {
			return err
		}
		name := src.PieceFile
		if f == web.ShopFile {
			name = src.ShopFile
		}
		if name == demoShop {
			return errors.New("the shop file is the example's own, and has no place on this disk")
		}
		if err := outdir.Replace(name, was, now); errors.Is(err, outdir.ErrChanged) {
			return web.ErrChanged
		} else if err != nil {
			return told(err)
		}
		return nil
	}
	shop := func() []byte {
		if l, err := load(); err == nil && len(l.Source.Shop) > 0 {
			return l.Source.Shop
		}
		return h.shopBeside("")
	}
	past, err := pastOf(h.data, c.File)
	if err != nil {
		return nil, err
	}
	return web.Open(s.ctx, web.Config{Load: load, Save: save, Recall: past.recall, Remember: past.remember, System: units.System(c.Units),
		Token: token, Host: host, Here: here, Starting: h.starting("", shop)})
}

// point prints the page's address and opens it.
func (s *session) point(address string, only bool) error {
	if _, err := fmt.Fprintln(s.out, address); err != nil || only {
		return err
	}
	if err := s.open(address); errors.Is(err, errNoDisplay) {
		s.say("no display here; open that address in a browser")
	} else if err != nil {
		s.say("cannot open it: %v; open that address in a browser", err)
	}
	return nil
}

// serve answers requests until the run is interrupted.
func (s *session) serve(l net.Listener, page http.Handler, watch func(context.Context, time.Duration)) error {
	ctx, stop := context.WithCancel(s.ctx)
	defer stop()
	go watch(ctx, 600*time.Millisecond)
	server := &http.Server{Handler: page, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second,
		IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10, BaseContext: func(net.Listener) context.Context { return ctx }}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-s.ctx.Done():
	}
	stop()
	last, end := context.WithTimeout(context.Background(), 2*time.Second)
	defer end()
	if server.Shutdown(last) != nil {
		return server.Close()
	}
	return nil
}

// note is a small file in the data folder that says at which address a piece
// file is open.
type note struct{ path, id string }

func noteOf(data, whole string) note {
	sum := sha256.Sum256([]byte(whole))
	id := hex.EncodeToString(sum[:8])
	return note{filepath.Join(data, "open-"+id), id}
}

// here is what the page answers to who asks whether it is there.
func (n note) here() string { return "rodwork " + n.id }

func (n note) write(host string) error { return os.WriteFile(n.path, []byte(host), 0o600) }

func (n note) remove() {
	_ = os.Remove(n.path) // if it stays, the next start finds nobody at its address
}

// running returns the address of a page that has the file open; "" where none
// answers.
func (n note) running(ctx context.Context) string {
	b, err := os.ReadFile(n.path)
	host := strings.TrimSpace(string(b))
	if err != nil || !strings.HasPrefix(host, "127.0.0.1:") || len(host) > 30 {
		return ""
	}
	ctx, stop := context.WithTimeout(ctx, 2*time.Second)
	defer stop()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+host+"/here", nil)
	if err != nil {
		return ""
	}
	client := http.Client{Transport: &http.Transport{}} // no proxy: it is on this machine
	answer, err := client.Do(req)
	if err != nil {
		return ""
	}
	defer answer.Body.Close()
	said, err := io.ReadAll(io.LimitReader(answer.Body, 100))
	if err != nil || string(said) != n.here() {
		return ""
	}
	return "http://" + host + "/"
}
