// Jobs as the desk tells of them: the latest one that answers a question.

import { jobs, order, run as ask } from "../jobs/jobs.svelte";
import { sailing, view } from "./desk.svelte";
import type { Put } from "../jobs/question";
import type { JobState } from "./told";

export const goesOn = (j: JobState | undefined) => j?.standing === "waiting" || j?.standing === "running";

// latest returns the newest job of a verb that asks what is asked of these boats, in
// their order.
export function latest(verb: string, files: string[], question: Record<string, unknown>): JobState | undefined {
  return jobs.all
    .filter((j) => j.verb === verb && j.standing !== "cancelled" && same((j.boats ?? []).map((b) => b.file), files) && asks(j.question, question))
    .sort((a, b) => (a.asked < b.asked ? 1 : -1))[0];
}

// asks tells whether a question is the same as far as it says anything: figures that are
// not said stand as where nothing is said.
function asks(theirs: unknown, mine: Record<string, unknown>): boolean {
  const t = theirs as Record<string, unknown>;
  const quiet = ["wave_height_m", "wave_period_s", "mode", "set", "winds_mps"];
  return Object.entries(mine).every(([k, v]) => same(t[k], v)) && quiet.every((k) => k in mine || t[k] === undefined || t[k] === 0 || t[k] === "") &&
    (!("true_wind_angles_rad" in t) || "true_wind_angles_rad" in mine);
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a));
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((x, i) => same(x, b[i]));
  return a === b;
}

// run asks for a job. The answer is what was wrong with it; empty for nothing.
export async function run(verb: Put["verb"], files: string[], question: Record<string, unknown>): Promise<string> {
  const job = await ask({ verb, boats: files, question });
  return job ? "" : jobs.fault;
}

export const cancel = (id: string): Promise<void> => order("cancel", id);

// The long questions that the desk offers.

export interface Long { verb: Put["verb"]; files: string[]; question: Record<string, unknown> }

const pair = () => view.boats.slice(0, 2).map((b) => b.file);
const degree = Math.PI / 180;

export const longWhy = (): Long => ({ verb: "why", files: pair(), question: sailing(view) });

export const longOdds = (): Long => ({ verb: "odds", files: view.boats.map((b) => b.file), question: { ...sailing(view), samples: 256, tornado: true } });

// windsOver are seven winds about the one on the desk.
function windsOver(): number[] {
  return [0.55, 0.7, 0.85, 1, 1.15, 1.3, 1.45].map((k) => Math.round(view.tws * k * 1000) / 1000);
}

export const longWinds = (): Long => ({ verb: "compare", files: view.boats.map((b) => b.file), question: { ...sailing(view), true_wind_speeds_mps: windsOver() } });

export const longBands = (): Long => ({ verb: "odds", files: view.boats.map((b) => b.file), question: { ...sailing(view), samples: 64, winds_mps: windsOver() } });

export function longPolars(): Long[] {
  const { true_wind_angles_rad: _, aim: __, ...rest } = sailing(view);
  const angles = Array.from({ length: 13 }, (_, i) => (40 + 10 * i) * degree);
  return view.boats.map((b) => ({ verb: "polar", files: [b.file], question: { ...rest, true_wind_angles_rad: angles } }));
}

// opened is the job that was opened on the page of jobs, where it is of these boats in
// the conditions on the desk: it may be put with other samples, winds or angles.
function opened(l: Long): JobState | undefined {
  const j = jobs.all.find((k) => k.id === view.job && k.standing === "done" && k.verb === l.verb && same((k.boats ?? []).map((b) => b.file), l.files));
  if (!j) return undefined;
  const { winds_mps } = j.question as { winds_mps?: number[] };
  if ((winds_mps !== undefined) !== ("winds_mps" in l.question)) return undefined;
  return l.verb === "polar" || asks(j.question, winds_mps ? { ...sailing(view), winds_mps } : sailing(view)) ? j : undefined;
}

export const found = (l: Long) => opened(l) ?? latest(l.verb, l.files, l.question);
