import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { both, drawn, expect, link, said, test } from "./desk";

test("the desk opens with the boats of its folder, drawn and answered, on less than 120 kB of JavaScript; ? lists the keys", async ({ page, desk }) => {
  const scripts: string[] = [];
  page.on("response", (r) => r.url().endsWith(".js") && scripts.push(new URL(r.url()).pathname));
  await page.goto(desk.address);
  const boats = page.getByRole("list", { name: "Boats on the desk" });
  await expect(boats.getByRole("button", { name: "Sorrel", exact: true })).toBeVisible();
  await expect(boats.getByRole("button", { name: "Tansy", exact: true })).toBeVisible();
  await drawn(page);
  let all = 0;
  for (const path of scripts) all += gzipSync(readFileSync(new URL("../../dist" + path, import.meta.url))).length;
  expect(scripts).toContain("/desk.js");
  expect(all).toBeLessThan(120_000);
  await expect(page.getByRole("region", { name: "The answer" }).getByRole("heading").first()).toContainText("Sorrel");
  await page.keyboard.press("?");
  await expect(page.getByRole("dialog", { name: "Keys" })).toContainText("undo");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("dialog", { name: "Keys" })).toHaveCount(0);
});

test("a wind is typed in any unit, and one that is wrong says what would do; one switch shows every figure in metres a second and newtons", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const wind = page.getByRole("textbox", { name: "True wind" });
  await expect(wind).toHaveValue("17.00 kn");
  await wind.fill("7.2 m/s");
  await wind.press("Enter");
  await expect(wind).toHaveValue("14.00 kn");
  await wind.fill("14");
  await wind.press("Enter");
  await expect(page.getByRole("alert")).toContainText("unit");
  await wind.fill("16kt");
  await wind.press("Enter");
  await expect(page.getByRole("alert")).toHaveCount(0);
  await expect(wind).toHaveValue("16.00 kn");
  await drawn(page);
  await page.getByText("Show", { exact: true }).click();
  await page.getByRole("radio", { name: "m/s, degrees, N" }).check();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("textbox", { name: "True wind" })).toHaveValue("8.23 m/s");
  const main = page.getByRole("main");
  await expect(main).not.toContainText(/\d kn\b/);
  await expect(main).not.toContainText(/\d kN\b/);
  await expect(main).toContainText(/\d m\/s\b/);
});

test("what was done is undone by name, and the browser's own back and forward follow", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const wind = page.getByRole("textbox", { name: "True wind" });
  await expect(wind).toHaveValue("17.00 kn");
  await wind.fill("14 kn");
  await wind.press("Enter");
  await expect(wind).toHaveValue("14.00 kn");
  await page.getByRole("combobox", { name: "Wind from" }).selectOption("starboard");
  await page.getByRole("button", { name: "Undo wind from starboard" }).click();
  await expect(page.getByRole("combobox", { name: "Wind from" })).toHaveValue("port");
  await page.locator("body").press("Control+z");
  await expect(wind).toHaveValue("17.00 kn");
  await page.locator("body").press("Control+Shift+z");
  await expect(wind).toHaveValue("14.00 kn");
  await page.goBack();
  await expect(wind).toHaveValue("17.00 kn");
});

test("a link opens the same view again", async ({ page, desk, context }) => {
  await page.goto(desk.address);
  await drawn(page);
  const wind = page.getByRole("textbox", { name: "True wind" });
  await wind.fill("15 kn");
  await wind.press("Enter");
  await page.getByRole("combobox", { name: "What is asked" }).selectOption("leeward");
  await page.getByRole("button", { name: "Tansy", exact: true }).click();
  await expect(page.getByRole("button", { name: "Tansy", exact: true })).toHaveAttribute("aria-pressed", "true");
  await expect.poll(() => said(page).chosen).toBe("tansy.yaml");
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(other.getByRole("textbox", { name: "True wind" })).toHaveValue("15.00 kn");
  await expect(other.getByRole("combobox", { name: "What is asked" })).toHaveValue("leeward");
  await expect(other.getByRole("button", { name: "Tansy", exact: true })).toHaveAttribute("aria-pressed", "true");
});

test("a page that is loaded anew shows what it showed, whatever the browser's history has lost", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  await drawn(page);
  const asked = page.getByRole("combobox", { name: "What is asked" });
  await asked.selectOption("leeward");
  await expect.poll(() => said(page).aim).toBe("leeward");
  // As Chromium leaves it where it loads a page anew just as the page writes its history.
  await page.evaluate((before) => window.history.replaceState(null, "", before), link(desk, both));
  await page.reload();
  await expect(asked).toHaveValue("leeward");
  await expect.poll(() => said(page).aim).toBe("leeward");
  // A link that is opened in its place is another matter, be the page loaded anew at once.
  await page.evaluate((to) => {
    location.href = to;
    location.reload();
  }, link(desk, { ...both, aim: "angle" }));
  await expect(asked).toHaveValue("angle");
  await page.goto("about:blank");
  await page.goto(link(desk, both));
  await expect(asked).toHaveValue("windward");
});

test("boats change places by keyboard and keep their colours; the palette finds a control and sets it, and a command", async ({ page, desk }) => {
  await page.goto(link(desk, both));
  const boats = page.getByRole("list", { name: "Boats on the desk" });
  const tansy = boats.getByRole("button", { name: "Tansy", exact: true });
  const colour = () => tansy.locator("line").getAttribute("stroke");
  const before = await colour();
  await tansy.focus();
  await page.keyboard.press("Alt+ArrowLeft");
  await expect(boats.getByRole("listitem").first()).toContainText("Tansy");
  await expect(tansy).toBeFocused();
  expect(await colour()).toBe(before);
  await drawn(page);
  await page.keyboard.press("Control+k");
  const find = page.getByRole("combobox", { name: "Find" });
  await find.fill("true wind 14kn");
  await find.press("Enter");
  await expect(page.getByRole("textbox", { name: "True wind" })).toHaveValue("14.00 kn");
  await page.keyboard.press("Control+k");
  await find.fill("page dark");
  await find.press("Enter");
  await expect(page.locator("html")).toHaveAttribute("data-theme", "dark");
  await page.keyboard.press("Control+k");
  await expect(find).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(find).toHaveCount(0);
});

test("a page whose program has ended says so, and goes on when it is back", async ({ page, desk, quiet }) => {
  await page.goto(desk.address);
  await drawn(page);
  await desk.end();
  await expect(page.getByText("The desk does not answer")).toBeVisible();
  await desk.again();
  await expect(page.getByText("The desk answers again")).toBeVisible();
  const wind = page.getByRole("textbox", { name: "True wind" });
  await wind.fill("15 kn");
  await wind.press("Enter");
  await expect(wind).toHaveValue("15.00 kn");
  await expect(page.getByRole("region", { name: "The boat" })).toContainText("15.0 kn");
  quiet.faults.length = 0; // the browser's own word on the lost socket
});
