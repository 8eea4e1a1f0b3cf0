// Where the reading is: the contents mark the chapter, and on a wide screen a
// figure beside the text shows what the paragraph is about.
import {heard} from './state.js';

const side = document.getElementById('follow');
const wide = matchMedia('(min-width: 1340px)');
// What of a figure points at another thing of it, by its id.
const urls = ['href', 'fill', 'stroke', 'clip-path', 'mask', 'marker-start', 'marker-end', 'aria-labelledby', 'aria-describedby'];
let stale = false; // the figure beside the text has changed
let due = false;

function now() {
  due = false;
  const line = innerHeight * 0.35;
  const sections = [...document.querySelectorAll('main > section')];
  const here = sections.findLast(s => s.getBoundingClientRect().top <= line);
  for (const a of document.querySelectorAll('.contents a')) {
    const on = here && a.hash === '#' + here.id;
    a.classList.toggle('here', Boolean(on));
    if (on) a.setAttribute('aria-current', 'true');
    else a.removeAttribute('aria-current');
  }
  if (wide.matches) figure(here, line);
}

// figure picks the nearest figure of the chapter, or the whole piece where it has
// none.
function figure(here, line) {
  const all = [...(here ?? document).querySelectorAll('.row')].filter(r => r.querySelector(':scope > figure'));
  let best = null, least = Infinity;
  for (const f of all) {
    const r = f.getBoundingClientRect();
    const off = r.top > line ? r.top - line : Math.max(0, line - r.bottom);
    if (off < least) [best, least] = [f, off];
  }
  best ??= document.querySelector('main figure')?.closest('.row');
  if (!best || (side.dataset.of === best.id && !stale)) return;
  stale = false;
  side.dataset.of = best.id;
  const copy = best.querySelector('figure').cloneNode(true);
  copy.removeAttribute('id');
  copy.querySelector('.turn')?.remove(); // beside the text stands its still picture
  for (const el of copy.querySelectorAll('*')) {
    if (el.id) el.id = 'side-' + el.id;
    el.removeAttribute('tabindex');
    if (el.getAttribute('role') === 'group') el.removeAttribute('role');
    for (const name of urls) {
      const is = el.getAttribute(name);
      if (is) el.setAttribute(name, is.replace(/^(url\(#|#)/, '$1side-'));
    }
  }
  side.replaceChildren(copy);
}

export function follow() {
  const soon = () => {
    if (due) return;
    due = true;
    requestAnimationFrame(now);
  };
  addEventListener('scroll', soon, {passive: true});
  addEventListener('resize', soon, {passive: true});
  heard(answer => {
    stale ||= side.dataset.of in (answer.html ?? {});
    soon();
  });
  now();
}
