import { readFileSync } from "node:fs";
import { both, expect, link, test } from "./desk";

// A figure of the sentence opens its working in place; Esc closes it again.
test("a figure opens how it comes about", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const answer = page.getByRole("region", { name: "The answer" });
  await answer.getByRole("heading").getByRole("button").first().click();
  const working = answer.getByText("V cos γ to windward");
  await expect(working).toBeVisible();
  await answer.getByRole("button", { name: "How drag: spray comes about" }).or(answer.getByRole("button", { name: "How spray comes about" })).click();
  await expect(answer.getByText("Hoerner 1965")).toBeVisible();
  await expect(working).toBeHidden();
  await page.keyboard.press("Escape");
  await expect(answer.getByText("Hoerner 1965")).toBeHidden();
});

// What leaves the page says what is on it, with its units, the caution and the inputs.
test("a chart is taken out as SVG and as figures, and put into the report", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const card = page.getByRole("figure", { name: "Righting moment" });
  const title = await card.getByRole("heading").textContent();
  await card.getByRole("button", { name: "Take out" }).click();
  const take = async (name: string) => {
    const [got] = await Promise.all([page.waitForEvent("download"), card.getByRole("button", { name }).click()]);
    return readFileSync(await got.path());
  };
  const svg = (await take("Save SVG")).toString();
  for (const says of [title!.split(": ")[0]!, "loads are not scantlings", "kN·m", "inputs as of", "#fcfbf7"]) expect(svg).toContain(says);
  for (const text of await card.locator("svg text").allTextContents()) expect(svg).toContain(text.replace(/&/g, "&amp;"));
  expect((await take("Save data (CSV)")).toString()).toMatch(/^row,Sorrel \(kN·m\),Tansy \(kN·m\)\n/);
  expect((await take("Save PNG")).subarray(1, 4).toString()).toBe("PNG");
  await card.getByRole("button", { name: "Add to report" }).click();
  const report = page.getByRole("region", { name: "Report" });
  await report.getByRole("textbox", { name: /^Words to/ }).fill("She carries more.");
  await report.getByRole("textbox", { name: "Title of the report" }).click();
  await page.reload();
  await expect(report.getByRole("textbox", { name: /^Words to/ })).toHaveValue("She carries more.");
});

// The table behind a chart is a table.
test("a chart has a table", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const card = page.getByRole("figure", { name: "Drag by cause" });
  await card.getByRole("button", { name: "Table" }).click();
  await expect(card.getByRole("columnheader", { name: "Sorrel (N)" })).toBeVisible();
  await expect(card.getByRole("rowheader", { name: "spray" })).toBeVisible();
});
