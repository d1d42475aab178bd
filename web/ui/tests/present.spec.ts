import { both, cautioned, drawn, expect, link, said, settled, spotless, test } from "./desk";

test("presenting is done by keyboard alone; every step has the caution, and axe finds nothing on it, light and dark", async ({ page, desk }) => {
  test.setTimeout(180_000);
  await page.emulateMedia({ reducedMotion: "reduce" });
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
  for (let i = 0; i < 5; i++) {
    await page.getByRole("navigation", { name: "Steps" }).getByRole("listitem").nth(i).getByRole("button").click();
    await settled(page);
    await cautioned(page);
    await spotless(page, `step ${i + 1}`);
  }
});
