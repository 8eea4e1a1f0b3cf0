// The chapter of the file: its text, editable, with the same remarks beside it.
import {state, heard} from './state.js';
import {post} from './wire.js';
import {apply} from './patch.js';
import {tell, refused} from './trouble.js';

export function textChapter() {
  const area = document.getElementById('text');
  const numbers = document.getElementById('numbers');
  const which = document.getElementById('file');
  const keep = document.getElementById('keep');
  const leave = document.getElementById('leave');
  const list = document.getElementById('text-problems');
  let base = state.rev;
  let loaded = '';
  let timer = 0;

  const dirty = () => area.value !== loaded;

  function count() {
    const n = area.value.split('\n').length;
    const bad = new Set(problems().map(p => p.line));
    keep.disabled = leave.disabled = !dirty();
    const key = n + ' ' + [...bad];
    if (numbers.dataset.of === key) return;
    numbers.dataset.of = key;
    numbers.replaceChildren();
    for (let i = 1; i <= n; i++) {
      const s = document.createElement('span');
      s.textContent = (bad.has(i) ? '× ' : '') + i + '\n';
      if (bad.has(i)) s.className = 'bad';
      numbers.append(s);
    }
  }

  const problems = () => state.problems.filter(p => p.file === which.value);

  function remarks() {
    list.replaceChildren(...problems().map(p => {
      const li = document.createElement('li');
      const b = document.createElement('button');
      b.type = 'button';
      b.textContent = `line ${p.line}`;
      b.addEventListener('click', () => go(p));
      li.append(b, ` ${p.severity === 'warning' ? 'look: ' : ''}${p.summary}. ${p.detail ?? ''} ${p.expected ? 'Wanted: ' + p.expected + '.' : ''} ${p.nearest ? 'Did you mean ' + p.nearest + '?' : ''}`);
      return li;
    }));
  }

  function go(p) {
    const lines = area.value.split('\n');
    const at = lines.slice(0, p.line - 1).reduce((n, l) => n + l.length + 1, 0) + Math.max(0, p.col - 1);
    area.focus();
    area.setSelectionRange(at, at);
  }

  function load() {
    base = state.rev;
    loaded = state[which.value];
    area.value = loaded;
    count();
    remarks();
  }

  async function look() {
    const r = await post('/preview', {file: which.value, text: area.value, base});
    if (!r.ok) return;
    apply(r.answer);
    count();
  }

  async function put() {
    clearTimeout(timer);
    const r = await post('/edit', {file: which.value, text: area.value, base});
    if (!r.ok) return refused(r, () => { base = state.rev; put(); });
    loaded = area.value;
    apply(r.answer);
    load();
    tell(state.whole ? 'the text is kept' : 'the text is kept, and cannot be used yet', state.whole);
  }

  area.addEventListener('input', () => {
    count();
    clearTimeout(timer);
    timer = setTimeout(look, 300);
  });
  area.addEventListener('scroll', () => { numbers.scrollTop = area.scrollTop; });
  area.addEventListener('keydown', e => {
    if ((e.ctrlKey || e.metaKey) && e.key.toLowerCase() === 's') {
      e.preventDefault();
      if (dirty()) put();
    }
  });
  keep.addEventListener('click', put);
  leave.addEventListener('click', async () => {
    clearTimeout(timer);
    load();
    const r = await post('/preview', {text: ''});
    if (r.ok) apply(r.answer);
    state.shown.clear();
  });
  which.addEventListener('change', load);
  heard(answer => {
    remarks();
    if (!answer.preview && !dirty()) load();
    else count();
  });
  load();
}
