// A picture behind the front: two points and what lies between them set its
// scale, lines drawn over it become the sizes in the sentences. Every line can
// be dragged, stepped with the arrow keys, and typed.
//
// Places on the picture are told in its own points. Uprights and levels are
// told in millimetres from the piece's left and lowest edge, so that they stay
// where they are on the wood when a line is typed.
import {send, tell} from './startwire.js';
import {ask, size, written} from './start.js';
import {numberOf} from './numbers.js';

const $ = id => document.getElementById(id);
const NS = 'http://www.w3.org/2000/svg';
let pic = null; // {id, width, height}
let t = null;   // what was drawn
let handles = [];

// tracing is what was drawn, as the program is told of it.
export function tracing(can) {
  if (!pic || !can) return {};
  return {bare: true, picture: pic.id, uprights: t.ups, levels: t.levels.map(l => ({bay: bayOf(l.x), at: l.at}))};
}

const inch = () => $('in').value === 'in';
// mm reads a length in a field.
function mm(text) {
  const unit = /mm\s*$/.test(text) ? 'mm' : /in\s*$/.test(text) ? 'in' : /"\s*$/.test(text) ? '"' : '';
  const n = numberOf(text, unit);
  if (n == null || n <= 0) return null;
  return unit === 'mm' || (unit === '' && !inch()) ? n : n * 25.4;
}
const lengthOf = v => written(inch() ? v / 25.4 : v);

// per is how many millimetres a point of the picture stands for.
function per() {
  const d = Math.hypot(t.p[0].x - t.p[1].x, t.p[0].y - t.p[1].y);
  return t.known / Math.max(d, 1);
}
const bayOf = x => t.ups.filter(u => u < x).length;

$('picture').addEventListener('change', async e => {
  const file = e.target.files[0];
  if (!file) return;
  tell('the picture is being read');
  const [body, kind] = await smaller(file);
  const r = await send('/start/picture', body, kind);
  if (!r.ok) {
    e.target.value = '';
    return tell(r.why);
  }
  tell('');
  pic = r.answer;
  begin();
});

// smaller makes a large photograph small before it travels. The program looks at
// what comes all the same.
async function smaller(file) {
  const kind = file.type || 'application/octet-stream';
  if (file.size < 4e6) return [file, kind];
  try {
    const b = await createImageBitmap(file);
    const k = Math.min(1, 2000 / Math.max(b.width, b.height));
    const c = document.createElement('canvas');
    [c.width, c.height] = [Math.round(b.width * k), Math.round(b.height * k)];
    c.getContext('2d').drawImage(b, 0, 0, c.width, c.height);
    const blob = await new Promise(done => c.toBlob(done, 'image/jpeg', 0.9));
    return blob ? [blob, 'image/jpeg'] : [file, kind];
  } catch {
    return [file, kind];
  }
}

// begin sets the lines a sixth in from the picture's edges, the two points
// along the foot, and asks for what lies between them.
function begin() {
  const {width: w, height: h} = pic;
  t = {left: w / 6, right: w * 5 / 6, top: h / 6, foot: h * 5 / 6, p: [{x: w / 6, y: h * 0.92}, {x: w * 5 / 6, y: h * 0.92}],
    known: mm($('width').value) ?? 1000, ups: [], levels: []};
  $('trace').hidden = false;
  $('trace').replaceChildren(stage(), words());
  placed(true);
  $('known').focus();
}

function el(tag, props = {}, ...kids) {
  const e = document.createElement(tag);
  for (const [k, v] of Object.entries(props)) k.includes('-') || k === 'role' ? e.setAttribute(k, v) : (e[k] = v);
  e.append(...kids);
  return e;
}

function draw(tag, attrs = {}) {
  const e = document.createElementNS(NS, tag);
  for (const [k, v] of Object.entries(attrs)) e.setAttribute(k, v);
  return e;
}

function stage() {
  const s = el('div', {className: 'stage', id: 'stage'});
  s.append(el('img', {src: '/start/picture/' + pic.id, alt: 'The picture that is traced over', width: pic.width, height: pic.height}),
    el('div', {className: 'under', id: 'under'}));
  const svg = draw('svg', {viewBox: `0 0 ${pic.width} ${pic.height}`, id: 'lines', role: 'group', 'aria-label': 'Lines over the picture'});
  s.append(svg);
  return s;
}

// under lays the piece's own front where its lines stand.
export function drawOver(a) {
  if (!pic || !a.bare) return;
  const u = $('under');
  if (!u) return;
  u.innerHTML = a.bare;
  const svg = u.querySelector('svg');
  svg.setAttribute('preserveAspectRatio', 'none');
  svg.setAttribute('aria-hidden', 'true');
  svg.removeAttribute('role');
  for (const p of svg.querySelectorAll('.leaf-paper')) p.style.fill = 'none';
  under();
}

function under() {
  const u = $('under').style;
  const pct = (v, of) => `${(v / of * 100).toFixed(3)}%`;
  u.left = pct(t.left, pic.width);
  u.width = pct(t.right - t.left, pic.width);
  u.top = pct(t.top, pic.height);
  u.height = pct(t.foot - t.top, pic.height);
}

// field is a length that is typed.
function field(id, label, get, set) {
  const f = el('input', {className: 'w', type: 'text', id, autocomplete: 'off', spellcheck: false, 'aria-label': label});
  f.dataset.length = '';
  f.value = lengthOf(get());
  f.addEventListener('input', () => {
    const v = mm(f.value);
    if (v == null) return f.setAttribute('aria-invalid', 'true');
    f.removeAttribute('aria-invalid');
    set(v);
    placed(false, f);
  });
  size(f);
  return f;
}

// words are the sentences below the picture: each line once more, to type.
function words() {
  const p = el('p', {}, 'Between the two points lie ', field('known', 'known length between the two points', () => t.known, v => { t.known = v; }),
    '. The width and the height above follow the lines, and the lines follow them.');
  const ups = el('p', {id: 'ups'});
  const levels = el('p', {id: 'levels'});
  const add = (text, does) => {
    const b = el('button', {type: 'button', className: 'add', textContent: text});
    b.addEventListener('click', does);
    return b;
  };
  const more = el('p', {}, add('draw an upright', () => addUpright()), '  ', add('draw a shelf', () => addLevel()), '  ', add('leave the picture away', leave));
  return el('div', {className: 'traced'}, p, ups, levels, more, el('p', {className: 'aid', textContent: 'Drag the lines, or step them with the arrow keys, by tens with Shift.'}));
}

function leave() {
  pic = t = null;
  handles = [];
  $('trace').hidden = true;
  $('trace').replaceChildren();
  $('picture').value = '';
  $('picture').focus();
  ask();
}

const width = () => (t.right - t.left) * per();
const height = () => (t.foot - t.top) * per();

function addUpright() {
  const xs = [0, ...t.ups, width()];
  let best = 0;
  for (let i = 1; i < xs.length; i++) if (xs[i] - xs[i - 1] > xs[best + 1] - xs[best]) best = i - 1;
  t.ups.push((xs[best] + xs[best + 1]) / 2);
  t.ups.sort((a, b) => a - b);
  placed(true);
  handles.at(-1 - t.levels.length)?.focus();
}

function addLevel() {
  const xs = [0, ...t.ups, width()];
  // The bay with the fewest shelves takes it, at the middle of its largest space.
  const count = xs.slice(1).map((_, i) => t.levels.filter(l => bayOf(l.x) === i).length);
  const bay = count.indexOf(Math.min(...count));
  const ys = [0, ...t.levels.filter(l => bayOf(l.x) === bay).map(l => l.at).sort((a, b) => a - b), height()];
  let best = 0;
  for (let i = 1; i < ys.length; i++) if (ys[i] - ys[i - 1] > ys[best + 1] - ys[best]) best = i - 1;
  t.levels.push({x: (xs[bay] + xs[bay + 1]) / 2, at: (ys[best] + ys[best + 1]) / 2});
  placed(true);
  handles.at(-1)?.focus();
}

// line is one handle: where it lies, how it moves, what it is called.
function line(cls, label, path, value, move, from) {
  const g = draw('g', {class: cls, role: 'slider', tabindex: '0', 'aria-label': label, 'aria-valuenow': value().toFixed(1), 'aria-valuetext': lengthOf(value())});
  const hit = draw(cls === 'pt' ? 'circle' : 'path', {class: 'hit'});
  const ln = draw(cls === 'pt' ? 'circle' : 'path', {class: 'ln', 'vector-effect': 'non-scaling-stroke'});
  hit.setAttribute('vector-effect', 'non-scaling-stroke');
  g.append(hit, ln);
  g.lay = () => {
    for (const e of [hit, ln]) {
      if (cls === 'pt') {
        const {x, y} = path();
        const k = pic.width / Math.max(1, $('stage').clientWidth);
        e.setAttribute('cx', x);
        e.setAttribute('cy', y);
        e.setAttribute('r', (e === hit ? 16 : 7) * k);
      } else {
        e.setAttribute('d', path());
      }
    }
    g.setAttribute('aria-valuenow', value().toFixed(1));
    g.setAttribute('aria-valuetext', lengthOf(value()));
  };
  g.addEventListener('keydown', e => {
    const d = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]}[e.key];
    if (e.key === 'Delete' || e.key === 'Backspace') return from?.drop?.();
    if (!d) return;
    e.preventDefault();
    const by = (e.shiftKey ? 10 : 1) * Math.max(1, pic.width / 1000);
    move(d[0] * by, d[1] * by);
    placed(false);
  });
  g.addEventListener('pointerdown', e => {
    e.preventDefault();
    g.focus();
    g.setPointerCapture(e.pointerId);
    const k = pic.width / $('stage').clientWidth;
    let x = e.clientX, y = e.clientY;
    const go = m => {
      move((m.clientX - x) * k, (m.clientY - y) * k);
      [x, y] = [m.clientX, m.clientY];
      placed(false);
    };
    const end = () => {
      g.removeEventListener('pointermove', go);
      g.removeEventListener('pointerup', end);
      g.removeEventListener('pointercancel', end);
    };
    g.addEventListener('pointermove', go);
    g.addEventListener('pointerup', end);
    g.addEventListener('pointercancel', end);
  });
  return g;
}

const clamp = (v, lo, hi) => Math.min(hi, Math.max(lo, v));

// all makes every handle anew: after a line came or went.
function all() {
  const W = pic.width, H = pic.height;
  const edge = (name, upright, key, lo, hi) => line('edge', name, () => (upright ? `M${t[key]} 0V${H}` : `M0 ${t[key]}H${W}`),
    () => (upright ? width() : height()), (dx, dy) => { t[key] = clamp(t[key] + (upright ? dx : dy), lo(), hi()); });
  const list = [
    line('pt', 'first point of the known length', () => t.p[0], () => t.known, (dx, dy) => shift(t.p[0], dx, dy)),
    line('pt', 'second point of the known length', () => t.p[1], () => t.known, (dx, dy) => shift(t.p[1], dx, dy)),
    edge('left side; the width', true, 'left', () => 0, () => t.right - 20),
    edge('right side; the width', true, 'right', () => t.left + 20, () => W),
    edge('top; the height', false, 'top', () => 0, () => t.foot - 20),
    edge('lowest edge; the height', false, 'foot', () => t.top + 20, () => H),
  ];
  if (bent()) {
    list.push(line('turn', 'radius of the upper corners', () => `M${t.left + turn() / per()} ${t.top - pic.height / 30}v${pic.height / 10}`, turn, dx => {
      $('turn').value = lengthOf(Math.round(clamp(turn() + dx * per(), 20, width() / 2)));
      size($('turn'));
    }));
  }
  t.ups.forEach((_, i) => list.push(line('up', `upright ${i + 1}, from the left side`,
    () => `M${t.left + t.ups[i] / per()} ${t.top}V${t.foot}`, () => t.ups[i],
    dx => { t.ups[i] = clamp(t.ups[i] + dx * per(), 1, width() - 1); }, {drop: () => drop(t.ups, i)})));
  t.levels.forEach((l, i) => list.push(line('level', `shelf ${i + 1}, over the lowest edge`,
    () => { const xs = [0, ...t.ups, width()], b = bayOf(l.x); return `M${t.left + xs[b] / per()} ${t.foot - l.at / per()}H${t.left + xs[b + 1] / per()}`; }, () => l.at,
    (dx, dy) => { l.at = clamp(l.at - dy * per(), 1, height() - 1); }, {drop: () => drop(t.levels, i)})));
  return list;
}

const bent = () => !$('bends').hidden && $('corners').value === 'bent';
const turn = () => mm($('turn').value) ?? 140;

function shift(p, dx, dy) {
  p.x = clamp(p.x + dx, 0, pic.width);
  p.y = clamp(p.y + dy, 0, pic.height);
}

function drop(list, i) {
  list.splice(i, 1);
  placed(true);
  $('known').focus();
}

// placed shows where all lines lie, and puts the sizes into the sentences;
// typed is the field that has just been typed in, and stays as it is.
function placed(anew, typed) {
  if (anew) {
    handles = all();
    const rod = draw('path', {class: 'rod', id: 'rod', 'vector-effect': 'non-scaling-stroke'});
    $('lines').replaceChildren(rod, ...handles);
    lists();
  }
  $('rod').setAttribute('d', `M${t.p[0].x} ${t.p[0].y}L${t.p[1].x} ${t.p[1].y}`);
  handles.forEach(h => h.lay());
  for (const [id, v] of [['width', width()], ['height', height()]]) {
    if ($(id) === typed) continue;
    $(id).value = lengthOf(Math.round(v));
    size($(id));
  }
  for (const f of document.querySelectorAll('#trace input.w')) {
    if (f === typed || !f.again) continue;
    f.value = lengthOf(f.again());
    size(f);
  }
  under();
  ask();
}

// lists sets the sentences of the uprights and of the shelves.
function lists() {
  const take = (list, i, name) => {
    const b = el('button', {type: 'button', className: 'take', textContent: 'away', 'aria-label': `take ${name} away`});
    b.addEventListener('click', () => drop(list, i));
    return b;
  };
  const put = (id, begin, items) => $(id).replaceChildren(...(items.length ? [begin, ...items.flatMap((x, i) => (i ? ['; ', ...x] : x)), '.'] : []));
  put('ups', 'Uprights from the left at ', t.ups.map((_, i) => {
    const f = field('up' + i, `upright ${i + 1} from the left`, () => t.ups[i], v => { t.ups[i] = clamp(v, 1, width() - 1); });
    f.again = () => t.ups[i];
    return [f, ' ', take(t.ups, i, `upright ${i + 1}`)];
  }));
  put('levels', 'Shelves over the lowest edge at ', t.levels.map((l, i) => {
    const f = field('level' + i, `shelf ${i + 1} over the lowest edge`, () => l.at, v => { l.at = clamp(v, 1, height() - 1); });
    f.again = () => l.at;
    return [f, ` in bay ${bayOf(l.x) + 1} `, take(t.levels, i, `shelf ${i + 1}`)];
  }));
}

addEventListener('change', e => {
  if (pic && ['corners', 'kind', 'in'].includes(e.target.id)) placed(true);
});

// A size that is typed in the sentences moves its line.
addEventListener('input', e => {
  if (!pic || !['width', 'height', 'turn'].includes(e.target.id)) return;
  const v = mm(e.target.value);
  if (v == null) return;
  if (e.target.id === 'width') t.right = t.left + v / per();
  else if (e.target.id === 'height') t.top = t.foot - v / per();
  placed(false, e.target);
}, true);
