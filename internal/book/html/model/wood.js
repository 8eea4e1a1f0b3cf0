// Materials: wood as the shader has it, under three's own light and shadow.
import {AlwaysStencilFunc, BackSide, Color, DataTexture, DecrementWrapStencilOp, DoubleSide, FrontSide, IncrementWrapStencilOp, LinearFilter, LinearMipmapLinearFilter, MeshBasicMaterial, MeshLambertMaterial, NotEqualStencilFunc, RedFormat, RepeatWrapping, SRGBColorSpace, Vector3, Vector4, ZeroStencilOp} from 'three';
import {woodShader} from './wood.glsl.js';

const kinds = {plywood: 0, solid: 1, board: 2};
const grey = {kind: 'board', face: [205, 203, 198], end: [205, 203, 198]};

const colour = c => new Color().setRGB(c[0] / 255, c[1] / 255, c[2] / 255, SRGBColorSpace);

// chance is the shader's noise: the same at each start, for it is no real chance.
const chance = (() => {
  const n = 256, data = new Uint8Array(n * n);
  for (let i = 0, x = 2463534242; i < data.length; i++) {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    data[i] = x & 255;
  }
  const t = new DataTexture(data, n, n, RedFormat);
  t.wrapS = t.wrapT = RepeatWrapping;
  t.magFilter = LinearFilter;
  t.minFilter = LinearMipmapLinearFilter;
  t.anisotropy = 2;
  t.generateMipmaps = t.needsUpdate = true;
  return t;
})();

// uniforms are what the shader wants to know of one part.
function uniforms(part, stock) {
  const l = stock.layers ?? [];
  const u = {
    woodFace: {value: colour(stock.face)}, woodEnd: {value: colour(stock.end)},
    woodSeed: {value: new Vector3((part.number * 7.31) % 5, (part.number * 3.17) % 7, (part.number * 1.93) % 3)},
    woodLayers: {value: new Vector4(part.thick, l[0] ?? part.thick, l[1] ?? l[0] ?? part.thick, l.length)},
    woodNoise: {value: chance}, woodKind: {value: kinds[stock.kind] ?? 2}, woodAcross: {value: part.grain === 'y' ? 1 : 0},
  };
  if (part.run) {
    u.runA = {value: part.run.map(r => new Vector4(r[0], r[1], r[2], r[3]))};
    u.runB = {value: part.run.map(r => new Vector4(r[4], r[5], r[6], r[7]))};
  }
  return u;
}

// dress puts the wood into one of three's materials; place is the vertex
// shader's words for the point and the normal in the part's frame.
function dress(m, part, u, place) {
  m.defines = part.run ? {BENT: '', RUNS: part.run.length} : {};
  m.onBeforeCompile = s => {
    Object.assign(s.uniforms, u);
    s.vertexShader = s.vertexShader.replace('#include <common>', '#include <common>\nvarying vec3 woodP, woodN;\nuniform mat4 woodFrom;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\n' + place);
    s.fragmentShader = s.fragmentShader.replace('#include <common>', '#include <common>\nvarying vec3 woodP, woodN;\n' + woodShader)
      .replace('#include <color_fragment>', 'diffuseColor.rgb *= wood(woodP, normalize(woodN));');
  };
  m.customProgramCacheKey = () => place + (part.run?.length ?? 0);
  return m;
}

export const stockOf = (scene, part) => scene.stocks[part.stock] ?? grey;

// face is the material of a part's faces.
export function face(part, stock) {
  const m = new MeshLambertMaterial({polygonOffset: true, polygonOffsetFactor: 1.2, polygonOffsetUnits: 1, side: FrontSide, shadowSide: FrontSide});
  return dress(m, part, uniforms(part, stock), 'woodP = position; woodN = normal;');
}

// fill is the material of what a section cuts: the wood at the plane, wherever
// the stencil says that the plane is within the part.
export function fill(part, stock) {
  const from = {value: null};
  const m = new MeshBasicMaterial({side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1.2, polygonOffsetUnits: 1,
    stencilWrite: true, stencilRef: 0, stencilFunc: NotEqualStencilFunc, stencilFail: ZeroStencilOp, stencilZFail: ZeroStencilOp, stencilZPass: ZeroStencilOp});
  dress(m, part, {...uniforms(part, stock), woodFrom: from},
    'woodP = (woodFrom * modelMatrix * vec4(position, 1.0)).xyz; woodN = mat3(woodFrom) * mat3(modelMatrix) * vec3(0.0, 0.0, 1.0);');
  m.userData.from = from;
  return m;
}

// counts are the materials that count, without a colour, how often one goes into
// a part before the plane is met.
export function counts() {
  return [BackSide, FrontSide].map(side => {
    const op = side === BackSide ? IncrementWrapStencilOp : DecrementWrapStencilOp;
    return new MeshBasicMaterial({side, colorWrite: false, depthWrite: false, depthTest: false, stencilWrite: true,
      stencilFunc: AlwaysStencilFunc, stencilFail: op, stencilZFail: op, stencilZPass: op});
  });
}
