// Where the reading is: the contents mark the chapter, and on a wide screen a
// figure beside the text shows what the paragraph is about.
import {heard} from './state.js';

const side = document.getElementById('follow');
const wide = matchMedia('(min-width: 1340px)');
let shown = null;
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

// figure picks the nearest figure of the chapter, and stays with the last one
// where a chapter has none.
function figure(here, line) {
  const all = [...(here ?? document).querySelectorAll('figure')];
  let best = null, least = Infinity;
  for (const f of all) {
    const r = f.getBoundingClientRect();
    const off = r.top > line ? r.top - line : Math.max(0, line - r.bottom);
    if (off < least) [best, least] = [f, off];
  }
  best ??= shown && document.getElementById(shown.id) || document.querySelector('main figure');
  if (!best || (shown && shown.html === best.innerHTML)) return;
  shown = {id: best.id, html: best.innerHTML};
  const copy = best.cloneNode(true);
  copy.removeAttribute('id');
  const html = copy.innerHTML.replace(/(id="|url\(#|href="#)(f\d+-)/g, '$1side-$2').replace(/ tabindex="0"/g, '').replace(/ role="group"/g, '');
  copy.innerHTML = html;
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
  heard(soon);
  now();
}
