import { type Page } from "@playwright/test";
import { both, cautioned, drawn, expect, fits, link, settled, spotless, test } from "./desk";

const pages: { name: string; ready: (page: Page) => Promise<void> }[] = [
  { name: "sail", ready: drawn },
  { name: "edit", ready: compared },
  { name: "jobs", ready: (page) => expect(page.getByRole("form", { name: "A new question" })).toContainText("About Sorrel and Tansy") },
];

// compared has the editor show a part of the form, and the differences from another boat.
async function compared(page: Page): Promise<void> {
  await expect(page.getByLabel("Text", { exact: true }).getByRole("status")).toContainText("no faults");
  await page.getByText("foils · main", { exact: true }).click();
  await page.getByRole("combobox", { name: "Compare with" }).selectOption("tansy.yaml");
  await expect(page.getByRole("region", { name: /^Differences/ }).getByRole("row").nth(1)).toBeVisible();
}

for (const { name, ready } of pages) {
  test(`page ${name} has the caution in its foot, runs out of no window, and axe finds nothing, light and dark`, async ({ page, desk }) => {
    await page.emulateMedia({ reducedMotion: "reduce" });
    await page.goto(link(desk, { ...both, page: name }));
    await ready(page);
    await settled(page);
    await cautioned(page);
    await fits(page);
    await spotless(page, name);
  });
}
