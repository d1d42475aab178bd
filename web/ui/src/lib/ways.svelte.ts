// How the boats on the desk may be sailed: modes, sets of sails, controls.

import { drafts, view } from "./desk.svelte";
import { ask } from "./live.svelte";
import type { StudyWays } from "./told";

export const ways: { all: StudyWays[] } = $state({ all: [] });

// follow keeps ways true to the boats on the desk; call it within an effect.
export function follow(): void {
  const boats = view.boats.map((b) => b.file);
  if (boats.length === 0) return;
  void ask("ways", { verb: "ways", boats, question: { wind_from: view.from }, drafts: { ...drafts } }).then((told) => {
    if (told?.ways) ways.all = told.ways;
  });
}

// common returns the names that every list has.
function common(lists: string[][]): string[] {
  const [first, ...rest] = lists;
  return (first ?? []).filter((name) => rest.every((l) => l.includes(name)));
}

// modes are those that every boat on the desk has.
export function modes(): string[] {
  return common(ways.all.map((w) => (w.modes ?? []).map((m) => m.name)));
}

// sets are those that every boat has, in the mode that is asked for.
export function sets(): string[] {
  return common(ways.all.map((w) => w.modes?.find((m) => m.name === view.mode)?.sets ?? w.sets ?? []));
}
