import type { Locator, Page } from "@playwright/test";
import { both, drawn, expect, link, test } from "./desk";

const reading = (page: Page, name: string): Locator => page.getByRole("region", { name: "Figures" }).locator(`[data-reading="${name}"]`);
const dry = (page: Page): Locator => page.getByRole("region", { name: "The boat" }).locator("svg path.dry.foil");

// dragged takes a handle by its middle and leads it over some points beside it.
async function dragged(page: Page, handle: Locator, way: [number, number][], end: "drop" | "hold" = "drop"): Promise<void> {
  const box = (await handle.locator(".knob").boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (const [dx, dy] of way) await page.mouse.move(x + dx, y + dy, { steps: 6 });
  if (end === "drop") await page.mouse.up();
}

// held waits until the boat is held: her handles then go as far as her controls do.
async function held(page: Page): Promise<void> {
  await expect(page.getByRole("region", { name: "Settings" })).toContainText("-15.0 to 110.0 deg");
}

test("a cant that is dragged until a tip leaves the water gives a new lever, side force carried and speed, undo takes the drag back; a handle is moved by keys, told in words, and typed as a figure", async ({ page, desk }) => {
  await page.goto(link(desk, { ...both, way: "held" }));
  await drawn(page);
  const cant = page.getByRole("slider", { name: "leeward main cant" });
  await held(page);
  const names = ["lever", "side force carried", "righting moment", "wetted area of foils"];
  const before = new Map<string, string>();
  for (const n of names) before.set(n, await reading(page, n).innerText());
  const dryBefore = await dry(page).count();
  const spoken = await cant.getAttribute("aria-valuetext");

  await dragged(page, cant, [[40, -20], [80, -70], [100, -130]]);
  await expect(cant).not.toHaveAttribute("aria-valuetext", spoken!);
  await expect.poll(() => dry(page).count()).toBeGreaterThan(dryBefore);
  for (const n of names) await expect(reading(page, n)).not.toHaveText(before.get(n)!);
  const area = (text: string) => Number(text.split(" ")[0]);
  expect(area(await reading(page, "wetted area of foils").innerText())).toBeLessThan(area(before.get("wetted area of foils")!));

  await page.keyboard.press("Control+z");
  await expect(cant).toHaveAttribute("aria-valuetext", spoken!);
  for (const n of names) await expect(reading(page, n)).toHaveText(before.get(n)!);

  const heel = page.getByRole("slider", { name: "heel", exact: true });
  await heel.focus();
  const stood = await heel.getAttribute("aria-valuetext");
  await page.keyboard.press("Shift+ArrowUp");
  await expect(heel).not.toHaveAttribute("aria-valuetext", stood!);
  await page.waitForTimeout(800);
  await page.keyboard.press("Control+z");
  await expect(heel).toHaveAttribute("aria-valuetext", stood!);
  const ride = page.getByRole("textbox", { name: "ride height" });
  await ride.fill("90 cm");
  await ride.press("Enter");
  await expect(ride).toHaveValue("0.90 m");
});

test("balanced, the best trim follows what is dragged, and a drag is given up with Esc", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  await drawn(page);
  const cant = page.getByRole("slider", { name: "leeward main cant" });
  await expect(cant).toBeVisible();
  const speed = await reading(page, "speed").innerText();
  const spoken = await cant.getAttribute("aria-valuetext");
  await dragged(page, cant, [[-10, 20], [-30, 30]], "hold");
  await expect(cant).not.toHaveAttribute("aria-valuetext", spoken!);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await expect(cant).toHaveAttribute("aria-valuetext", spoken!);
  await dragged(page, cant, [[-10, 20], [-30, 30]]);
  await expect(reading(page, "speed")).not.toHaveText(speed);
});

// A weight is placed by the boat's file: where it is drawn to stands in the draft.
test("a weight that is dragged is moved in the boat's file, in one step", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  await drawn(page);
  const weight = page.getByRole("slider", { name: "rig, its place in the file" });
  const place = page.getByRole("textbox", { name: "rig z" });
  await page.getByText("Places of weights in the file").click();
  const [before, spoken] = [await place.inputValue(), await weight.getAttribute("aria-valuetext")];
  await weight.scrollIntoViewIfNeeded();
  const box = (await weight.locator(".reach").boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 30, { steps: 5 });
  await expect(weight).not.toHaveAttribute("aria-valuetext", spoken!);
  await page.mouse.up();
  const undo = page.getByRole("button", { name: "Undo move rig" });
  await expect(undo).toBeEnabled();
  await expect(place).not.toHaveValue(before);
  await expect(page.getByRole("button", { name: /^Sorrel.*\*/ })).toBeVisible();
  await undo.click();
  await expect(place).toHaveValue(before);
  await expect(weight).toHaveAttribute("aria-valuetext", spoken!);
});
