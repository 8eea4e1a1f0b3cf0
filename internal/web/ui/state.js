// What the page knows: the revision it shows, and the values of it.
export const meta = name => document.querySelector(`meta[name="${name}"]`)?.content ?? '';

export const state = {
  rev: 0,
  client: crypto.randomUUID(),
  values: {},       // by path, as shown
  before: {},       // those that a preview changed, as they were
  shown: new Set(), // fragments that a preview changed
  problems: [],
  piece: '', shop: '',
  whole: true,
};

const listeners = [];
// heard is called after every answer that was applied.
export const heard = f => listeners.push(f);
export const changed = answer => listeners.forEach(f => f(answer));
