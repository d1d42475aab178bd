// The steps of presenting: the finding, the boats, why, how sure, over the wind.

import { step, view } from "../lib/desk.svelte";

export interface Step { id: "finding" | "boats" | "causes" | "sure" | "speed"; name: string; caption: string }

const finding: Step = { id: "finding", name: "The finding", caption: "Each boat at her best trim in the same wind, all forces and moments in balance." };
const boats: Step = { id: "boats", name: "Where the forces are", caption: "Seen from astern, to scale. Handles can be taken here too: Tab to one, then arrows." };
const causes: Step = { id: "causes", name: "Why", caption: "The difference split into causes, each by its mean over all orders. The next key shows the next cause." };
const sure: Step = { id: "sure", name: "How sure", caption: "The difference in the same samples of all uncertain figures, so that what the boats share cancels." };
const speed: Step = { id: "speed", name: "Over the wind angle", caption: "Speed over the true wind angle; best angles are marked." };

// stepsOf returns the steps that so many boats have.
export function stepsOf(count: number): Step[] {
  return count > 1 ? [finding, boats, causes, sure, speed] : [finding, boats, speed];
}

// goTo goes to a step; going on is no change to undo.
export function goTo(to: number): void {
  if (to !== view.step) step("step " + (to + 1), () => (view.step = to));
}
