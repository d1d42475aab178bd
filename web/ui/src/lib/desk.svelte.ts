// What the page shows: one value, in the link, with a history. Everything on the page
// follows from it and from the files.

import { pack, sound, unpack } from "./link";
import { type StudyHeldState, opening } from "./told";

export type Aim = "windward" | "leeward" | "angle";
export type Page = "sail" | "edit" | "jobs";
export type Look = "front" | "side" | "top" | "solid";

// Setting is a control and its value with a unit, as on the command line.
export interface Setting { name: string; value: string }

// Shown is a boat on the desk. Its slot, 0 to 3, fixes colour, dash and marker.
export interface Shown { file: string; slot: number }

// Asks is how long questions are put, beside the conditions.
export interface Asks {
  samples: number;
  until: number; // largest sampling error of a chance, share; 0: samples count
  confidence: number; // share
  wind_deviation: number; // of the true wind, m/s
  bands: string; // winds over which bands are drawn, as typed
  anchor: string;
  tornado: boolean;
  figure: string; // that is split; empty for progress
  pairs: boolean;
  winds: string; // of a polar, as typed
  angles: string;
}

export interface View {
  page: Page;
  boats: Shown[];
  chosen: string; // file of the boat that is dragged and edited
  edited: string; // file in the editor, where it is not the chosen boat
  against: string; // what the text in the editor is compared with: "saved", or a boat's file
  tws: number; // m/s
  twa: number; // rad, where the aim is an angle
  aim: Aim;
  from: "port" | "starboard";
  wave_height: number; // m
  wave_period: number; // s
  mode: string; // that all boats sail in; empty for the best of all
  set: string; // of sails; empty for the best of all
  way: "held" | "balanced";
  held: Record<string, StudyHeldState>; // by file; wind speed and side are the desk's own
  holds: Record<string, Setting[]>; // what balanced trims keep, by file
  look: Look;
  under: string[]; // files of boats that are drawn under the chosen one
  wings: boolean; // circulation along wings is drawn
  chart: string; // kind of the chart that is open
  large: string; // kind of the chart that fills the row; empty for none
  cursor: number | null; // wind angle pointed at, rad
  level: 50 | 80 | 95;
  theme: "auto" | "light" | "dark";
  units: "trade" | "si";
  step: number | null; // of the present mode; null at work
  causes: number; // that are shown there
  job: string; // that is looked at on the page of jobs
  asks: Asks;
}

export const blank: View = {
  page: "sail", boats: [], chosen: "", tws: opening.tws, twa: (110 * Math.PI) / 180, aim: "windward", from: opening.from,
  wave_height: 0, wave_period: 0, mode: "", set: "", way: "balanced", held: {}, holds: {}, look: "front", under: [], wings: true, chart: "budget", large: "", cursor: null, level: 80,
  theme: "auto", units: "trade", step: null, causes: 0,
  job: "",
  edited: "",
  against: "",
  asks: {
    samples: 1024, until: 0, confidence: 0.8, wind_deviation: 0, bands: "", anchor: "", tornado: true,
    figure: "", pairs: false, winds: "8, 12, 16, 20 kn", angles: "40 to 150 deg by 10 deg",
  },
};

export const view: View = $state(structuredClone(blank));

// drafts are texts of boat files that differ from what is saved.
export const drafts: Record<string, string> = $state({});

// hand is what is being dragged, a handle's name or nothing, and where it was put last.
export const hand = $state({ holds: "", value: 0 });

interface Moment { view: string; drafts: string; what: string }
const past: Moment[] = [];
const future: Moment[] = [];
let open: Moment | null = null; // where the drag that is under way began
export const history = $state({ back: "", forward: "" });

const longest = 200; // steps

function now(what: string): Moment {
  return { view: JSON.stringify(view), drafts: JSON.stringify(drafts), what };
}

function restore(m: Moment): void {
  Object.assign(view, JSON.parse(m.view) as View);
  const texts = JSON.parse(m.drafts) as Record<string, string>;
  for (const f of Object.keys(drafts)) if (!(f in texts)) delete drafts[f];
  Object.assign(drafts, texts);
}

function told(): void {
  history.back = past.at(-1)?.what ?? "";
  history.forward = future.at(-1)?.what ?? "";
}

// step makes a change that undo takes back as one.
export function step(what: string, change: () => void): void {
  drop();
  const before = now(what);
  change();
  keep(before, "push");
}

const rest = 500; // ms for which a hand rests within a drag before the link follows
let resting: ReturnType<typeof setTimeout> | undefined;

// drag makes a change within a drag: all until drop are one step.
export function drag(what: string, change: () => void): void {
  open ??= now(what);
  change();
  clearTimeout(resting);
  resting = setTimeout(() => void write("replace"), rest);
}

// drop ends a drag.
export function drop(): void {
  clearTimeout(resting);
  if (!open) return;
  const before = open;
  open = null;
  keep(before, "push");
}

// cancel takes a drag back that is under way.
export function cancel(): void {
  clearTimeout(resting);
  if (!open) return;
  restore(open);
  open = null;
  void write("replace");
}

function keep(before: Moment, how: "push" | "replace"): void {
  const after = now("");
  if (after.view === before.view && after.drafts === before.drafts) return;
  past.push(before);
  if (past.length > longest) past.shift();
  future.length = 0;
  told();
  void write(how);
}

// rebase keeps steps true when a text is saved: to take back a step that had no draft of
// the file means the text that was on disk then.
export function rebase(file: string, was: string, now: string): void {
  for (const m of [...past, ...future, ...(open ? [open] : [])]) {
    const texts = JSON.parse(m.drafts) as Record<string, string>;
    const text = texts[file] ?? was;
    if (text === now) delete texts[file];
    else texts[file] = text;
    m.drafts = JSON.stringify(texts);
  }
}

export function undo(): void {
  drop();
  const m = past.pop();
  if (!m) return;
  future.push(now(m.what));
  restore(m);
  told();
  void write("push");
}

export function redo(): void {
  drop();
  const m = future.pop();
  if (!m) return;
  past.push(now(m.what));
  restore(m);
  told();
  void write("push");
}

// glance changes what is pointed at or looked up: in the link, but no step of its own.
export function glance(change: () => void): void {
  change();
  void write("replace");
}

// The view as it was last is kept in the tab too, with the links that it stood under: a
// browser that is told to load the page anew just as its history changes loads it as it was
// before. Where a tab may keep nothing, the history alone has to do.
interface Latest { state: string; links: string[] }

function keepLatest(latest: Latest): void {
  try {
    sessionStorage.setItem("view", JSON.stringify(latest));
  } catch {
    return;
  }
}

// keptLatest returns the view as it was last, unless another link has been opened since.
function keptLatest(): string | null {
  try {
    const kept = sessionStorage.getItem("view");
    const latest = kept === null ? null : (JSON.parse(kept) as Latest);
    return latest?.links.includes(location.hash) ? latest.state : null;
  } catch {
    return null;
  }
}

// write puts the view into the browser's history at once, so that a reload misses nothing,
// and into the link as soon as it is packed.
async function write(how: "push" | "replace"): Promise<void> {
  const state = JSON.stringify(view);
  const before = location.hash;
  keepLatest({ state, links: [before] });
  if (state === window.history.state) return;
  if (how === "push") window.history.pushState(state, "");
  else window.history.replaceState(state, "");
  await address(state, before);
}

// address makes the link say what the history holds, unless it holds something else by then.
async function address(state: string, before: string): Promise<void> {
  const link = "#" + (await pack(JSON.parse(state) as View));
  if (window.history.state !== state) return;
  keepLatest({ state, links: [before, link] });
  window.history.replaceState(state, "", link);
}

// begin reads the state from the tab where the page is loaded anew, else from the history
// or the link, and follows the browser's own back and forward.
export async function begin(): Promise<void> {
  const read = async (kept: unknown) => {
    const said = typeof kept === "string" ? sound(JSON.parse(kept)) : await unpack(location.hash.slice(1));
    if (said) Object.assign(view, structuredClone(blank), said);
    keepLatest({ state: JSON.stringify(view), links: [location.hash] });
    if (typeof kept !== "string") return;
    window.history.replaceState(kept, "");
    await address(kept, location.hash);
  };
  const [loaded] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
  const anew = loaded?.type === "reload" ? keptLatest() : null;
  await read(anew ?? window.history.state);
  window.addEventListener("popstate", () => {
    keepLatest({ state: "", links: [] }); // what is opened counts, be it read or not
    void read(window.history.state);
  });
}

// link returns an address that reopens this view.
export async function link(): Promise<string> {
  return new URL("#" + (await pack(view)), location.href).href;
}

// sailing is the wind as questions of package study carry it.
export function sailing(v: View): Record<string, unknown> {
  const q: Record<string, unknown> = { true_wind_speeds_mps: [v.tws], wind_from: v.from };
  if (v.aim === "angle") q.true_wind_angles_rad = [v.twa];
  else q.aim = v.aim === "windward" ? "best progress to windward" : "best progress to leeward";
  if (v.mode !== "") q.mode = v.mode;
  if (v.set !== "") q.set = v.set;
  if (v.wave_height > 0) {
    q.wave_height_m = v.wave_height;
    q.wave_period_s = v.wave_period;
  }
  return q;
}
