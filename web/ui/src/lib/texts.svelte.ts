// The texts of the folder's files: what is on disk, what of it is being changed, and
// what was left unsaved before. Changes themselves are drafts of the desk.

import { drafts, rebase, step } from "./desk.svelte";
import { hears } from "./live.svelte";
import type { Changed, Keep, Kept, Refused, Text } from "./told";

export const folder: { name: string; files: Kept[] } = $state({ name: "", files: [] });

// texts are files as they were read from disk; drafts stand over them.
export const texts: Record<string, Text> = $state({});

// newer are files that changed on disk while there is a draft of them.
export const newer: Record<string, Text> = $state({});

// Left is a text that was not saved when the page was closed.
export interface Left { file: string; text: string; at: string; base: Text }
export const left: Left[] = $state([]);

// refused is why a file was not written, read or made.
export const refused = $state({ why: "" });

async function called(method: string, to: string, body?: unknown): Promise<{ text: Text | null; no: Refused | null }> {
  try {
    const got = await fetch(to, { method, body: body === undefined ? undefined : JSON.stringify(body) });
    const said = (await got.json()) as unknown;
    return got.ok ? { text: said as Text, no: null } : { text: null, no: said as Refused };
  } catch {
    return { text: null, no: { error: "the desk cannot be reached\nhint: is foilwright desk still running?", disk: null } };
  }
}

// textOf is a file's text as the page has it.
export function textOf(file: string): string {
  return drafts[file] ?? texts[file]?.text ?? "";
}

// put makes a text the draft of a file, or leaves none where it is what is on disk.
export function put(file: string, text: string): void {
  if (text === texts[file]?.text) delete drafts[file];
  else drafts[file] = text;
}

// read reads a file from disk, if it was not read.
export async function read(file: string): Promise<void> {
  if (file === "" || texts[file]) return;
  const { text, no } = await called("GET", "text?file=" + encodeURIComponent(file));
  if (text) texts[file] ??= text;
  refused.why = no?.error ?? "";
}

export async function list(): Promise<void> {
  const got = await fetch("texts");
  if (!got.ok) return;
  const keep = (await got.json()) as Keep;
  folder.name = keep.folder;
  folder.files = keep.files ?? [];
}

// save writes a draft to disk, if what stands there is still what was read.
export async function save(file: string): Promise<boolean> {
  const draft = drafts[file];
  if (draft === undefined) return true;
  if (newer[file]) return false; // the choice is open
  await read(file);
  const base = texts[file];
  const { text, no } = await called("PUT", "text", { file, text: draft, base: base?.version ?? "" });
  refused.why = no && !no.disk ? no.error : "";
  if (no?.disk) newer[file] = no.disk;
  if (!text) return false;
  rebase(file, base?.text ?? "", text.text);
  texts[file] = text;
  delete newer[file];
  put(file, drafts[file] ?? text.text);
  await list();
  return true;
}

// yieldTo takes what is on disk in place of a draft; insist keeps the draft, to be saved
// over it.
export function yieldTo(file: string): void {
  const disk = newer[file];
  if (!disk) return;
  step("take what is on disk", () => delete drafts[file]);
  texts[file] = disk;
  delete newer[file];
}

export function insist(file: string): void {
  const disk = newer[file];
  if (!disk) return;
  texts[file] = disk;
  delete newer[file];
  put(file, drafts[file] ?? disk.text);
}

async function made(method: string, to: string, body: unknown): Promise<Text | null> {
  const { text, no } = await called(method, to, body);
  refused.why = no?.error ?? "";
  if (!text) return null;
  texts[text.file] = text;
  await list();
  return text;
}

export const create = (file: string, text: string) => made("PUT", "text", { file, text, base: "" });
export const vary = (from: string, to: string, boat: string) => made("POST", "variant", { from, to, boat });

export const rename = (from: string, to: string) => made("POST", "rename", { from, to, boat: "" });

async function changed(body: Changed): Promise<void> {
  await list();
  const had = texts[body.file];
  if (!had || had.version === body.version) return;
  const { text } = await called("GET", "text?file=" + encodeURIComponent(body.file));
  const now = text ?? { file: body.file, text: "", version: "" };
  if (now.version === texts[body.file]?.version) return;
  if (drafts[body.file] !== undefined) newer[body.file] = now;
  else texts[body.file] = now;
}

const key = (file: string) => `foilwright draft\n${folder.name}\n${file}`;
const mine = new Set<string>();

// open lists the folder, hears of changes, and finds what was left unsaved.
export async function open(): Promise<() => void> {
  await list();
  try {
    for (let i = 0; i < localStorage.length; i++) {
      const name = localStorage.key(i) ?? "";
      if (!name.startsWith(key(""))) continue;
      const l = JSON.parse(localStorage.getItem(name) ?? "null") as Left | null;
      if (l && typeof l.text === "string" && drafts[l.file] === undefined) left.push(l);
    }
  } catch {
    // A browser that keeps nothing has nothing left.
  }
  return hears("files", (body) => void changed(body as Changed));
}

// autosave keeps drafts in the browser, and forgets those that are no more. It reads all
// drafts, so that an effect runs it again when one changes.
export function autosave(): void {
  if (folder.name === "") return;
  for (const [file, text] of Object.entries(drafts)) {
    const base = texts[file];
    if (!base) {
      void read(file);
      continue;
    }
    mine.add(file);
    const at = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hour12: false });
    try {
      localStorage.setItem(key(file), JSON.stringify({ file, text, at, base } satisfies Left));
    } catch {
      // Nothing is kept where the browser keeps nothing; the file can still be saved.
    }
  }
  for (const file of mine) if (drafts[file] === undefined) forget(file);
}

function forget(file: string): void {
  mine.delete(file);
  try {
    localStorage.removeItem(key(file));
  } catch {
    // as above
  }
}

// take makes a text that was left unsaved a draft again; drop forgets it.
export async function take(l: Left): Promise<void> {
  await read(l.file);
  const disk = texts[l.file];
  if (disk && disk.version !== l.base.version) {
    texts[l.file] = l.base;
    newer[l.file] = disk;
  }
  step("keep unsaved changes of " + l.file, () => put(l.file, l.text));
  left.splice(left.indexOf(l), 1);
}

export function drop(l: Left): void {
  forget(l.file);
  left.splice(left.indexOf(l), 1);
}
