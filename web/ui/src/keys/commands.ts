// What can be found and done by name.

import { type Listed, add, choose, move, remove, set } from "../lib/boats";
import { type Aim, type Look, type Page, type View, glance, link, redo, step, undo, view } from "../lib/desk.svelte";
import { say } from "../lib/say.svelte";
import { ways } from "../lib/ways.svelte";

export interface Command {
  kind: "boat" | "chart" | "view" | "control" | "figure" | "command";
  name: string;
  says?: string; // beside the name: a key, a range
  takes?: { unit: string; as: "text" | "SI" }; // a value that is typed behind the name, of an SI unit
  does: (value: string) => void;
}

const charts: { kind: string; name: string }[] = [
  { kind: "budget", name: "righting-moment budget" },
  { kind: "drag", name: "drag by cause" },
  { kind: "causes", name: "causes of the difference" },
  { kind: "difference", name: "how sure the difference is" },
  { kind: "inputs", name: "what uncertain inputs do" },
  { kind: "polar", name: "polar" },
  { kind: "speed", name: "speed over the wind angle" },
  { kind: "crossovers", name: "crossovers of modes and sails" },
  { kind: "limits", name: "limits and their prices" },
];

const looks: { look: Look; name: string }[] = [
  { look: "front", name: "from astern" },
  { look: "side", name: "from the side" },
  { look: "top", name: "from above" },
  { look: "solid", name: "in three dimensions" },
];

export async function copyLink(): Promise<void> {
  const address = await link();
  try {
    await navigator.clipboard.writeText(address);
    say("The link is copied.");
  } catch {
    say("The link cannot be copied; it is in the address bar.");
  }
}

function boats(listed: Listed[]): Command[] {
  const out: Command[] = [];
  for (const l of listed) {
    const at = view.boats.findIndex((b) => b.file === l.file);
    if (at < 0) out.push({ kind: "boat", name: "add " + l.boat, says: l.file, does: () => step("add " + l.boat, () => add(view, l.file)) });
    else {
      out.push({ kind: "boat", name: "choose " + l.boat, says: l.file, does: () => step("choose " + l.boat, () => choose(view, l.file)) });
      out.push({ kind: "boat", name: "take off " + l.boat, says: l.file, does: () => step("take off " + l.boat, () => remove(view, l.file)) });
      if (at > 0) out.push({ kind: "boat", name: "compare with " + l.boat, says: "moves her first", does: () => step("move " + l.boat, () => move(view, l.file, 0)) });
    }
    out.push({ kind: "boat", name: "edit " + l.boat, says: l.file, does: () => step("edit " + l.boat, () => { if (at >= 0) choose(view, l.file); else add(view, l.file); view.chosen = l.file; view.page = "edit"; }) });
  }
  return out;
}

function page(to: Page, name: string, says: string): Command {
  return { kind: "command", name, says, does: () => step(name, () => { view.page = to; view.step = null; }) };
}

// unitOf returns the SI unit of a range's text.
function unitOf(range: string): string {
  return range.endsWith("deg") ? "rad" : range.endsWith("m") ? "m" : "";
}

function controls(): Command[] {
  const boat = ways.all.find((w) => w.file === view.chosen);
  return (boat?.controls ?? []).map((c) => ({
    kind: "control", name: c.name, says: c.range, takes: { unit: unitOf(c.range), as: "text" },
    does: (value) => step(c.name, () => set(view, view.chosen, c.name, value)),
  }));
}

function conditions(): Command[] {
  const aims: [Aim, string][] = [["windward", "best to windward"], ["leeward", "best to leeward"], ["angle", "at an angle"]];
  const shows: [string, () => void][] = [
    ["units knots, degrees, kN", () => (view.units = "trade")], ["units m/s, degrees, N", () => (view.units = "si")],
    ["page as the system", () => (view.theme = "auto")], ["page light", () => (view.theme = "light")], ["page dark", () => (view.theme = "dark")],
    ["bands of 50 %", () => (view.level = 50)], ["bands of 80 %", () => (view.level = 80)], ["bands of 95 %", () => (view.level = 95)],
    ["balanced", () => (view.way = "balanced")], ["held", () => (view.way = "held")],
  ];
  return [
    { kind: "control", name: "true wind", says: "14 kn, 7.2 m/s", takes: { unit: "m/s", as: "SI" }, does: (v) => step("true wind", () => (view.tws = Number(v))) },
    { kind: "control", name: "wind angle", says: "110 deg, 110°", takes: { unit: "rad", as: "SI" }, does: (v) => step("wind angle", () => { view.twa = Number(v); view.aim = "angle"; }) },
    ...aims.map(([aim, name]): Command => ({ kind: "control", name, does: () => step(name, () => (view.aim = aim)) })),
    ...(["port", "starboard"] as View["from"][]).map((from): Command => ({ kind: "control", name: "wind from " + from, does: () => step("wind from " + from, () => (view.from = from)) })),
    ...shows.map(([name, change]): Command => ({ kind: "command", name, does: () => step(name, change) })),
  ];
}

// figures are those of the table beside the boats; each opens its working.
function figures(): Command[] {
  return [...document.querySelectorAll<HTMLElement>('tr[id^="figure-"]')].map((row) => ({
    kind: "figure", name: row.querySelector("th")?.textContent?.trim() ?? "",
    says: [...row.querySelectorAll("td")].slice(1, 3).map((cell) => cell.textContent?.trim() ?? "").join(" · ") + " " + (row.querySelector("td")?.textContent?.trim() ?? ""),
    does: () => {
      row.scrollIntoView({ block: "center" });
      const how = row.querySelector("button");
      how?.focus();
      if (how?.getAttribute("aria-expanded") === "false") how.click();
    },
  }));
}

// commands lists all that there is now.
export function commands(listed: Listed[], keys: () => void): Command[] {
  return [
    ...boats(listed),
    ...conditions(),
    ...controls(),
    ...figures(),
    ...charts.map((c): Command => ({ kind: "chart", name: c.name, does: () => glance(() => { view.page = "sail"; view.chart = c.kind; }) })),
    ...looks.map((l): Command => ({ kind: "view", name: l.name, does: () => glance(() => { view.page = "sail"; view.look = l.look; }) })),
    page("sail", "page Sail", "g s"), page("edit", "page Edit", "g e"), page("jobs", "page Jobs", "g j"),
    { kind: "command", name: "present", says: "g p", does: () => step("present", () => (view.step = 0)) },
    { kind: "command", name: "undo", says: "Ctrl Z", does: undo },
    { kind: "command", name: "redo", says: "Ctrl Shift Z", does: redo },
    { kind: "command", name: "copy the link", does: () => void copyLink() },
    { kind: "command", name: "keys", says: "?", does: keys },
  ];
}

// split parts what is typed into a name and a value behind it: "main cant 15°".
export function split(typed: string): { name: string; value: string } {
  const at = typed.search(/\s[-−+]?[\d.]/);
  return at < 0 ? { name: typed, value: "" } : { name: typed.slice(0, at), value: typed.slice(at).trim() };
}

// found returns what a text finds, the best first: every word of it is in the name or
// beside it.
export function found(all: Command[], typed: string): Command[] {
  const { name, value } = split(typed.toLowerCase());
  const words = (value === "" ? typed.toLowerCase() : name).split(/\s+/).filter((w) => w !== "");
  const fits = all.flatMap((c, order) => {
    if (value !== "" && !c.takes) {
      const whole = typed.toLowerCase().split(/\s+/);
      return whole.every((w) => c.name.toLowerCase().includes(w)) ? [{ c, order, rank: 1 }] : [];
    }
    const text = `${c.name} ${c.kind} ${c.says ?? ""}`.toLowerCase();
    if (!words.every((w) => text.includes(w))) return [];
    const starts = words.length > 0 && c.name.toLowerCase().startsWith(words[0] ?? "");
    return [{ c, order, rank: (starts ? 0 : 2) + (words.every((w) => c.name.toLowerCase().includes(w)) ? 0 : 3) }];
  });
  return fits.sort((a, b) => a.rank - b.rank || a.order - b.order).map((f) => f.c);
}
