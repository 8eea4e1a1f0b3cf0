package browser

import (
	"bytes"
	"context"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// openModel opens the example's book from its file, where models can be drawn,
// and waits for the model's first picture.
func openModel(t *testing.T) *live {
	t.Helper()
	page := demoPage(t)
	p := &live{T: t}
	p.ctx = open(t, &p.seen, inSpace...)
	p.size(420, 900) // small: a browser without a graphics card draws slowly
	p.still(true)
	p.do(chromedp.Navigate("file://" + page))
	p.js(`document.querySelector('figure:has(> script)').scrollIntoView({behavior: 'instant'})`)
	p.wait(`document.querySelector('.turn')?.dataset.drawn > 0`)
	return p
}

// still asks for no motion, as a reader may of the system.
func (p *live) still(on bool) {
	p.Helper()
	value := map[bool]string{true: "reduce", false: "no-preference"}[on]
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: value}}})
		return err
	}))
}

// wait is until for a page that is only a file.
func (p *live) wait(expr string) {
	p.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		if p.js(expr) == "true" {
			return
		}
	}
	p.Fatalf("never came true: %s; the browser says %q, the model %q", expr, p.seen.trouble, p.js(`document.querySelector('.by')?.textContent ?? document.querySelector('.unturned')?.textContent`))
}

// drawing waits for the model to have been drawn anew, and returns the number of
// its colours and the share of it that is not paper.
func (p *live) drawing() (colours int, share float64) {
	p.Helper()
	p.js(`document.querySelector('.turn canvas').scrollIntoView({behavior: 'instant', block: 'center'})`)
	p.await(`!document.querySelector('figure:has(> .turn)').viewer.due`)
	at, err := chromedp.Run(p.ctx, chromedp.Evaluate[box](`(() => {
		const r = document.querySelector('.turn canvas').getBoundingClientRect();
		return {Left: r.left, Top: r.top, Right: r.right, Bottom: r.bottom};
	})()`))
	if err != nil {
		p.Fatal(err)
	}
	shot, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		p.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		p.Fatal(err)
	}
	seen := map[[3]uint32]bool{}
	for y := int(at.Top); y < int(at.Bottom) && y < img.Bounds().Max.Y; y++ {
		for x := int(at.Left); x < int(at.Right); x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			seen[[3]uint32{r >> 8, g >> 8, b >> 8}] = true
		}
	}
	return len(seen), ink(p.T, shot, at)
}

// picture is the model as it looks now, as bytes that can be compared.
func (p *live) picture() string {
	p.Helper()
	return p.js(`(() => { const v = document.querySelector('figure:has(> .turn)').viewer; v.draw(); return v.canvas.toDataURL() })()`)
}

// The model in the book's file comes alive: it is seen, and does by keys what it
// is there for. One browser does for all, as its first picture takes long where
// there is no graphics card.
func TestModel(t *testing.T) {
	p := openModel(t)
	for _, one := range []struct {
		name string
		run  func(*testing.T, *live)
	}{{"seen", modelIsSeen}, {"keys", modelByKeys}, {"measure", modelMeasures}, {"picture", modelPicture}} {
		t.Run(one.name, func(t *testing.T) {
			p.T = t
			one.run(t, p)
		})
		p.T = t
	}
}

// Wood has many colours. The page asks for nothing, and says nothing on the console.
func modelIsSeen(t *testing.T, p *live) {
	colours, share := p.drawing()
	if colours < 500 || share < 0.15 {
		t.Errorf("%d colours on %.2f of the picture: it looks blank", colours, share)
	}
	if p.js(`getComputedStyle(document.querySelector('.turn + .plate')).display`) != "none" {
		t.Error("the still picture stands beside the model")
	}
	p.seen.mu.Lock()
	defer p.seen.mu.Unlock()
	if len(p.seen.requests) != 1 {
		t.Errorf("requests: %q; only the page itself is to be asked for", p.seen.requests)
	}
	if len(p.seen.trouble) > 0 {
		t.Errorf("the browser complains: %q", p.seen.trouble)
	}
}

// Each thing that the model does can be done by keys alone, and is seen.
func modelByKeys(t *testing.T, p *live) {
	last := p.picture()
	moved := func(what string) {
		t.Helper()
		now := p.picture()
		if now == last {
			t.Errorf("%s: the picture has not changed", what)
		}
		last = now
	}
	p.js(`document.querySelector('.turn canvas').focus({preventScroll: true})`)
	p.press(kb.ArrowLeft)
	moved("turn")
	p.do(chromedp.KeyEvent(kb.ArrowUp, chromedp.KeyModifiers(chromedp.ModifierShift)))
	moved("pan")
	p.press("+")
	moved("zoom")
	p.press(kb.Enter)
	if link := p.js(`document.querySelector('.by .named a')?.hash`); !strings.HasPrefix(link, "#part-") || p.js(`Boolean(document.querySelector('`+link+`'))`) != "true" {
		t.Errorf("the part in the middle leads to %q", link)
	}
	for _, view := range []string{"front", "end", "plan", "section", "open", "as it stands"} {
		p.focus(`[...document.querySelectorAll('.by .ways button')].find(b => b.textContent === '` + view + `')`)
		p.press(kb.Enter)
		moved(view)
		if p.js(`document.activeElement.getAttribute('aria-pressed')`) != "true" {
			t.Errorf("the view %q does not say that it is in force", view)
		}
	}
	p.typeInto("Taken apart", "60")
	moved("taken apart")
	p.typeInto("Taken apart", "0")
	moved("put together")
	p.typeInto("Opened", "100")
	moved("opened")
	p.focus(`document.querySelector('.by summary')`)
	p.press(kb.Enter)
	p.typeInto("tray front", "0")
	moved("one drawer closed")
	p.choose("Cut through", "z")
	moved("cut")
	p.typeInto("at", "60")
	moved("cut elsewhere")
	p.choose("Cut through", "")
	moved("cut no more")
	p.choose("Part", "0")
	if said := p.js(`document.querySelector('.by .named').textContent`); said == "" {
		t.Error("a part that is chosen is not named")
	}
	p.focus(`[...document.querySelectorAll('.by button')].find(b => b.textContent === 'fade it')`)
	p.press(kb.Enter)
	moved("faded")
	p.calm()
}

// focus puts the keys on a control.
func (p *live) focus(expr string) {
	p.Helper()
	if p.js(`(e => (e.focus(), document.activeElement === e))(`+expr+`)`) != "true" {
		p.Fatalf("the keys do not reach %s", expr)
	}
}

// typeInto types a number into the control with a label.
func (p *live) typeInto(label, text string) {
	p.Helper()
	p.focus(`document.getElementById([...document.querySelectorAll('.by label')].find(l => l.textContent === '` + label + `').htmlFor)`)
	p.js(`document.activeElement.select()`)
	p.do(chromedp.KeyEvent(text))
}

// choose picks from the list with a label.
func (p *live) choose(label, value string) {
	p.Helper()
	p.focus(`document.getElementById([...document.querySelectorAll('.by label')].find(l => l.textContent === '` + label + `').htmlFor)`)
	p.js(`(e => { e.value = '` + value + `'; e.dispatchEvent(new Event('change')); })(document.activeElement)`)
}

// A measure between two corners says what the file says: the piece's width, seen
// from the front, where the model is as wide as the paper says it is.
func modelMeasures(t *testing.T, p *live) {
	p.focus(`[...document.querySelectorAll('.by .ways button')].find(b => b.textContent === 'front')`)
	p.press(kb.Enter)
	p.focus(`[...document.querySelectorAll('.by button')].find(b => b.textContent.startsWith('measure'))`)
	p.press(kb.Enter)
	// The lower corners of the plinth, found by where the scene has them.
	p.js(`(() => {
		const v = document.querySelector('figure:has(> .turn)').viewer, [w, h] = v.size;
		v.draw();
		const rest = v.stage.rest, bottom = v.stage.parts.find(o => o.part.name === 'bottom');
		const b = bottom.part.geometry.boundingBox.clone().applyMatrix4(bottom.group.matrix);
		for (const x of [b.min.x, b.max.x]) {
			const [sx, sy] = v.picker.screen(b.min.clone().set(x, b.min.y, b.max.z), w, h);
			v.touched(sx, sy);
		}
	})()`)
	said := p.js(`document.querySelector('.by .said').textContent`)
	want := p.js(`(v => { const o = v.stage.parts.find(o => o.part.name === 'bottom'), b = o.part.geometry.boundingBox.clone().applyMatrix4(o.group.matrix); return (b.max.x - b.min.x).toFixed(1).replace(/\.0$/, '') })(document.querySelector('figure:has(> .turn)').viewer)`)
	if said != "Between the two points: "+want+" mm; "+want+" mm across, 0 mm up, 0 mm deep." {
		t.Errorf("the measure says %q, the bottom is %s long", said, want)
	}
	p.calm()
}

// A picture to send is saved as a PNG that is no smaller than what is seen.
func modelPicture(t *testing.T, p *live) {
	dir := t.TempDir()
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: "allow", DownloadPath: dir})
		return err
	}))
	p.focus(`[...document.querySelectorAll('.by button')].find(b => b.textContent === 'picture to send')`)
	p.press(kb.Enter)
	p.wait(`document.querySelector('.by .said').textContent.includes('Choir-sideboard.png')`)
	var data []byte
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end) && len(data) == 0; time.Sleep(50 * time.Millisecond) {
		data, _ = os.ReadFile(filepath.Join(dir, "Choir-sideboard.png")) // not there yet
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%d bytes: %v", len(data), err)
	}
	if img.Bounds().Dx() < 1590 {
		t.Errorf("the picture is %d px wide", img.Bounds().Dx())
	}
}

// Where nothing can be drawn in space the still picture stays, and says so.
func TestModelStaysStill(t *testing.T) {
	page := demoPage(t)
	p := &live{T: t}
	p.ctx = open(t, &p.seen)
	p.size(1280, 900)
	p.do(chromedp.Navigate("file://" + page))
	p.js(`(HTMLCanvasElement.prototype.getContext = () => null, document.querySelector('figure:has(> script)').scrollIntoView({behavior: 'instant'}))`)
	p.wait(`document.querySelector('.unturned')?.textContent.includes('the picture stands for it')`)
	if p.js(`getComputedStyle(document.querySelector('figure:has(> script) .plate')).display`) == "none" {
		t.Error("the still picture is gone too")
	}
}
