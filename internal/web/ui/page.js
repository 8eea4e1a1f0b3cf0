// The page: what it is made of is set up here; each module has one idea.
import {state, meta} from './state.js';
import {get, post, watch} from './wire.js';
import {apply, everything} from './patch.js';
import {enhance, release} from './live.js';
import {textChapter} from './text.js';
import {follow} from './follow.js';
import {tell, refused} from './trouble.js';
import './changes.js';
import './mends.js';
import './model.js';

async function turn(way) {
  release(false);
  const r = await post('/' + way, {text: ''});
  if (r.ok) {
    apply(r.answer);
    tell(way === 'undo' ? 'taken back' : 'put in again', true);
  } else {
    refused(r, () => turn(way));
  }
}

async function mend(button) {
  const {path, new: text} = button.dataset;
  const name = state.values[path]?.label ?? path;
  const was = state.values[path]?.shown;
  const said = button.textContent.replace(/^or /, '').trim();
  const r = await post('/edit', {path, text});
  if (!r.ok) return refused(r, () => mend(button));
  apply(r.answer, {path, was});
  // A list is no sentence: what went in is told as the mend told it.
  tell(/[[{]/.test(text) ? `mended: ${said}` : `${name} is now ${state.values[path]?.shown ?? text}`, true);
  const value = document.querySelector(`b.v[data-path="${CSS.escape(path)}"]`);
  (value ?? document.getElementById('main')).focus({preventScroll: true});
}

addEventListener('click', e => {
  const b = e.target.closest('button');
  if (b?.classList.contains('mend')) mend(b);
  if (b?.id === 'undo' || b?.id === 'redo') turn(b.id);
});

addEventListener('keydown', e => {
  if (e.target.closest('input, textarea, select') || !(e.ctrlKey || e.metaKey) || e.altKey) return;
  const key = e.key.toLowerCase();
  if (key === 'z' || key === 'y') {
    e.preventDefault();
    turn(key === 'y' || e.shiftKey ? 'redo' : 'undo');
  }
});

document.getElementById('main').tabIndex = -1;
const all = await get('/all?values');
state.rev = Number(meta('rodwork-rev'));
everything(all, false);
if (all.rev !== state.rev) everything(await get('/all'), true);
enhance(document.body);
textChapter();
follow();
watch(answer => {
  if (answer.from === state.rev) apply(answer);
  else get('/all').then(a => everything(a, true));
});
document.body.dataset.ready = 'yes';
