package browser

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/internal/judge"
)

// judged are the rules that the page is held to: those of the guidelines for
// accessible content, 2.2, levels A and AA. What is within a figure is left out:
// it is lines, and told by its name and caption.
const judged = `axe.run({exclude: [['.leaf']]}, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'], resultTypes: ['violations']})
	.then(r => JSON.stringify(r.violations.map(v => v.id + ': ' + v.help + ' at ' + v.nodes.slice(0, 4).map(n => n.target.join(' ') + ' (' + (n.any[0]?.message ?? n.all[0]?.message ?? n.none[0]?.message ?? '') + ')').join('; '))))`

// No reader of the page is left out as far as a program can tell: with a list to
// pick from, in the light; with a wrong value in hand, in the dark, on a phone.
func TestAccess(t *testing.T) {
	axe := string(judge.File(t, "axe-core", "axe.min.js"))
	p := openLive(t)
	p.js(`(() => {` + axe + `; return 1 })()`)
	// All of it is laid out: what the judge asks of each element would else have
	// the browser lay out what is out of sight again and again.
	p.js(`(() => { const s = new CSSStyleSheet(); s.replaceSync('.live .chapter > .row {content-visibility: visible !important}'); document.adoptedStyleSheets.push(s); return 1 })()`)
	look := func(state string, where ...string) {
		t.Helper()
		ask := judged
		if len(where) > 0 {
			ask = strings.Replace(ask, "{exclude:", "{include: [['"+where[0]+"']], exclude:", 1)
		}
		said, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](ask, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		var found []string
		if err := json.Unmarshal([]byte(said), &found); err != nil {
			t.Fatal(err)
		}
		for _, f := range found {
			t.Errorf("%s: %s", state, f)
		}
	}
	p.tabTo("stock.panels")
	look("picking")
	p.press(kb.Escape)
	p.tabTo("brief.holds.1.count")
	look("an item of a list in hand", "#b-brief")
	p.press(kb.Escape)
	p.dark(true)
	p.size(390, 844)
	p.tabTo("sizes.width")
	p.typeOver("3 kg")
	p.until(`document.querySelector('.slip .wrong').textContent.includes('kg') || document.querySelector('.slip .wrong').textContent.includes('ass')`)
	look("wrong, dark, on a phone")
}
