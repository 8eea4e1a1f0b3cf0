// What a point of the stock looks like, from where it lies in it: x along the
// face grain, y across it, z over the lower face, mm. A face, an edge, the floor
// of a housing and a section through it all show the same wood.
//
// Figures finer than the picture can show fade to their mean, so that nothing
// shimmers while the model turns.
export const woodShader = /* glsl */ `
uniform vec3 woodFace, woodEnd, woodSeed;
uniform vec4 woodLayers; // thickness, face veneer, inner veneer, number
uniform float woodKind;  // 0 plywood, 1 solid, 2 board
uniform float woodAcross; // 1: the face grain runs along the part's y
#ifdef BENT
uniform vec4 runA[RUNS]; // x0, x1, from
uniform vec4 runB[RUNS]; // direction, radius, angle
#endif

uniform sampler2D woodNoise; // 256 × 256 knots of chance that wrap round

// noise is chance that changes softly from knot to knot, 0 to 1. Coarser
// copies of it (mipmaps) let it go over to its mean by itself.
float noise(vec2 p) { return texture2D(woodNoise, p / 256.0).r; }

#ifdef BENT
// flatten returns where a point of the bent section lies in the strip laid flat
// (along it, over the inner face), and n, a direction, as the strip has it there.
vec2 flatten(vec2 p, inout vec2 n) {
  vec2 best = vec2(0.0);
  float least = 1e9;
  vec2 seen = n;
  for (int i = 0; i < RUNS; i++) {
    vec4 a = runA[i], b = runB[i];
    vec2 right = vec2(b.y, -b.x), rel = p - a.zw, at, dir = b.xy, down = right;
    float off;
    if (b.z > 0.0) {
      vec2 arm = rel - right * b.z;
      float turn = atan(dot(arm, b.xy), -dot(arm, right));
      float share = turn / b.w;
      off = max(0.0, max(-turn, turn - b.w)) * b.z;
      at = vec2(mix(a.x, a.y, share), woodLayers.x - (b.z - length(arm)));
      down = -normalize(arm);
      dir = vec2(-down.y, down.x);
    } else {
      float along = dot(rel, b.xy);
      off = max(0.0, max(-along, along - (a.y - a.x)));
      at = vec2(a.x + along, woodLayers.x - dot(rel, right));
    }
    off += max(0.0, max(-at.y, at.y - woodLayers.x));
    if (off < least) {
      least = off;
      best = at;
      seen = vec2(dot(n, dir), -dot(n, down));
    }
  }
  n = seen;
  return best;
}
#endif

// kept is how much of a figure is kept that repeats every size mm, where a pixel
// spans that many.
float kept(float pixel, float size) { return 1.0 - smoothstep(0.3, 1.0, pixel / size); }

vec3 figure(vec3 q, float end, vec3 face, vec3 across) {
  float side = q.y + 0.83 * q.z;
  float broad = noise(vec2(q.x / 400.0, side / 46.0) + woodSeed.xy * 31.0);
  float streak = noise(vec2(q.x / 90.0, side / 2.6) + woodSeed.yz * 17.0) - 0.5;
  float pores = noise(vec2(q.x / 11.0, side / 0.6) + woodSeed.zx * 13.0) - 0.5;
  vec3 c = mix(face, across, 0.62 * end);
  return c * (1.0 + (1.0 - end) * (0.11 * (broad - 0.5) + 0.12 * streak) + 0.13 * pores);
}

vec3 wood(vec3 p, vec3 n) {
#ifdef BENT
  vec2 m = n.xy;
  vec2 s = flatten(p.xy, m);
  vec3 q = vec3(s.x, -p.z, s.y);
  n = vec3(m.x, -n.z, m.y);
#else
  vec3 q = p;
#endif
  if (woodAcross > 0.5) {
    q = q.yxz;
    n = n.yxz;
  }
  // Of a pixel: how far apart in space, and how far in height over the face.
  vec3 dx = dFdx(p), dy = dFdy(p);
  float pixel = max(length(dx), length(dy));
  if (woodKind > 1.5) {
    float speck = noise((p.xy + 0.83 * p.z) / 0.9) - 0.5;
    return woodFace * (1.0 + 0.13 * speck);
  }
  if (woodKind > 0.5) { // rings round a heart that lies outside of the stick
    vec2 heart = vec2(q.y, q.z) - vec2(woodSeed.x * 30.0 - 60.0, -70.0 - woodSeed.y * 40.0);
    float r = length(heart) + 9.0 * noise(vec2(q.x / 170.0, (q.y + q.z) / 50.0) + woodSeed.xy * 31.0);
    float ring = fract(r / 4.2);
    float dark = smoothstep(0.35, 0.95, ring) * (1.0 - smoothstep(0.95, 1.0, ring));
    float late = mix(0.3, dark, kept(pixel, 2.4));
    float e = abs(n.x);
    return figure(q, e, woodFace, woodEnd) * (1.0 - 0.16 * late);
  }
  float t = woodLayers.x, f = woodLayers.y, v = woodLayers.z, count = woodLayers.w;
  float z = clamp(q.z, 0.001, t - 0.001);
  float high = sqrt(max(0.0, 1.0 - n.z * n.z)); // 0 on a face, 1 on an edge
  if (count < 2.0) return figure(q, 0.5 * high, woodFace, woodEnd);
  float inner = (z - f) / v;
  float layer = z < f ? 0.0 : z > t - f ? count - 1.0 : 1.0 + floor(inner);
  float turned = mod(layer, 2.0);
  vec3 l = turned > 0.5 ? q.yxz : q;
  float e = turned > 0.5 ? abs(n.y) : abs(n.x);
  vec3 sharp = figure(l + vec3(0.0, 0.0, layer * 37.0), e, woodFace, woodEnd);
  float edge = min(abs(z - f), abs(z - t + f));
  if (inner > 0.0 && inner < count - 2.0) edge = min(edge, min(fract(inner), 1.0 - fract(inner)) * v);
  float glue = (1.0 - smoothstep(0.04, 0.05 + 0.5 * pixel, edge)) * 0.34 * min(1.0, 0.2 / max(pixel, 0.05)) * high;
  sharp *= 1.0 - glue;
  vec3 mean = mix(woodFace, woodEnd, 0.31 * high) * (1.0 - 0.05 * high);
  return mix(sharp, mix(sharp, mean, 1.0 - kept(pixel, v * 1.2)), high);
}
`;
