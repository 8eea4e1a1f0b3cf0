// Asks a general mesh library about meshes. Reads JSON on its standard input:
//
//	{"bodies": [{"points": [x, y, z, …], "triangles": [i, j, k, …]}, …],
//	 "pairs":  [[i, j], …], "reach": mm}
//
// and prints, as JSON: for each body its volume (mm³) and status ("NoError" for
// a mesh that is tight), for each pair the volume that the two share and the
// least gap between them, no more than reach.
import { text } from "node:stream/consumers";
import Module from "manifold-3d";

const wasm = await Module();
wasm.setup();
const { Manifold, Mesh } = wasm;

const asked = JSON.parse(await text(process.stdin));
const bodies = asked.bodies.map((b) => {
  try {
    const mesh = new Mesh({ numProp: 3, vertProperties: new Float32Array(b.points), triVerts: new Uint32Array(b.triangles) });
    const body = new Manifold(mesh);
    return { body, volume: body.volume(), status: String(body.status()) };
  } catch (e) {
    return { body: null, volume: 0, status: String(e.message ?? e) };
  }
});
const pairs = asked.pairs.map(([i, j]) => {
  const [a, b] = [bodies[i].body, bodies[j].body];
  if (!a || !b) return { volume: -1, gap: -1 };
  return { volume: Manifold.intersection(a, b).volume(), gap: a.minGap(b, asked.reach) };
});
console.log(JSON.stringify({ bodies: bodies.map(({ volume, status }) => ({ volume, status })), pairs }));
