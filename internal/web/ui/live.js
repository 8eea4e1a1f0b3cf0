// A live value: at rest a word on a dotted line, in hand a field to type in
// with a slip below it. One is in hand at a time.
import {state} from './state.js';
import {post} from './wire.js';
import {apply} from './patch.js';
import {near, isBehind} from './near.js';
import {makeSlip, drawSlip, wrong} from './slip.js';
import {stepped, numberOf} from './numbers.js';
import {tell, refused, tally} from './trouble.js';

let hand = null;  // what is in hand
let quiet = false; // the next focus does not take in hand

export const handInPage = () => hand?.field ?? null;

const value = path => state.values[path];

// enhance gives the values below an element their names, values and places in
// the order of keys.
export function enhance(root) {
  for (const b of root.querySelectorAll('b.v[data-path]')) {
    const v = value(b.dataset.path);
    if (b.closest('button') || !v || v.fixed) continue;
    b.tabIndex = 0;
    const text = b.textContent.replace(/\u00a0/g, ' ');
    if (v.choices || v.plain) {
      b.setAttribute('role', 'button');
      if (v.choices) b.setAttribute('aria-haspopup', 'listbox');
      b.setAttribute('aria-label', `${v.label}: ${text}`);
      continue;
    }
    b.setAttribute('role', 'spinbutton');
    b.setAttribute('aria-label', v.label);
    b.setAttribute('aria-valuenow', v.number);
    if (v.min != null) b.setAttribute('aria-valuemin', v.min);
    if (v.max != null) b.setAttribute('aria-valuemax', v.max);
    b.setAttribute('aria-valuetext', v.shown);
  }
}

// aim names the value that is to be changed: the one that was taken in hand, or
// one of the sizes in its formula.
function aim(path, shownText) {
  const v = value(path);
  hand.path = v.path;
  hand.v = v;
  hand.text = hand.last = v.text || shownText;
  hand.number = v.formula || v.plain ? null : v.number;
}

export function hold(b, typed) {
  release(true);
  hand = {b, base: state.rev, first: b.dataset.path, was: value(b.dataset.path).shown};
  b.dataset.held = '';
  aim(b.dataset.path, b.textContent.replace(/\u00a0/g, ' '));
  hand.field = hand.v.choices ? b : makeField(b);
  b.classList.add('on');
  slip();
  if (hand.v.choices) {
    hand.slip.querySelector('[role=listbox]').focus({preventScroll: true});
    return;
  }
  hand.field.focus({preventScroll: true});
  hand.field.select();
  if (typed != null) {
    hand.field.value = typed;
    input();
  }
}

function makeField(b) {
  const f = document.createElement('input');
  Object.assign(f, {type: 'text', className: 'v on' + (hand.v.formula ? ' formula' : ''), autocomplete: 'off', spellcheck: false});
  f.dataset.own = '';
  f.setAttribute('autocapitalize', 'off');
  if (!hand.v.plain) f.setAttribute('role', 'spinbutton');
  f.setAttribute('aria-label', hand.v.label);
  f.setAttribute('aria-describedby', 'slip');
  f.value = hand.text;
  size(f);
  b.hidden = true;
  b.after(f);
  f.addEventListener('input', input);
  f.addEventListener('keydown', keys);
  f.addEventListener('blur', left);
  say(f);
  return f;
}

// left puts the value down where the keys are neither in it nor in its slip any
// more. The timer may run late, when they are back already.
function left() {
  const h = hand;
  setTimeout(() => {
    const on = document.activeElement;
    if (hand === h && h && !h.dragging && on !== h.field && !h.slip.contains(on) && document.hasFocus()) release(true);
  });
}

// slip makes the slip anew, for what is in hand now.
function slip() {
  hand.slip?.remove();
  hand.slip = makeSlip(hand, does);
  if (!hand.v.choices) hand.slip.addEventListener('focusout', left);
  hand.slip.addEventListener('keydown', e => {
    if (e.key !== 'Tab' || !e.shiftKey || e.target !== hand.slip.querySelector('button')) return;
    e.preventDefault();
    hand.field.focus();
  });
  place(hand.slip, hand.b);
  drawSlip(hand);
}

function size(f) {
  f.style.width = `calc(${Math.max(2, [...f.value].length)}ch + 15px)`;
}

function say(f) {
  if (hand.v.plain) return;
  f.setAttribute('aria-valuenow', hand.number ?? hand.v.number);
  f.setAttribute('aria-valuetext', f.value);
}

// place puts the slip below the sentence that the value stands in.
function place(slip, b) {
  const row = b.closest('.row');
  const find = b.closest('.find');
  if (find) return find.append(slip);
  const li = b.closest('li');
  if (li) return li.append(slip);
  if (!row) return b.parentElement.after(slip);
  [...row.children].find(c => c.contains(b)).after(slip);
}

function keys(e) {
  const ways = {ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10};
  if (e.key === 'Enter') {
    e.preventDefault();
    release(true, true);
  } else if (e.key === 'Escape') {
    e.preventDefault();
    release(false, true);
  } else if (e.key === 'Tab' && !e.shiftKey && hand.slip.querySelector('button')) {
    e.preventDefault();
    hand.slip.querySelector('button').focus();
  } else if (ways[e.key] && hand.number == null) {
    e.preventDefault();
    hand.slip.querySelector('.ask button')?.focus();
  } else if (ways[e.key]) {
    e.preventDefault();
    by(ways[e.key] * (e.shiftKey ? 10 : 1) / (e.altKey ? 10 : 1));
  }
}

// by steps the value in hand.
export function by(steps) {
  const [text, n] = stepped(hand.v, hand.number, steps);
  set(text, n);
}

function set(text, n) {
  if (text === hand.text) return;
  hand.number = n;
  hand.text = text;
  if (hand.field !== hand.b) {
    hand.field.value = text;
    size(hand.field);
    say(hand.field);
  }
  drawSlip(hand);
  preview();
}

function input() {
  hand.text = hand.field.value.trim();
  const n = numberOf(hand.text, hand.v.suffix);
  if (n != null) hand.number = n;
  else if (!hand.v.formula && !hand.v.plain) hand.number = hand.v.number;
  size(hand.field);
  say(hand.field);
  drawSlip(hand);
  preview();
}

function choose(text) { set(text, 0); }

function retarget(path) {
  const changed = hand.text !== hand.last;
  aim(path, '');
  hand.field.value = hand.text;
  hand.field.classList.toggle('formula', Boolean(hand.v.formula));
  hand.field.setAttribute('aria-label', hand.v.label);
  size(hand.field);
  say(hand.field);
  hand.field.focus();
  slip();
  hand.field.select();
  if (changed) preview();
}

// item doubles an item of a list, or takes it away.
async function item(path, what) {
  await release(false);
  const r = await post('/edit', {path, do: what, text: ''});
  if (!r.ok) return refused(r, () => item(path, what));
  apply(r.answer);
  tell(what === 'another' ? 'there is another' : 'it is taken away', true);
  document.getElementById('main').focus({preventScroll: true});
}

const does = {choose, retarget, item, keep: () => release(true, true), drop: () => release(false, true)};

// preview asks what the text in hand would bring, first of all in sight. One
// question is on its way at a time; the latest is asked when it is back, those
// between never. Where the hand rests, the rest is asked for.
let asking = null;
let filling = false;
let waiting = false;
let rest = 0;

async function preview(all) {
  clearTimeout(rest);
  if (asking && filling && !all) asking.abort();
  else if (asking) {
    waiting ||= !all;
    return;
  }
  const me = hand;
  const text = me.text;
  const mine = asking = new AbortController();
  filling = Boolean(all);
  const asked = all ? null : near();
  const what = text === me.last ? {text: ''} : {path: me.path, text};
  const r = await post('/preview', {...what, base: me.base, near: asked ?? undefined}, mine.signal);
  if (asking === mine) asking = null;
  if (hand !== me || r.aborted) return;
  if (r.ok && r.answer.rev !== state.rev) return; // of a revision that is no longer shown
  if (waiting) {
    waiting = false;
    preview();
  }
  if (r.ok) {
    if (text === me.text || r.answer.whole) apply(r.answer, null, asked);
    if (text === me.text) wrong(me, r.answer.problems.filter(p => p.severity === 'error'));
    dispatchEvent(new CustomEvent('previewed', {detail: text}));
  } else if (text === me.text && !r.conflict) {
    wrong(me, r.problems ?? [{summary: r.why}]);
  }
  if (!asking && isBehind()) rest = setTimeout(fill, 150);
}

function fill() {
  clearTimeout(rest);
  if (hand && !asking && isBehind()) preview(true);
}

addEventListener('scroll', () => { if (isBehind()) fill(); }, {passive: true});

function drop() {
  clearTimeout(rest);
  asking?.abort();
  asking = null;
  waiting = false;
  const h = hand;
  hand = null;
  delete h.b.dataset.held;
  h.b.classList.remove('on');
  h.b.hidden = false;
  h.slip.remove();
  if (h.field !== h.b) h.field.remove();
  return h;
}

// release puts the value down: kept, or as it was. back says whether the keys
// go back to the value.
export async function release(kept, back) {
  if (!hand) return;
  if (kept && hand.text === '') kept = false;
  const h = drop();
  if (back) {
    quiet = true;
    h.b.focus({preventScroll: true});
    quiet = false;
  }
  if (kept && h.text !== h.last) {
    await keep(h, back);
  } else {
    await settle();
  }
}

// settle takes back what previews have shown.
async function settle() {
  if (state.shown.size === 0 && !isBehind()) return;
  const r = await post('/preview', {text: ''});
  if (!r.ok || hand || r.answer.rev !== state.rev) return;
  apply(r.answer);
  state.shown.clear();
}

async function keep(h, back) {
  const r = await post('/edit', {path: h.path, text: h.text, base: h.base});
  if (r.ok) {
    apply(r.answer, {path: h.first, was: h.was});
    tell(`${h.v.label} is ${state.values[h.path]?.shown ?? h.text}; ${tally()}`);
    return;
  }
  await settle();
  if (r.conflict) return refused(r, () => keep({...h, base: state.rev}, back));
  if (!h.b.isConnected) return refused(r);
  hold(h.b, h.text);
  wrong(hand, r.problems?.length ? r.problems : [{summary: r.why}]);
}

addEventListener('focusin', e => {
  const b = e.target.closest?.('b.v[role]');
  if (b && !quiet && !hand && b.matches(':focus-visible')) hold(b);
});

addEventListener('keydown', e => {
  const b = e.target.closest?.('b.v[role]');
  if (!b || hand || e.ctrlKey || e.metaKey) return;
  const typed = e.key.length === 1 && e.key !== ' ' ? e.key : null;
  if (typed == null && !['Enter', ' ', 'F2', 'ArrowUp', 'ArrowDown'].includes(e.key)) return;
  e.preventDefault();
  hold(b, state.values[b.dataset.path]?.choices ? null : typed);
  if (e.key.startsWith('Arrow')) keys(e);
});

// Dragging sideways: three pixels are a step, ten with Shift.
addEventListener('pointerdown', e => {
  const b = e.target.closest?.('b.v[role]');
  if (!b || e.button !== 0) {
    if (hand && !hand.slip.contains(e.target) && e.target !== hand.field) release(true);
    return;
  }
  const x = e.clientX;
  let steps = 0;
  let from = 0;
  b.setPointerCapture(e.pointerId);
  const move = m => {
    const n = Math.round((m.clientX - x) / 3);
    if (n === steps || (steps === 0 && Math.abs(n) < 2)) return;
    if (hand?.b !== b) {
      hold(b);
      from = hand.number;
    }
    if (hand.number == null || hand.v.choices) return;
    hand.dragging = true;
    steps = n;
    const [text, to] = stepped(hand.v, from, n * (m.shiftKey ? 10 : 1));
    set(text, to);
  };
  const up = m => {
    b.removeEventListener('pointermove', move);
    b.removeEventListener('pointerup', up);
    b.removeEventListener('pointercancel', up);
    if (!hand?.dragging) {
      if (m.type === 'pointerup' && hand?.b !== b) hold(b);
      return;
    }
    hand.dragging = false;
    release(m.type === 'pointerup', true);
  };
  b.addEventListener('pointermove', move);
  b.addEventListener('pointerup', up);
  b.addEventListener('pointercancel', up);
});
addEventListener('mousedown', e => {
  if (e.target.closest?.('b.v[role]')) e.preventDefault();
});
