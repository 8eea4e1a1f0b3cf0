// By mouse, touch and keys. One finger turns, two pan and zoom; on a page that
// is being read a finger that goes up or down scrolls it, until the model has
// been touched.
const turnBy = 0.009, keyTurn = Math.PI / 24;

export function gestures(v) {
  const c = v.canvas, down = new Map();
  let moved = false, spread = 0, hover = 0;

  const at = e => {
    const r = c.getBoundingClientRect();
    return [e.clientX - r.left, e.clientY - r.top];
  };
  const left = () => {
    v.state.view = '';
    v.panel.sync();
    v.redraw();
  };

  c.addEventListener('pointerdown', e => {
    if (e.button > 2) return;
    c.setPointerCapture(e.pointerId);
    down.set(e.pointerId, at(e));
    moved = down.size > 1;
    spread = gap();
  });
  const gap = () => {
    const [a, b] = [...down.values()];
    return b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0;
  };
  c.addEventListener('pointermove', e => {
    const [x, y] = at(e), was = down.get(e.pointerId), [, h] = v.size;
    if (!was) {
      if (e.pointerType === 'mouse') {
        cancelAnimationFrame(hover);
        hover = requestAnimationFrame(() => v.pointed(x, y));
      }
      return;
    }
    const dx = x - was[0], dy = y - was[1];
    if (!moved && Math.hypot(dx, dy) < 4) return;
    moved = true;
    down.set(e.pointerId, [x, y]);
    if (down.size === 2) {
      const now = gap();
      if (spread > 0 && now > 0) v.eye.zoom(now / spread);
      spread = now;
      v.eye.pan(dx / h / 2, -dy / h / 2);
    } else if (e.shiftKey || e.buttons & 6) {
      v.eye.pan(dx / h, -dy / h);
    } else {
      v.eye.turn(-dx * turnBy, dy * turnBy);
    }
    left();
  });
  c.addEventListener('pointerup', e => {
    if (down.delete(e.pointerId) && !moved) v.touched(...at(e));
  });
  c.addEventListener('pointercancel', e => down.delete(e.pointerId));
  c.addEventListener('contextmenu', e => e.preventDefault());
  c.addEventListener('wheel', e => {
    if (document.activeElement !== c && !e.ctrlKey) return; // the page scrolls
    e.preventDefault();
    v.eye.zoom(Math.exp(-Math.max(-60, Math.min(60, e.deltaY)) * 0.004));
    left();
  }, {passive: false});

  c.addEventListener('keydown', e => {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const arrow = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]}[e.key];
    if (arrow && e.shiftKey) v.eye.pan(arrow[0] * 0.06, arrow[1] * 0.06);
    else if (arrow) v.eye.turn(arrow[0] * keyTurn, -arrow[1] * keyTurn);
    else if (e.key === '+' || e.key === '=') v.eye.zoom(1.2);
    else if (e.key === '-' || e.key === '_') v.eye.zoom(1 / 1.2);
    else if (e.key === 'Enter') {
      e.preventDefault();
      const [w, h] = v.size;
      return v.touched(w / 2, h / 2);
    } else if (e.key === 'Escape' && v.measure.on) {
      v.panel.measuring(false);
      return;
    } else return;
    e.preventDefault();
    left();
  });
  for (const t of ['focus', 'blur']) c.addEventListener(t, () => v.redraw());
}
