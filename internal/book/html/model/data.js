// The model as it is handed over, unpacked: see package model of the program.
import {BufferAttribute, BufferGeometry, Matrix4, Vector3} from 'three';

function bytes(text) {
  const raw = atob(text);
  const out = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i++) out[i] = raw.charCodeAt(i);
  return out.buffer;
}

// unpack returns the parts with their geometry, in their own frames. Nothing of
// the document is trusted to be whole: what does not fit throws.
export function unpack(doc) {
  if (doc?.format !== 1) throw new Error('a model of another format');
  const corners = new Float32Array(bytes(doc.corners));
  const normals = new Int8Array(bytes(doc.normals));
  const triangles = new Uint16Array(bytes(doc.triangles));
  const edges = new Float32Array(bytes(doc.edges));
  const parts = doc.parts.map((p, i) => {
    const [c0, c] = p.corner, [t0, t] = p.triangle, [e0, e] = p.edge;
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(corners.slice(3 * c0, 3 * (c0 + c)), 3));
    geometry.setAttribute('normal', new BufferAttribute(normals.slice(3 * c0, 3 * (c0 + c)), 3, true));
    geometry.setIndex(new BufferAttribute(triangles.slice(3 * t0, 3 * (t0 + t)), 1));
    const m = p.pose;
    const pose = new Matrix4().set(m[0], m[3], m[6], m[9], m[1], m[4], m[7], m[10], m[2], m[5], m[8], m[11], 0, 0, 0, 1);
    return {...p, index: i, geometry, pose, edges: edges.slice(6 * e0, 6 * (e0 + e)), apart: new Vector3(...p.apart)};
  });
  const moves = doc.moves.map(m => ({...m, at: new Vector3(...m.at), along: new Vector3(...m.along)}));
  return {...doc, parts, moves};
}

// placed returns where a part stands: open is how far each move has gone (0 to
// 1), apart how far the piece is taken apart (0 to 1).
export function placed(part, moves, open, apart) {
  const out = new Matrix4().copy(part.pose);
  moves.forEach((m, i) => {
    if (!m.parts.includes(part.index) || !open[i]) return;
    if (m.kind === 'slides') {
      out.premultiply(new Matrix4().makeTranslation(m.along.clone().multiplyScalar(m.most * open[i])));
    } else {
      const turn = new Matrix4().makeRotationAxis(m.along, (m.most * open[i] * Math.PI) / 180);
      out.premultiply(new Matrix4().makeTranslation(m.at.clone().negate())).premultiply(turn).premultiply(new Matrix4().makeTranslation(m.at));
    }
  });
  if (apart) out.premultiply(new Matrix4().makeTranslation(part.apart.clone().multiplyScalar(apart)));
  return out;
}
