// After a kept change a quiet line below its sentence says what it brought:
// sizes, parts, sheets, money, mass, findings.
import {heard} from './state.js';

let line = null;

heard(answer => {
  if (answer.preview) return;
  line?.remove();
  line = null;
  if (!answer.changes?.length) return;
  line = document.createElement('p');
  line.className = 'brought';
  line.dataset.own = '';
  line.setAttribute('role', 'status');
  line.textContent = 'With it: ' + answer.changes.join('; ') + '.';
  const at = document.querySelector('main .was');
  const row = at?.closest('.row');
  if (!row) return document.querySelector('main .opening')?.append(line);
  [...row.children].find(c => c.contains(at)).after(line);
});
