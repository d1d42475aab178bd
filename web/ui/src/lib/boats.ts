// Boats on the desk: their slots, colours and dashes, the same in every view.

import { type Shown, type View } from "./desk.svelte";

export interface Listed { file: string; boat: string }

export const most = 4; // boats side by side

export const dashes = ["", "7 4", "2 4", "9 3 2 3"];

// colour is a boat's colour as a style.
export function colour(slot: number): string {
  return `var(--boat-${slot})`;
}

// add puts a boat into the first free slot, so that no other boat changes colour.
export function add(v: View, file: string): void {
  if (v.boats.length >= most || v.boats.some((b) => b.file === file)) return;
  const taken = new Set(v.boats.map((b) => b.slot));
  const slot = [0, 1, 2, 3].find((s) => !taken.has(s))!;
  v.boats.push({ file, slot });
  if (v.chosen === "") v.chosen = file;
}

// remove takes a boat off the desk.
export function remove(v: View, file: string): void {
  v.boats = v.boats.filter((b: Shown) => b.file !== file);
  if (v.chosen === file) v.chosen = v.boats[0]?.file ?? "";
}

// choose makes a boat the one that is dragged and edited.
export function choose(v: View, file: string): void {
  v.chosen = file;
}

// move puts a boat into another place; the first is what others are compared with.
export function move(v: View, file: string, to: number): void {
  const from = v.boats.findIndex((b) => b.file === file);
  const [taken] = v.boats.splice(from, 1);
  if (taken) v.boats.splice(to, 0, taken);
}

// set holds a control of a boat: of the state that she is held in, or of her trims.
export function set(v: View, file: string, name: string, value: string): void {
  const held = v.way === "held" ? v.held[file] : undefined;
  const all = held ? (held.settings ??= []) : (v.holds[file] ??= []);
  const one = all.find((s) => s.name === name);
  if (one) one.value = value;
  else all.push({ name, value });
}

// list asks for the boat files of the folder.
export async function list(): Promise<Listed[]> {
  const got = await fetch("files");
  if (!got.ok) throw new Error(await got.text());
  return (await got.json()) as Listed[];
}
