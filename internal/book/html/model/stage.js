// The stage: parts, light, the paper that they stand on, and the plane that cuts
// them. It draws when it is told to and not otherwise.
import {AmbientLight, Box3, DirectionalLight, Group, HemisphereLight, Matrix4, Mesh, PCFShadowMap, Plane, PlaneGeometry, Scene, ShadowMaterial, Vector3, WebGLRenderer} from 'three';
import {LineMaterial} from 'three/addons/lines/LineMaterial.js';
import {LineSegments2} from 'three/addons/lines/LineSegments2.js';
import {LineSegmentsGeometry} from 'three/addons/lines/LineSegmentsGeometry.js';
import {placed} from './data.js';
import {counts, face, fill, stockOf} from './wood.js';
import {crossing} from './section.js';
import {contour, ridges} from './contour.js';

const ghost = 0.07; // how much is seen of a part that is faded

export class Stage {
  constructor(canvas) {
    const context = canvas.getContext('webgl2', {alpha: true, antialias: true, depth: true, stencil: true});
    if (!context) throw new Error('no WebGL 2'); // asked for here, where failing is no noise on the console
    this.gl = new WebGLRenderer({canvas, context, antialias: true, alpha: true, stencil: true});
    this.gl.setClearColor(0, 0);
    this.gl.localClippingEnabled = true;
    this.gl.shadowMap.enabled = true;
    this.gl.shadowMap.type = PCFShadowMap;
    this.gl.shadowMap.autoUpdate = false;
    this.scene = new Scene();
    this.plane = new Plane();
    this.cut = null;
    this.lines = new LineMaterial({color: 0x24211d, linewidth: 1, transparent: true, opacity: 0.88});
    this.faint = new LineMaterial({color: 0x6f665a, linewidth: 0.9, transparent: true, opacity: 0.6});
    this.heavy = new LineMaterial({color: 0x24211d, linewidth: 2.1});
    this.light();
  }

  light() {
    this.scene.add(new HemisphereLight(0xffffff, 0xdcd2c4, 1.62));
    this.key = new DirectionalLight(0xfffaf2, 1.62);
    this.key.castShadow = true;
    this.key.shadow.mapSize.set(1024, 1024);
    this.key.shadow.radius = 5;
    this.key.shadow.intensity = 0.72;
    this.fill = new DirectionalLight(0xffffff, 0.5); // from where one looks
    this.scene.add(this.key, this.key.target, this.fill, this.fill.target, new AmbientLight(0xffffff, 0.12));
    this.floor = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({transparent: true, depthWrite: false}));
    this.floor.receiveShadow = true;
    this.floor.renderOrder = -1;
    this.scene.add(this.floor);
  }

  // show puts another model on the stage.
  show(model) {
    this.clear();
    this.model = model;
    this.parts = model.parts.map(p => this.put(p));
    this.rest = this.boxOf(p => placed(p, [], [], 0));
  }

  put(p) {
    const stock = stockOf(this.model, p);
    const group = new Group();
    group.matrixAutoUpdate = false;
    const body = new Mesh(p.geometry, face(p, stock));
    body.castShadow = body.receiveShadow = true;
    body.userData.part = p.index;
    const lines = new LineSegments2(new LineSegmentsGeometry().setPositions(p.edges), this.lines);
    const inner = counts().map(m => new Mesh(p.geometry, m));
    const cap = new Mesh(new PlaneGeometry(1, 1), fill(p, stock));
    cap.onAfterRender = r => r.clearStencil();
    inner.forEach(m => ((m.renderOrder = p.index + 1), (m.visible = false)));
    cap.renderOrder = p.index + 1.1;
    cap.visible = false;
    group.add(body, lines, ...inner);
    this.scene.add(group, cap);
    if (!p.geometry.boundingBox) p.geometry.computeBoundingBox();
    return {part: p, group, body, lines, inner, cap, ridges: ridges(p.geometry), rim: null, faded: false};
  }

  clear() {
    for (const o of this.parts ?? []) {
      this.scene.remove(o.group, o.cap);
      if (o.rim) this.scene.remove(o.rim), o.rim.geometry.dispose();
      o.part.geometry.dispose();
      o.lines.geometry.dispose();
      o.cap.geometry.dispose();
      for (const m of [o.body, o.cap, ...o.inner]) m.material.dispose();
    }
    this.parts = [];
  }

  // boxOf is the box round all parts, where matrix tells that each stands.
  boxOf(matrix) {
    const all = new Box3();
    for (const {part} of this.parts) all.union(part.geometry.boundingBox.clone().applyMatrix4(matrix(part)));
    return all;
  }

  // corners are those of the boxes of all parts where they stand, as far as the
  // section leaves them.
  corners() {
    const out = [];
    for (const o of this.parts) {
      const b = o.part.geometry.boundingBox, world = o.group.matrix;
      for (let i = 0; i < 8; i++) {
        const v = new Vector3(i & 1 ? b.max.x : b.min.x, i & 2 ? b.max.y : b.min.y, i & 4 ? b.max.z : b.min.z).applyMatrix4(world);
        if (this.cut && (v[this.cut.axis] - this.cut.at) * this.cut.beyond > 0) v[this.cut.axis] = this.cut.at;
        out.push(v);
      }
    }
    return out;
  }

  // stand puts every part where it is to be.
  stand(open, apart) {
    for (const o of this.parts) {
      o.group.matrix.copy(placed(o.part, this.model.moves, open, apart));
      o.group.matrixWorldNeedsUpdate = true;
    }
    this.scene.updateMatrixWorld(true);
    this.box = this.boxOf(p => this.parts[p.index].group.matrix);
    const size = this.box.getSize(new Vector3()), mid = this.box.getCenter(new Vector3());
    const r = size.length() / 2;
    const side = this.model.left ? -1 : 1;
    this.key.position.copy(mid).add(new Vector3(side * 0.42, 0.95, 0.62).normalize().multiplyScalar(3 * r));
    this.key.target.position.copy(mid);
    const s = this.key.shadow.camera;
    s.left = s.bottom = -1.25 * r;
    s.right = s.top = 1.25 * r;
    s.near = r;
    s.far = 6 * r;
    s.updateProjectionMatrix();
    this.key.shadow.bias = -0.0006;
    this.key.shadow.normalBias = r / 900;
    this.ground(apart, r);
    this.section();
    this.gl.shadowMap.needsUpdate = true;
  }

  // ground is the paper under a piece that stands, behind one that hangs; one of
  // which neither is known throws no shadow on anything. It goes when the piece is taken apart, for then parts lie beyond it.
  ground(apart, r) {
    const stands = this.model.ground === 'floor';
    const f = this.floor, mid = this.rest.getCenter(new Vector3());
    f.scale.setScalar(12 * r);
    f.rotation.set(stands ? -Math.PI / 2 : 0, 0, 0);
    f.position.set(mid.x, stands ? this.rest.min.y - 0.3 : mid.y, stands ? mid.z : this.rest.min.z - 0.3);
    this.shade = this.model.ground ? 0.2 * Math.max(0, 1 - 3 * apart) : 0;
  }

  // cutBy cuts with the plane where axis is at ("x", "y" or "z"), and takes away
  // what lies on the side beyond (1 or -1); none puts all back.
  cutBy(cut) {
    this.cut = cut;
    this.section();
    this.gl.shadowMap.needsUpdate = true;
  }

  section() {
    const planes = this.cut ? [this.plane] : null;
    if (this.cut) {
      const n = new Vector3();
      n[this.cut.axis] = -this.cut.beyond;
      this.plane.set(n, this.cut.beyond * this.cut.at);
    }
    for (const m of [this.lines, this.faint]) m.clippingPlanes = planes;
    for (const o of this.parts) {
      const world = o.group.matrix;
      const box = o.part.geometry.boundingBox.clone().applyMatrix4(world);
      const met = Boolean(this.cut) && !o.faded && box.min[this.cut.axis] < this.cut.at && box.max[this.cut.axis] > this.cut.at;
      o.body.material.clippingPlanes = planes;
      o.body.material.clipShadows = true;
      o.inner.forEach(m => ((m.visible = met), (m.material.clippingPlanes = planes)));
      o.cap.visible = met;
      if (o.rim) {
        this.scene.remove(o.rim);
        o.rim.geometry.dispose();
        o.rim = null;
      }
      if (!met) continue;
      const mid = box.getCenter(new Vector3()), size = box.getSize(new Vector3());
      mid[this.cut.axis] = this.cut.at;
      o.cap.position.copy(mid);
      o.cap.scale.setScalar(size.length() * 1.2);
      o.cap.lookAt(mid.clone().addScaledVector(this.plane.normal, -1));
      o.cap.material.userData.from.value = new Matrix4().copy(world).invert();
      const rim = crossing(o.part.geometry, world, this.plane);
      if (rim.length) {
        o.rim = new LineSegments2(new LineSegmentsGeometry().setPositions(rim), this.heavy);
        this.scene.add(o.rim);
      }
    }
  }

  // fade makes a part clear but for its edges, or whole again.
  fade(i, on) {
    const o = this.parts[i];
    o.faded = on;
    const m = o.body.material;
    m.transparent = on;
    m.opacity = on ? ghost : 1;
    m.depthWrite = !on;
    m.needsUpdate = true;
    o.body.castShadow = !on;
    o.lines.material = on ? this.faint : this.lines;
    this.section();
    this.gl.shadowMap.needsUpdate = true;
  }

  // turning draws the lines at which round faces turn away from the eye.
  turning(eye) {
    if (this.turned) {
      this.scene.remove(this.turned);
      this.turned.geometry.dispose();
      this.turned = null;
    }
    const out = [];
    for (const o of this.parts) if (!o.faded && o.ridges.length) contour(o.ridges, o.group.matrix, eye, out);
    if (!out.length) return;
    this.turned = new LineSegments2(new LineSegmentsGeometry().setPositions(out), this.lines);
    this.turned.frustumCulled = false;
    this.scene.add(this.turned);
  }

  draw(eye, width, height, share) {
    const ratio = Math.min(devicePixelRatio || 1, 2) * share;
    if (this.gl.getPixelRatio() !== ratio) this.gl.setPixelRatio(ratio);
    const c = this.gl.domElement;
    if (c.width !== Math.floor(width * ratio) || c.height !== Math.floor(height * ratio)) this.gl.setSize(width, height, false);
    eye.place(width, height);
    this.turning(eye.camera.position);
    const d = eye.direction();
    this.fill.position.copy(d).multiplyScalar(1000).add(eye.camera.position);
    this.fill.target.position.copy(eye.camera.position);
    this.fill.target.updateMatrixWorld();
    const before = this.model.ground === 'floor' ? d.y > 0.02 : d.z > 0.02;
    this.floor.visible = before && this.shade > 0.004;
    this.floor.material.opacity = this.shade;
    this.gl.render(this.scene, eye.camera);
  }
}
