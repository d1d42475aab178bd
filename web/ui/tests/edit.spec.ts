import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { type Desk, expect, link, test } from "./desk";

const sorrel = { page: "edit", boats: [{ file: "sorrel.yaml", slot: 0 }, { file: "tansy.yaml", slot: 1 }], chosen: "sorrel.yaml" };

async function edit(page: Page, desk: Desk): Promise<void> {
  await page.goto(link(desk, sorrel));
  await expect(page.getByRole("textbox", { name: "Text of sorrel.yaml" })).toBeVisible();
  await expect(state(page)).toContainText("no faults");
}

const state = (page: Page) => page.getByLabel("Text", { exact: true }).getByRole("status");
const line = (page: Page, begins: string) => page.locator(".cm-line", { hasText: begins }).first();
const onDisk = (desk: Desk) => readFileSync(join(desk.folder, "sorrel.yaml"), "utf8");

// A figure without its unit is marked where it stands, and mended.
test("a fault shows as it is typed, and goes when it is mended", async ({ page, desk }) => {
  const before = onDisk(desk);
  await edit(page, desk);
  await line(page, "length:").click();
  await page.keyboard.press("Home");
  for (let i = 0; i < "length: 12.0".length; i++) await page.keyboard.press("ArrowRight");
  for (let i = 0; i < " m".length; i++) await page.keyboard.press("Delete");
  const faults = page.getByRole("list", { name: "Faults" });
  await expect(faults).toContainText("12.0 has no unit");
  await expect(page.locator(".cm-lint-marker-error")).toHaveCount(1);
  await faults.getByRole("button", { name: "line 7" }).click();
  await page.keyboard.press("Home");
  for (let i = 0; i < "length: 12.0".length; i++) await page.keyboard.press("ArrowRight");
  await page.keyboard.type(" m");
  await expect(state(page)).toContainText("no faults");
  await page.keyboard.press("Escape");
  await line(page, "length:").click();
  await page.keyboard.press("Home");
  for (let i = 0; i < "length: 12".length; i++) await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Delete");
  await page.keyboard.press("Delete");
  await page.keyboard.type(".5");
  await page.keyboard.press("Control+s");
  await expect(state(page)).toContainText("as saved");
  expect(onDisk(desk)).toBe(before.replace("length: 12.0 m", "length: 12.5 m"));
});

test("what was typed in one go is one step of the page's history", async ({ page, desk }) => {
  await edit(page, desk);
  await line(page, "name:").click();
  await page.keyboard.press("End");
  await page.keyboard.type(" the second");
  await expect(page.getByRole("button", { name: "Undo edit sorrel.yaml" })).toBeEnabled();
  await page.keyboard.press("Control+z");
  await expect(line(page, "name:")).toHaveText("name: Sorrel");
  await expect(state(page)).toContainText("as saved");
  await page.keyboard.press("Control+Shift+Z");
  await expect(line(page, "name:")).toHaveText("name: Sorrel the second");
});

test("what may be written is offered, and what a key means is told", async ({ page, desk }) => {
  await edit(page, desk);
  await line(page, "length:").click();
  await page.keyboard.press("End");
  await page.keyboard.press("Enter");
  await page.keyboard.type("mod");
  await expect(page.locator(".cm-tooltip-autocomplete")).toContainText("factors of the model itself");
  await page.keyboard.press("Escape");
  await expect(line(page, "mod")).toHaveText("mod");
  await page.keyboard.press("Control+z");
  await line(page, "rig:").getByText("mass", { exact: true }).hover();
  await expect(page.locator(".meant")).toContainText("in kg, t, g, lb");
});

test("the form writes into the text in place, and says what would do", async ({ page, desk }) => {
  const before = onDisk(desk);
  await edit(page, desk);
  await page.getByText("weights · rig", { exact: true }).click();
  const mass = page.getByRole("form", { name: "Figures of sorrel.yaml" }).getByRole("textbox", { name: "mass", exact: true });
  await mass.fill("250");
  await mass.press("Tab");
  await expect(page.getByLabel("Form", { exact: true }).getByRole("alert")).toContainText("write 250 kg");
  await mass.fill("250 kg");
  await mass.press("Tab");
  await expect(line(page, "rig:")).toContainText("mass: 250 kg");
  await page.getByRole("combobox", { name: "Compare with" }).selectOption("saved");
  const differences = page.getByRole("region", { name: /^Differences/ });
  await expect(differences.getByRole("row")).toHaveCount(2);
  await expect(differences).toContainText("240 kg");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await expect(state(page)).toContainText("as saved");
  expect(onDisk(desk)).toBe(before.replace("mass: 240 kg", "mass: 250 kg"));
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(line(page, "rig:")).toContainText("mass: 240 kg");
});

test("a file that changed on disk meanwhile is not written over in silence", async ({ page, desk }) => {
  const before = onDisk(desk);
  await edit(page, desk);
  await line(page, "name:").click();
  await page.keyboard.press("End");
  await page.keyboard.type(" two");
  writeFileSync(join(desk.folder, "sorrel.yaml"), before.replace("Sound 40", "Sound 41"));
  const note = page.getByRole("alert").filter({ hasText: "changed on disk meanwhile" });
  await expect(note).toBeVisible();
  await page.keyboard.press("Control+s");
  await page.waitForTimeout(300);
  expect(onDisk(desk)).toContain("Sound 41");
  await note.getByRole("button", { name: "Keep this text" }).click();
  await page.keyboard.press("Control+s");
  await expect(state(page)).toContainText("as saved");
  expect(onDisk(desk)).toBe(before.replace("name: Sorrel", "name: Sorrel two"));
});

test("unsaved changes are offered after a reload", async ({ page, desk }) => {
  await edit(page, desk);
  await line(page, "name:").click();
  await page.keyboard.press("End");
  await page.keyboard.type(" kept");
  await expect(state(page)).toContainText("unsaved");
  await page.reload();
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await expect(line(page, "name:")).toHaveText("name: Sorrel kept");
  await page.reload();
  await page.getByRole("button", { name: "Drop", exact: true }).click();
  await expect(line(page, "name:")).toHaveText("name: Sorrel");
  await page.reload();
  await expect(page.getByRole("textbox", { name: "Text of sorrel.yaml" })).toBeVisible();
  await expect(page.getByRole("button", { name: "Keep", exact: true })).toHaveCount(0);
});
