// After a kept change a quiet line below its sentence says what it brought:
// sizes, parts, sheets, money, mass, findings.
import {heard} from './state.js';

let line = null;

// inSight is the row that is being read, where nothing of it was changed itself:
// after a mend, or after something was taken back.
function inSight() {
  return [...document.querySelectorAll('main > section > .row:not(.wide)')].find(r => {
    const {top, bottom} = r.getBoundingClientRect();
    return bottom > 90 && top < innerHeight - 60;
  });
}

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
  const row = at?.closest('.row') ?? inSight();
  if (!row) return;
  ([...row.children].find(c => c.contains(at)) ?? row.firstElementChild).after(line);
});
