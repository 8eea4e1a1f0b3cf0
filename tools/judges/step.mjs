// Reads STEP files with an independent kernel and prints what it found, as a
// JSON list: for each file the solids by name, with volume (mm³, of the
// triangles that the kernel made of them), least and greatest corner, the
// number of its faces, and the number of triangle edges that have no partner.
import { readFile } from "node:fs/promises";
import occt from "occt-import-js";

const kernel = await occt();
const params = { linearUnit: "millimeter", linearDeflectionType: "absolute_value", linearDeflection: 0.02, angularDeflection: 0.5 };

function measure(mesh) {
  const p = mesh.attributes.position.array;
  const t = mesh.index.array;
  const at = (i) => [p[3 * i], p[3 * i + 1], p[3 * i + 2]];
  const key = (v) => v.map((x) => Math.round(x * 1e4)).join(" ");
  let volume = 0;
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  const edges = new Map();
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [at(t[i]), at(t[i + 1]), at(t[i + 2])];
    volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
    for (const v of [a, b, c]) {
      for (let k = 0; k < 3; k++) {
        min[k] = Math.min(min[k], v[k]);
        max[k] = Math.max(max[k], v[k]);
      }
    }
    const keys = [key(a), key(b), key(c)];
    if (new Set(keys).size < 3) continue; // a sliver that the rounding closed
    for (let k = 0; k < 3; k++) {
      const [from, to] = [keys[k], keys[(k + 1) % 3]];
      edges.set(from + "|" + to, (edges.get(from + "|" + to) ?? 0) + 1);
    }
  }
  let open = 0;
  for (const [e, n] of edges) {
    const [from, to] = e.split("|");
    if ((edges.get(to + "|" + from) ?? 0) !== n) open++;
  }
  return { name: mesh.name, volume, min, max, faces: mesh.brep_faces.length, triangles: t.length / 3, open };
}

const out = [];
for (const name of process.argv.slice(2)) {
  const r = kernel.ReadStepFile(new Uint8Array(await readFile(name)), params);
  out.push({ file: name, success: r.success, solids: r.meshes.map(measure) });
}
console.log(JSON.stringify(out));
