// What the program finds in a text, as the editor shows it.

import type { StudyAssumption, StudyCheckResult, StudyFileChange } from "../lib/told";

export interface Found { file: string; line: number; column: number; path: string; problem: string; hint: string }

export interface Check {
  file: string;
  faults: Found[];
  error: string;
  assumed: StudyAssumption[];
  unknowns: string[];
}

// faultsIn lists faults with their places: "boats/sorrel.yaml:41:12" in a result.
export function faultsIn(result: StudyCheckResult | undefined): Found[] {
  const seen = new Map<string, Found>();
  for (const f of (result?.files ?? []).flatMap((c) => c.faults ?? [])) {
    const at = /^(.*?)(?::(\d+):(\d+))?$/.exec(f.where);
    const found = { file: at?.[1] ?? f.where, line: Number(at?.[2] ?? 0), column: Number(at?.[3] ?? 0), path: f.path, problem: f.problem, hint: f.hint ?? "" };
    seen.set(JSON.stringify(found), found);
  }
  return [...seen.values()];
}

// unsavedName is the name that what is saved goes by beside its draft: in the same
// folder, so that the files it names are found.
export function unsavedName(file: string): string {
  return file.replace(/([^/]*)$/, "saved $1");
}

// reworded leaves out what differs in identity alone: the same text under another
// file's name counts as another unknown, and is none here.
export function reworded(changes: StudyFileChange[]): StudyFileChange[] {
  return changes.filter((c) => c.from !== c.to);
}
