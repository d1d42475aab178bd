import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { both, done, link, test } from "../tests/desk";

const folder = process.env.SHOTS ?? mkdtempSync(join(tmpdir(), "foilwright-shots-"));

interface Sight { name: string; view: Record<string, unknown>; then?: (page: Page) => Promise<void> }

const sights: Sight[] = [
  { name: "sail", view: {} },
  { name: "sail-side", view: { look: "side" } },
  { name: "sail-top", view: { look: "top" } },
  { name: "sail-solid", view: { look: "solid" } },
  { name: "sail-held", view: { way: "held" }, then: heeled },
  { name: "sail-ghost", view: { under: ["tansy.yaml"] } },
  { name: "sail-waves-si", view: { units: "si", wave_height: 0.6, wave_period: 4, aim: "angle" } },
  { name: "edit", view: { page: "edit" } },
  { name: "edit-fault", view: { page: "edit" }, then: faulty },
  { name: "jobs", view: { page: "jobs" } },
  { name: "jobs-odds", view: { page: "jobs" }, then: (page) => opened(page, /Odds:/) },
  { name: "jobs-why", view: { page: "jobs" }, then: (page) => opened(page, /Why:/) },
  { name: "charts", view: {}, then: (page) => page.getByRole("region", { name: "Charts" }).scrollIntoViewIfNeeded() },
  ...[0, 1, 2, 3, 4].map((step) => ({ name: "present-" + (step + 1), view: { step, causes: 9 } })),
  { name: "find", view: {}, then: async (page) => { await page.keyboard.press("Control+k"); await page.keyboard.type("cant"); } },
  { name: "keys", view: {}, then: (page) => page.keyboard.press("?") },
  { name: "show", view: {}, then: (page) => page.getByText("Show", { exact: true }).click() },
];
const sizes = [[1280, 720], [1440, 900], [3840, 2160]] as const;
const wind = { true_wind_speeds_mps: [17 * (1852 / 3600)], wind_from: "port", aim: "best progress to windward" };

// heeled leans a boat that is held, so that she is out of balance.
async function heeled(page: Page): Promise<void> {
  await page.getByRole("slider", { name: "heel", exact: true }).focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("Shift+ArrowUp");
  await page.waitForTimeout(1500);
}

// faulty writes what no boat file may say.
async function faulty(page: Page): Promise<void> {
  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\nwingz: 5.2\n");
  await page.waitForTimeout(1500);
}

// opened opens a job of the list.
async function opened(page: Page, name: RegExp): Promise<void> {
  await page.getByRole("navigation", { name: "Jobs" }).getByRole("button", { name }).first().click({ timeout: 20_000 });
  await page.waitForTimeout(1500);
}

// SHOTS_OF is a regular expression for the names of the sights that are taken.
const wait = Number(process.env.SHOTS_WAIT ?? 6000); // ms for answers to come
for (const theme of ["light", "dark"] as const) {
  test(theme, async ({ page, desk }) => {
    await page.emulateMedia({ colorScheme: theme });
    await page.goto(desk.address);
    const boats = ["sorrel.yaml", "tansy.yaml"], angles = Array.from({ length: 13 }, (_, i) => ((40 + 10 * i) * Math.PI) / 180);
    const { aim: _, ...anyAngle } = wind;
    await done(page, "why", boats, wind);
    await done(page, "odds", boats, { ...wind, samples: 256, tornado: true });
    for (const b of boats) await done(page, "polar", [b], { ...anyAngle, true_wind_angles_rad: angles });
    for (const s of sights.filter((s) => new RegExp(process.env.SHOTS_OF ?? "").test(s.name))) {
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
