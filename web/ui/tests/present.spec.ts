import AxeBuilder from "@axe-core/playwright";
import { both, drawn, expect, link, said, test } from "./desk";

test("presenting is done by keyboard alone", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  await drawn(page);
  await page.keyboard.press("g");
  await page.keyboard.press("p");
  const name = page.getByRole("heading", { level: 1 });
  await expect(name).toHaveText("The finding");
  await expect(page.getByRole("contentinfo")).toContainText("loads are not scantlings");
  await page.keyboard.press("ArrowRight");
  await expect(name).toHaveText("Where the forces are");
  await page.keyboard.press("Space");
  await expect(name).toHaveText("Why");
  const causes = page.locator("main g[data-step]");
  await expect(causes.first()).toBeAttached({ timeout: 45_000 });
  await expect(causes.first()).toBeHidden();
  await page.keyboard.press("ArrowRight");
  await expect(causes.first()).toBeVisible();
  await page.keyboard.press("ArrowLeft");
  await expect(causes.first()).toBeHidden();
  await page.keyboard.press("End");
  await expect(name).toHaveText("Over the wind angle");
  await expect.poll(() => said(page).step).toBe(4);
  const there = page.url();
  await page.keyboard.press("Home");
  await expect(name).toHaveText("The finding");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("button", { name: "Present" })).toBeVisible();
  await page.goto(there);
  await page.reload();
  await expect(name).toHaveText("Over the wind angle");
});

for (const colorScheme of ["light", "dark"] as const) {
  test(`axe finds nothing on the steps of presenting, ${colorScheme}`, async ({ page, desk }) => {
    test.setTimeout(120_000);
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    await page.goto(link(desk, { ...both, step: 0 }));
    for (let i = 0; i < 5; i++) {
      await page.getByRole("navigation", { name: "Steps" }).getByRole("listitem").nth(i).getByRole("button").click();
      await expect(page.locator("[aria-busy=true], .waits")).toHaveCount(0, { timeout: 60_000 });
      await page.waitForTimeout(500);
      const found = await new AxeBuilder({ page }).analyze();
      expect(found.violations.map((v) => `step ${i + 1}: ${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`)).toEqual([]);
    }
  });
}
