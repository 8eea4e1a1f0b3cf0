package browser

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/examples"
	"rodwork/internal/judge"
	"rodwork/internal/web"
)

// newcomer is a person before the start page, with a desk to keep pieces on.
type newcomer struct {
	*live
	mu   sync.Mutex
	kept []web.New
}

// servePage serves a handler until the test ends, and returns its host.
func servePage(t *testing.T, handler func(host string) http.Handler) string {
	t.Helper()
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	host := l.Addr().String()
	server := &http.Server{Handler: handler(host), ReadHeaderTimeout: 10 * time.Second}
	go func() { _ = server.Serve(l) }() // ends when it is closed
	t.Cleanup(func() { _ = server.Close() })
	return host
}

// openStart serves the start page and opens it.
func openStart(t *testing.T) *newcomer {
	t.Helper()
	n := &newcomer{live: &live{T: t, disk: &disk{}}}
	_, shop := examples.Main()
	n.disk.shop = shop
	ids := 0
	host := servePage(t, func(host string) http.Handler {
		return web.StartOnly(web.Starting{
			Shop:  func() []byte { return shop },
			NewID: func() string { ids++; return fmt.Sprintf("id%d", ids) },
			Where: "the data folder", ShopLine: "shop.yaml", Keep: n.keep,
		}, "token of the start", host, "rodwork start")
	})
	n.ctx = open(t, &n.seen)
	n.size(1440, 900)
	n.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
		return err
	}))
	n.do(chromedp.Navigate("http://" + host + "/start"))
	n.until(`document.body.dataset.ready === 'yes'`)
	return n
}

// keep takes what was begun as a piece and serves its page.
func (n *newcomer) keep(w web.New) (string, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.kept = append(n.kept, w)
	n.disk.mu.Lock()
	n.disk.piece = w.Piece
	n.disk.mu.Unlock()
	var err error
	host := servePage(n.T, func(host string) http.Handler {
		n.page, err = web.Open(n.Context(), web.Config{Load: n.disk.load, Save: n.disk.save, Token: "token of the piece", Host: host})
		if err != nil {
			return http.NotFoundHandler()
		}
		return n.page.Handler()
	})
	return "http://" + host + "/", err
}

// answered waits until the page shows what came of the last thing said.
func (n *newcomer) answered(do func()) {
	n.Helper()
	before := n.js(`document.body.dataset.asked ?? '0'`)
	do()
	n.until(`Number(document.body.dataset.asked ?? 0) > ` + before + ` && !document.querySelector('.front').classList.contains('old')`)
}

// tabUntil goes on by the tab key until a control has the keys.
func (n *newcomer) tabUntil(id string) {
	n.Helper()
	for range 60 {
		if n.js(`document.activeElement.id`) == id {
			return
		}
		n.press(kb.Tab)
	}
	n.Fatalf("the tab key does not lead to %s", id)
}

// pick chooses a word of a list by its first letters.
func (n *newcomer) pick(id, letters string) {
	n.Helper()
	n.tabUntil(id)
	n.answered(func() { n.press(letters) })
}

// fill types over a field.
func (n *newcomer) fill(id, text string) {
	n.Helper()
	n.tabUntil(id)
	n.answered(func() { n.typeOver(text) })
}

// A newcomer begins a sideboard for a hundred and forty records, its corners
// bent, by the keyboard alone (no focus is set by script); widens it until something says stop, mends that
// with Enter; swaps the stock and reads what changed.
func TestNewcomer(t *testing.T) {
	n := openStart(t)
	n.shot("start-first")
	n.pick("corners", "be")
	n.fill("width", "600")
	n.fill("count0", "140")
	n.until(`document.getElementById('facts').textContent.includes('of 140 records')`)
	n.until(`document.querySelector('.said .mend') != null`)
	n.shot("start-said")
	n.tabUntilMend()
	n.answered(func() { n.press(kb.Enter) })
	n.until(`document.getElementById('facts').textContent.includes('Room for all: 140 records')`)
	if said := n.js(`document.getElementById('tally').textContent`); strings.Contains(said, "stop") {
		t.Errorf("it begins with %s", said)
	}
	n.tabUntil("name")
	n.press("Listening room")
	n.tabUntil("keep")
	n.press(kb.Enter)
	n.until(`document.body?.dataset.ready === 'yes' && document.title.startsWith('Listening room')`)
	n.shot("start-kept")

	// Widened: something says stop, and its mend goes in with Enter.
	n.keysTo("sizes.width")
	n.typeOver("1400")
	n.press(kb.Enter)
	n.until(`document.getElementById('telling').textContent.includes('stop')`)
	n.until(`document.querySelector('.brought')?.textContent.includes('1400 mm')`)
	n.shot("newcomer-stop")
	n.mendStop()
	n.shot("newcomer-mended")

	// Another stock: what changed is told in a line.
	n.keysTo("stock.panels")
	n.press(kb.ArrowDown)
	n.press(kb.Enter)
	n.until(`document.getElementById('telling').textContent.includes('panels')`)
	n.until(`/cut from .* → .*mass .* → /.test(document.querySelector('.brought')?.textContent ?? '')`)
	n.shot("newcomer-stock")
	n.calm("422")
}

func (n *newcomer) tabUntilMend() {
	n.Helper()
	for range 60 {
		if n.js(`document.activeElement.matches('.mend')`) == "true" {
			return
		}
		n.press(kb.Tab)
	}
	n.Fatal("the tab key does not lead to the mend")
}

// mendStop goes to the first mend of a stop and puts it in; the stops get fewer.
func (n *newcomer) mendStop() {
	n.Helper()
	was := n.js(`document.querySelectorAll('.find.stop').length`)
	n.until(`document.querySelector('.find.stop button.mend[data-path]') != null`)
	n.press(kb.F8)
	n.until(`document.activeElement.matches('.find.stop button.mend[data-path]')`)
	n.press(kb.Enter)
	n.until(`/is now|^mended: /.test(document.getElementById('telling').textContent)`)
	n.until(`document.querySelectorAll('.find.stop').length < ` + was)
}

// sketch is a picture of a cabinet, 600 by 400 points.
func sketch() string {
	img := image.NewRGBA(image.Rect(0, 0, 600, 400))
	for y := range 400 {
		for x := range 600 {
			c := color.RGBA{236, 230, 220, 255}
			if x > 100 && x < 500 && y > 80 && y < 340 && (x < 112 || x > 488 || y < 92 || y > 328 || x > 294 && x < 306) {
				c = color.RGBA{120, 90, 60, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	_ = png.Encode(&b, img) // into memory
	bytesOf := strings.Trim(strings.ReplaceAll(fmt.Sprint(b.Bytes()), " ", ","), "[]")
	return "new File([new Uint8Array([" + bytesOf + "])], 'sketch.png', {type: 'image/png'})"
}

// A sketch is laid behind the front; its scale is typed, lines are stepped by
// the keys and dragged, and become the sizes, which can be typed as well.
func TestTraceOverASketch(t *testing.T) {
	n := openStart(t)
	n.answered(func() {
		n.js(`(() => { const d = new DataTransfer(); d.items.add(` + sketch() + `); const f = document.getElementById('picture'); f.files = d.files; f.dispatchEvent(new Event('change', {bubbles: true})); return 1 })()`)
		n.until(`document.querySelector('#stage img')?.complete === true`)
	})
	n.until(`document.activeElement.id === 'known'`)
	n.answered(func() { n.typeOver("1200 mm") })
	n.until(`document.getElementById('width').value === '1200 mm'`)
	// The right side by the keys: a step is a point, 3 mm of the piece here.
	n.js(`(document.querySelector('#lines [aria-label^="right side"]').focus(), 1)`)
	n.answered(func() { n.press(kb.ArrowRight) })
	n.until(`document.getElementById('width').value === '1203 mm'`)
	// An upright, typed.
	n.js(`([...document.querySelectorAll('.add')].find(b => b.textContent.includes('upright')).focus(), 1)`)
	n.answered(func() { n.press(kb.Enter) })
	n.until(`document.activeElement.getAttribute('aria-label')?.startsWith('upright 1')`)
	n.js(`(document.getElementById('up0').focus(), 1)`)
	n.answered(func() { n.typeOver("500") })
	n.until(`document.getElementById('text').textContent.includes('bays:')`)
	// A shelf, and the width typed in the sentence moves its line.
	n.js(`([...document.querySelectorAll('.add')].find(b => b.textContent.includes('shelf')).focus(), 1)`)
	n.answered(func() { n.press(kb.Enter) })
	n.until(`document.getElementById('text').textContent.includes('fixed at:')`)
	n.js(`(document.getElementById('width').focus(), 1)`)
	n.answered(func() { n.typeOver("1350 mm") })
	n.until(`document.querySelector('#lines [aria-label^="right side"]').getAttribute('aria-valuetext') === '1350 mm'`)
	n.js(`(document.getElementById('from-a-picture').scrollIntoView({behavior: 'instant'}), 1)`)
	n.shot("traced")
	// The corners bent: their radius is a line too.
	n.js(`(() => { const c = document.getElementById('corners'); c.value = 'bent'; c.dispatchEvent(new Event('change', {bubbles: true})); return 1 })()`)
	n.until(`document.querySelector('#lines [aria-label^="radius"]') != null`)
	n.js(`(document.querySelector('#lines [aria-label^="radius"]').focus(), 1)`)
	n.answered(func() { n.press(kb.ArrowRight) })
	n.until(`document.getElementById('turn').value === '143 mm'`)
	// And the other way of a line: dragged, it moves what is typed.
	n.answered(func() { n.dragLine("top", 0, 12) })
	n.until(`parseInt(document.getElementById('height').value) < 800`)
	n.tabUntil("keep")
	n.press(kb.Enter)
	n.until(`document.body?.dataset.ready === 'yes' && document.querySelector('.undo, #undo') != null`)
	if len(n.kept) != 1 || len(n.kept[0].Picture) == 0 || !strings.Contains(string(n.kept[0].Piece), "width: 1350") {
		t.Errorf("kept: %d", len(n.kept))
	}
	n.calm()
}

// dragLine drags a line over the picture, as a pointer does.
func (n *newcomer) dragLine(label string, dx, dy int) {
	n.Helper()
	n.js(fmt.Sprintf(`(() => {
		const g = document.querySelector('#lines [aria-label^="%s"]');
		g.setPointerCapture = () => {};
		const r = document.getElementById('stage').getBoundingClientRect();
		const at = (type, x, y) => g.dispatchEvent(new PointerEvent(type, {bubbles: true, cancelable: true, pointerId: 1, clientX: r.left + 50 + x, clientY: r.top + 50 + y}));
		at('pointerdown', 0, 0); at('pointermove', %d, %d); at('pointerup', %d, %d);
		return 1;
	})()`, label, dx, dy, dx, dy))
}

// In inches every size is a fraction, whatever is chosen; each kind is offered
// with sizes that are sound.
func TestStartInInches(t *testing.T) {
	n := openStart(t)
	n.pick("in", "in")
	n.until(`document.getElementById('width').value === '47 1/4 in'`)
	for _, kind := range []string{"bookcase", "chest of drawers", "wall cabinet", "wall shelf", "box with a lid", "bench", "table", "sideboard"} {
		n.answered(func() {
			n.js(`(() => { const k = document.getElementById('kind'); k.value = '` + kind + `'; k.dispatchEvent(new Event('change', {bubbles: true})); return 1 })()`)
		})
		n.until(`document.getElementById('front').textContent.length > 20 && document.getElementById('text').textContent.includes('units: in')`)
		if said := n.js(`document.getElementById('tally').textContent + document.getElementById('said').textContent`); strings.Contains(said, "stop") || strings.Contains(said, "came out sound") {
			t.Errorf("%s: %s", kind, said)
		}
		n.shot("inches-" + strings.ReplaceAll(kind, " ", "-"))
	}
	n.tabUntil("width")
	n.answered(func() { n.press(kb.ArrowUp) })
	n.until(`document.getElementById('width').value === '47 1/2 in'`)
	n.calm()
}

// An example is begun with by one key; a hostile file is refused with a word.
func TestStartFromAnExampleAndABadPicture(t *testing.T) {
	n := openStart(t)
	n.js(`(() => { const d = new DataTransfer(); d.items.add(new File(['<html>'], 'x.png', {type: 'image/png'})); const f = document.getElementById('picture'); f.files = d.files; f.dispatchEvent(new Event('change', {bubbles: true})); return 1 })()`)
	n.until(`document.getElementById('telling').textContent.includes('no PNG or JPEG')`)
	n.until(`document.querySelectorAll('#samples button').length >= 7`)
	n.js(`([...document.querySelectorAll('#samples button')].find(b => b.getAttribute('aria-label').includes('Sewing')).focus(), 1)`)
	n.press(kb.Enter)
	n.until(`document.title.startsWith('Sewing chest') && document.body?.dataset.ready === 'yes'`)
	n.calm("422")
}

// The start page leaves nobody out as far as a program can tell, in the light
// and in the dark, and nothing on it is wider than the screen.
func TestStartAccessAndNarrowScreens(t *testing.T) {
	axe := string(judge.File(t, "axe-core", "axe.min.js"))
	n := openStart(t)
	n.js(`(() => {` + axe + `; return 1 })()`)
	n.answered(func() {
		n.js(`(() => { const d = new DataTransfer(); d.items.add(` + sketch() + `); const f = document.getElementById('picture'); f.files = d.files; f.dispatchEvent(new Event('change', {bubbles: true})); return 1 })()`)
		n.until(`document.querySelector('#stage img')?.complete === true`)
	})
	n.until(`document.querySelectorAll('#samples button').length >= 7`)
	n.look("with a picture")
	n.answered(func() {
		n.js(`(() => { const w = document.getElementById('width'); w.value = '3 kg'; w.dispatchEvent(new Event('input', {bubbles: true})); setTimeout(() => document.querySelector('.front').classList.remove('old'), 400); return 1 })()`)
	})
	n.dark(true)
	n.size(390, 844)
	n.look("a wrong size, dark, on a phone")
	for _, w := range []int64{320, 390, 800, 1440} {
		n.size(w, 900)
		if wide := n.js(`document.documentElement.scrollWidth`); wide != digits(w) {
			t.Errorf("at %d px the page is %s px wide", w, wide)
		}
	}
	if os.Getenv("RODWORK_SHOTS") != "" { // for a person to look at
		for _, dark := range []bool{false, true} {
			n.dark(dark)
			for _, w := range []int64{390, 1440} {
				n.size(w, 3000)
				n.shot(fmt.Sprintf("start-%d-%v", w, dark))
			}
		}
	}
	if unnamed := n.js(`[...document.querySelectorAll('.w, [role=slider]')].filter(e => !e.getAttribute('aria-label')).length`); unnamed != "0" {
		t.Errorf("%s controls have no name", unnamed)
	}
	n.calm()
}

// look judges the page as it stands.
func (n *newcomer) look(state string) {
	n.Helper()
	said, err := chromedp.Run(n.ctx, chromedp.Evaluate[string](judged, chromedp.EvalAwaitPromise))
	if err != nil {
		n.Fatal(err)
	}
	var found []string
	if err := json.Unmarshal([]byte(said), &found); err != nil {
		n.Fatal(err)
	}
	for _, f := range found {
		n.Errorf("%s: %s", state, f)
	}
}
