package browser

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/web"
)

// disk stands in for the disk under a session.
type disk struct {
	mu          sync.Mutex
	piece, shop []byte
}

func (d *disk) load() (web.Loaded, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return web.Loaded{Source: plan.Source{PieceFile: "piece.yaml", Piece: bytes.Clone(d.piece), ShopFile: "shop.yaml", Shop: bytes.Clone(d.shop)}}, nil
}

func (d *disk) save(f web.File, was, now []byte) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	to := &d.piece
	if f == web.ShopFile {
		to = &d.shop
	}
	if !bytes.Equal(*to, was) {
		return web.ErrChanged
	}
	*to = bytes.Clone(now)
	return nil
}

func (d *disk) text() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return string(d.piece)
}

func (d *disk) shopText() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return string(d.shop)
}

// edit changes the file behind the page's back.
func (d *disk) edit(from, to string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.piece = bytes.Replace(d.piece, []byte(from), []byte(to), 1)
}

// live is a page that is served and open in a browser.
type live struct {
	*testing.T
	ctx  context.Context
	disk *disk
	seen seen
	page *web.Session
}

// openLive serves the choir sideboard and opens its page.
func openLive(t *testing.T) *live {
	t.Helper()
	return openExample(t, "main")
}

// openExample serves an example and opens its page.
func openExample(t *testing.T, name string) *live {
	t.Helper()
	p := &live{T: t, disk: &disk{}}
	p.disk.piece, p.disk.shop = examples.Main()
	piece, err := examples.Files.ReadFile(name + "/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p.disk.piece = piece
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	host := l.Addr().String()
	p.page, err = web.Open(t.Context(), web.Config{Load: p.disk.load, Save: p.disk.save, Token: "token of this start", Host: host})
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: p.page.Handler(), ReadHeaderTimeout: 10 * time.Second}
	go func() { _ = server.Serve(l) }() // ends when it is closed
	t.Cleanup(func() { _ = server.Close() })
	p.ctx = openShared(t, &p.seen)
	p.size(1440, 900)
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	}))
	p.do(chromedp.Navigate("http://" + host + "/"))
	p.until(`document.body.dataset.ready === 'yes'`)
	return p
}

func (p *live) do(actions ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	if err := chromedp.Do(p.ctx, actions...); err != nil {
		p.Fatal(err)
	}
}

func (p *live) size(w, h int64) {
	p.Helper()
	p.do(chromedp.EmulateViewport(w, h))
}

// js evaluates an expression to a text.
func (p *live) js(expr string) string {
	p.Helper()
	s, err := chromedp.Run(p.ctx, chromedp.Evaluate[string]("String("+expr+")"))
	if err != nil {
		p.Fatalf("%s: %v", expr, err)
	}
	return s
}

// until waits for an expression to come true. While the page goes to another one
// it can't be asked: that is not yet true.
func (p *live) until(expr string) {
	p.Helper()
	var err error
	for end := time.Now().Add(40 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		var is string
		if is, err = chromedp.Run(p.ctx, chromedp.Evaluate[string]("String("+expr+")")); err == nil && is == "true" {
			return
		}
	}
	if err != nil {
		p.Fatalf("%s: %v", expr, err)
	}
	p.Fatalf("never came true: %s; the page says %q, the browser %q", expr, p.js(`document.getElementById('telling').textContent + ' / ' + (document.querySelector('.wrong')?.textContent ?? '') + ' / in hand: ' + document.activeElement.outerHTML.slice(0, 200)`), p.seen.trouble)
}

// await waits within the page, frame by frame, for an expression to come true.
func (p *live) await(expr string) {
	p.Helper()
	_, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`new Promise(done => { const look = () => `+expr+` ? done(true) : setTimeout(look, 4); look() })`, chromedp.EvalAwaitPromise))
	if err != nil {
		p.Fatalf("%s: %v", expr, err)
	}
}

func (p *live) press(keys string) {
	p.Helper()
	p.do(chromedp.KeyEvent(keys))
}

// tabTo moves the focus to a value by its path, as a person who tabs to it.
func (p *live) tabTo(path string) {
	p.Helper()
	sel := fmt.Sprintf(`document.querySelector('main b.v[role][data-path="%s"]')`, path)
	p.js(`(() => { const b = ` + sel + `; b.scrollIntoView({block: 'center', behavior: 'instant'}); b.focus(); return 1 })()`)
	if p.js(`document.activeElement.matches('input.v, [role=listbox]')`) != "true" {
		p.press(kb.Enter)
	}
	p.until(`document.activeElement.matches('input.v, [role=listbox]')`)
}

// tabOn presses the tab key until something is so, but no more than most times.
func (p *live) tabOn(so string, most int) {
	p.Helper()
	for range most {
		p.press(kb.Tab)
		if p.js(so) == "true" {
			return
		}
	}
	p.Fatalf("%d tabs do not lead to %s", most, so)
}

// keysTo takes a value in hand by no more than tab and Enter.
func (p *live) keysTo(path string) {
	p.Helper()
	label := p.js(`document.querySelector('main b.v[role][data-path="` + path + `"]').getAttribute('aria-label')`)
	p.tabOn(fmt.Sprintf(`(e => e.dataset.path === %q || e.matches('input.v') && e.getAttribute('aria-label') === %q)(document.activeElement)`, path, label), 300)
	if p.js(`document.activeElement.matches('input.v, [role=listbox]')`) != "true" {
		p.press(kb.Enter)
	}
	p.until(`document.activeElement.matches('input.v, [role=listbox]')`)
}

// typeOver replaces what is in hand.
func (p *live) typeOver(text string) {
	p.Helper()
	p.js(`document.activeElement.select?.()`)
	p.press(text)
}

// await2frames waits until what came into sight is drawn.
func (p *live) await2frames() {
	p.Helper()
	if _, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](`new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))))`, chromedp.EvalAwaitPromise)); err != nil {
		p.Fatal(err)
	}
}

// shot keeps a picture for a person to look at, where RODWORK_SHOTS names a folder.
func (p *live) shot(name string) {
	p.Helper()
	dir := os.Getenv("RODWORK_SHOTS")
	if dir == "" {
		return
	}
	p.await2frames()
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		p.Fatal(err)
	}
}

func (p *live) dark(on bool) {
	p.Helper()
	scheme := "light"
	if on {
		scheme = "dark"
	}
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return err
	}))
}

// calm demands that nothing went wrong in the browser but what was meant to.
func (p *live) calm(but ...string) {
	p.Helper()
	p.seen.mu.Lock()
	defer p.seen.mu.Unlock()
	for _, said := range p.seen.trouble {
		meant := false
		for _, b := range but {
			meant = meant || strings.Contains(said, b)
		}
		if !meant {
			p.Errorf("the browser complains: %s", said)
		}
	}
}
