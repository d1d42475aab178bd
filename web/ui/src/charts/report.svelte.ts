// The report: figures that were put aside, in an order, with words to them. It stays in
// this browser, since it holds pictures as they were and no link could hold those.

import type { Chart } from "@charts/chart";

export interface Aside { chart: Chart; slots: number[]; level: string; link: string; words: string; day: string }

const key = "foilwright report";
export const report: { figures: Aside[]; title: string } = $state({ figures: [], title: "" });

export function recall(): void {
  try {
    const said = JSON.parse(localStorage.getItem(key) ?? "null") as { figures?: Aside[]; title?: string } | null;
    if (Array.isArray(said?.figures)) report.figures = said.figures;
    report.title = typeof said?.title === "string" ? said.title : "";
  } catch {
    report.figures = []; // what cannot be read is not there
  }
}

export function keep(): void {
  try {
    localStorage.setItem(key, JSON.stringify(report));
  } catch {
    // A browser that keeps nothing has the report until it is closed.
  }
}

export function add(chart: Chart, slots: number[], level: string, link: string): void {
  report.figures.push({ chart: $state.snapshot(chart) as Chart, slots: [...slots], level, link, words: "", day: new Date().toISOString().slice(0, 10) });
  keep();
}

export function remove(at: number): void {
  report.figures.splice(at, 1);
  keep();
}

export function move(at: number, by: number): void {
  const [one] = report.figures.splice(at, 1);
  if (one) report.figures.splice(at + by, 0, one);
  keep();
}
