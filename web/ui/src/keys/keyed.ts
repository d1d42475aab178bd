// Keys that work everywhere on the desk.

import { redo, step, undo, view } from "../lib/desk.svelte";

interface Opens { find: () => void; keys: () => void; escape: () => void }

const soon = 1200; // ms in which the second key of two is waited for

export function typing(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["radio", "checkbox", "range", "button"].includes(target.type);
  return target.isContentEditable || /^(TEXTAREA|SELECT)$/.test(target.tagName);
}

// keyed returns what hears the keys of the page.
export function keyed(opens: Opens): (e: KeyboardEvent) => void {
  let went = 0; // when g was pressed
  return (e) => {
    const key = e.key.toLowerCase();
    if (e.ctrlKey || e.metaKey) {
      if (key === "k") {
        e.preventDefault();
        opens.find();
      } else if ((key === "z" || key === "y") && !typing(e.target)) {
        e.preventDefault();
        if (key === "y" || e.shiftKey) redo();
        else undo();
      }
      return;
    }
    if (e.key === "Escape") return opens.escape();
    if (e.altKey || typing(e.target)) return;
    if (e.key === "?") {
      e.preventDefault();
      return opens.keys();
    }
    if (key === "g") {
      went = performance.now();
      return;
    }
    if (performance.now() - went > soon) return;
    went = 0;
    if (key === "s") step("page Sail", () => { view.page = "sail"; view.step = null; });
    else if (key === "e") step("page Edit", () => { view.page = "edit"; view.step = null; });
    else if (key === "j") step("page Jobs", () => { view.page = "jobs"; view.step = null; });
    else if (key === "p") step("present", () => (view.step ??= 0));
  };
}
