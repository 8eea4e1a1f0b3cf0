// What the page has to say: a word in passing, or trouble that waits for an
// answer.
import {state, heard} from './state.js';

const passing = document.getElementById('telling');
const box = document.getElementById('trouble');

// tell says something in passing; screen readers read it out.
export function tell(text, counts) {
  passing.textContent = text + (counts ? '; ' + tally() : '');
}

// tally counts the findings as the page shows them.
export const tally = () => [...document.querySelectorAll('.tally a')].map(a => a.textContent.trim()).join(', ');

function button(text, does) {
  const b = document.createElement('button');
  b.type = 'button';
  b.textContent = text;
  b.addEventListener('click', does);
  return b;
}

function text(tag, words, cls) {
  const e = document.createElement(tag);
  e.textContent = words;
  if (cls) e.className = cls;
  return e;
}

function show(role, ...kids) {
  box.replaceChildren(...kids);
  box.setAttribute('role', role);
  box.hidden = false;
}

export function hide() {
  box.hidden = true;
  box.replaceChildren();
}

// refused shows why an edit was not made; of a conflict, both texts.
export function refused(r, again) {
  if (r.aborted) return;
  if (!r.conflict) {
    const why = (r.problems ?? []).map(p => p.summary).join('. ') || r.why;
    show('alert', text('p', why), button('good', hide));
    return;
  }
  const both = document.createElement('div');
  both.className = 'both';
  for (const [name, words] of [['Stands in the file now', r.theirs], ['You wanted', r.mine]]) {
    const one = document.createElement('div');
    const pre = text('pre', words || 'nothing');
    pre.tabIndex = 0;
    pre.setAttribute('role', 'region');
    pre.setAttribute('aria-label', name);
    one.append(text('h2', name), pre);
    both.append(one);
  }
  show('alert', text('p', 'The file was changed meanwhile, elsewhere. Nothing was mixed: choose which to keep.'), both,
    button('leave what stands', hide), button('put mine in', () => { hide(); again?.(); }));
  box.querySelector('button').focus();
}

let last = true;
// Where the files cannot be used, the page says so above everything.
heard(answer => {
  if (answer.preview) return;
  if (answer.word) setTimeout(() => tell(answer.word));
  document.body.classList.toggle('old', !answer.whole);
  document.getElementById('undo').disabled = !answer.undo;
  document.getElementById('redo').disabled = !answer.redo;
  if (!answer.whole) {
    const ul = document.createElement('ul');
    for (const p of state.problems.filter(p => p.severity === 'error').slice(0, 5)) {
      const a = text('a', `line ${p.line}: ${p.summary}`);
      a.href = '#the-text';
      const li = document.createElement('li');
      li.append(a);
      ul.append(li);
    }
    show('alert', text('p', 'The file cannot be used as it stands. What you read below is the last book that could be made.'), ul);
  } else if (!last) {
    hide();
  }
  last = answer.whole;
});
