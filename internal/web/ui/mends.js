// The way to the next mend, for who has no pointer: by F8, or by the second
// link that the tab key meets. As long as something says stop, its mends are
// the ones that it goes to.
import {tell} from './trouble.js';

function mends() {
  const all = [...document.querySelectorAll('main .find button.mend[data-path]')];
  const stops = all.filter(b => b.closest('.find.stop'));
  return stops.length ? stops : all;
}

// toMend goes on from what has the keys, forward or back, and round the end.
export function toMend(back) {
  const list = mends();
  if (!list.length) return tell('no finding has a mend to put in');
  if (back) list.reverse();
  const from = document.activeElement;
  const side = back ? Node.DOCUMENT_POSITION_PRECEDING : Node.DOCUMENT_POSITION_FOLLOWING;
  const next = (document.getElementById('main').contains(from) &&
    list.find(b => b !== from && from.compareDocumentPosition(b) & side)) || list[0];
  next.scrollIntoView({block: 'center', behavior: 'instant'});
  next.focus({preventScroll: true});
}

addEventListener('keydown', e => {
  if (e.key !== 'F8' || e.ctrlKey || e.metaKey || e.altKey) return;
  e.preventDefault();
  toMend(e.shiftKey);
});

document.getElementById('to-mend').addEventListener('click', () => toMend(false));
