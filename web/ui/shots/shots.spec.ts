import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { both, link, test } from "../tests/desk";

const folder = process.env.SHOTS ?? mkdtempSync(join(tmpdir(), "foilwright-shots-"));

interface Sight { name: string; view: Record<string, unknown>; then?: (page: Page) => Promise<void> }

const sights: Sight[] = [
  { name: "sail", view: {} },
  { name: "sail-side", view: { look: "side" } },
  { name: "sail-top", view: { look: "top" } },
  { name: "sail-solid", view: { look: "solid" } },
  { name: "sail-held", view: { way: "held" } },
  { name: "sail-waves-si", view: { units: "si", wave_height: 0.6, wave_period: 4, aim: "angle" } },
  { name: "edit", view: { page: "edit" } },
  { name: "jobs", view: { page: "jobs" } },
  ...[0, 1, 2, 3, 4].map((step) => ({ name: "present-" + (step + 1), view: { step, causes: 9 } })),
  { name: "find", view: {}, then: async (page) => { await page.keyboard.press("Control+k"); await page.keyboard.type("cant"); } },
  { name: "keys", view: {}, then: (page) => page.keyboard.press("?") },
  { name: "show", view: {}, then: (page) => page.getByText("Show", { exact: true }).click() },
];
const sizes = [[1024, 768], [1280, 720], [1920, 1080]] as const;

const wait = Number(process.env.SHOTS_WAIT ?? 6000); // ms for answers to come
for (const theme of ["light", "dark"] as const) {
  test(theme, async ({ page, desk }) => {
    await page.emulateMedia({ colorScheme: theme });
    for (const s of sights) {
      await page.goto("about:blank");
      await page.setViewportSize({ width: 1280, height: 720 });
      await page.goto(link(desk, { ...both, ...s.view }));
      await page.waitForTimeout(wait);
      await s.then?.(page);
      for (const [width, height] of sizes) {
        await page.setViewportSize({ width, height });
        await page.waitForTimeout(400);
        await page.screenshot({ path: join(folder, `${s.name}-${width}-${theme}.png`) });
      }
    }
    console.log("pictures are in " + folder);
  });
}
