// What is seen of a boat: her scene, asked for as the state of the desk changes. While
// she is dragged one question is under way and the newest follows it.

import { drafts, hand, sailing, view } from "../lib/desk.svelte";
import { type Question, ask } from "../lib/live.svelte";
import type { StudyHeldState } from "../lib/told";
import { type Scene, list } from "./eye";

const blink = 120; // ms
const read = 100; // ms for which figures stand at least while dragging: nobody reads faster

export class Sight {
  scene: Scene | null = $state.raw(null); // what is drawn
  told: Scene | null = $state.raw(null); // what is told in figures: follows it
  title = $state("");
  under = $state("");
  fault = $state("");
  waiting = $state(false); // for longer than a blink
  #lane: string;
  #last = "";
  #next: Question | null = null;
  #asking: Question | null = null;
  #telling: ReturnType<typeof setTimeout> | undefined;
  #seen: (() => void) | null = null;

  constructor(lane: string) {
    this.#lane = lane;
  }

  // look asks for a scene. What takes long is given up for what is newer. Where nothing is
  // seen yet, what there is to see at once is asked for first.
  look(q: Question): void {
    const text = view.units + JSON.stringify(q);
    if (text === this.#last) return;
    this.#last = text;
    if (this.#asking && quick(this.#asking)) this.#next = q;
    else if (this.scene === null && q.verb === "view") void this.#send({ ...q, question: { ...(q.question as object), first: true } }, q);
    else void this.#send(q);
  }

  // send puts a question; behind a first answer the whole one follows.
  async #send(q: Question, whole: Question | null = null): Promise<void> {
    this.#asking = q;
    this.#next = null;
    const slow = setTimeout(() => { if (this.#asking === q) this.waiting = true; }, blink);
    const told = await ask(this.#lane, q);
    clearTimeout(slow);
    if (this.#asking !== q) return;
    this.#asking = null;
    if (told) {
      const chart = told.charts?.[0] as { title: string; under: string; scene?: Scene } | undefined;
      this.fault = told.error ?? (chart?.scene ? "" : told.missing?.[0] ?? "");
      if (chart?.scene) this.#see(chart.scene, chart.title, chart.under);
    }
    const next = (this.#next as Question | null) ?? (this.scene?.way === "first answer" ? whole : null);
    if (next) void this.#send(next);
    else this.waiting = false;
  }

  // see draws a scene at once, and tells its figures at once or, while dragging, a little
  // later. What is not worked out while dragging stands as it was.
  #see(scene: Scene, title: string, under: string): void {
    const before = new Map(list(this.scene?.figures).map((f) => [f.name, f.text]));
    scene.figures = list(scene.figures).map((f) => (f.later ? { ...f, text: before.get(f.name) ?? "…" } : f));
    this.scene = scene;
    this.#seen = () => {
      this.#telling = undefined;
      this.told = scene;
      this.title = title;
      this.under = under;
    };
    if (hand.holds !== "" && this.told !== null) {
      this.#telling ??= setTimeout(() => this.#seen?.(), read);
      return;
    }
    clearTimeout(this.#telling);
    this.#seen();
  }

  // forget begins anew, with another boat.
  forget(): void {
    clearTimeout(this.#telling);
    this.#telling = undefined;
    this.scene = this.told = null;
  }
}

// quick tells whether a question is answered at once, or nearly.
function quick(q: Question): boolean {
  const { near, first } = q.question as { near?: boolean; first?: boolean };
  return q.verb === "hold" || near === true || first === true;
}

// stateOf returns the state that a boat is held in, in the wind of the desk.
export function stateOf(file: string): StudyHeldState | null {
  const held = view.held[file];
  if (!held) return null;
  return {
    ...held, settings: list(held.settings).map((s) => ({ ...s })),
    true_wind_speed_mps: view.tws, wind_from: view.from, true_wind_angle_rad: view.aim === "angle" ? view.twa : held.true_wind_angle_rad,
  };
}

// question returns what is asked about a boat for her scene.
export function question(file: string): Question {
  const state = view.way === "held" ? stateOf(file) : null;
  const common = { boats: [file], want: ["scene"], drafts: { ...drafts } };
  const dragged = hand.holds !== "";
  if (state) {
    const sea = view.wave_height > 0 ? { wave_height_m: view.wave_height, wave_period_s: view.wave_period } : {};
    return { verb: "hold", question: { states: [state], ...sea, dragged }, ...common };
  }
  const holds = view.way === "balanced" ? list(view.holds[file]).map((s) => ({ ...s })) : [];
  return { verb: "view", question: { ...sailing(view), holds, near: dragged }, ...common };
}
