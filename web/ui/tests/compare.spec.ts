import { readFileSync } from "node:fs";
import { both, expect, link, test } from "./desk";

test("two boats are compared: who, by how much, and each figure opens how it comes about", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const answer = page.getByRole("region", { name: "The answer" });
  const finding = answer.getByRole("heading").first();
  await expect(finding).toContainText("Sorrel");
  await expect(finding).toContainText("Tansy");
  await answer.getByRole("button", { name: "How speed comes about" }).click();
  await expect(answer).toContainText("Source:");
  // in another wind the answer is another, and the old one never goes blank
  const before = await finding.innerText();
  const wind = page.getByRole("textbox", { name: "True wind" });
  await wind.fill("13 kn");
  await wind.press("Enter");
  await expect(finding).not.toBeEmpty();
  await expect(finding).not.toHaveText(before);
});

test("the table beside the boats says what the command line prints, digit for digit", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const table = page.getByRole("group", { name: "Figures side by side" }).getByRole("table");
  await expect(table).toContainText("apparent wind speed");
  const printed = desk.run("compare", "sorrel.yaml", "tansy.yaml", "--tws", "17 kn");
  const rows = printed.slice(printed.indexOf("Side by side")).split("\n").slice(3);
  let held = 0;
  for (const name of ["speed", "true wind angle", "apparent wind speed", "ride height", "weight", "side force carried", "righting moment", "wetted area", "drag in the water", "drag in the air"]) {
    const line = rows.find((r) => r.trim().startsWith(name + "  "));
    const figures = line?.trim().slice(name.length).trim().split(/\s+/).slice(1, 3) ?? [];
    expect(figures, name).toHaveLength(2);
    const row = table.getByRole("row").filter({ has: page.getByRole("rowheader", { name, exact: true }) }).filter({ has: page.getByRole("cell") });
    for (const f of figures) {
      await expect(row, name).toContainText(f);
      held++;
    }
  }
  expect(held).toBe(20);
  // and the sentence tells the figures of the command line's
  const sentence = printed.split("\n\n")[0]!.replace(/\s+/g, " ");
  const told = new Set(sentence.match(/\d+\.\d+ kn/g));
  expect(told.size).toBeGreaterThan(1);
  for (const figure of told) await expect(page.getByRole("region", { name: "The answer" })).toContainText(figure);
});

test("a chart leaves as SVG and CSV with the numbers that are on screen", async ({ page, desk }) => {
  await page.goto(link(desk, { ...both, chart: "budget" }));
  const card = page.getByRole("figure", { name: "Righting moment" });
  const shown = card.locator(".picture svg text");
  await expect(shown.first()).toBeAttached();
  const numbers = (await shown.allTextContents()).filter((t) => /^[+−-]?\d+\.\d$/.test(t.trim()));
  expect(numbers.length).toBeGreaterThan(3);
  await card.getByRole("button", { name: "Take out" }).click();
  const [svg] = await Promise.all([page.waitForEvent("download"), card.getByRole("button", { name: "Save SVG" }).click()]);
  const text = readFileSync((await svg.path())!, "utf8");
  for (const n of numbers) expect(text).toContain(`>${n}<`);
  expect(text).toContain("loads are not scantlings");
  const [csv] = await Promise.all([page.waitForEvent("download"), card.getByRole("button", { name: "Save data (CSV)" }).click()]);
  const rows = readFileSync((await csv.path())!, "utf8");
  expect(rows.split("\n")[0]).toContain("(kN·m)");
  for (const n of numbers) expect(rows).toContain(n.replace("−", "-"));
  // and they are those of the command line
  const printed = desk.run("figure", "budget", "sorrel.yaml", "tansy.yaml", "--tws", "17 kn");
  for (const n of numbers) expect(printed).toContain(`>${n}<`);
});
