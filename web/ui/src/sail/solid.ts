// A boat as solids: hulls lofted over their sections, foils over theirs.

import { BufferGeometry, Color, DoubleSide, EdgesGeometry, Float32BufferAttribute, Group, Line, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial, SphereGeometry, Vector3 } from "three";
import { type Scene, type Spot, list } from "./eye";

export interface Paints { page: string; ink: string; soft: string; water: string; boat: string }

const around = 17; // points of a hull's section
const ring = 10; // points of a foil's section

// evenly returns an open line as a number of points an even way apart.
function evenly(points: Spot[], n: number): Spot[] {
  const ends = [0];
  for (let i = 1; i < points.length; i++) ends.push(ends[i - 1]! + Math.hypot(...[0, 1, 2].map((k) => points[i]![k]! - points[i - 1]![k]!)));
  const whole = ends.at(-1)!;
  return Array.from({ length: n }, (_, k): Spot => {
    const at = (whole * k) / (n - 1);
    let i = 1;
    while (i < ends.length - 1 && ends[i]! < at) i++;
    const a = points[i - 1]!, b = points[i]!, t = (at - ends[i - 1]!) / (ends[i]! - ends[i - 1]! || 1);
    return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
  });
}

// skin stretches a surface over rings of equally many points, closed at both ends.
function skin(rings: Spot[][]): BufferGeometry {
  const n = rings[0]?.length ?? 0, index: number[] = [];
  for (let i = 0; i + 1 < rings.length; i++) {
    for (let k = 0; k < n; k++) {
      const a = i * n + k, b = i * n + ((k + 1) % n), c = a + n, d = b + n;
      index.push(a, c, b, b, c, d);
    }
  }
  for (const first of [0, (rings.length - 1) * n]) for (let k = 1; k + 1 < n; k++) index.push(first, first + k, first + k + 1);
  const g = new BufferGeometry();
  g.setAttribute("position", new Float32BufferAttribute(rings.flat(2), 3));
  g.setIndex(index);
  g.computeVertexNormals();
  return g;
}

// section is a foil's section as an oval between its edges.
function section(lead: Spot, trail: Spot, next: Spot, thick: number): Spot[] {
  const a = new Vector3(...lead), b = new Vector3(...trail), span = new Vector3(...next).sub(a);
  const chord = b.clone().sub(a), normal = chord.clone().cross(span).normalize().multiplyScalar(thick / 2), middle = a.clone().add(b).multiplyScalar(0.5);
  return Array.from({ length: ring }, (_, k): Spot => {
    const t = (2 * Math.PI * k) / ring;
    const p = middle.clone().addScaledVector(chord, 0.5 * Math.cos(t)).addScaledVector(normal, Math.sin(t));
    return [p.x, p.y, p.z];
  });
}

// boatOf builds a boat. What is wet is in the water's colour and what is dry in the
// page's, with its edges drawn.
export function boatOf(scene: Scene, paint: Paints): Group {
  const all = new Group();
  const put = (g: BufferGeometry, fill: string, edge: string, seeThrough: number) => {
    all.add(new Mesh(g, new MeshLambertMaterial({ color: new Color(fill), side: DoubleSide, transparent: seeThrough < 1, opacity: seeThrough, polygonOffset: true, polygonOffsetFactor: 1 })));
    all.add(new LineSegments(new EdgesGeometry(g, 28), new LineBasicMaterial({ color: new Color(edge) })));
  };
  const stroke = (points: Spot[], colour: string) =>
    all.add(new Line(new BufferGeometry().setFromPoints(points.map((p) => new Vector3(...p))), new LineBasicMaterial({ color: new Color(colour) })));
  for (const h of list(scene.hulls)) {
    put(skin(list(h.sections).map((s) => evenly(list(s), around))), paint.page, paint.ink, 1);
    const cut = list(h.water);
    if (cut.length > 2) stroke([...cut, cut[0]!], paint.water);
  }
  for (const p of list(scene.pieces)) {
    const lead = list(p.leading), trail = list(p.trailing), wet = list(p.wet), thick = list(p.thick);
    for (let from = 0; from < wet.length; ) {
      let to = from;
      while (to < wet.length && wet[to] === wet[from]) to++;
      const rings: Spot[][] = [];
      for (let i = from; i <= to; i++) rings.push(section(lead[i]!, trail[i]!, lead[Math.min(i + 1, lead.length - 1)] === lead[i] ? mirror(lead[i - 1]!, lead[i]!) : lead[i + 1]!, thick[i]!));
      put(skin(rings), wet[from] ? paint.water : paint.page, wet[from] ? paint.water : paint.ink, 1);
      from = to;
    }
  }
  for (const b of list(scene.bodies)) {
    const g = new SphereGeometry(0.5, 20, 12).scale(b.length, b.diameter, b.diameter).translate(...b.at);
    put(g, b.at[2] < 0 ? paint.water : paint.page, paint.soft, 1);
  }
  for (const s of list(scene.spars)) stroke([s[0], s[1]], paint.ink);
  for (const s of list(scene.sails)) {
    const g = new BufferGeometry();
    g.setAttribute("position", new Float32BufferAttribute([...s.tack, ...s.head, ...s.clew], 3));
    g.computeVertexNormals();
    put(g, paint.page, paint.soft, 0.35);
  }
  for (const w of list(scene.weights)) put(new SphereGeometry(0.09, 12, 8).translate(...w.at), paint.ink, paint.ink, 1);
  return all;
}

// mirror goes on from a to b by as much again.
function mirror(a: Spot, b: Spot): Spot {
  return [2 * b[0] - a[0], 2 * b[1] - a[1], 2 * b[2] - a[2]];
}
