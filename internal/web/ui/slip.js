// The slip under a value in hand: what is written, its range, what it last was,
// and a graduated rule with a pointer (now) and a ring (last).
import {state} from './state.js';

const svgns = 'http://www.w3.org/2000/svg';

function el(tag, props = {}, ...kids) {
  const e = Object.assign(document.createElement(tag), props);
  e.append(...kids);
  return e;
}

function draw(tag, attrs, text) {
  const e = document.createElementNS(svgns, tag);
  for (const [k, v] of Object.entries(attrs)) e.setAttribute(k, v);
  if (text != null) e.textContent = text;
  return e;
}

export function makeSlip(hand, does) {
  const slip = el('div', {className: 'slip', id: 'slip'});
  slip.dataset.own = '';
  const v = hand.v;
  if (v.choices) {
    slip.append(list(hand, does));
  } else {
    slip.append(el('span', {className: 'what'}), el('span', {className: 'r'}));
    if (state.values[hand.first]?.formula) slip.append(ask(hand, does));
    if (!v.plain) slip.append(draw('svg', {class: 'rule-line', viewBox: '0 0 476 46', 'aria-hidden': 'true'}));
  }
  const item = itemOf(hand.path);
  if (item && !v.choices) slip.append(items(item, does));
  const from = el('p', {className: 'from'});
  slip.append(from);
  const say = el('p', {className: 'wrong'});
  say.setAttribute('role', 'alert');
  slip.append(say, el('p', {className: 'aid', textContent: v.choices ? '↑ ↓ choose · Enter keeps · Esc takes back' : v.plain ? 'Enter keeps · Esc takes back'
    : '↑ ↓ step · Shift ten · Alt a tenth · Enter keeps · Esc takes back'}));
  return slip;
}

// itemOf is the item of a list that a path leads into: 'shelves.1'.
const itemOf = path => /^(.*\.\d+)(?:\.|$)/.exec(path)?.[1];

// items: a list can have another item like this one, or do without it.
function items(item, does) {
  const [, list, n] = /^(.*)\.(\d+)$/.exec(item);
  const box = el('p', {className: 'ask'}, `${list.split('.').at(-1)} ${Number(n) + 1} `);
  for (const [what, text] of [['another', 'another like it'], ['without', 'take it away']]) {
    const b = el('button', {type: 'button', textContent: text});
    b.addEventListener('click', () => does.item(item, what));
    b.addEventListener('keydown', e => { if (e.key === 'Escape') does.drop(); });
    box.append(b, ' ');
  }
  return box;
}

// came says where a value stands, or what filled it in.
function came(v) {
  if (!v.filled) return v.from ?? '';
  return `${v.from ? 'from ' + v.from : 'nothing is written yet'}; what you put here is written into the ${v.file} file`;
}

// ask: a value that is a formula has several things that may be changed.
function ask(hand, does) {
  const box = el('p', {className: 'ask'}, 'Change ');
  const first = state.values[hand.first];
  const add = (path, text) => {
    const b = el('button', {type: 'button', textContent: text});
    if (path === hand.path) b.setAttribute('aria-pressed', 'true');
    else b.setAttribute('aria-pressed', 'false');
    b.addEventListener('click', () => does.retarget(path));
    b.addEventListener('keydown', e => { if (e.key === 'Escape') does.retarget(hand.first); });
    box.append(b, ' ');
  };
  add(hand.first, 'the formula');
  for (const p of first?.names ?? []) {
    const v = state.values[p];
    if (v) add(p, `${v.label} ${v.text}`);
  }
  return box;
}

function list(hand, does) {
  const ul = el('ul', {className: 'choices', tabIndex: 0});
  ul.setAttribute('role', 'listbox');
  ul.setAttribute('aria-label', hand.v.label);
  hand.v.choices.forEach((c, i) => {
    const li = el('li', {id: 'choice-' + i, textContent: c});
    li.setAttribute('role', 'option');
    li.addEventListener('click', () => { does.choose(c); does.keep(); });
    ul.append(li);
  });
  ul.addEventListener('keydown', e => {
    const all = hand.v.choices;
    const i = all.indexOf(hand.text);
    const to = {ArrowDown: i + 1, ArrowUp: i - 1, Home: 0, End: all.length - 1}[e.key];
    if (to != null) {
      e.preventDefault();
      does.choose(all[Math.max(0, Math.min(all.length - 1, to))]);
    } else if (e.key === 'Enter' || e.key === ' ') {
      e.preventDefault();
      does.keep();
    } else if (e.key === 'Escape') {
      e.preventDefault();
      does.choose(hand.last);
      does.keep();
    } else if (e.key.length === 1) {
      const c = all.find(x => x.toLowerCase().startsWith(e.key.toLowerCase()));
      if (c) does.choose(c);
    }
  });
  ul.addEventListener('blur', () => does.keep());
  return ul;
}

export function drawSlip(hand) {
  const {slip, v} = hand;
  wrong(hand, []);
  slip.querySelector('.from').textContent = came(v);
  if (v.choices) {
    const ul = slip.querySelector('ul');
    [...ul.children].forEach((li, i) => {
      const on = v.choices[i] === hand.text;
      li.setAttribute('aria-selected', String(on));
      if (on) ul.setAttribute('aria-activedescendant', li.id);
    });
    return;
  }
  const what = slip.querySelector('.what');
  what.replaceChildren(`${v.label} = `, el('b', {textContent: hand.text || '…'}));
  const parts = [];
  if (v.range) parts.push(v.range);
  if (!v.plain || hand.text !== v.text) parts.push('last ' + (v.formula ? v.shown : v.text));
  slip.querySelector('.r').textContent = parts.join(', ');
  if (!v.plain) ruled(slip.querySelector('svg'), v, hand.number ?? v.number);
}

// ruled draws the rule around the value: not from bound to bound where these
// are far off, but as much of it as a hand would move the value by.
function ruled(svg, v, now) {
  svg.replaceChildren();
  const span = Math.max(Math.abs(v.number), Math.abs(now - v.number) * 2.2, v.whole ? 8 : 1);
  let lo = v.number - span / 2, hi = v.number + span / 2;
  if (v.min != null && lo < v.min) [lo, hi] = [v.min, Math.max(hi, v.min + span)];
  if (v.max != null && hi > v.max) hi = v.max;
  if (!(hi > lo)) return;
  const x = n => 6 + (n - lo) / (hi - lo) * 464;
  const step = nice((hi - lo) / 12);
  svg.append(draw('path', {class: 'line', d: 'M6 20H470'}));
  for (let n = Math.ceil(lo / step - 1e-9) * step, i = 0; n <= hi + 1e-9 && i < 60; n += step, i++) {
    const big = Math.abs(n / step / 5 - Math.round(n / step / 5)) < 1e-6;
    svg.append(draw('path', {class: 'line', d: `M${x(n).toFixed(2)} 20v${big ? 8 : 4}`}));
    if (big && Math.abs(x(n) - x(now)) > 34 && Math.abs(x(n) - x(v.number)) > 34) svg.append(draw('text', {class: 'num', x: x(n).toFixed(2), y: 42}, short(n)));
  }
  const at = Math.max(4, Math.min(472, x(now)));
  if (Math.abs(now - v.number) > 1e-9) {
    svg.append(draw('circle', {class: 'ring', cx: x(v.number), cy: 20, r: 3.5}));
    if (Math.abs(at - x(v.number)) > 40) svg.append(draw('text', {class: 'num', x: x(v.number), y: 42}, 'last ' + short(v.number)));
  }
  svg.append(draw('path', {class: 'point', d: `M${at} 19l-5 -9h10z`}), draw('text', {class: 'num now', x: at, y: 42}, short(now)));
}

const short = n => String(Number(n.toFixed(3))).replace('-', '−');

function nice(raw) {
  const p = 10 ** Math.floor(Math.log10(raw));
  const m = raw / p;
  return (m <= 1 ? 1 : m <= 2 ? 2 : m <= 5 ? 5 : 10) * p;
}

// wrong says beside the value what is wrong with it.
export function wrong(hand, problems) {
  if (!hand?.slip) return;
  const say = hand.slip.querySelector('.wrong');
  const text = problems.slice(0, 3).map(p => {
    let s = p.summary + '.';
    if (p.detail) s += ' ' + p.detail;
    if (p.expected) s += ` Wanted: ${p.expected}.`;
    if (p.nearest) s += ` Did you mean ${p.nearest}?`;
    return s;
  }).join(' ');
  if (say.textContent !== text) say.textContent = text;
  if (hand.field !== hand.b) hand.field.setAttribute('aria-invalid', String(problems.length > 0));
}
