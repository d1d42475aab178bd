// Jobs as the desk does them: what is known of each, and what can be asked of them.

import { type Listed } from "../lib/boats";
import { drafts, step, view } from "../lib/desk.svelte";
import { type Told, ask, hears } from "../lib/live.svelte";
import { say } from "../lib/say.svelte";
import type { JobState } from "../lib/told";
import type { Put } from "./question";

export const jobs: { all: JobState[]; fault: string } = $state({ all: [], fault: "" });

let following = 0;

// follow keeps the list true while somebody looks at it; it returns what ends that.
export function follow(): () => void {
  if (following++ > 0) return () => void following--;
  const ends = [hears("job", (body) => take(body as JobState)), hears("up", () => void reload()), hears("forgotten", (body) => drop(String(body)))];
  void reload();
  return () => {
    following--;
    for (const end of ends) end();
  };
}

// reload asks for all jobs, and for which files have changed since.
export async function reload(): Promise<void> {
  heard.clear();
  const told = await ask("jobs", { verb: "jobs", drafts: { ...drafts } });
  if (told && !told.error) jobs.all = (told.jobs ?? []).map((j) => heard.get(j.id) ?? j);
}

// heard are states told since the list was asked for: it may have been made before them.
const heard = new Map<string, JobState>();

function take(s: JobState): void {
  heard.set(s.id, s);
  const at = jobs.all.findIndex((j) => j.id === s.id);
  const was = jobs.all[at];
  if (at < 0) jobs.all.push(s);
  else jobs.all[at] = s;
  if (was && was.standing !== s.standing && s.standing !== "running") say(`${title(s)}: ${s.says}. ${s.so_far}`);
}

function drop(id: string): void {
  jobs.all = jobs.all.filter((j) => j.id !== id);
  if (view.job === id) view.job = "";
}

// run has a question done; the same one again joins the job that is there.
export async function run(p: Put): Promise<JobState | null> {
  const told = await ask("run", { verb: "run", boats: p.boats, question: { verb: p.verb, question: p.question }, drafts: { ...drafts } });
  return taken(told);
}

function taken(told: Told | null): JobState | null {
  if (!told) return null;
  jobs.fault = told.error ?? "";
  if (!told.job) return null;
  take(told.job);
  return told.job;
}

export async function order(verb: "cancel" | "resume", id: string): Promise<void> {
  taken(await ask(verb + id, { verb, question: { id } }));
}

// weigh says what forgetting a job would remove.
export async function weigh(id: string): Promise<string> {
  const told = await ask("forget" + id, { verb: "forget", question: { id } });
  return told?.text ?? told?.error ?? "";
}

// forget removes a job for good.
export async function forget(id: string): Promise<void> {
  const told = await ask("forget" + id, { verb: "forget", question: { id, sure: true } });
  jobs.fault = told?.error ?? "";
  if (told && !told.error) drop(id);
}

// title names a job by its question and boats.
export function title(s: JobState): string {
  const names = (s.boats ?? []).map((b) => b.name).join(", ");
  return `${{ odds: "Odds", why: "Why", polar: "Polar", trim: "What figures are worth", view: "Views", compare: "Side by side" }[s.verb] ?? s.verb}: ${names}`;
}

export const live = (s: JobState): boolean => s.standing === "running" || s.standing === "waiting";

interface Sailed {
  true_wind_speeds_mps?: number[];
  true_wind_angles_rad?: number[];
  aim?: string;
  wind_from?: string;
  wave_height_m?: number;
  wave_period_s?: number;
}

// bring puts a job's boats and conditions on the desk, with one of its charts.
export function bring(s: JobState, chart: string, listed: Listed[]): void {
  const q = s.question as Sailed;
  const files = (s.boats ?? []).map((b) => b.file).filter((f) => listed.some((l) => l.file === f));
  step("open " + title(s), () => {
    const kept = view.boats.filter((b) => files.includes(b.file));
    const free = [0, 1, 2, 3].filter((slot) => !kept.some((b) => b.slot === slot));
    view.boats = files.slice(0, 4).map((file) => kept.find((b) => b.file === file) ?? { file, slot: free.shift() ?? 0 });
    view.chosen = files.at(-1) ?? "";
    if (s.verb !== "polar") {
      view.tws = q.true_wind_speeds_mps?.[0] ?? view.tws;
      const angle = q.true_wind_angles_rad?.[0];
      if (angle !== undefined) Object.assign(view, { aim: "angle", twa: angle });
      else view.aim = q.aim === "best progress to leeward" ? "leeward" : "windward";
    }
    view.from = q.wind_from === "starboard" ? "starboard" : "port";
    view.wave_height = q.wave_height_m ?? 0;
    view.wave_period = q.wave_period_s ?? 0;
    view.chart = chart;
    view.page = "sail";
  });
}
