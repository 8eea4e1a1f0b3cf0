package browser

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/internal/judge"
)

const viewer = `document.querySelector('figure[data-model]').viewer`

// On the page the model comes when it is near, and follows: a width that is
// typed over changes it once the hand rests, and until then it says that it is
// of an earlier state. No reader is left out of it, as far as a program can tell.
func TestModelFollowsThePage(t *testing.T) {
	axe := string(judge.File(t, "axe-core", "axe.min.js"))
	p := openLive(t)
	p.size(800, 900)
	p.still(true)
	if p.js(`performance.getEntriesByType('resource').map(e => new URL(e.name).pathname).some(n => n === '/model' || n === '/model.js')`) != "false" {
		t.Error("the first load brings the model along")
	}
	p.js(`document.querySelector('figure[data-model]').scrollIntoView({behavior: 'instant'})`)
	p.wait(`document.querySelector('.turn')?.dataset.drawn > 0`)
	if wide := p.js(viewer + `.model.size[0]`); wide != "1460" {
		t.Errorf("the model is %s wide", wide)
	}
	p.js(`(() => { const s = document.querySelector('.by summary'); s.click(); ` + viewer + `.pick(2); ` + viewer + `.cut('x', 700); })()`)
	p.js(`(() => {` + axe + `; return 1 })()`)
	for _, dark := range []bool{false, true} {
		p.dark(dark)
		said, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](strings.Replace(judged, "{exclude", "{include: [['figure[data-model]']], exclude", 1), chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		var found []string
		if err := json.Unmarshal([]byte(said), &found); err != nil {
			t.Fatal(err)
		}
		for _, f := range found {
			t.Errorf("dark %v: %s", dark, f)
		}
	}
	p.size(1440, 900)
	p.tabTo("sizes.width")
	p.typeOver("1500")
	p.wait(viewer + `.model.size[0] === 1500 && !document.querySelector('.turn').hasAttribute('data-late')`)
	p.press(kb.Escape)
	p.wait(viewer + `.model.size[0] === 1460 && !document.querySelector('.turn').hasAttribute('data-late')`)
	if p.js(viewer+`.state.cut?.at`) != "700" || p.js(viewer+`.state.picked`) != "2" {
		t.Error("what the reader had set is gone")
	}
	p.calm()
}

// Reflowed to 320 px the model and its controls are no wider than the screen.
func TestModelFitsANarrowScreen(t *testing.T) {
	p := openModel(t)
	p.size(320, 800)
	if wide := p.js(`document.documentElement.scrollWidth`); wide != "320" {
		t.Errorf("the page is %s px wide", wide)
	}
}
