package browser

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// handheld makes the window that of a telephone with a touch screen.
func (p *live) handheld(width int64) {
	p.Helper()
	p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := cdp.Call(ctx, t, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 844, DeviceScaleFactor: 2, Mobile: true}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, t, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true})
		return err
	}))
	p.until(`matchMedia('(pointer: coarse)').matches`)
}

// touch puts a finger down, moves it through points, and lifts it.
func (p *live) touch(points ...[2]float64) {
	p.Helper()
	send := func(kind input.DispatchTouchEventType, at ...*input.TouchPoint) {
		p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: at})
			return err
		}))
	}
	for i, at := range points {
		kind := input.DispatchTouchEventTypeTouchMove
		if i == 0 {
			kind = input.DispatchTouchEventTypeTouchStart
		}
		send(kind, &input.TouchPoint{X: at[0], Y: at[1]})
		p.await2frames()
	}
	send(input.DispatchTouchEventTypeTouchEnd)
}

// middle is where a value stands in the window, after it was brought there.
func (p *live) middle(path string) (x, y float64) {
	p.Helper()
	p.js(`(() => { document.querySelector('main b.v[role][data-path="` + path + `"]').scrollIntoView({block: 'center', behavior: 'instant'}); return 1 })()`)
	p.await2frames()
	at := strings.Split(p.js(`(() => { const r = document.querySelector('main b.v[role][data-path="`+path+`"]').getClientRects()[0]; return (r.left + r.width / 2) + ' ' + (r.top + r.height / 2) })()`), " ")
	return number(p.T, at[0]), number(p.T, at[1])
}

// A finger that goes sideways drags a value and leaves the page where it is; one
// that goes up or down scrolls the page and leaves the value; a tap takes it in
// hand, and what was dragged can be typed as well.
func TestTouch(t *testing.T) {
	p := openLive(t)
	p.handheld(390)
	x, y := p.middle("sizes.width")
	was := p.js(`Math.round(scrollY)`)
	p.touch([2]float64{x, y}, [2]float64{x + 12, y + 1}, [2]float64{x + 24, y + 2}, [2]float64{x + 36, y + 2})
	p.told("width is")
	if p.disk.text() == string(mainPiece()) || strings.Contains(p.disk.text(), "width: 1460 ") {
		t.Error("a finger does not drag")
	}
	if now := p.js(`Math.round(scrollY)`); now != was {
		t.Errorf("the page went from %s to %s", was, now)
	}
	kept := p.disk.text()
	x, y = p.middle("sizes.width")
	p.touch([2]float64{x, y}, [2]float64{x, y - 20}, [2]float64{x, y - 60}, [2]float64{x, y - 120})
	p.until(`Math.round(scrollY) !== ` + was)
	if p.disk.text() != kept {
		t.Error("a finger that scrolls changes a value")
	}
	x, y = p.middle("sizes.depth")
	p.touch([2]float64{x, y})
	p.until(`document.activeElement.matches('input.v')`)
	p.shot("touch")
	p.typeOver("410")
	p.press(kb.Enter)
	p.told("depth is 410")
	p.calm()
}

// What a finger must hit is 24 px high and wide at least, but for links and
// values in a line of text, of which the line gives the height.
func TestTargetsForFingers(t *testing.T) {
	p := openLive(t)
	p.handheld(390)
	p.tabTo("brief.holds.1.count")
	p.until(`document.querySelectorAll('.slip .ask button').length === 2`)
	small := p.js(`[...document.querySelectorAll('button, select, textarea, input, .contents a, .tally a, b.v[role]')].filter(e => {
		if (!e.checkVisibility({contentVisibilityAuto: true, visibilityProperty: true})) return false;
		const r = e.getBoundingClientRect();
		return r.width > 0 && (r.height < 23.9 || r.width < 23.9);
	}).map(e => e.outerHTML.slice(0, 120) + ' ' + e.getBoundingClientRect().width + ' x ' + e.getBoundingClientRect().height).slice(0, 8).join('\n')`)
	if small != "" {
		t.Errorf("too small:\n%s", small)
	}
	p.calm()
}

// At twice the size a desk's page is as wide as half of it, and all is there:
// nothing is cut off or scrolls sideways.
func TestTwiceTheSize(t *testing.T) {
	p := openLive(t)
	for _, w := range []int64{720, 640, 320} { // 200 % of 1440 and of 1280, 400 % of 1280
		p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: w, Height: 450, DeviceScaleFactor: 2})
			return err
		}))
		p.tabTo("sizes.turn")
		p.until(`document.documentElement.scrollWidth <= ` + digits(w))
		in := p.js(`(() => { const r = document.activeElement.getBoundingClientRect(); return r.left >= 0 && r.right <= innerWidth && r.top >= 0 && r.bottom <= innerHeight })()`)
		if in != "true" {
			t.Errorf("at %d px the value in hand is not in sight", w)
		}
		p.shot("twice-" + digits(w))
		p.press(kb.Escape)
	}
	p.calm()
}
