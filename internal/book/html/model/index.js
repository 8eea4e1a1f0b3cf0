// Models of a page come alive as they come near the window: those whose data
// stand in the page by themselves, others by who calls show.
import {Viewer} from './viewer.js';
import {el} from './dom.js';

// show puts a model before its still picture. Where this browser cannot draw in
// space the picture stays, and says so. It returns a function that takes another
// state of the piece.
export function show(figure, doc) {
  const plate = figure.querySelector('.plate');
  try {
    const v = new Viewer(doc, 'Model of ' + doc.name + ', to be turned');
    plate.before(v.root);
    v.see('as it stands', true);
    figure.viewer = v;
    return next => v.take(next);
  } catch (e) {
    figure.dataset.flat = String(e?.message ?? e);
    figure.querySelector('.unturned') ?? plate.after(el('p', {class: 'unturned', 'data-own': ''}, 'This browser cannot draw the model in space; the picture stands for it.'));
    return () => {};
  }
}

// nearing calls once, when something comes near the window.
export function nearing(element, then) {
  const o = new IntersectionObserver(es => {
    if (!es.some(e => e.isIntersecting)) return;
    o.disconnect();
    then();
  }, {rootMargin: '600px'});
  o.observe(element);
}

for (const data of document.querySelectorAll('figure > script[type="application/json"]')) {
  const figure = data.parentElement;
  nearing(figure, () => show(figure, JSON.parse(data.textContent)));
}
