import { both, done, drawn, expect, link, test } from "./desk";

// An angle that is pointed at on one chart is marked on the others and in their tables.
test("a wind angle is marked on all charts at once", async ({ page, desk }) => {
  const sorrel = { boats: both.boats.slice(0, 1), chosen: "sorrel.yaml" };
  await page.goto(link(desk, sorrel));
  await drawn(page);
  const angles = [90, 110, 130].map((a) => (a * Math.PI) / 180);
  const job = await done(page, "polar", ["sorrel.yaml"], { true_wind_speeds_mps: [17 * (1852 / 3600)], wind_from: "port", true_wind_angles_rad: angles, strips: 4 });
  await page.goto("about:blank");
  await page.goto(link(desk, { ...sorrel, job }));
  const chart = (name: string) => page.getByRole("figure", { name, exact: true });
  const cursor = (name: string) => chart(name).getByRole("slider", { name: "True wind angle pointed at" });
  await cursor("Polar").focus();
  await page.keyboard.press("End");
  const last = await cursor("Polar").getAttribute("aria-valuetext");
  expect(last).toMatch(/^\d+(\.\d)?.*kn/);
  await expect(cursor("Speed over the wind angle")).toHaveAttribute("aria-valuetext", last!);
  await page.keyboard.press("Home");
  await expect(cursor("Speed over the wind angle")).not.toHaveAttribute("aria-valuetext", last!);
  await expect(cursor("Speed over the wind angle")).toHaveAttribute("aria-valuetext", (await cursor("Polar").getAttribute("aria-valuetext"))!);
  await chart("Speed over the wind angle").getByRole("button", { name: "Table" }).click();
  await expect(chart("Speed over the wind angle").locator("tr.marked")).not.toHaveCount(0);
  await page.keyboard.press("Escape");
});
