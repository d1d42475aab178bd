// Answers that more than one part of the page shows. The last one stays, told to be
// old, until the next is there.

import { drafts, hand, sailing, view } from "./desk.svelte";
import { type Told, ask } from "./live.svelte";

export class Kept {
  told: Told | null = $state.raw(null);
  files: string[] = $state.raw([]); // that it is of
  slots: number[] = $state.raw([]);
  fault = $state("");
  old = $state(false); // a newer one is under way
  since = $state(0); // ms, when that was asked
  #asked = "";

  // put asks a question on a lane, unless it is the one that was asked last.
  async put(lane: string, q: { verb: string; boats: string[]; question: unknown; want: string[]; drafts?: Record<string, string>; level?: number }, slots: number[]): Promise<void> {
    const asked = JSON.stringify([q, view.units]);
    if (asked === this.#asked) {
      this.slots = slots;
      return;
    }
    this.#asked = asked;
    this.old = true;
    this.since = performance.now();
    const told = await ask(lane, q);
    if (!told || this.#asked !== asked) return;
    this.old = false;
    this.fault = told.error ?? "";
    if (told.error) return;
    this.told = told;
    this.files = q.boats;
    this.slots = slots;
  }

  clear(): void {
    this.told = null;
    this.old = false;
    this.fault = "";
    this.#asked = "";
  }
}

// together is the boats on the desk side by side, or the one that is there.
export const together = new Kept();

// follow keeps it true to the desk, at the end of a drag; call it within an effect.
export function follow(): void {
  if (hand.holds !== "") return;
  const boats = view.boats.map((b) => b.file);
  if (boats.length === 0) {
    together.clear();
    return;
  }
  const several = boats.length > 1;
  void together.put("answer", {
    verb: several ? "compare" : "trim", boats, question: sailing(view), drafts: { ...drafts },
    want: several ? ["answer", "budget", "drag"] : ["answer", "limits"],
  }, view.boats.map((b) => b.slot));
}
