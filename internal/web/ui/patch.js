// An answer is put into the page: only fragments that it carries are touched,
// and the value in hand stays in hand.
import {state, changed} from './state.js';
import {enhance, handInPage} from './live.js';
import {behind} from './near.js';

function fresh(html) {
  const t = document.createElement('template');
  t.innerHTML = html;
  const el = t.content.firstElementChild;
  enhance(el);
  return el;
}

const own = n => n.nodeType === 1 && n.hasAttribute('data-own');
const kids = el => [...el.childNodes].filter(n => !own(n));

// morph makes one element like another without losing what is in hand in it.
function morph(old, next) {
  if (old.nodeType !== next.nodeType || old.nodeName !== next.nodeName) {
    old.replaceWith(next);
    return;
  }
  if (old.nodeType !== 1) {
    if (old.nodeValue !== next.nodeValue) old.nodeValue = next.nodeValue;
    return;
  }
  if (!old.hasAttribute('data-held')) {
    for (const {name} of [...old.attributes]) if (name !== 'data-now' && !next.hasAttribute(name)) old.removeAttribute(name);
    for (const {name, value} of next.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  const a = kids(old), b = kids(next);
  b.forEach((n, i) => (i < a.length ? morph(a[i], n) : old.append(n)));
  a.slice(b.length).forEach(n => n.remove());
}

// told are the fragments as they came last: what comes again is left alone.
const told = new Map();

// put takes a fragment into the page, changing no more than differs; it returns
// the new element where the page has none yet.
function put(id, html) {
  const old = document.getElementById(id);
  if (old && told.get(id) === html) return null;
  told.set(id, html);
  const el = fresh(html);
  if (!old) return el;
  morph(old, el);
  return null;
}

// arrange puts fragments where they belong, takes away those that are gone.
let order = '';

function arrange(sections, made) {
  const key = JSON.stringify(sections);
  if (key === order && made.size === 0) return;
  order = key;
  const main = document.getElementById('main');
  const last = document.getElementById('the-text');
  const wanted = new Set();
  for (const s of sections) {
    let el = document.getElementById(s.id);
    if (!el) {
      el = document.createElement('section');
      el.className = 'chapter';
      el.id = s.id;
      el.setAttribute('aria-labelledby', s.label);
      main.insertBefore(el, last);
    }
    wanted.add(s.id);
    const rows = new Set(s.rows);
    for (const c of [...el.children]) if (!own(c) && !rows.has(c.id)) gone(c); // first: to move a row takes the keys from it
    let at = el.firstElementChild;
    for (const id of s.rows) {
      const row = made.get(id) ?? document.getElementById(id);
      if (!row) continue;
      while (at && own(at)) at = at.nextElementSibling;
      if (row === at) at = at.nextElementSibling;
      else el.insertBefore(row, at);
    }
  }
  for (const el of main.querySelectorAll(':scope > section')) if (el !== last && !wanted.has(el.id)) el.remove();
}

function gone(el) {
  told.delete(el.id);
  el.remove();
}

// steady keeps what is in hand where it is on the screen.
function steady(change) {
  const el = handInPage();
  const was = el?.getBoundingClientRect().top;
  change();
  if (el?.isConnected) {
    const by = el.getBoundingClientRect().top - was;
    if (Math.abs(by) > 0.5) scrollBy({top: by, behavior: 'instant'});
  }
}

function values(answer) {
  if (answer.preview) {
    Object.assign(state.values, state.before);
    state.before = {};
    for (const p of Object.keys(answer.values ?? {})) state.before[p] = state.values[p];
  } else {
    Object.assign(state.values, state.before);
    state.before = {};
  }
  Object.assign(state.values, answer.values ?? {});
}

// head follows in the line above everything: the name, units, money.
function head(answer) {
  if (!answer.whole) return;
  const put = (id, text) => {
    const el = document.getElementById(id);
    if (el && el.textContent !== text) el.textContent = text;
    return el;
  };
  put('the-title', answer.title ?? '');
  put('the-system', answer.system ?? '');
  const money = put('the-currency', answer.currency ?? '');
  if (money) money.parentElement.hidden = !answer.currency;
  if (answer.title) document.title = answer.title + ' · Rodwork';
}

// apply shows an answer. just says which value was changed, and what it was;
// asked are the fragments that it was asked for, where it is no whole one.
export function apply(answer, just, asked) {
  values(answer);
  state.problems = answer.problems ?? [];
  state.whole = answer.whole;
  if (!answer.preview) {
    state.rev = answer.rev;
    if (answer.piece != null) state.piece = answer.piece;
    if (answer.shop != null) state.shop = answer.shop;
  }
  head(answer);
  steady(() => {
    const made = new Map();
    for (const [id, html] of Object.entries(answer.html ?? {})) {
      const el = put(id, html);
      if (el) made.set(id, el);
    }
    if (answer.sections) arrange(answer.sections, made);
    behind(answer.behind ? [...asked, ...made.keys()] : null);
  });
  if (answer.preview) Object.keys(answer.html ?? {}).forEach(id => state.shown.add(id));
  else state.shown.clear();
  if (!answer.preview) was(just);
  changed(answer);
}

// was tells beside a value what it was before its last change.
function was(just) {
  document.querySelectorAll('.was').forEach(el => el.remove());
  if (!just?.was) return;
  for (const b of document.querySelectorAll(`b.v[data-path="${CSS.escape(just.path)}"]`)) {
    if (b.closest('td, th, button')) continue;
    const s = document.createElement('span');
    s.className = 'was';
    s.dataset.own = '';
    s.textContent = 'was ' + just.was;
    b.after(s);
  }
}

// everything takes all that there is; show says whether the page shows another
// revision and must be set anew.
export function everything(answer, show) {
  if (show) {
    apply({...answer, preview: false});
    return;
  }
  values(answer);
  Object.assign(state, {problems: answer.problems ?? [], whole: answer.whole, piece: answer.piece ?? '', shop: answer.shop ?? ''});
  changed(answer);
}
