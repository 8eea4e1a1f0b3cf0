package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rodwork/examples"
)

// told waits until the page says something in passing.
func (p *live) told(words string) {
	p.Helper()
	p.until(`document.getElementById('telling').textContent.includes(` + quoted(words) + `)`)
}

func quoted(s string) string { return "'" + strings.ReplaceAll(s, "'", `\'`) + "'" }

// What a habit filled in is written into the piece file where it is changed, and
// the slip says where it came from.
func TestAHabitIsOverruled(t *testing.T) {
	p := openExample(t, "plain-box")
	p.tabTo("fronts.0.gap")
	p.until(`document.querySelector('.slip .from').textContent.includes("habit 'gap' of the shop: 2.5 mm")`)
	p.shot("habit")
	p.typeOver("3")
	p.press(kb.Enter)
	p.told("gap, fronts 1 is 3 mm")
	if !strings.Contains(p.disk.text(), "gap: 3") || strings.Contains(p.disk.shopText(), "gap: 3") {
		t.Errorf("not in the piece file, or in the shop's too:\n%s", p.disk.text())
	}
	p.tabTo("fronts.0.gap")
	p.until(`document.querySelector('.slip .from').textContent.includes('of piece.yaml')`)
	p.press(kb.Escape)
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.told("taken back")
	if strings.Contains(p.disk.text(), "gap: 3") {
		t.Error("not taken back")
	}
	p.calm()
}

// A word that a habit filled in is picked like any other.
func TestAHabitOfWordsIsOverruled(t *testing.T) {
	p := openExample(t, "nursery-bench")
	p.tabTo("body.corners.top left.square")
	p.until(`document.querySelector('[aria-selected=true]').textContent === 'rabbet'`)
	p.press("b")
	p.press(kb.Enter)
	p.told("square")
	if !strings.Contains(p.disk.text(), "square: butt") {
		t.Errorf("not in the file:\n%s", p.disk.text())
	}
	p.calm()
}

// A mean is changed by the readings that it comes from.
func TestReadingsAreChanged(t *testing.T) {
	p := openLive(t)
	p.tabTo("stock.birch ply 6.thickness")
	p.until(`document.activeElement.value.startsWith('[6.37, 6.42')`)
	p.until(`document.querySelector('.slip .from').textContent.startsWith('mean of 8 readings')`)
	p.shot("readings")
	p.typeOver("[6.1, 6.2]")
	p.press(kb.Enter)
	p.told("readings")
	if !strings.Contains(p.disk.shopText(), "readings: [6.1, 6.2]") {
		t.Error("not in the shop file")
	}
	p.until(`[...document.querySelectorAll('b.v[data-path="stock.birch ply 6.thickness"]')].some(b => b.textContent.includes('6.15'))`)
	p.calm()
}

// A list gets another item, or does without one; both by keyboard.
func TestListsByItem(t *testing.T) {
	p := openLive(t)
	press := func(words string) {
		p.tabTo("brief.holds.1.count")
		p.until(`document.querySelectorAll('.slip .ask button').length === 2`)
		for range 4 {
			if p.js(`document.activeElement.textContent === `+quoted(words)) == "true" {
				break
			}
			p.press(kb.Tab)
		}
		p.shot("list")
		p.press(kb.Enter)
	}
	press("another like it")
	p.told("there is another")
	if strings.Count(p.disk.text(), "what: hymn book") != 2 {
		t.Fatalf("no other:\n%s", p.disk.text())
	}
	p.until(`document.querySelector('b.v[role][data-path="brief.holds.2.count"]') != null`)
	press("take it away")
	p.told("taken away")
	if strings.Count(p.disk.text(), "what: hymn book") != 1 {
		t.Errorf("still there:\n%s", p.disk.text())
	}
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
	p.told("taken back")
	if strings.Count(p.disk.text(), "what: hymn book") != 2 {
		t.Error("not had back")
	}
	p.calm()
}

// The shop stands on the same page: what is measured there is changed there, in
// its file, and taken back the same way.
func TestTheShop(t *testing.T) {
	p := openLive(t)
	p.js(`(() => { document.getElementById('b-shop').scrollIntoView({behavior: 'instant'}); return 1 })()`)
	p.shot("shop")
	p.js(`document.querySelector('#b-shop b.v[data-path="saws.track saw.kerf.mean"]').focus()`)
	p.until(`document.activeElement.matches('input.v')`)
	p.typeOver("2.31")
	p.press(kb.Enter)
	p.told("2.31 mm")
	if !strings.Contains(p.disk.shopText(), "kerf: {mean: 2.31, spread") || strings.Contains(p.disk.text(), "2.31") {
		t.Error("not in the shop file, or in the piece's too")
	}
	p.js(`document.querySelector('#b-shop b.v[data-path="saws.track saw.grind"]').focus()`)
	p.until(`document.activeElement.matches('[role=listbox]')`)
	p.press(kb.ArrowDown)
	p.press(kb.Enter)
	p.told("grind, track saw")
	if !strings.Contains(p.disk.shopText(), "grind: bevel") {
		t.Error("no word of the shop was picked")
	}
	for range 2 {
		p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
		p.told("taken back")
		p.js(`(() => { document.getElementById('telling').textContent = ''; return 1 })()`)
	}
	if !strings.Contains(p.disk.shopText(), "mean: 2.20") || !strings.Contains(p.disk.shopText(), "grind: flat") {
		t.Error("not taken back")
	}
	p.calm()
}

// The head tells the units that the file is in, at once.
func TestTheHeadFollows(t *testing.T) {
	p := openLive(t)
	p.until(`document.getElementById('the-system').textContent === 'mm'`)
	shelf, err := examples.Files.ReadFile("wall-shelf/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p.disk.edit(p.disk.text(), string(shelf))
	if err := p.page.Reload(t.Context()); err != nil {
		t.Fatal(err)
	}
	p.until(`document.getElementById('the-system').textContent === 'in'`)
	p.until(`!document.title.includes('Choir') && document.title.startsWith(document.getElementById('the-title').textContent)`)
	p.calm()
}

// Every value that is shown as one can be changed, and says its name and what it
// is to whoever cannot see it.
func TestEveryValueIsNamed(t *testing.T) {
	p := openLive(t)
	if n := p.js(`document.querySelectorAll('main b.v[data-path]').length`); len(n) < 3 {
		t.Errorf("only %s values", n)
	}
	bad := p.js(`[...document.querySelectorAll('main b.v[data-path]')].filter(b => !b.closest('button')).filter(b => {
		const name = b.getAttribute('aria-label') ?? '', role = b.getAttribute('role');
		if (b.tabIndex !== 0 || !name.trim()) return true;
		if (role === 'button') return !name.includes(': ' + b.textContent.replace(/\u00a0/g, ' '));
		return role !== 'spinbutton' || !b.getAttribute('aria-valuetext') || !Number.isFinite(Number(b.getAttribute('aria-valuenow')));
	}).map(b => b.dataset.path + ' ' + b.outerHTML.slice(0, 200)).slice(0, 8).join('\n')`)
	if bad != "" {
		t.Errorf("not told, or not to be changed:\n%s", bad)
	}
	p.calm()
}
