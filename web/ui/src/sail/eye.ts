// From where a boat is looked at: points of the track frame (forward, to port, up) on a
// sheet, in metres across and up.

import type { Look } from "../lib/desk.svelte";
import type { FigureScenePart, FigureScenePull } from "../lib/told";

export type Spot = [number, number, number];
export type Scene = FigureScenePart;
export type Flat = "front" | "side" | "top";

export interface Eye {
  flat: Flat;
  name: string;
  across: Spot;
  up: Spot;
  toward: Spot; // out of the sheet, to who looks
  text: (f: FigureScenePull) => string; // what a force reads in the plane of the sheet
}

export const eyes: Record<Flat, Eye> = {
  front: { flat: "front", name: "from astern, looking forward", across: [0, -1, 0], up: [0, 0, 1], toward: [-1, 0, 0], text: (f) => f.front },
  side: { flat: "side", name: "from starboard", across: [1, 0, 0], up: [0, 0, 1], toward: [0, -1, 0], text: (f) => f.side },
  top: { flat: "top", name: "from above", across: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1], text: (f) => f.top },
};

export function eyeOf(look: Look): Eye {
  return eyes[look === "solid" ? "front" : look];
}

export const dot = (a: Spot, b: Spot): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const list = <T>(a: T[] | null | undefined): T[] => a ?? [];

// Sheet is how metres lie on the screen, px.
export interface Sheet { scale: number; left: number; top: number }

export type Dot = [number, number];

// on returns where a point lies on the sheet.
export function on(s: Sheet, e: Eye, p: Spot): Dot {
  return [s.left + s.scale * dot(p, e.across), s.top - s.scale * dot(p, e.up)];
}

// along returns a vector on the sheet, in its own unit, down the screen as px go.
export function along(e: Eye, v: Spot): Dot {
  return [dot(v, e.across), -dot(v, e.up)];
}

// line writes points as a path.
export function line(points: Dot[], closed = ""): string {
  let out = "";
  for (let i = 0; i < points.length; i++) {
    const p = points[i]!;
    out += (i ? "L" : "M") + Math.round(p[0] * 10) / 10 + " " + Math.round(p[1] * 10) / 10;
  }
  return out + closed;
}

// fit returns the sheet on which all that matters of a scene is seen; the rig above the
// sails' centres of effort is cut off.
export function fit(scene: Scene, e: Eye, width: number, height: number): Sheet {
  const points: Spot[] = [];
  for (const h of list(scene.hulls)) points.push(...list(h.sections).flatMap((s) => list(s)));
  for (const p of list(scene.pieces)) points.push(...list(p.leading), ...list(p.trailing));
  for (const f of list(scene.forces)) points.push(f.at);
  for (const w of list(scene.weights)) points.push(w.at);
  if (points.length === 0) return { scale: 30, left: width / 2, top: height / 2 };
  const xs = points.map((p) => dot(p, e.across)), ys = points.map((p) => dot(p, e.up));
  const left = Math.min(...xs), right = Math.max(...xs), low = Math.min(...ys), high = Math.max(...ys);
  const side = Math.min(190, width * 0.24); // labels stand there
  const scale = Math.min((width - 2 * side) / (right - left), (height - 86) / (high - low));
  return { scale, left: width / 2 - (scale * (left + right)) / 2, top: (height - 26) / 2 + (scale * (low + high)) / 2 };
}
