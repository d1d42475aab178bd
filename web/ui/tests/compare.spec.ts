import { readFileSync } from "node:fs";
import { both, expect, link, test } from "./desk";

test("two boats are compared: who, by how much, each figure with how it comes about, and what the command line prints, digit for digit", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const answer = page.getByRole("region", { name: "The answer" });
  const finding = answer.getByRole("heading").first();
  await expect(finding).toContainText("Sorrel");
  await expect(finding).toContainText("Tansy");
  await answer.getByRole("button", { name: "How speed comes about" }).click();
  await expect(answer).toContainText("Source:");
  await answer.getByRole("heading").getByRole("button").first().click();
  const working = answer.getByText("V cos γ to windward");
  await expect(working).toBeVisible();
  await answer.getByRole("button", { name: "How drag: spray comes about" }).or(answer.getByRole("button", { name: "How spray comes about" })).click();
  await expect(answer.getByText("Hoerner 1965")).toBeVisible();
  await expect(working).toBeHidden();
  await page.keyboard.press("Escape");
  await expect(answer.getByText("Hoerner 1965")).toBeHidden();
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
  for (const figure of told) await expect(answer).toContainText(figure);
  // in another wind the answer is another, and the old one never goes blank
  const before = await finding.innerText();
  const wind = page.getByRole("textbox", { name: "True wind" });
  await wind.fill("13 kn");
  await wind.press("Enter");
  await expect(finding).not.toBeEmpty();
  await expect(finding).not.toHaveText(before);
});

// What leaves the page says what is on it, with its units, the caution and the inputs; the
// numbers are those on screen and those of the command line.
test("a chart has a table, leaves as SVG, PNG and figures, and goes into the report", async ({ page, desk }) => {
  await page.goto(link(desk, { ...both, chart: "budget" }));
  const card = page.getByRole("figure", { name: "Righting moment" });
  const shown = card.locator(".picture svg text");
  await expect(shown.first()).toBeAttached();
  const numbers = (await shown.allTextContents()).filter((t) => /^[+−-]?\d+\.\d$/.test(t.trim()));
  expect(numbers.length).toBeGreaterThan(3);
  const title = await card.getByRole("heading").textContent();
  await card.getByRole("button", { name: "Take out" }).click();
  const take = async (name: string) => {
    const [got] = await Promise.all([page.waitForEvent("download"), card.getByRole("button", { name }).click()]);
    return readFileSync(await got.path());
  };
  const svg = (await take("Save SVG")).toString();
  for (const says of [title!.split(": ")[0]!, "loads are not scantlings", "kN·m", "inputs as of", "#fcfbf7"]) expect(svg).toContain(says);
  for (const text of await shown.allTextContents()) expect(svg).toContain(text.replace(/&/g, "&amp;"));
  const printed = desk.run("figure", "budget", "sorrel.yaml", "tansy.yaml", "--tws", "17 kn");
  const rows = (await take("Save data (CSV)")).toString();
  expect(rows).toMatch(/^row,Sorrel \(kN·m\),Tansy \(kN·m\)\n/);
  for (const n of numbers) {
    expect(svg).toContain(`>${n}<`);
    expect(rows).toContain(n.replace("−", "-"));
    expect(printed).toContain(`>${n}<`);
  }
  expect((await take("Save PNG")).subarray(1, 4).toString()).toBe("PNG");
  await card.getByRole("button", { name: "Add to report" }).click();
  const report = page.getByRole("region", { name: "Report" });
  await report.getByRole("textbox", { name: /^Words to/ }).fill("She carries more.");
  await report.getByRole("textbox", { name: "Title of the report" }).click();
  const drag = page.getByRole("figure", { name: "Drag by cause" });
  await drag.getByRole("button", { name: "Table" }).click();
  await expect(drag.getByRole("columnheader", { name: "Sorrel (N)" })).toBeVisible();
  await expect(drag.getByRole("rowheader", { name: "spray" })).toBeVisible();
  await page.reload();
  await expect(report.getByRole("textbox", { name: /^Words to/ })).toHaveValue("She carries more.");
});
