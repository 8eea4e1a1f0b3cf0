// Elements, made without any mark-up in a text.
export function el(tag, props = {}, ...kids) {
  const e = document.createElement(tag);
  for (const [k, v] of Object.entries(props)) {
    if (k.startsWith('on')) e.addEventListener(k.slice(2), v);
    else if (v === true) e.setAttribute(k, '');
    else if (v !== false && v != null) e.setAttribute(k, v);
  }
  e.append(...kids.filter(k => k != null));
  return e;
}

const space = 'http://www.w3.org/2000/svg';

export function svg(tag, props = {}, ...kids) {
  const e = document.createElementNS(space, tag);
  for (const [k, v] of Object.entries(props)) e.setAttribute(k, v);
  e.append(...kids);
  return e;
}

let last = 0;
export const fresh = () => `turn-${++last}`;

// measured is a value that can be slid and typed: told is called with each.
export function measured(label, {min, max, step, unit, value}, told) {
  const id = fresh();
  const slide = el('input', {type: 'range', min, max, step, 'aria-label': label});
  const type = el('input', {type: 'number', min, max, step, id, inputmode: 'decimal'});
  slide.value = type.value = value;
  const change = from => {
    if (from.value === '' || !Number.isFinite(Number(from.value))) return;
    const v = Math.max(min, Math.min(max, Number(from.value)));
    if (from === slide) type.value = v;
    else slide.value = v;
    told(v);
  };
  slide.addEventListener('input', () => change(slide));
  type.addEventListener('input', () => change(type));
  type.addEventListener('change', () => (type.value = slide.value));
  const box = el('div', {class: 'slid'}, el('label', {for: id}, label), slide, el('span', {class: 'typed'}, type, el('span', {class: 'u'}, unit)));
  return {box, set: v => (slide.value = type.value = v), range: (lo, hi) => {
    for (const e of [slide, type]) [e.min, e.max] = [lo, hi];
    [min, max] = [lo, hi];
  }};
}
