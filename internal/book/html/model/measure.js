// A measure between two points, drawn as a dimension is: a thin line between two
// oblique strokes, its value above it.
import {svg} from './dom.js';
import {told} from './told.js';

export class Measure {
  constructor(viewer) {
    Object.assign(this, {viewer, on: false, points: [], near: null});
  }

  turn(on) {
    this.on = on;
    this.clear();
    this.viewer.say(on ? 'Touch a corner, an edge or a face; then another. By keys: bring it under the ring, and press Enter.' : '');
  }

  clear() {
    this.points = [];
    this.near = null;
    this.viewer.redraw();
  }

  hover(point) {
    this.near = point;
  }

  add(point) {
    if (!point) return this.viewer.say('Nothing is there to measure from.');
    if (this.points.length === 2) this.points = [];
    this.points.push(point);
    this.near = null;
    this.viewer.say(this.words());
    this.viewer.redraw();
  }

  words() {
    const [a, b] = this.points, u = this.viewer.model.units;
    if (!b) return `From this ${a.kind}; now the other point.`;
    const d = b.at.clone().sub(a.at);
    return `Between the two points: ${told(d.length(), u)}; ${told(Math.abs(d.x), u)} across, ${told(Math.abs(d.y), u)} up, ${told(Math.abs(d.z), u)} deep.`;
  }

  get value() {
    const [a, b] = this.points;
    return b ? told(a.at.distanceTo(b.at), this.viewer.model.units) : '';
  }

  // marks are what is drawn over the picture, in its pixels.
  marks(w, h) {
    const s = v => this.viewer.picker.screen(v, w, h);
    const [a, b] = this.points;
    return {rings: [this.near && s(this.near.at), a && !b && s(a.at)].filter(Boolean), line: b ? [s(a.at), s(b.at)] : null, value: this.value};
  }

  draw(w, h) {
    const {over} = this.viewer;
    over.setAttribute('viewBox', `0 0 ${w} ${h}`);
    const kids = [];
    const {rings, line, value} = this.marks(w, h);
    if (this.on && this.viewer.canvas.matches(':focus-visible')) kids.push(svg('circle', {class: 'aim', cx: w / 2, cy: h / 2, r: 9}));
    for (const [x, y] of rings) kids.push(svg('circle', {class: 'ring', cx: x, cy: y, r: 5}));
    if (line) {
      const [[x0, y0], [x1, y1]] = line;
      kids.push(svg('path', {class: 'halo', d: `M${x0} ${y0}L${x1} ${y1}`}), svg('path', {class: 'dim', d: `M${x0} ${y0}L${x1} ${y1}`}));
      for (const [x, y] of line) kids.push(svg('path', {class: 'tick', d: `M${x - 5} ${y + 5}L${x + 5} ${y - 5}`}));
      const text = svg('text', {x: (x0 + x1) / 2, y: (y0 + y1) / 2 - 7, 'text-anchor': 'middle'});
      text.textContent = value;
      kids.push(text);
    }
    over.replaceChildren(...kids);
  }
}
