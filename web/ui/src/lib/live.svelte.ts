// The socket to the desk: questions on lanes, where the latest wins.

import type { Chart } from "@charts/chart";
import { view } from "./desk.svelte";
import type { Heard, Told as Answered } from "./told";

// Told is an answer; a message with an event is news that nobody asked for. Charts are
// those that the chart sources draw.
export type Told = Omit<Answered, "charts"> & Partial<Heard> & { charts?: Chart[] };

export interface Question {
  verb: string;
  boats?: string[];
  question?: unknown;
  want?: string[];
  level?: number; // of bands on charts, per cent
  drafts?: Record<string, string>;
}

type Waiting = { seq: number; message: string; done: (told: Told | null) => void };

const waiting = new Map<string, Waiting>();
const listeners = new Map<string, Set<(body: unknown) => void>>();
let socket: WebSocket | undefined;
let last = 0;
let tries = 0;

// disk counts what was told of files that changed.
export const disk = $state({ changes: 0 });

// line tells whether the desk can be reached.
export const line = $state({ up: false });

// connect reaches for the desk, and goes on doing so while it cannot be reached.
export function connect(): void {
  const to = new URL("live", location.href);
  to.protocol = to.protocol === "https:" ? "wss:" : "ws:";
  to.hash = "";
  to.search = "";
  const own = new WebSocket(to);
  socket = own;
  own.onopen = () => {
    line.up = true;
    tries = 0;
    for (const w of waiting.values()) own.send(w.message);
    tellAll("up", null);
  };
  own.onmessage = (e) => hear(JSON.parse(String(e.data)) as Told);
  own.onclose = () => {
    if (socket !== own) return;
    line.up = false;
    setTimeout(connect, Math.min(5000, 200 * 2 ** tries++));
  };
}

function hear(told: Told): void {
  if (told.event) {
    if (told.event === "files") disk.changes++;
    tellAll(told.event, told.body);
    return;
  }
  const w = waiting.get(told.lane);
  if (!w || w.seq !== told.seq) return; // a newer question is under way
  waiting.delete(told.lane);
  w.done(told);
  tellAll("told", told);
}

function tellAll(event: string, body: unknown): void {
  for (const f of listeners.get(event) ?? []) f(body);
}

// ask puts a question, as it is or as its text, on a lane; what is asked within an effect is asked anew in other
// units, and when a file has changed on disk. The promise gives null where a newer one took its place.
export function ask(lane: string, q: Question | string): Promise<Told | null> {
  if (!socket) connect();
  const seq = ++last;
  void disk.changes;
  const text = typeof q === "string" ? q : JSON.stringify(q);
  const message = JSON.stringify({ lane, seq, units: view.units }).slice(0, -1) + "," + text.slice(1);
  return new Promise((done) => {
    waiting.get(lane)?.done(null);
    waiting.set(lane, { seq, message, done });
    if (socket?.readyState === WebSocket.OPEN) socket.send(message);
  });
}

// hears calls back at each event of a name that the desk sends; it returns what ends that.
export function hears(event: string, f: (body: unknown) => void): () => void {
  if (!socket) connect();
  let all = listeners.get(event);
  if (!all) listeners.set(event, (all = new Set()));
  all.add(f);
  return () => all.delete(f);
}
