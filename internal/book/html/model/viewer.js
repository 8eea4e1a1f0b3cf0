// One model on a page: what is seen, what was picked, and what the reader asks
// for, by mouse, touch and keys.
import {Vector3} from 'three';
import {unpack} from './data.js';
import {Eye, still, viewOf} from './camera.js';
import {Stage} from './stage.js';
import {Picker} from './pick.js';
import {Measure} from './measure.js';
import {Panel} from './panel.js';
import {gestures} from './gestures.js';
import {el, svg} from './dom.js';

export class Viewer {
  constructor(doc, label) {
    this.canvas = el('canvas', {tabindex: '0', role: 'application', 'aria-label': label});
    this.stage = new Stage(this.canvas); // throws where nothing can be drawn
    this.eye = new Eye();
    this.picker = new Picker(this.stage, this.eye);
    this.over = svg('svg', {class: 'over', 'aria-hidden': 'true'});
    this.paper = el('div', {class: 'paper'}, this.canvas, this.over);
    [this.pace, this.drawnAt, this.coarse] = [16, -Infinity, false]; // ms
    this.state = {open: [], apart: 0, cut: null, faded: new Set(), picked: null, view: 'as it stands'};
    this.measure = new Measure(this);
    this.panel = new Panel(this);
    this.root = el('div', {class: 'turn', 'data-own': ''}, this.paper, this.panel.root);
    this.take(doc);
    gestures(this);
    const redraw = () => this.redraw();
    new ResizeObserver(redraw).observe(this.paper);
    for (const q of ['(prefers-color-scheme: dark)', '(min-resolution: 1.5dppx)']) matchMedia(q).addEventListener('change', redraw);
    this.canvas.addEventListener('webglcontextrestored', () => {
      this.stage.gl.shadowMap.needsUpdate = true;
      this.redraw();
    });
  }

  // take puts another state of the piece in; what the reader set stays as far as
  // the piece still has it.
  take(doc) {
    const old = this.model;
    const named = s => new Set([...s].map(i => old.parts[i].id));
    const faded = old ? named(this.state.faded) : new Set(), picked = old?.parts[this.state.picked]?.id;
    const open = new Map(old?.moves.map((m, i) => [m.name, this.state.open[i]]));
    this.model = unpack(doc);
    this.stage.show(this.model);
    this.eye.reach = this.stage.rest.getSize(new Vector3()).length() * 1.2;
    this.state.open = this.model.moves.map(m => open.get(m.name) ?? 0);
    this.state.faded = new Set(this.model.parts.filter(p => faded.has(p.id)).map(p => p.index));
    const again = this.model.parts.find(p => p.id === picked);
    this.state.picked = again ? again.index : null;
    for (const i of this.state.faded) this.stage.fade(i, true);
    this.panel.fill();
    this.measure.clear();
    if (this.state.cut) this.cut(this.state.cut.axis, Math.min(this.state.cut.at, this.stage.rest.max[this.state.cut.axis]));
    this.stand();
    if (!old) this.see('as it stands', true);
  }

  // size of the picture, px.
  get size() {
    return [Math.max(1, this.paper.clientWidth), Math.max(1, this.paper.clientHeight)];
  }

  stand() {
    this.stage.stand(this.state.open, this.state.apart);
    this.redraw();
  }

  redraw() {
    if (this.due) return;
    this.due = requestAnimationFrame(() => {
      this.due = 0;
      this.draw(true);
    });
  }

  // draw draws now. Where one picture after another comes too slowly to follow a
  // hand, those on the way are coarser, and a fine one follows when it rests.
  draw(onTheWay = false) {
    if (!this.canvas.isConnected) return;
    const [w, h] = this.size, now = performance.now();
    clearTimeout(this.rest);
    if (onTheWay) {
      const gap = now - this.drawnAt;
      if (gap < 1500) this.pace += (gap - this.pace) * 0.4;
    }
    this.coarse = onTheWay && this.pace > (this.coarse ? 45 : 90);
    if (this.coarse) this.rest = setTimeout(() => this.draw(), 220);
    this.drawnAt = now;
    this.stage.draw(this.eye, w, h, this.coarse ? 0.5 : 1);
    this.measure.draw(w, h);
    this.root.dataset.drawn = String(Number(this.root.dataset.drawn ?? 0) + 1);
  }

  // see turns to a view by its name. "section" cuts the piece through its middle,
  // "open" opens all that opens; the others put both back.
  see(name, now = false) {
    this.state.view = name;
    const {model, stage} = this;
    const open = name === 'open' ? 1 : name === 'section' ? null : 0;
    if (open !== null) this.opened(model.moves.map(() => open), now);
    if (name === 'section') {
      const box = stage.rest;
      this.cut('x', box.min.x + (box.max.x - box.min.x) * (model.left ? 0.42 : 0.58));
    } else if (this.state.cut) {
      this.cut('');
    }
    const [yaw, pitch, lens] = viewOf(name, model.left);
    const [w, h] = this.size;
    if (open !== null) stage.stand(model.moves.map(() => open), this.state.apart); // as it will be
    const to = this.eye.fit(stage.corners(), yaw, pitch, lens, w / h);
    if (open !== null) stage.stand(this.state.open, this.state.apart);
    this.eye.take(to, () => this.redraw(), now);
    this.panel.sync();
    this.redraw();
  }

  // fit goes as near as shows all of it, from where one looks now.
  fit() {
    const [w, h] = this.size, {yaw, pitch, lens} = this.eye.at;
    this.eye.take(this.eye.fit(this.stage.corners(), yaw, pitch, lens, w / h), () => this.redraw(), true);
  }

  // opened moves doors and drawers to where they are to be, in a third of a
  // second where motion is welcome.
  opened(to, now = false) {
    const from = [...this.state.open];
    cancelAnimationFrame(this.opening);
    if (now || still()) {
      this.state.open = to;
      this.stand();
      this.panel.sync();
      return;
    }
    const start = performance.now();
    const step = t => {
      const k = Math.min(1, Math.max(0, (t - start) / 350)), s = k * k * (3 - 2 * k);
      this.state.open = to.map((v, i) => from[i] + (v - from[i]) * s);
      this.stand();
      if (k < 1) this.opening = requestAnimationFrame(step);
      else this.panel.sync();
    };
    this.opening = requestAnimationFrame(step);
  }

  apart(share) {
    this.state.apart = share;
    this.stand();
    this.fit();
  }

  // cut cuts by a plane across an axis, and takes away what is before it; with
  // no axis it puts all back.
  cut(axis, at) {
    const beyond = axis === 'x' && this.model.left ? -1 : 1;
    this.state.cut = axis ? {axis, at, beyond} : null;
    this.stage.cutBy(this.state.cut);
    this.panel.sync();
    this.redraw();
  }

  fade(i, on) {
    if (on) this.state.faded.add(i);
    else this.state.faded.delete(i);
    this.stage.fade(i, on);
    this.panel.sync();
    this.redraw();
  }

  pick(i) {
    this.state.picked = i;
    this.panel.sync();
  }

  // touched answers a click or the key for it: a point of a measure, else a part.
  touched(x, y) {
    const [w, h] = this.size;
    this.eye.place(w, h);
    if (this.measure.on) return this.measure.add(this.picker.point(x, y, w, h));
    const hit = this.picker.hit(x, y, w, h);
    this.pick(hit ? hit.object.userData.part : null);
  }

  pointed(x, y) {
    if (!this.measure.on) return;
    const [w, h] = this.size;
    this.measure.hover(this.picker.point(x, y, w, h));
    this.redraw();
  }

  say(text) {
    this.panel.said.textContent = text;
  }
}
