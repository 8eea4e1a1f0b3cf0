package browser

import (
	"fmt"
	"os"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"rodwork/internal/cli"
)

const drags = 200

// listen notes, for each move of the pointer that changed the value, the time
// from the input to the frame that shows what followed.
const listen = `(() => {
	globalThis.took = []; let at = 0;
	addEventListener('pointermove', e => { at = e.timeStamp; }, true);
	addEventListener('previewed', () => { const from = at; requestAnimationFrame(() => {
		const c = new MessageChannel();
		c.port1.onmessage = () => { took.push(performance.now() - from); };
		c.port2.postMessage(0);
	}); });
	return 1;
})()`

// TestDragLatency drags the width by 200 steps. Each is from the input to the
// pixels. Where RODWORK_SPEED names a file, it is written there for people; the
// test itself demands only that every drag is answered, since the machine that
// it runs on may have other work to do.
func TestDragLatency(t *testing.T) {
	name := os.Getenv("RODWORK_SPEED")
	n := 12
	if name != "" {
		n = drags
	}
	defer debug.SetGCPercent(debug.SetGCPercent(cli.Garbage)) // as the program does
	p := openLive(t)
	p.js(listen)
	p.js(`(() => { document.querySelector('main b.v[role][data-path="sizes.width"]').scrollIntoView({block: 'center', behavior: 'instant'}); return 1 })()`)
	at := strings.Split(p.js(`(() => { const r = document.querySelector('main b.v[role][data-path="sizes.width"]').getBoundingClientRect(); return (r.left + r.width / 2) + ' ' + (r.top + r.height / 2) })()`), " ")
	x, y := number(t, at[0]), number(t, at[1])
	p.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	p.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+9, y, chromedp.ButtonLeft)) // in hand
	p.until(`took.length > 0`)
	p.js(`(() => { took.length = 0; return 1 })()`)
	for i := range n {
		step := float64(3 * (4 + i%100))
		p.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+step, y, chromedp.ButtonLeft))
		p.await(fmt.Sprintf(`took.length > %d`, i))
	}
	p.shot("dragged")
	p.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, x+60, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	p.until(`document.getElementById('telling').textContent.includes('width is')`)
	if strings.Contains(p.disk.text(), "width: 1460 ") {
		t.Error("what was dragged is not in the file")
	}
	p.calm()
	if name != "" {
		report(t, name, p.js(`took.map(x => x.toFixed(1)).join(' ')`))
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// report writes the figures for people.
func report(t *testing.T, name, took string) {
	t.Helper()
	var all []float64
	for _, s := range strings.Fields(took) {
		all = append(all, number(t, s))
	}
	slices.Sort(all)
	part := func(q float64) float64 { return all[min(len(all)-1, int(q*float64(len(all))))] }
	cpu, load := "unknown", "unknown"
	if b, err := os.ReadFile("/proc/loadavg"); err == nil {
		load = strings.Join(strings.Fields(string(b))[:1], "")
	}
	if b, err := os.ReadFile("/proc/cpuinfo"); err == nil {
		cpu = fmt.Sprint(strings.Count(string(b), "processor\t"), " cores")
	}
	text := fmt.Sprintf(`# How fast the page answers

Written by `+"`RODWORK_SPEED=../../docs/page-speed.md go test -run DragLatency ./internal/browser`"+`: the width of the choir
sideboard is dragged in Chromium, step by step; each step is timed from the input to the frame that shows the whole book
as it then is.

| steps | median ms | 95 of 100 ms | longest ms | machine | load average while it ran |
| --- | --- | --- | --- | --- | --- |
| %d | %.0f | %.0f | %.0f | %s | %s |

The aim is 100 ms for 95 of 100 steps on a machine with nothing else to do.
`, len(all), part(0.5), part(0.95), all[len(all)-1], cpu, load)
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Log(text)
}
