// Where one looks from. The lens is long, so that the model looks like one that
// was photographed from across the room; seen square on, it is so long that what
// is parallel stays so, as on a drawing.
import {PerspectiveCamera, Vector3} from 'three';

const far = 16, square = 1.2; // degrees of the lens

export const still = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

export class Eye {
  constructor() {
    this.camera = new PerspectiveCamera(far, 1.5, 1, 1000);
    this.at = {yaw: 0, pitch: 0, half: 500, lens: far, x: 0, y: 0, z: 0};
    this.reach = 1000; // radius round the middle that is to be seen
    this.glide = null;
  }

  // take goes to another place, at once or in a third of a second.
  take(to, told, now = false) {
    const from = {...this.at}, goal = {...this.at, ...to};
    const turn = goal.yaw - from.yaw; // by the shorter way round
    goal.yaw = from.yaw + turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
    cancelAnimationFrame(this.glide);
    if (now || still()) {
      this.at = goal;
      told();
      return;
    }
    const start = performance.now();
    const step = t => {
      const k = Math.min(1, Math.max(0, (t - start) / 350)), s = k * k * (3 - 2 * k);
      for (const key of Object.keys(goal)) this.at[key] = from[key] + (goal[key] - from[key]) * s;
      told();
      if (k < 1) this.glide = requestAnimationFrame(step);
    };
    this.glide = requestAnimationFrame(step);
  }

  turn(yaw, pitch) {
    cancelAnimationFrame(this.glide);
    this.at.lens = far;
    this.at.yaw += yaw;
    this.at.pitch = Math.max(-1.55, Math.min(1.55, this.at.pitch + pitch));
  }

  // pan moves what is seen by shares of the picture's height.
  pan(right, up) {
    cancelAnimationFrame(this.glide);
    const m = this.camera.matrixWorld.elements, k = 2 * this.at.half;
    ['x', 'y', 'z'].forEach((axis, i) => (this.at[axis] -= k * (m[i] * right + m[4 + i] * up)));
  }

  zoom(by) {
    cancelAnimationFrame(this.glide);
    this.at.half = Math.max(4, Math.min(this.reach * 6, this.at.half / by));
  }

  // direction is that from the middle to the eye.
  direction() {
    const {yaw, pitch} = this.at;
    return new Vector3(Math.sin(yaw) * Math.cos(pitch), Math.sin(pitch), Math.cos(yaw) * Math.cos(pitch));
  }

  place(width, height) {
    const c = this.camera, {half, lens} = this.at;
    const middle = new Vector3(this.at.x, this.at.y, this.at.z);
    const off = half / Math.tan((lens * Math.PI) / 360);
    c.fov = lens;
    c.aspect = width / height;
    c.near = Math.max(off - this.reach * 4, off * 0.02);
    c.far = off + this.reach * 4;
    c.up.set(0, 1, 0);
    if (Math.abs(this.at.pitch) > 1.54) c.up.set(-Math.sin(this.at.yaw), 0, -Math.cos(this.at.yaw)).multiplyScalar(Math.sign(this.at.pitch));
    c.position.copy(middle).addScaledVector(this.direction(), off);
    c.lookAt(middle);
    c.updateProjectionMatrix();
    c.updateMatrixWorld();
  }

  // fit is how near one goes so that points are seen whole from a direction: a
  // point that is up by u and nearer by b needs a picture of half height u + b·t,
  // with t the tangent of half the lens.
  fit(points, yaw, pitch, lens, aspect) {
    const right = new Vector3(Math.cos(yaw), 0, -Math.sin(yaw));
    const back = new Vector3(Math.sin(yaw) * Math.cos(pitch), Math.sin(pitch), Math.cos(yaw) * Math.cos(pitch));
    const up = back.clone().cross(right);
    const middle = new Vector3();
    for (const d of [right, up, back]) {
      const along = points.map(p => p.dot(d));
      middle.addScaledVector(d, (Math.min(...along) + Math.max(...along)) / 2);
    }
    const t = Math.tan((lens * Math.PI) / 360);
    const half = Math.max(1, ...points.map(p => {
      const v = p.clone().sub(middle);
      return Math.max(Math.abs(v.dot(up)), Math.abs(v.dot(right)) / aspect) + v.dot(back) * t;
    }));
    return {yaw, pitch, lens, half: half * 1.07, x: middle.x, y: middle.y, z: middle.z};
  }
}

// views by their names, as the words of the page have them: yaw and pitch.
export function viewOf(name, left) {
  const side = left ? -1 : 1;
  switch (name) {
    case 'front': return [0, 0, square];
    case 'end': return [(side * Math.PI) / 2, 0, square];
    case 'plan': return [0, Math.PI / 2, square];
    case 'section': return [side * 1.05, 0.16, far];
  }
  return [side * 0.52, 0.27, far];
}
