// Where a round face turns away from the eye a drawing has a line, though no
// edge is there. Which of the chords that is changes as the model turns.
import {Matrix4, Vector3} from 'three';

// Chords of drilled holes turn by more than the angle of this cosine (a radius of
// some 15 mm, with chords as package model makes them): theirs would be specks.
const slight = 0.96;

// ridges lists the chords at which two triangles of a round face meet: two ends
// and the two outward normals, twelve numbers each, in the part's frame.
export function ridges(geometry) {
  const p = geometry.getAttribute('position'), index = geometry.index;
  const place = new Map(), at = [], half = new Map(), out = [];
  for (let i = 0; i < p.count; i++) {
    const key = `${p.getX(i).toFixed(3)} ${p.getY(i).toFixed(3)} ${p.getZ(i).toFixed(3)}`;
    if (!place.has(key)) place.set(key, place.size);
    at.push(place.get(key));
  }
  const v = i => new Vector3().fromBufferAttribute(p, i);
  for (let i = 0; i < index.count; i += 3) {
    const t = [index.getX(i), index.getX(i + 1), index.getX(i + 2)];
    const a = v(t[0]), n = v(t[1]).sub(a).cross(v(t[2]).sub(a)).normalize();
    for (let k = 0; k < 3; k++) {
      const from = t[k], to = t[(k + 1) % 3];
      const other = half.get(at[to] * 65536 + at[from]);
      if (!other) {
        half.set(at[from] * 65536 + at[to], n);
        continue;
      }
      const turn = n.dot(other), b = v(from), c = v(to);
      if (turn < slight || turn > 0.99999) continue;
      out.push(b.x, b.y, b.z, c.x, c.y, c.z, n.x, n.y, n.z, other.x, other.y, other.z);
    }
  }
  return out;
}

// contour adds to a list the ridges at which a part, standing where the matrix
// says, turns away from the eye.
export function contour(list, world, eye, out) {
  const e = eye.clone().applyMatrix4(new Matrix4().copy(world).invert());
  const v = new Vector3();
  for (let i = 0; i < list.length; i += 12) {
    const x = e.x - list[i], y = e.y - list[i + 1], z = e.z - list[i + 2];
    const one = x * list[i + 6] + y * list[i + 7] + z * list[i + 8];
    const two = x * list[i + 9] + y * list[i + 10] + z * list[i + 11];
    if (one > 0 === two > 0) continue;
    for (const k of [i, i + 3]) {
      v.set(list[k], list[k + 1], list[k + 2]).applyMatrix4(world);
      out.push(v.x, v.y, v.z);
    }
  }
}
