// What is asked for in words: views, how far apart and open, a section, one part
// at a time, a measure, a picture to send.
import {el, fresh, measured} from './dom.js';
import {unit} from './told.js';
import {picture} from './picture.js';

const views = ['as it stands', 'front', 'end', 'plan', 'section', 'open'];
const cuts = [['', 'nowhere'], ['z', 'parallel to the front'], ['x', 'parallel to the end'], ['y', 'level']];
const from = {x: 'from the left', y: 'from the lowest edge', z: 'from the back'};

export class Panel {
  constructor(viewer) {
    this.v = viewer;
    this.said = el('p', {class: 'said', role: 'status', 'aria-live': 'polite'});
    this.named = el('p', {class: 'named'});
    this.views = views.map(name => el('button', {type: 'button', 'aria-pressed': 'false', onclick: () => viewer.see(name)}, name));
    this.root = el('div', {class: 'by'}, this.said, this.named);
  }

  // fill makes the controls for what the model has.
  fill() {
    const {v} = this, {model} = v, u = unit(model.units);
    this.apart = measured('Taken apart', {min: 0, max: 100, step: 1, unit: '%', value: 100 * v.state.apart}, x => v.apart(x / 100));
    const rows = [this.apart.box];
    this.each = [];
    this.all = null;
    if (model.moves.length) {
      this.all = measured('Opened', {min: 0, max: 100, step: 1, unit: '%', value: 0}, x => v.opened(model.moves.map(() => x / 100), true));
      rows.push(this.all.box);
      if (model.moves.length > 1) rows.push(this.oneByOne());
    }
    rows.push(this.cutting(u), this.parts());
    this.measureKey = el('button', {type: 'button', 'aria-pressed': 'false', onclick: () => this.measuring(!v.measure.on)}, 'measure between two points');
    const save = el('button', {type: 'button', onclick: () => picture(v)}, 'picture to send');
    const help = fresh();
    v.canvas.setAttribute('aria-describedby', help);
    this.root.replaceChildren(
      el('p', {class: 'ways', role: 'group', 'aria-label': 'Seen'}, el('span', {class: 'u'}, 'seen'), ...this.views.filter((_, i) => views[i] !== 'open' || model.moves.length)),
      this.said, this.named, el('div', {class: 'rows'}, ...rows),
      el('p', {class: 'ways'}, this.measureKey, save),
      el('p', {class: 'help', id: help}, 'Drag to turn, with Shift to pan; a wheel zooms once the model has been touched. By keys: arrows turn, Shift and arrows pan, + and − zoom, Enter names the part in the middle. With measuring on, Enter takes the point there.'));
    this.sync();
  }

  // oneByOne opens each door and drawer by itself.
  oneByOne() {
    const {v} = this;
    this.each = v.model.moves.map((m, i) => {
      const turns = m.kind === 'turns', u = turns ? {name: '°', mm: 1, step: 1} : unit(v.model.units);
      const most = Math.round((m.most / u.mm) * 16) / 16;
      const one = measured(m.name, {min: 0, max: most, step: u.step, unit: u.name, value: 0}, x => {
        const open = [...v.state.open];
        open[i] = most ? x / most : 0;
        v.opened(open, true);
      });
      return {...one, show: () => one.set(Math.round((v.state.open[i] * most) / u.step) * u.step)};
    });
    return el('details', {}, el('summary', {}, 'one by one'), ...this.each.map(e => e.box));
  }

  cutting(u) {
    const {v} = this, id = fresh();
    this.cutAxis = el('select', {id}, ...cuts.map(([k, name]) => el('option', {value: k}, name)));
    this.cutAt = measured('at', {min: 0, max: 100, step: u.step, unit: u.name, value: 0}, x => v.cut(v.state.cut.axis, this.zero(v.state.cut.axis) + x * u.mm));
    this.cutFrom = el('span', {class: 'u'});
    this.cutAt.box.append(this.cutFrom);
    this.cutUnit = u;
    this.cutAxis.addEventListener('change', () => {
      const axis = this.cutAxis.value;
      if (!axis) return v.cut('');
      const {min, max} = v.stage.rest;
      v.cut(axis, (min[axis] + max[axis]) / 2);
    });
    return el('div', {class: 'cutting'}, el('div', {class: 'slid'}, el('label', {for: id}, 'Cut through'), this.cutAxis), this.cutAt.box);
  }

  zero(axis) {
    return this.v.stage.rest.min[axis];
  }

  parts() {
    const {v} = this, id = fresh();
    this.part = el('select', {id}, el('option', {value: ''}, 'none'), ...v.model.parts.map(p => el('option', {value: p.index}, (p.number ? `${p.number} · ` : '') + p.name)));
    this.part.addEventListener('change', () => v.pick(this.part.value === '' ? null : Number(this.part.value)));
    this.fadeKey = el('button', {type: 'button', onclick: () => v.fade(v.state.picked, !v.state.faded.has(v.state.picked))}, 'fade it');
    this.whole = el('button', {type: 'button', onclick: () => [...v.state.faded].forEach(i => v.fade(i, false))}, 'all of it again');
    return el('div', {class: 'slid'}, el('label', {for: id}, 'Part'), this.part, el('span', {class: 'ways'}, this.fadeKey, this.whole));
  }

  measuring(on) {
    this.v.measure.turn(on);
    this.measureKey.setAttribute('aria-pressed', String(on));
    this.v.paper.classList.toggle('measuring', on);
  }

  // sync shows what is so.
  sync() {
    const {v} = this, {state, model} = v;
    if (!this.part) return;
    this.views.forEach((b, i) => b.setAttribute('aria-pressed', String(views[i] === state.view)));
    this.apart.set(Math.round(100 * state.apart));
    this.all?.set(Math.round(100 * (state.open.reduce((a, b) => a + b, 0) / model.moves.length)));
    this.each.forEach(e => e.show());
    const c = state.cut;
    this.cutAxis.value = c?.axis ?? '';
    this.cutAt.box.hidden = !c;
    if (c) {
      const {mm, step} = this.cutUnit, most = (v.stage.rest.max[c.axis] - this.zero(c.axis)) / mm;
      this.cutAt.range(0, Math.round(most / step) * step);
      this.cutAt.set(Math.round((c.at - this.zero(c.axis)) / mm / step) * step);
      this.cutFrom.textContent = from[c.axis];
    }
    const p = model.parts[state.picked];
    this.part.value = p ? p.index : '';
    this.fadeKey.disabled = !p;
    this.fadeKey.textContent = p && state.faded.has(p.index) ? 'show it again' : 'fade it';
    this.whole.hidden = state.faded.size === 0;
    this.named.replaceChildren(...(p ? [el('b', {}, p.number ? `${p.number} ` : ''), p.name, ...(model.stocks[p.stock] ? [`, of ${model.stocks[p.stock].name}`] : []),
      ...(p.place ? [' · ', el('a', {href: p.place}, 'its place in the book')] : [])] : []));
  }
}
