// The start page: its sentences are read, the program is asked what would come
// of them, and that is shown beside them. Nothing is written before it is kept.
import {send, tell} from './startwire.js';
import {stepped, numberOf} from './numbers.js';
import {tracing, drawOver} from './starttrace.js';
import {samples} from './startsamples.js';

const $ = id => document.getElementById(id);
const forms = JSON.parse(document.querySelector('meta[name="rodwork-forms"]').content);
const lengths = ['width', 'height', 'depth', 'turn'];
const inInches = () => $('in').value === 'in';

// said is what the sentences say, with what was drawn over a picture.
export function said() {
  const f = forms[$('kind').value];
  const holds = f.holds ? [0, 1].map(i => ({thing: $('thing' + i).value, count: $('count' + i).value})).filter(h => h.thing) : [];
  return {
    kind: $('kind').value, width: $('width').value, height: $('height').value, depth: $('depth').value, in: $('in').value, holds,
    children: $('people').value === 'children', youngest: $('youngest').value, floor: $('floor').value, wall: $('wall').value,
    sheet: $('sheet').value, bent: f.bends && $('corners').value === 'bent', turn: $('turn').value, name: $('name')?.value.trim() ?? '',
    ...tracing(f.traced),
  };
}

// One question is on its way at a time; the latest is asked when it is back.
let asking = false, again = false;
export async function ask() {
  if (asking) {
    again = true;
    return;
  }
  asking = true;
  document.querySelector('.front').classList.add('old');
  const r = await send('/start/try', said());
  asking = false;
  if (again) {
    again = false;
    ask();
    return;
  }
  if (r.ok) show(r.answer);
  else tell(r.why);
  document.body.dataset.asked = String(Number(document.body.dataset.asked ?? 0) + 1);
}

function line(text, cls) {
  const p = document.createElement('p');
  p.textContent = text;
  if (cls) p.className = cls;
  return p;
}

function mark(verdict, text) {
  const s = document.createElement('span');
  const known = ['stop', 'look', 'fine'].includes(verdict) ? verdict : 'open';
  s.innerHTML = `<svg class="mk" aria-hidden="true"><use href="#mk-${known}"/></svg>`;
  s.append(document.createTextNode(text));
  return s;
}

let last = null;
function show(a) {
  const wrong = a.wrong ?? {};
  for (const el of document.querySelectorAll('input.w')) {
    if (wrong[el.id]) el.setAttribute('aria-invalid', 'true');
    else el.removeAttribute('aria-invalid');
  }
  const notes = Object.entries(wrong).map(([id, why]) => line(`${$(id)?.getAttribute('aria-label') ?? id}: ${why}`, 'bad'));
  $('keep').disabled = notes.length > 0;
  if (notes.length > 0) return put(notes);
  last = a;
  document.querySelector('.front').classList.remove('old');
  $('front').innerHTML = a.figure ?? '';
  drawOver(a);
  $('tally').replaceChildren(...['stop', 'look', 'not covered', 'fine'].filter(v => a.counts?.[v]).map(v => mark(v, `${a.counts[v]} ${v}`)));
  $('facts').replaceChildren(...(a.facts ?? []).map(t => line(t)));
  $('text').textContent = a.text ?? '';
  for (const t of a.said ?? []) notes.push(line(t));
  for (const f of a.findings ?? []) notes.push(finding(f));
  put(notes);
  clearTimeout(looking);
  if (a.short) looking = setTimeout(lookForRoom, 300);
}

// lookForRoom asks, once the hand rests, which size would hold everything.
let looking = 0;
async function lookForRoom() {
  const mine = said();
  const r = await send('/start/room', mine);
  if (!r.ok || !r.answer.field || JSON.stringify(mine) !== JSON.stringify(said())) return;
  $('said').append(roomFor(r.answer));
}

// put shows notes only where they changed, so that they are read out once.
function put(notes) {
  const text = notes.map(n => n.textContent).join('\n');
  if ($('said').dataset.text === text && !$('said').querySelector('.mend')) return;
  $('said').dataset.text = text;
  $('said').replaceChildren(...notes);
}

function finding(f) {
  const d = document.createElement('div');
  d.className = 'find';
  const w = document.createElement('div');
  w.className = 'w-line';
  w.append(mark(f.verdict, ` ${f.verdict}: ${f.title}`));
  d.append(w, line(f.text));
  return d;
}

// roomFor offers the nearest size that holds all that was asked for.
function roomFor(room) {
  const d = document.createElement('div');
  d.className = 'find';
  const b = document.createElement('button');
  b.type = 'button';
  b.className = 'mend';
  b.textContent = `${room.field} ${room.text}`;
  b.addEventListener('click', () => {
    $(room.field).value = room.text;
    size($(room.field));
    $(room.field).focus();
    ask();
  });
  d.append(line('Room for all of it:'), b);
  return d;
}

// size makes a field as wide as its text.
export function size(el) {
  if (!el.matches('input.w') || el.id === 'name' || CSS.supports('field-sizing', 'content')) return;
  el.style.width = `calc(${Math.max(2, [...el.value].length)}ch + 20px)`;
}

// suit shows the sentences that go with what it is.
function suit() {
  const f = forms[$('kind').value];
  $('bends').hidden = !f.bends;
  $('turns').hidden = $('corners').value !== 'bent';
  $('holds').hidden = !f.holds;
  $('count0').hidden = !$('thing0').value;
  $('more').hidden = !$('thing0').value;
  $('count1').hidden = !$('thing1').value;
  $('ages').hidden = $('people').value !== 'children';
  $('stands').hidden = !f.stands;
  $('hangs').hidden = f.stands;
  $('from-a-picture').classList.toggle('other', !f.traced);
}

// usual puts in the sizes that a kind begins with.
function usual() {
  const f = forms[$('kind').value];
  const i = inInches() ? 1 : 0;
  $('width').value = f.width[i];
  $('height').value = f.height[i];
  $('depth').value = f.depth[i];
  $('thing0').value = f.thing;
  $('count0').value = f.count || 20;
  $('thing1').value = '';
  document.querySelectorAll('input.w').forEach(size);
}

addEventListener('change', e => {
  if (e.target.id === 'kind') usual();
  if (e.target.id === 'in') convert();
  if (e.target.matches('select.w')) {
    suit();
    ask();
  }
});

// convert writes all lengths in the other unit, as they were last taken.
function convert() {
  for (const id of lengths) {
    const [n, inch] = read($(id).value, !inInches());
    if (n == null) continue;
    const mm = inch ? n * 25.4 : n;
    $(id).value = written(inInches() ? mm / 25.4 : mm);
    size($(id));
  }
}

// read reads a length: its number, and whether that is inches.
function read(text, bareInch) {
  const inch = /(in|")\s*$/.test(text) || (bareInch && /[\d.]\s*$/.test(text));
  const mm = /mm\s*$/.test(text);
  const n = numberOf(text, inch && /in\s*$/.test(text) ? 'in' : inch && /"\s*$/.test(text) ? '"' : mm ? 'mm' : '');
  return [n, inch];
}

export function written(n) {
  return inInches() ? stepped({inch: true, suffix: 'in', number: 0}, n, 0)[0] : `${Math.round(n * 10) / 10} mm`;
}

// by steps a length, a count or an age.
function by(el, steps, fine) {
  if (lengths.includes(el.id) || el.dataset.length != null) {
    const [n, inch] = read(el.value, inInches());
    if (n == null) return;
    const step = inch ? (fine ? 1 / 16 : 1 / 2) : fine ? 1 : 10;
    const to = Math.max(step, fine ? n + steps * step : Math.round(n / step + steps) * step);
    el.value = inch ? stepped({inch: true, suffix: 'in', number: 0}, to, 0)[0] : `${Math.round(to * 10) / 10} mm`;
  } else {
    const n = Number(el.value);
    if (!Number.isFinite(n)) return;
    el.value = String(Math.max(1, Math.round(n + steps)));
  }
  size(el);
  el.dispatchEvent(new Event('input', {bubbles: true}));
}

addEventListener('keydown', e => {
  if (!e.target.matches('input.w') || e.target.id === 'name') return;
  const steps = {ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10}[e.key];
  if (steps) {
    e.preventDefault();
    by(e.target, steps * (e.shiftKey ? 10 : 1), e.altKey);
  } else if (e.key === 'Enter') {
    e.target.select();
    ask();
  }
});
addEventListener('input', e => {
  if (!e.target.matches('input.w') || e.target.id === 'name') return;
  size(e.target);
  ask();
});

// A field that has not the keys is dragged sideways: three pixels are a step.
addEventListener('pointerdown', e => {
  const el = e.target;
  if (!el.matches('input.w') || el.id === 'name' || el === document.activeElement || e.button !== 0) return;
  const x = e.clientX;
  let done = 0, moved = false;
  e.preventDefault();
  el.setPointerCapture(e.pointerId);
  const move = m => {
    const n = Math.round((m.clientX - x) / 3);
    if (!moved && Math.abs(n) < 2) return;
    moved = true;
    if (n !== done) by(el, n - done, false);
    done = n;
  };
  const up = () => {
    el.removeEventListener('pointermove', move);
    el.removeEventListener('pointerup', up);
    el.removeEventListener('pointercancel', up);
    el.focus();
    if (!moved) el.select();
  };
  el.addEventListener('pointermove', move);
  el.addEventListener('pointerup', up);
  el.addEventListener('pointercancel', up);
});
addEventListener('focusin', e => {
  if (e.target.matches('input.w') && e.target.matches(':focus-visible')) e.target.select();
});

$('keep').addEventListener('click', async () => {
  $('keep').disabled = true;
  const r = await send('/start/keep', said());
  $('keep').disabled = false;
  if (r.ok) location.assign(r.answer.address);
  else tell(r.why);
});

export const sizes = () => last;

usual();
suit();
await ask();
samples();
document.body.dataset.ready = 'yes';
