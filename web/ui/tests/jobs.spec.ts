import { both, expect, link, test } from "./desk";

const asks = { samples: 64, until: 0, confidence: 0.8, wind_deviation: 0, bands: "", anchor: "", tornado: false, figure: "", pairs: false, winds: "8, 12, 16, 20 kn", angles: "40 to 150 deg by 10 deg" };

test("odds run to their band and outlive a reload; another is cancelled", async ({ page, desk }) => {
  test.setTimeout(240_000);
  await page.goto(link(desk, { ...both, page: "jobs", asks }));
  const form = page.getByRole("form", { name: "A new question" });
  await expect(form).toContainText("About Sorrel and Tansy");
  await form.getByRole("button", { name: "Ask" }).click();
  const job = page.getByRole("main").getByRole("region").last();
  await expect(job.getByRole("progressbar")).toBeVisible();
  await page.reload();
  await expect(job.getByRole("button", { name: "Open how sure the difference is on the sail page" })).toBeVisible({ timeout: 180_000 });
  await expect(job).toContainText(/faster|Too close to call/);
  await expect(job).toContainText("80 %");

  await page.getByRole("button", { name: "A new question" }).click();
  await page.getByRole("combobox", { name: "How many samples" }).selectOption("16384");
  await form.getByRole("button", { name: "Ask" }).click();
  const cancel = job.getByRole("button", { name: "Cancel" });
  await cancel.click();
  await expect(job.getByRole("button", { name: "Resume" })).toBeVisible();
  await desk.again();
  await page.reload();
  await expect(page.getByRole("navigation", { name: "Jobs" }).getByRole("listitem")).toHaveCount(2);
});
