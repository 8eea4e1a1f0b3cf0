// The model that can be turned: its script and its data come when it is near the
// window. It follows a change when the hand rests; until then it says that it is
// of an earlier state.
import {heard} from './state.js';

let wanted = '';   // the mark of the state that the page shows
let shown = '';    // the mark of the state that the model shows
let asking = false;
let rest = 0;
let take = null;   // puts another state into the model
let figure = null; // that it stands in
const watched = new WeakSet();

// look watches for the figure that a model stands for to come near.
function look() {
  const f = document.querySelector('main figure[data-model]');
  if (!f || watched.has(f) || f.querySelector('.turn')) return;
  watched.add(f);
  new IntersectionObserver((es, o) => {
    if (!es.some(e => e.isIntersecting)) return;
    o.disconnect();
    figure = f;
    [take, shown] = [null, ''];
    bring();
  }, {rootMargin: '500px'}).observe(f);
}

// late marks a model of an earlier state.
function late() {
  figure?.querySelector('.turn')?.toggleAttribute('data-late', wanted !== shown);
}

async function bring() {
  if (asking || !figure?.isConnected || !wanted || wanted === shown) return;
  asking = true;
  const mark = wanted;
  try {
    const r = await fetch('/model?of=' + mark);
    if (r.ok) {
      const doc = await r.json();
      if (take) {
        take(doc);
      } else {
        const {show} = await import('/model.js');
        take = show(figure, doc);
      }
      shown = mark;
    }
  } catch {
    // Rodwork does not answer; the page says so where it matters
  }
  asking = false;
  late();
  if (wanted !== mark) soon(true);
}

function soon(resting) {
  clearTimeout(rest);
  rest = setTimeout(bring, resting ? 250 : 0);
}

heard(answer => {
  if (answer.model) wanted = answer.model;
  if (figure && !figure.isConnected) figure = null; // its row was set anew
  look();
  late();
  if (figure) soon(answer.preview);
});
