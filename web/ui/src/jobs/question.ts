// Long questions as the desk puts them: what is on it, in the conditions that it shows.

import { type View, sailing } from "../lib/desk.svelte";
import { ask } from "../lib/live.svelte";

export type Long = "odds" | "why" | "polar" | "trim";

export interface Put { verb: Long | "compare"; boats: string[]; question: Record<string, unknown> }

// Unput tells why a question cannot be put.
export class Unput extends Error {}

async function figures(text: string, unit: string): Promise<number[]> {
  const told = await ask("list " + unit + text, { verb: "list", question: { unit, text } });
  if (!told) throw new Unput("asked anew");
  if (!told.list) throw new Unput(told.error ?? "");
  return told.list.values ?? [];
}

async function said(value: number): Promise<string> {
  const told = await ask("said " + value, { verb: "read", question: { unit: "m/s", value } });
  if (!told?.figure) throw new Unput(told?.error ?? "asked anew");
  return told.figure.text;
}

// boatsOf returns which boats a question is about; empty where the desk has too few.
export function boatsOf(v: View, verb: Long): string[] {
  const all = v.boats.map((b) => b.file);
  switch (verb) {
    case "odds":
      return all;
    case "why": {
      const first = all[0];
      const second = v.chosen !== first && all.includes(v.chosen) ? v.chosen : all[1];
      return first !== undefined && second !== undefined ? [first, second] : [];
    }
    default:
      return all.includes(v.chosen) ? [v.chosen] : all.slice(0, 1);
  }
}

// put makes a long question of what the desk shows. It throws Unput where it cannot.
export async function put(v: View, verb: Long): Promise<Put> {
  const boats = boatsOf(v, verb);
  if (boats.length === 0) throw new Unput(verb === "why" ? "Why takes two boats: add another one above." : "Add a boat above.");
  const question = sailing(v);
  const a = v.asks;
  switch (verb) {
    case "odds":
      question.samples = a.until > 0 ? 0 : a.samples;
      question.seed = 1;
      question.confidence = a.confidence;
      if (a.until > 0) question.until = a.until;
      if (a.tornado) question.tornado = true;
      if (a.wind_deviation > 0) question.true_wind_speed_says = `${await said(v.tws)} ± ${await said(a.wind_deviation)}`;
      if (a.bands.trim() !== "") question.winds_mps = await figures(a.bands, "m/s");
      if (a.anchor.trim() !== "") question.anchor = a.anchor.trim();
      break;
    case "why":
      question.figure = a.figure.trim();
      if (a.pairs) question.pairs = true;
      break;
    case "polar":
      question.true_wind_speeds_mps = await figures(a.winds, "m/s");
      if (a.angles.trim() !== "") question.true_wind_angles_rad = await figures(a.angles, "rad");
      else delete question.true_wind_angles_rad;
      delete question.aim;
      break;
    case "trim":
      question.per = true;
      break;
  }
  return { verb, boats, question };
}

// charts are the kinds that are drawn of an answer, the first of them the most telling.
export const charts: Record<string, string[]> = {
  odds: ["difference", "inputs"], why: ["causes"], polar: ["polar", "speed", "crossovers"], trim: ["limits"], view: ["front-view"], compare: ["budget", "drag"],
};
