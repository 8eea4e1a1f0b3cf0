// Where a plane meets a body: the lines that a section draws heavy.
import {Vector3} from 'three';

// crossing returns the stretches in which a plane cuts the triangles of a body
// that stands where the matrix says: two corners of three numbers each.
export function crossing(geometry, matrix, plane) {
  const p = geometry.getAttribute('position'), index = geometry.index;
  const at = [], side = [];
  for (let i = 0; i < p.count; i++) {
    const v = new Vector3().fromBufferAttribute(p, i).applyMatrix4(matrix);
    at.push(v);
    // a corner in the plane counts as before it, so that each cut has two ends
    side.push(plane.distanceToPoint(v) + 1e-4);
  }
  const out = [];
  for (let i = 0; i < index.count; i += 3) {
    const t = [index.getX(i), index.getX(i + 1), index.getX(i + 2)];
    const ends = [];
    for (let k = 0; k < 3; k++) {
      const a = t[k], b = t[(k + 1) % 3];
      if (side[a] > 0 === side[b] > 0) continue;
      ends.push(at[a].clone().lerp(at[b], side[a] / (side[a] - side[b])));
    }
    if (ends.length === 2) out.push(ends[0].x, ends[0].y, ends[0].z, ends[1].x, ends[1].y, ends[1].z);
  }
  return out;
}
