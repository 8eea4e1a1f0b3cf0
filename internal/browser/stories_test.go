package browser

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/examples"
)

func digits(n int64) string { return strconv.FormatInt(n, 10) }

func mainPiece() []byte {
	piece, _ := examples.Main()
	return piece
}

const shownWidth = `[...document.querySelectorAll('b.v[data-path="sizes.width"]')].at(0)?.textContent`

// A width is typed over by keyboard: the book follows before Enter, the file
// after it; what was before stands beside it, and can be had back.
func TestTypeANewWidth(t *testing.T) {
	p := openLive(t)
	p.shot("first")
	back := `[...document.querySelectorAll('main td')].map(c => c.textContent).join('|').includes('1500')`
	p.tabTo("sizes.width")
	p.shot("in-hand")
	p.typeOver("1500")
	p.until(back)
	if strings.Contains(p.disk.text(), "width: 1500") {
		t.Error("a preview was written to the file")
	}
	p.shot("preview")
	p.press(kb.Enter)
	p.until(`document.getElementById('telling').textContent.includes('width is 1500')`)
	if !strings.Contains(p.disk.text(), "width: 1500                        # outside") {
		t.Errorf("the file was not changed in place:\n%s", p.disk.text())
	}
	p.until(`document.querySelector('.was')?.textContent === 'was 1460 mm'`)
	p.until(`document.activeElement.matches('b.v[data-path="sizes.width"]')`)
	p.shot("kept")
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.until(shownWidth + `.startsWith('1460')`)
	if !strings.Contains(p.disk.text(), "width: 1460") {
		t.Error("taking back did not reach the file")
	}
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl, chromedp.ModifierShift)))
	p.until(shownWidth + `.startsWith('1500')`)
	p.calm()
}

// Arrow keys step; Escape takes back all that followed.
func TestStepAndTakeBack(t *testing.T) {
	p := openLive(t)
	p.tabTo("sizes.width")
	p.press(kb.ArrowUp)
	p.until(`document.activeElement.value === '1461'`)
	p.do(chromedp.KeyEvent(kb.ArrowUp, chromedp.KeyModifiers(chromedp.ModifierShift)))
	p.until(`document.activeElement.value === '1471'`)
	p.until(shownWidth + `.startsWith('1471')`)
	p.press(kb.Escape)
	p.until(shownWidth + `.startsWith('1460')`)
	if p.js(`document.querySelectorAll('.slip').length`) != "0" {
		t.Error("the slip stays")
	}
	p.calm()
}

// What cannot be is said beside the value, and neither book nor file take it.
func TestAnErrorBesideItsPlace(t *testing.T) {
	p := openLive(t)
	p.tabTo("sizes.width")
	p.typeOver("3 kg")
	p.until(`document.querySelector('.slip .wrong').textContent.length > 10`)
	p.shot("wrong")
	p.press(kb.Enter)
	p.until(`document.querySelector('.slip .wrong')?.textContent.length > 10`)
	if p.disk.text() != string(mainPiece()) {
		t.Error("the file took it")
	}
	p.press(kb.Escape)
	p.calm("422")
}

// openFormula opens the page on a plinth that is a formula of the height.
func openFormula(t *testing.T) *live {
	t.Helper()
	p := openLive(t)
	p.disk.edit("plinth: 100  ", "plinth: height / 8")
	if err := p.page.Reload(t.Context()); err != nil {
		t.Fatal(err)
	}
	p.until(`document.querySelector('main b.v.formula[role][data-path="sizes.plinth"]') != null`)
	return p
}

// A formula asks which of its sizes to change.
func TestAFormulaAsks(t *testing.T) {
	p := openFormula(t)
	p.tabTo("sizes.plinth")
	p.until(`document.querySelectorAll('.ask button').length > 1`)
	p.shot("formula")
	p.press(kb.ArrowDown)
	p.until(`document.activeElement.closest('.ask') != null`)
	p.press(kb.Tab)
	p.press(kb.Enter)
	p.until(`document.activeElement.matches('input.v:not(.formula)')`)
	p.press(kb.Escape)
	p.calm()
}

// Where timers come late, as on a machine that is hard at work, what looks
// whether the keys left the field finds them back in it.
func TestAFormulaAsksWhileTimersAreLate(t *testing.T) {
	p := openFormula(t)
	p.tabTo("sizes.plinth")
	p.js(`(() => { const soon = setTimeout, late = []; globalThis.setTimeout = (f, ms) => ms ? soon(f, ms) : late.push(f); globalThis.lateTimers = () => late.splice(0).forEach(f => f()); return 1 })()`)
	p.press(kb.ArrowDown)
	p.press(kb.Tab)
	p.press(kb.Enter)
	p.js(`lateTimers()`)
	p.until(`document.activeElement.matches('input.v:not(.formula)')`)
	p.calm()
}

// A finding's mend goes in with Enter.
func TestMendWithEnter(t *testing.T) {
	p := openLive(t)
	p.disk.edit("kerfs: 36", "kerfs: 12")
	if err := p.page.Reload(t.Context()); err != nil {
		t.Fatal(err)
	}
	p.until(`[...document.querySelectorAll('b.v[data-path="body.bend.kerfs"]')].some(b => b.textContent === '12')`)
	p.until(`document.querySelector('button.mend[data-path]') != null`)
	was := p.disk.text()
	p.tabOn(`document.activeElement.id === 'to-mend'`, 5)
	p.shot("to-mend")
	p.press(kb.Enter)
	p.until(`document.activeElement.matches('button.mend[data-path]')`)
	p.shot("mend")
	p.press(kb.Enter)
	p.until(`document.getElementById('telling').textContent.includes('is now')`)
	if p.disk.text() == was {
		t.Error("the mend is not in the file")
	}
	p.calm()
}

// A choice is picked from what there is in the shop.
func TestPickFromTheShop(t *testing.T) {
	p := openLive(t)
	p.tabTo("stock.panels")
	p.shot("choices")
	p.press(kb.ArrowDown)
	p.press(kb.Enter)
	p.until(`document.getElementById('telling').textContent.includes('panels')`)
	if !strings.Contains(p.disk.text(), "panels: birch ply 12") {
		t.Errorf("not in the file:\n%s", p.disk.text())
	}
	p.calm()
}

// The file changes elsewhere while a value is in hand: both are shown, and
// nothing is written until one is chosen.
func TestConflict(t *testing.T) {
	p := openLive(t)
	p.tabTo("sizes.width")
	p.typeOver("1500")
	p.disk.edit("width: 1460", "width: 1444")
	if err := p.page.Reload(t.Context()); err != nil {
		t.Fatal(err)
	}
	p.until(shownWidth + `.startsWith('1444')`)
	p.press(kb.Enter)
	p.until(`document.querySelectorAll('.both pre').length === 2`)
	p.shot("conflict")
	if got := p.js(`[...document.querySelectorAll('.both pre')].map(e => e.textContent).join(' / ')`); got != "1444 / 1500" {
		t.Errorf("shown: %s", got)
	}
	if !strings.Contains(p.disk.text(), "width: 1444") {
		t.Error("the other's text was lost")
	}
	p.press(kb.Tab)
	p.press(kb.Enter)
	p.until(shownWidth + `.startsWith('1500')`)
	if !strings.Contains(p.disk.text(), "width: 1500") {
		t.Error("the chosen text is not in the file")
	}
	p.calm("409")
}

// The text of the file is a chapter: what is typed there is the book's, and an
// error stands at its line.
func TestTheTextItself(t *testing.T) {
	p := openLive(t)
	set := func(from, to string) {
		p.js(`(() => { const t = document.getElementById('text'); t.scrollIntoView({behavior: 'instant'}); t.focus();
			t.value = t.value.replace('` + from + `', '` + to + `'); t.dispatchEvent(new Event('input', {bubbles: true})); return 1 })()`)
	}
	set("width: 1460", "width: 1510")
	p.until(shownWidth + `.startsWith('1510')`)
	set("width: 1510", "widht: 1510")
	p.until(`document.querySelectorAll('#text-problems li').length > 0`)
	p.shot("text")
	p.do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.until(`!document.getElementById('trouble').hidden`)
	if !strings.Contains(p.disk.text(), "widht: 1510") {
		t.Error("a text that cannot be used is still the writer's, and was not kept")
	}
	set("widht: 1510", "width: 1520")
	p.do(chromedp.KeyEvent("s", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.until(shownWidth + `.startsWith('1520')`)
	p.until(`document.getElementById('trouble').hidden`)
	p.calm()
}

// Nothing is wider than the screen, in any width, with a value in hand.
func TestPageFitsNarrowScreens(t *testing.T) {
	p := openLive(t)
	themes, widths := []bool{false}, []int64{320, 800}
	if os.Getenv("RODWORK_SHOTS") != "" { // for a person to look at
		themes, widths = []bool{false, true}, []int64{320, 390, 800, 1180, 1440}
	}
	for _, dark := range themes {
		p.dark(dark)
		for _, w := range widths {
			p.size(w, 900)
			p.js(`scrollTo({top: 0, behavior: 'instant'})`)
			name := map[bool]string{true: "-dark", false: ""}[dark]
			p.shot("top-" + digits(w) + name)
			p.tabTo("sizes.turn")
			p.shot("hand-" + digits(w) + name)
			if wide := p.js(`document.documentElement.scrollWidth`); wide != digits(w) {
				t.Errorf("at %d px the page is %s px wide", w, wide)
			}
			p.press(kb.Escape)
		}
	}
	p.calm()
}

// What comes late, while a question is asked, does not take it from under the
// hand: neither a change made elsewhere nor the whole book told again.
func TestTheSlipStaysWhenTheBookIsToldAgain(t *testing.T) {
	p := openFormula(t)
	places := p.js(`document.querySelectorAll('main b.v[role][data-path="sizes.plinth"]').length`)
	n, err := strconv.Atoi(places)
	if err != nil || n == 0 {
		t.Fatalf("%q places of the plinth", places)
	}
	for i := range n {
		p.js(`(() => { const b = document.querySelectorAll('main b.v[role][data-path="sizes.plinth"]')[` + strconv.Itoa(i) + `]; b.scrollIntoView({block: 'center', behavior: 'instant'}); b.focus(); return 1 })()`)
		if p.js(`document.activeElement.matches('input.v')`) != "true" {
			p.press(kb.Enter)
		}
		p.until(`document.querySelectorAll('.ask button').length > 1`)
		p.press(kb.ArrowDown)
		p.until(`document.activeElement.closest('.ask') != null`)
		p.await(`(globalThis.told ??= import('/ui/patch.js').then(async m => { m.everything(await (await fetch('/all')).json(), true); globalThis.done = true })) && globalThis.done === true`)
		p.js(`(() => { delete globalThis.told; delete globalThis.done; return 1 })()`)
		if p.js(`document.activeElement.closest('.ask') != null`) != "true" {
			t.Errorf("place %d: the question is gone; in hand is %s", i, p.js(`document.activeElement.outerHTML.slice(0, 200)`))
		}
		p.press(kb.Escape)
		p.press(kb.Escape)
		p.until(`document.querySelector('.slip') == null`)
	}
	p.calm()
}
