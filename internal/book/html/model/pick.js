// What is under a finger: a part, a corner, a place on an edge.
import {Raycaster, Vector2, Vector3} from 'three';

const near = 14; // px within which a corner or an edge draws the point to it

export class Picker {
  constructor(stage, eye) {
    Object.assign(this, {stage, eye, ray: new Raycaster()});
  }

  // hit returns the nearest part that is seen there, and where it is met.
  hit(x, y, width, height) {
    this.ray.setFromCamera(new Vector2((2 * x) / width - 1, 1 - (2 * y) / height), this.eye.camera);
    const bodies = this.stage.parts.filter(o => !o.faded).map(o => o.body);
    return this.ray.intersectObjects(bodies, false).find(h => !this.gone(h.point)) ?? null;
  }

  gone(point) {
    return Boolean(this.stage.cut) && this.stage.plane.distanceToPoint(point) < -1e-3;
  }

  screen(v, width, height) {
    const s = v.clone().project(this.eye.camera);
    return [((s.x + 1) / 2) * width, ((1 - s.y) / 2) * height, s.z];
  }

  // point returns a place on the model: a corner near by, else one on an edge
  // near by, else the place on the face. Hidden ones are left out.
  point(x, y, width, height) {
    const hit = this.hit(x, y, width, height);
    const limit = hit ? this.ray.ray.origin.distanceTo(hit.point) : Infinity;
    const scale = (2 * this.eye.at.half) / height; // mm of a pixel
    let best = null, least = near, kind = '';
    const consider = (v, how, handicap) => {
      const [sx, sy] = this.screen(v, width, height);
      const off = Math.hypot(sx - x, sy - y) + handicap;
      if (off >= least || this.gone(v)) return;
      if (this.ray.ray.origin.distanceTo(v) > limit + 3 * near * scale) return;
      if (this.covered(v, scale)) return;
      [best, least, kind] = [v, off, how];
    };
    for (const o of this.stage.parts) {
      if (o.faded) continue;
      const lists = [[o.part.edges, o.group.matrix]];
      if (o.rim) lists.push([rimOf(o), null]);
      for (const [e, m] of lists) {
        for (let i = 0; i < e.length; i += 6) {
          const a = new Vector3(e[i], e[i + 1], e[i + 2]), b = new Vector3(e[i + 3], e[i + 4], e[i + 5]);
          if (m) a.applyMatrix4(m), b.applyMatrix4(m);
          consider(a, 'corner', 0);
          consider(b, 'corner', 0);
          if (kind !== 'corner') consider(this.onEdge(a, b), 'edge', 5);
        }
      }
    }
    return best ? {at: best, kind} : hit ? {at: hit.point.clone(), kind: 'face'} : null;
  }

  // onEdge is the place on an edge that is nearest to the ray.
  onEdge(a, b) {
    const out = new Vector3();
    this.ray.ray.distanceSqToSegment(a, b, null, out);
    return out;
  }

  covered(v, scale) {
    const from = this.ray.ray.origin.clone(), d = v.clone().sub(from), far = d.length();
    const ray = new Raycaster(from, d.normalize(), 0, far - Math.max(1, 2 * scale));
    return ray.intersectObjects(this.stage.parts.filter(o => !o.faded).map(o => o.body), false).some(h => !this.gone(h.point));
  }
}

function rimOf(o) {
  const s = o.rim.geometry.getAttribute('instanceStart'), e = o.rim.geometry.getAttribute('instanceEnd');
  const out = [];
  for (let i = 0; i < s.count; i++) out.push(s.getX(i), s.getY(i), s.getZ(i), e.getX(i), e.getY(i), e.getZ(i));
  return out;
}
