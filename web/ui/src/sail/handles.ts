// Handles: what of a boat can be set, and how a pointer on the sheet sets it.

import { set } from "../lib/boats";
import { drag, drop, hand, step, view } from "../lib/desk.svelte";
import type { FigureSceneHandle, FigureScenePlace, StudyHeldState } from "../lib/told";
import { type Dot, type Eye, type Sheet, along, dot, on } from "./eye";

export type Handle = FigureSceneHandle;

const faces = 0.7; // cosine to the eye beyond which something turns in the plane of the sheet
const slides = 0.35; // share of a straight way that must lie in it

// seen tells whether a handle can be dragged from where the eye is.
export function seen(h: Handle, e: Eye): boolean {
  const p = h.place;
  if (!p || h.lower >= h.upper) return false;
  const turn = Math.hypot(...p.axis);
  if (turn > 0) return Math.abs(dot(p.axis, e.toward)) / turn > faces;
  return Math.hypot(...along(e, p.rate)) > slides * Math.hypot(...p.rate);
}

// pulled returns the value of a handle whose place was taken at one dot of the sheet and
// drawn to another.
export function pulled(h: Handle, value: number, place: FigureScenePlace, e: Eye, s: Sheet, from: Dot, to: Dot): number {
  const turn = dot(place.axis, e.toward);
  if (Math.hypot(...place.axis) > 0) {
    const c = on(s, e, place.pivot);
    const angle = (p: Dot) => Math.atan2(-(p[1] - c[1]), p[0] - c[0]);
    let by = angle(to) - angle(from);
    by -= 2 * Math.PI * Math.round(by / (2 * Math.PI));
    return stepped(h, value + Math.sign(turn) * by);
  }
  const way = along(e, place.rate);
  const square = (way[0] ** 2 + way[1] ** 2) * s.scale;
  return stepped(h, value + ((to[0] - from[0]) * way[0] + (to[1] - from[1]) * way[1]) / square);
}

// stepped is a value on the handle's steps, within its range.
export function stepped(h: Handle, value: number): number {
  return Math.min(h.upper, Math.max(h.lower, Math.round(value / h.step) * h.step));
}

// written writes a value as one writes it in a file.
export function written(unit: string, value: number): string {
  const short = (v: number) => String(Math.round(v * 1e5) / 1e5);
  switch (unit) {
    case "rad": return short((value * 180) / Math.PI) + " deg";
    case "1": return short(value * 100) + " %";
  }
  return short(value) + " " + unit;
}

// put sets a handle of a boat to a value in the state of the desk.
export function put(file: string, h: Handle, value: number): void {
  const held = view.way === "held" ? view.held[file] : undefined;
  if (!held) {
    if (h.hold !== "") set(view, file, h.name, written(h.unit, value));
    return;
  }
  const figure = figures[h.name];
  if (figure) (held[figure] as number) = value;
  else set(view, file, h.name, written(h.unit, value));
}

const figures: Record<string, keyof StudyHeldState> = {
  heel: "heel_to_leeward_rad", pitch: "pitch_rad", leeway: "leeway_rad", "ride height": "ride_height_m", speed: "speed_mps", "true wind angle": "true_wind_angle_rad",
};

// settable tells whether a handle can be set at all as the boat is sailed.
export function settable(h: Handle): boolean {
  return view.way === "held" ? true : h.hold !== "" && h.lower < h.upper;
}

// holds tells whether a balanced trim keeps a handle where it was put.
export function holds(file: string, h: Handle): boolean {
  return view.way === "balanced" && (view.holds[file] ?? []).some((s) => s.name === h.name);
}

// letGo gives a handle back to the trim.
export function letGo(file: string, h: Handle): void {
  step("let go of " + h.name, () => (view.holds[file] = (view.holds[file] ?? []).filter((s) => s.name !== h.name)));
}

let resting: ReturnType<typeof setTimeout> | undefined;

// take moves a handle within a drag.
export function take(file: string, h: Handle, value: number): void {
  clearTimeout(resting);
  if (hand.holds === h.name ? hand.value === value : h.value === value) return;
  hand.holds = h.name;
  hand.value = value;
  drag(h.name, () => put(file, h, value));
}

// leave ends a drag.
export function leave(): void {
  clearTimeout(resting);
  hand.holds = "";
  drop();
}

// key answers the keys of a slider; what is done by keys in one go is one step.
export function key(e: KeyboardEvent, file: string, h: Handle): void {
  const steps: Record<string, number> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 };
  const now = hand.holds === h.name ? hand.value : h.value; // answers may lag behind keys
  let value = now;
  if (e.key === "Home") value = h.lower;
  else if (e.key === "End") value = h.upper;
  else if (e.key in steps) value = stepped(h, now + steps[e.key]! * (e.shiftKey ? 10 : 1) * h.step);
  else return;
  e.preventDefault();
  take(file, h, value);
  resting = setTimeout(leave, 700);
}
