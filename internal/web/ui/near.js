// What is in sight. A preview tells of it first; the rest is behind, and says
// so, until it is worked out too.
const main = document.getElementById('main');
const side = document.getElementById('follow');

// near lists the rows in the window or just outside of it, and the one whose
// figure stands beside the text.
export function near() {
  const over = innerHeight * 0.25;
  const ids = [];
  const seen = el => {
    const r = el.getBoundingClientRect();
    return r.bottom > -over && r.top < innerHeight + over;
  };
  for (const s of main.children) {
    if (s.localName !== 'section' || !seen(s)) continue;
    for (const row of s.children) if (row.id && seen(row)) ids.push(row.id);
  }
  if (side.dataset.of && !ids.includes(side.dataset.of)) ids.push(side.dataset.of);
  return ids.slice(0, 900);
}

let fresh = new Set();

// behind marks all rows but those as not worked out; null: none is.
export function behind(ids) {
  const now = new Set(ids ?? []);
  for (const id of fresh) if (!now.has(id)) document.getElementById(id)?.removeAttribute('data-now');
  for (const id of now) {
    const el = document.getElementById(id);
    if (el && !el.hasAttribute('data-now')) el.setAttribute('data-now', '');
  }
  fresh = now;
  main.toggleAttribute('data-behind', ids != null);
}

export const isBehind = () => main.hasAttribute('data-behind');
