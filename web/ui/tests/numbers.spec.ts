import { both, expect, link, test } from "./desk";

// The page is held to the command line: what it shows is what the program prints.
test("numbers on screen are those of the command line, digit for digit", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const shown = page.getByRole("region", { name: "The answer" });
  const printed = desk.run("compare", "sorrel.yaml", "tansy.yaml", "--tws", "17 kn");
  const sentence = printed.split("\n\n")[0]!.replace(/\s+/g, " ").trim();
  const figures = sentence.match(/\d+\.\d+ kn/g) ?? [];
  expect(figures.length).toBeGreaterThan(1);
  for (const figure of new Set(figures)) await expect(shown).toContainText(figure);
});

test("a chart that leaves the page says what the screen says", async ({ page, desk }) => {
  await page.goto(link(desk, { ...both, chart: "budget" }));
  const charts = page.getByRole("region", { name: "Charts" });
  await expect(charts.locator("svg text").first()).toBeVisible();
  const printed = desk.run("figure", "budget", "sorrel.yaml", "tansy.yaml", "--tws", "17 kn");
  const texts = [...printed.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((m) => m[1]!).filter((t) => /\d\.\d/.test(t));
  expect(texts.length).toBeGreaterThan(3);
  const screen = (await charts.locator("svg text").allTextContents()).join("\n");
  for (const t of texts.filter((t) => !t.includes("foilwright"))) expect(screen).toContain(t);
});
